"""Files, components and designs, linked but not worked out."""

from __future__ import annotations

from attrs import field, frozen

from pastedown.design.body import Body
from pastedown.source import SourceText, Span
from pastedown.tree.expression import Text
from pastedown.tree.statement import Album, Component, Statement, Variant


@frozen(eq=False)
class File:
    """One recipe file. `imports` maps a name used here to the file it comes from; `broken_words` stand in statements
    that could not be read, so that nobody is told twice about one slip. `shipped` files belong to the standard
    library. In an `unbalanced` one a bracket or a quote is missing: nobody knows what stands in whose braces."""

    name: str
    source: SourceText
    statements: tuple[Statement, ...]
    body: Body
    imports: dict[str, File]
    broken_words: frozenset[str]
    shipped: bool
    unbalanced: bool = False

    def find(self, name: str) -> tuple[File, Statement] | None:
        """The file-level declaration of `name`, here or in the file it is used from."""
        if statement := self.body.stated(name):
            return self, statement
        if (source := self.imports.get(name)) and (statement := source.body.stated(name)):
            return source, statement
        return None

    def names(self) -> list[str]:
        return sorted({*self.body.by_name, *self.imports})


@frozen(eq=False)
class ComponentOf:
    """A component or an album with the file its names are read in."""

    name: str
    doc: Text | None
    body: Body
    statements: tuple[Statement, ...]
    file: File
    is_album: bool
    span: Span = field(repr=False)


@frozen(eq=False)
class VariantOf:
    """A variant: what it varies, and its own braces."""

    name: str
    doc: Text | None
    base: ComponentOf | VariantOf
    body: Body
    statements: tuple[Statement, ...]
    file: File
    span: Span = field(repr=False)

    @property
    def is_album(self) -> bool:
        return self.base.is_album

    @property
    def root(self) -> ComponentOf:
        """The component that everything began with."""
        return self.base if isinstance(self.base, ComponentOf) else self.base.root


Makeable = ComponentOf | VariantOf


@frozen(eq=False)
class Recipe:
    """The design's own file, and what can be made from it in the order of their names. `broken_words` are those of
    all files; `unsaid` are words that are wrong for a reason told elsewhere; in files that are `unbalanced` (by name)
    nobody knows what stands in whose braces."""

    file: File
    broken_words: frozenset[str]
    components: dict[int, Makeable]
    designs: tuple[Makeable, ...]
    unsaid: tuple[Span, ...] = ()
    unbalanced: frozenset[str] = frozenset()

    @property
    def read_whole(self) -> bool:
        """Whether every statement could be read, so that what is lacking is lacking indeed."""
        return not self.broken_words and not self.unbalanced

    def makeable(self, statement: Statement) -> Makeable | None:
        """What a `component`, `album` or `variant` statement declares; None where it failed to link."""
        assert isinstance(statement, Component | Album | Variant)
        return self.components.get(id(statement))
