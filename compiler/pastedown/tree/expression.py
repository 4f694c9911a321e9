"""What a maker writes where a value is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import field, frozen

from pastedown.quantity.quantity import Quantity
from pastedown.source import Span

if TYPE_CHECKING:
    from pastedown.tree.statement import Statement


def _span() -> Span:
    """The words it stems from. Where a value stands is not part of what it is."""
    return field(eq=False, repr=False)  # type: ignore[no-any-return]


@frozen
class Literal:
    """A number or a quantity: `5`, `8 1/2 in`, `65 lb cover`, `12.50 EUR`."""

    value: Quantity
    span: Span = _span()


@frozen
class SheetSize:
    """A bought size, `12 in x 18 in`, in the order written. The one place where two sizes stand without their roles."""

    first: Quantity
    second: Quantity
    span: Span = _span()


@frozen
class Text:
    """Quoted text. `pieces` alternates plain words and the expressions that stood in `{slots}`; blanks are
    collapsed."""

    pieces: tuple[str | Expression, ...]
    span: Span = _span()


@frozen
class Dot:
    """`.name` after a path."""

    name: str
    span: Span = _span()


@frozen
class Index:
    """`[2]` after a path."""

    value: Expression
    span: Span = _span()


@frozen
class Slice:
    """`[1 to 3]` after a path."""

    first: Expression
    last: Expression
    span: Span = _span()


Trailer = Dot | Index | Slice


@frozen
class Path:
    """A name and what follows it: `page[3].front.body`. `head` may be `its`."""

    head: str
    trailers: tuple[Trailer, ...]
    span: Span = _span()
    head_span: Span = _span()


@frozen
class Argument:
    """One argument of a call; `label` is empty for the one that may go without its name."""

    label: str
    value: Expression
    span: Span = _span()
    label_span: Span | None = field(default=None, eq=False, repr=False)


@frozen
class Call:
    """`min(a, b)`, `pocket_page(paper: kraft)`."""

    called: Path
    arguments: tuple[Argument, ...]
    span: Span = _span()


@frozen
class Signed:
    """`- x`, `+ x`."""

    sign: str
    value: Expression
    span: Span = _span()


@frozen
class Arithmetic:
    """`a + b`, `a - b`, `a * b`, `a / b`. `operator` is one of `+ - * /`."""

    operator: str
    left: Expression
    right: Expression
    span: Span = _span()


@frozen
class Comparison:
    """`a <= b` and its kin. `operator` is one of `< <= > >= is`."""

    operator: str
    left: Expression
    right: Expression
    span: Span = _span()


@frozen
class Rounded:
    """`x rounded down to 1/8 in`. `way` is the word as written: down, up or nearest when it is right."""

    value: Expression
    way: str
    way_span: Span = _span()
    mark: Expression = field(kw_only=True)
    span: Span = field(kw_only=True, eq=False, repr=False)


@frozen
class RulerMarks:
    """`inches to 1/16`, `millimetres to 1`: what the maker's ruler shows. `unit` is the word as written."""

    unit: str
    mark: Expression
    span: Span = _span()
    unit_span: Span = _span()


@frozen
class ListOf:
    """`[a, b, c]`."""

    items: tuple[Expression, ...]
    span: Span = _span()


@frozen
class Amended:
    """`x with { ... }`: a copy of a description or a stock with some of it set anew."""

    thing: Expression
    body: tuple[Statement, ...]
    span: Span = _span()


Expression = (
    Literal
    | SheetSize
    | Text
    | Path
    | Call
    | Signed
    | Arithmetic
    | Comparison
    | Rounded
    | RulerMarks
    | ListOf
    | Amended
)
