"""Layers: what sets what, from the outermost variant in to the component's own words.

A part is made from a stack of layers, outermost first. Each layer holds entries: a path below the part and what is
said of it. When a part makes another inside it, the entries below that one's name are handed on with the name taken
off, so that one mechanism serves calls, `with`, variants and plain paths.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve, frozen

from pastedown.design.body import Body, Guard, Placed, is_declaration, left_head, name_of, name_span
from pastedown.design.recipe import ComponentOf, File, Makeable, VariantOf
from pastedown.diagnostic import Label, error
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.work import WORK_OF_AN_ENTRY, WORK_OF_ONE, refuse_too_many
from pastedown.source import Span
from pastedown.tree.expression import Argument, Dot, Expression, Index, Path
from pastedown.tree.statement import Amend, Fact, Statement, When

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


@frozen
class Segment:
    """One name of a path on the left of `=`, with its index if one was written."""

    name: str
    index: int | None
    span: Span


@frozen(eq=False)
class Scope:
    """Where a plain name is looked up: counters first, then the part `part`, then the file.

    `its` is the thing being made or amended. In the braces of a `with` (`in_with`) it stays the thing amended, in calls
    too; elsewhere the brackets of a call speak of what the call makes.
    """

    part: Instance | None
    file: File
    locals: dict[str, int]
    its: object
    in_with: bool = False


@frozen(eq=False)
class Entry:
    """One thing said of `path`. `its_at` counts the names still to be taken off until `its` is the part reached;
    `exactness` counts the indexes the maker wrote, to tell the more exact path within one layer."""

    path: tuple[Segment, ...]
    statement: Statement | Argument
    scope: Scope
    its_at: int
    exactness: int
    fixed: bool
    span: Span

    @property
    def value(self) -> Expression | None:
        """The expression of a fact or an argument."""
        return self.statement.value if isinstance(self.statement, Fact | Argument) else None

    @property
    def is_setting(self) -> bool:
        return isinstance(self.statement, Fact | Argument)

    def below(self, name: str, index: int | None, child: object) -> Entry | None:
        """The entry as the thing called `name` sees it, or None if it says nothing of that one."""
        first = self.path[0]
        if first.name != name or len(self.path) == 1 or first.index not in (None, index):
            return None
        its_at = self.its_at - 1
        scope = evolve(self.scope, its=child, in_with=True) if its_at == 0 else self.scope
        return evolve(self, path=self.path[1:], its_at=its_at, scope=scope)


@frozen(eq=False)
class LayerPlan:
    """A layer before the part it is for exists: a body or the arguments of a call. `scope` None means that plain
    names are read in the part itself (a component's own body, a variant's braces); `file` is where the layer was
    written."""

    body: Body | None
    arguments: tuple[Argument, ...]
    scope: Scope | None
    file: File
    entries: tuple[Entry, ...] = ()
    entries_of: str = ""


@frozen(eq=False)
class Description:
    """A component with some of what it takes filled in. It makes nothing."""

    component: ComponentOf
    layers: tuple[LayerPlan, ...]
    span: Span | None = None

    def with_layer(self, layer: LayerPlan) -> Description:
        return evolve(self, layers=(layer, *self.layers))


def description_of(makeable: Makeable) -> Description:
    """The description that a component's, an album's or a variant's bare name stands for."""
    if isinstance(makeable, VariantOf):
        return description_of(makeable.base).with_layer(LayerPlan(makeable.body, (), None, makeable.file))
    return Description(makeable, (LayerPlan(makeable.body, (), None, makeable.file),))


class Layer:
    """A layer of one part: its entries by the first name of their path."""

    def __init__(
        self, entries: dict[str, list[Entry]] | None = None, body: Body | None = None, scope: Scope | None = None
    ):
        self._entries: dict[str, list[Entry]] = entries if entries is not None else {}
        self._body = body
        self._scope = scope
        self._by_index: dict[str, dict[int | None, list[Entry]]] = {}
        self.spoilt: set[str] = set()

    def entries(self, name: str) -> list[Entry]:
        """What this layer says of `name`, with `each` written out and `if` decided."""
        if name not in self._entries:
            found: list[Entry] = []
            self._entries[name] = found
            if self._body is not None and self._scope is not None:
                for placed in self._body.by_name.get(name, ()):
                    self._expand(placed, self._scope, name, found)
                self._by_index.pop(name, None)
        return self._entries[name]

    def _expand(self, placed: Placed, scope: Scope, name: str, found: list[Entry]) -> None:
        """Add what a statement says; where the `each` or `if` around it failed, its name is spoilt."""
        part = scope.part
        assert part is not None
        try:
            with part.work.working_out((self, name), part.path_of(name, None), name_span(placed.statement)):
                said = _entries_of(placed, scope)
                part.work.spend(placed.statement.span, WORK_OF_AN_ENTRY * len(said))
                found.extend(said)
        except Fault as fault:
            self.spoilt.add(name)
            part.work.tell(fault.diagnostic)
        except Spoilt:
            self.spoilt.add(name)

    def entries_of(self, name: str, index: int | None) -> list[Entry]:
        """What this layer sets of `name` or, with an index, of that member: of all members and of that one."""
        entries = self.entries(name)
        if name not in self._by_index:
            self._by_index[name] = {}
            for entry in entries:
                if entry.is_setting or len(entry.path) > 1:
                    self._by_index[name].setdefault(entry.path[0].index, []).append(entry)
        found = self._by_index[name]
        of_all = found.get(None, [])
        return of_all if index is None else [*of_all, *found.get(index, [])]

    def set_to(self, name: str, index: int | None = None) -> Entry | None:
        """What this layer sets `name` (or its member `index`) to: the most exact path, in whatever order they stand.
        Raises Fault where two are equally exact."""
        found = [
            entry
            for entry in self.entries_of(name, index)
            if len(entry.path) == 1 and entry.value is not None
        ]
        found.sort(key=lambda entry: -entry.exactness)
        if len(found) > 1 and found[0].exactness == found[1].exactness:
            raise set_twice(name, found[0].span, found[1].span)
        return found[0] if found else None

    def names(self) -> list[str]:
        """Every name this layer speaks of, in a stable order."""
        spoken_of = (name for name, found in self._entries.items() if found)
        return sorted({*spoken_of, *(self._body.by_name if self._body else ())})

    def declares(self, name: str) -> bool:
        """Whether this layer's braces declare `name`, be it in an `each` or an `if` that does not come about."""
        said = self._body.by_name.get(name, ()) if self._body else ()
        return any(is_declaration(placed.statement) for placed in said)

    def repeats(self) -> tuple[tuple[Guard, Scope], ...]:
        if self._body is None or self._scope is None:
            return ()
        return tuple((guard, self._scope) for guard in self._body.repeats)


def set_twice(words: str, first: Span, second: Span) -> Fault:
    """The fault of what is set twice where neither holds before the other."""
    sentence = f"{words} is set twice in the same braces."
    label = Label(first, "first here")
    return Fault(error("set-twice", second, sentence, labels=(label,), way_out="Keep one of them."))


def bind(plan: LayerPlan, instance: Instance) -> Layer:
    """The layer for the part that is being made."""
    scope = _scope_of(plan, instance)
    if plan.body is not None:
        return Layer(body=plan.body, scope=scope)
    entries: dict[str, list[Entry]] = {}
    for entry in plan.entries:
        inner = entry.below(plan.entries_of, None, instance)
        if inner is not None:
            entries.setdefault(inner.path[0].name, []).append(inner)
    for argument in plan.arguments:
        span = argument.label_span or argument.span
        entry = Entry((Segment(argument.label, None, span),), argument, scope, 0, 0, False, span)
        entries.setdefault(argument.label, []).append(entry)
    return Layer(entries)


def _scope_of(plan: LayerPlan, instance: Instance) -> Scope:
    if plan.scope is None:
        return Scope(instance, plan.file, {}, instance)
    if plan.body is not None:
        return evolve(plan.scope, its=instance, in_with=True)
    return plan.scope if plan.scope.in_with else evolve(plan.scope, its=instance)


def expand(guards: tuple[Guard, ...], scope: Scope) -> list[Scope]:
    """The scopes in which a guarded statement stands: one for each round of every `each` around it, none where an
    `if` is not met."""
    from pastedown.geometry.evaluate import truth, whole_range

    if not guards:
        return [scope]
    assert scope.part is not None
    scopes = [scope]
    work = scope.part.work
    with work.deciding_structure():
        for guard in guards:
            if isinstance(guard, When):
                scopes = [inner for inner in scopes if truth(guard.condition, inner)]
                continue
            rounds = [(inner, whole_range(guard.first, guard.last, inner)) for inner in scopes]
            count = sum(len(numbers) for _, numbers in rounds)
            refuse_too_many(count, guard.span)
            work.spend(guard.span, WORK_OF_ONE * count)
            scopes = [
                evolve(inner, locals={**inner.locals, guard.counter: number})
                for inner, numbers in rounds
                for number in numbers
            ]
    return scopes


def _entries_of(placed: Placed, scope: Scope) -> list[Entry]:
    return [entry for inner in expand(placed.guards, scope) for entry in _spread(placed.statement, inner, (), 0)]


def _spread(statement: Statement, scope: Scope, prefix: tuple[Segment, ...], its_at: int) -> list[Entry]:
    """The entries a statement comes to: one, or all of those in the braces of a `with`."""
    from pastedown.design.body import index_body

    if isinstance(statement, Amend):
        path = (*prefix, *segments(statement.path, scope))
        body = index_body(statement.body)
        return [
            entry
            for placed in body.placed()
            for inner in expand(placed.guards, scope)
            for entry in _spread(placed.statement, inner, path, len(path))
        ]
    if isinstance(statement, Fact):
        path = (*prefix, *segments(statement.path, scope))
        fixed = statement.fixed
    else:
        path = (*prefix, Segment(name_of(statement) or "", None, name_span(statement)))
        fixed = False
    exactness = sum(1 for segment in path if segment.index is not None)
    return [Entry(path, statement, scope, its_at, exactness, fixed, name_span(statement))]


def segments(path: Path, scope: Scope) -> tuple[Segment, ...]:
    """A path on the left of `=` as names with indexes."""
    from pastedown.geometry.evaluate import whole_number

    found = [Segment(path.head, None, path.head_span)]
    for trailer in path.trailers:
        if isinstance(trailer, Dot):
            found.append(Segment(trailer.name, None, trailer.span))
        elif isinstance(trailer, Index):
            found[-1] = evolve(found[-1], index=whole_number(trailer.value, scope))
        else:
            raise Fault(
                error(
                    "wrong-kind",
                    trailer.span,
                    "A range cannot be set in one go.",
                    way_out="Use each k from 1 to 3 { ... }, or leave the index out to set all.",
                )
            )
    return tuple(found[1:] if left_head(path) != path.head else found)
