"""Takes the design's text and a shelf of other texts; gives the linked recipe. Afterwards every variant has a base,
every component its file, and names and dimensions have been checked without working anything out."""

from collections.abc import Iterable

from attrs import define, field

from pastedown.design.body import index_body
from pastedown.design.check_file import check_file
from pastedown.design.check_idle_facts import check_idle_advice, check_idle_facts
from pastedown.design.files import Shelf, load
from pastedown.design.inference import Inference
from pastedown.design.offered import Offered
from pastedown.design.recipe import ComponentOf, File, Makeable, Recipe, VariantOf
from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.tree.statement import Album, Component, Fact, Statement, Variant

# A variant is worked out through everything it varies.
DEEPEST_VARIANTS = 100


@define
class _Linker:
    diagnostics: list[Diagnostic]
    offered: Offered
    made: dict[int, Makeable] = field(factory=dict)
    failed: set[int] = field(factory=set)

    def link(
        self, file: File, statement: Component | Album | Variant, ring: tuple[Variant, ...] = ()
    ) -> Makeable | None:
        if id(statement) in self.made or id(statement) in self.failed:
            return self.made.get(id(statement))
        if isinstance(statement, Variant):
            made = self._variant(file, statement, ring)
        else:
            made = ComponentOf(
                statement.name,
                statement.doc,
                index_body(statement.body),
                statement.body,
                file,
                isinstance(statement, Album),
                statement.name_span,
            )
        if made is None:
            self.failed.add(id(statement))
        else:
            self.made[id(statement)] = made
        return made

    def _variant(self, file: File, statement: Variant, ring: tuple[Variant, ...]) -> Makeable | None:
        if statement in ring:
            names = [link.name for link in ring[ring.index(statement) :]] + [statement.name]
            self.diagnostics.append(
                error(
                    "variant-ring",
                    statement.base.span,
                    "These are variants of one another: " + ", a variant of ".join(names) + ".",
                    way_out="One of them has to stand on its own.",
                )
            )
            return None
        found = file.find(statement.base.head) if not statement.base.trailers else None
        if found is not None and isinstance(found[1], Component | Album | Variant):
            if len(ring) >= DEEPEST_VARIANTS:
                self._too_deep(statement)
                return None
            base = self.link(found[0], found[1], (*ring, statement))
            if base is None:
                return None
            if _variants_up_to(base) >= DEEPEST_VARIANTS:
                self._too_deep(statement)
                return None
            return VariantOf(
                statement.name,
                statement.doc,
                base,
                index_body(statement.body),
                statement.body,
                file,
                statement.name_span,
            )
        if statement.base.head not in file.broken_words:
            self.diagnostics.append(
                error(
                    "unknown-name",
                    statement.base.span,
                    f"There is no album or component called {statement.base.span.text} to vary.",
                    way_out=self.offered.use_of(statement.base.head)
                    or did_you_mean(statement.base.head, file.names())
                    or self.offered.use_of_nearest(statement.base.head)
                    or 'Vary an album of this file, or use one, as in use lantern from "house.album".',
                )
            )
        return None

    def _too_deep(self, statement: Variant) -> None:
        self.diagnostics.append(
            error(
                "variants-too-deep",
                statement.base.span,
                f"{statement.name} is a variant of a variant of a variant, more than {DEEPEST_VARIANTS} deep.",
                way_out="Vary the album itself, and state in one variant what several of them set.",
            )
        )


def _variants_up_to(made: Makeable) -> int:
    """How many variants lie between a thing and the component it began with, itself included."""
    count = 0
    while isinstance(made, VariantOf):
        made, count = made.base, count + 1
    return count


def link(shelf: Shelf, name: str, text: str, *, check_shipped: bool = False) -> tuple[Recipe, tuple[Diagnostic, ...]]:
    """Read, link and check a design's file and all it uses. The standard library is checked in the tests, not in
    every run."""
    file = load(shelf, name, text)
    offered = Offered(shelf)
    linker = _Linker(shelf.diagnostics, offered)
    for each in [*shelf.loaded.values()]:
        for statement in each.statements:
            if isinstance(statement, Component | Album | Variant):
                linker.link(each, statement)
    designs = [
        made
        for statement in file.statements
        if isinstance(statement, Album | Variant)
        and (made := linker.made.get(id(statement))) is not None
        and made.is_album
    ]
    unread = broken_words(shelf.loaded.values())
    inference = Inference(linker.made, unread, told=_places(shelf.diagnostics), offered=offered)
    inference.unbalanced = frozenset(each.name for each in shelf.loaded.values() if each.unbalanced)
    for each in shelf.loaded.values():
        shelf.diagnostics.extend(_edition(each))
        if check_shipped or not each.shipped:
            check_file(inference, each)
    for made in linker.made.values():
        if isinstance(made, ComponentOf) and not made.file.shipped:
            check_idle_advice(inference, made)
            if made.is_album:
                check_idle_facts(inference, made)
    shelf.diagnostics.extend(inference.found())
    recipe = Recipe(
        file,
        broken_words(shelf.loaded.values()),
        linker.made,
        tuple(sorted(designs, key=lambda design: design.name)),
        tuple(inference.unsaid),
        inference.unbalanced,
    )
    return recipe, tuple(shelf.diagnostics)


def broken_words(files: Iterable[File]) -> frozenset[str]:
    """The names in all statements that could not be read."""
    return frozenset(word for file in files for word in file.broken_words)


def _places(diagnostics: list[Diagnostic]) -> set[tuple[str, int, int]]:
    """The words that something was said of already."""
    spans = [diagnostic.span for diagnostic in diagnostics]
    return {(span.source.name, span.start, span.end) for span in spans if span is not None}


def _edition(file: File) -> list[Diagnostic]:
    from pastedown.tree.expression import Literal

    stated: list[Statement] = [placed.statement for placed in file.body.by_name.get("edition", ())]
    if not stated:
        if "edition" in file.broken_words or not file.statements:
            return []
        return [
            error(
                "no-edition",
                file.statements[0].span,
                f"{file.name} does not say which edition of the language it is written in.",
                reason="Later editions never change what an old file means; the line is how a file says which it is.",
                way_out="Write edition = 1 at the top.",
            )
        ]
    fact = stated[0]
    if isinstance(fact, Fact) and isinstance(fact.value, Literal) and fact.value.value.value == 1:
        return []
    return [
        error(
            "wrong-edition",
            fact.span,
            f"This compiler reads edition 1 of the language, and {file.name} asks for another.",
            way_out="Write edition = 1, or use a compiler that reads the edition it was written for.",
        )
    ]
