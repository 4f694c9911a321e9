"""One run of inference: what was told, what is known already, and where an expression stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from attrs import define, evolve, field, frozen

from pastedown.design.body import index_body, left_head
from pastedown.design.kind import UNKNOWN, Kind
from pastedown.design.offered import Offered
from pastedown.design.recipe import File, Makeable, VariantOf
from pastedown.design.view import View
from pastedown.diagnostic import Diagnostic
from pastedown.source import Span
from pastedown.tree.expression import Expression, Path
from pastedown.tree.statement import Fact, Part, Statement

# A name that is not there is one mistake, however often and in whatever way it is used.
TOLD_ONCE_A_NAME = (
    *("unknown-name", "unknown-function", "unknown-argument"),
    *("no-such-member", "no-such-pose", "run-edges", "edge-names"),
)
# Names hang on one another in chains; what is further off is left to the working out.
DEEPEST_KINDS = 2_000
# Of so many names, all slips together, one is looked for that was meant.
MOST_LOOKED_THROUGH = 500_000
# Where a bracket is missing, a name may be unknown only because it stands in the wrong braces.
DOUBTFUL_IF_UNBALANCED = ("out-of-place", "unknown-name", "no-such-member", "no-such-pose")


@frozen(eq=False)
class Where:
    """Where an expression stands: the part's view (None at the top of a file), the file, the counters known, and what
    `its` means: in the braces of a `with` (`in_with`) always the thing amended, else in a call what the call makes."""

    view: View | None
    file: File
    counters: frozenset[str] = frozenset()
    its: Kind = UNKNOWN
    in_with: bool = False

    def counting(self, counter: str) -> Where:
        return evolve(self, counters=self.counters | {counter})


@define
class NameTold:
    """A name that is not there: which message tells of it, and how often the same slip was made besides."""

    at: int
    more: int = 0


@define
class Inference:
    """One run over a recipe's words. `tell` keeps one message for the same words; `broken` are the names in
    statements that could not be read, of which nothing is said; `unsaid` are words that are wrong for a reason told
    elsewhere; `read` are the names that some expression begins with. In files that are `unbalanced` nothing is said of
    what stands in the wrong braces. `offered` is what the standard library has for those who ask."""

    makeables: dict[int, Makeable]
    broken: frozenset[str] = frozenset()
    diagnostics: list[Diagnostic] = field(factory=list)
    told: set[tuple[str, int, int]] = field(factory=set)
    told_names: dict[tuple[str, object], NameTold] = field(factory=dict)
    told_clashes: set[tuple[str, str, object]] = field(factory=set)
    told_unmade: set[str] = field(factory=set)
    unsaid: list[Span] = field(factory=list)
    read: set[str] = field(factory=set)
    known: dict[tuple[object, str], Kind] = field(factory=dict)
    views: dict[tuple[object, ...], View] = field(factory=dict)
    unbalanced: frozenset[str] = frozenset()
    silent: int = 0
    deep: int = 0
    looked_through: int = 0
    offered: Offered = field(factory=Offered)

    def tell_clash(self, diagnostic: Diagnostic, culprit: Expression, where: Where) -> Kind:
        """Report a value of the wrong kind. Where the culprit is a name, the mistake is most likely made where it is
        stated, so its first use is told and the others go to `unsaid`."""
        if not isinstance(culprit, Path) or self.silent or diagnostic.span is None:
            return self.tell(diagnostic)
        home = where.view.component if where.view is not None else where.file
        clash = (diagnostic.id, culprit.span.text, home)
        if clash in self.told_clashes:
            self.unsaid.append(diagnostic.span)
            return UNKNOWN
        self.told_clashes.add(clash)
        return self.tell(diagnostic)

    def tell_unmade(self, diagnostic: Diagnostic, component: str) -> Kind:
        """Report something read of a component that is not made yet: once a component, for most likely one word
        `part` is missing."""
        if component in self.told_unmade and diagnostic.span is not None:
            self.unsaid.append(diagnostic.span)
            return UNKNOWN
        if not self.silent:
            self.told_unmade.add(component)
        return self.tell(diagnostic)

    def tell(self, diagnostic: Diagnostic) -> Kind:
        """Report, unless something was said about these words already. Gives UNKNOWN, which is what a fault comes
        to."""
        span = diagnostic.span
        if self.silent or span is None:
            return UNKNOWN
        if diagnostic.id in DOUBTFUL_IF_UNBALANCED and span.source.name in self.unbalanced:
            return UNKNOWN
        key = (span.source.name, span.start, span.end)
        if key not in self.told:
            self.told.add(key)
            self.diagnostics.append(diagnostic)
        return UNKNOWN

    def tell_name(self, diagnostic: Diagnostic, owner: object = None) -> Kind:
        """Report a name that `owner` does not have (None: that nothing here has). The same name of the same owner is
        one slip, however often and in whatever way it is used: it is told once, and how often it is made besides."""
        span = diagnostic.span
        if self.silent or span is None or self.is_said(span, owner):
            return UNKNOWN
        before = len(self.diagnostics)
        self.tell(diagnostic)
        if len(self.diagnostics) > before:
            self.told_names[span.text, owner] = NameTold(before)
        return UNKNOWN

    def note_lack(self, name: str, home: object) -> None:
        """Note that a name was looked for in vain within `home`: that `home` takes none of that name is the same
        slip, most likely made where it was to be taken."""
        told = self.told_names.get((name, None))
        if told is not None and home is not None and not self.silent:
            self.told_names.setdefault((name, home), told)

    def found(self) -> list[Diagnostic]:
        """Everything that was told; a slip that was made several times says so."""
        for name in self.told_names.values():
            if name.more:
                places = "one more place" if name.more == 1 else f"{name.more} more places"
                told = self.diagnostics[name.at]
                reason = f"{told.reason} It is written so in {places}.".strip()
                self.diagnostics[name.at] = evolve(told, reason=reason)
                name.more = 0
        return self.diagnostics

    def once(self, key: tuple[object, str], make: Callable[[], Kind]) -> Kind:
        """The kind of a name of a view or a file, found out once. The key holds the view itself: the number of one
        that is gone may be given to another."""
        if key not in self.known:
            if self.deep >= DEEPEST_KINDS:
                return UNKNOWN
            self.known[key] = UNKNOWN
            self.deep += 1
            try:
                self.known[key] = make()
            finally:
                self.deep -= 1
        return self.known[key]

    def view_of(self, makeable: Makeable) -> View:
        """The view of a component, an album or a variant by itself: the same one whenever it is asked for, so that
        what can be read of it is found out once."""
        if (makeable,) not in self.views:
            if isinstance(makeable, VariantOf):
                view = self.view_of(makeable.base).around(makeable.body, makeable.file)
            else:
                view = View(makeable, (makeable.body,), (makeable.file,))
            self.views[(makeable,)] = view
        return self.views[(makeable,)]

    def around(self, view: View, body: tuple[Statement, ...], file: File) -> View:
        """A view with braces laid around it: the same one for the same braces, wherever it is asked for."""
        key = (view, id(body), file)
        if key not in self.views:
            self.views[key] = view.around(index_body(body), file)
        return self.views[key]

    def replacing_parts(self, view: View, said: Iterable[Fact], file: File) -> View:
        """A view in which some of the parts are made from something else, as in `thing(inner: other())`. What else
        is set does not change what can be read."""
        parts = tuple(fact for fact in said if isinstance((view.declaration(left_head(fact.path)) or (None,))[0], Part))
        if not parts:
            return view
        return view.around(index_body(parts), file)

    def is_said(self, span: Span, owner: object = None) -> bool:
        """Whether nothing more is said of a name that `owner` does not have: then nobody need look for a better one.
        What was said of it elsewhere counts this place too."""
        if self.silent:
            return True
        told = self.told_names.get((span.text, owner))
        key = (span.source.name, span.start, span.end)
        if told is None:
            return key in self.told
        if key not in self.told:
            self.told.add(key)
            self.unsaid.append(span)
            told.more += 1
        return True

    def to_choose_from(self, names: Callable[[], Iterable[str]]) -> list[str]:
        """The names among which the one that was meant is looked for; none any more after very many slips."""
        if self.looked_through >= MOST_LOOKED_THROUGH:
            return []
        found = [*names()]
        self.looked_through += len(found)
        return found
