"""What a maker writes to state a fact, declare a thing, or amend one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import field, frozen

from pastedown.source import Span

if TYPE_CHECKING:
    from pastedown.tree.expression import Expression, Path, Text


def _span() -> Span:
    """The words it stems from. Where a statement stands is not part of what it is."""
    return field(eq=False, repr=False)  # type: ignore[no-any-return]


def _only_names(names: tuple[tuple[str, Span], ...]) -> tuple[str, ...]:
    """The names without the places where they stand."""
    return tuple(name for name, _ in names)


@frozen
class Family:
    """The name of what is declared, and its index if there are several.

    `page` has neither index nor range; `rise[k]` has an index; `page[k from 1 to 5]` declares its own counter `k`
    running from `first` to `last`.
    """

    name: str
    span: Span = _span()
    index: Expression | None = None
    counter: str = ""
    first: Expression | None = None
    last: Expression | None = None


@frozen
class Setting:
    """`, label: value` after a statement."""

    label: str
    value: Expression
    span: Span = _span()
    label_span: Span = _span()


@frozen
class Use:
    """`use a, b from pages` or `use a from "house.album"`. `source` is the dotted name or the quoted file name."""

    names: tuple[tuple[str, Span], ...] = field(eq=_only_names)
    source: str
    quoted: bool
    source_span: Span = _span()
    span: Span = _span()


@frozen
class Fact:
    """`path = value`, with its documentation. `fixed` facts may be set by no variant."""

    path: Path
    value: Expression
    doc: Text | None
    fixed: bool
    span: Span = _span()


@frozen
class Amend:
    """`path with { ... }` as a statement: amends what the path names."""

    path: Path
    body: tuple[Statement, ...]
    span: Span = _span()


@frozen
class Component:
    """`component name "doc" { ... }`."""

    name: str
    doc: Text | None
    body: tuple[Statement, ...]
    span: Span = _span()
    name_span: Span = _span()


@frozen
class Album:
    """`album name "title" { ... }`: a component that is made."""

    name: str
    doc: Text | None
    body: tuple[Statement, ...]
    span: Span = _span()
    name_span: Span = _span()


@frozen
class Variant:
    """`variant name of base "title" { ... }`: the base with some of it set anew."""

    name: str
    base: Path
    doc: Text | None
    body: tuple[Statement, ...]
    span: Span = _span()
    name_span: Span = _span()


@frozen
class TypeName:
    """`length(mark: up)`, `choice(top, side)`, `stock(kind: tape)`."""

    name: str
    words: tuple[Path, ...]
    settings: tuple[Setting, ...]
    span: Span = _span()


@frozen
class Takes:
    """`takes gusset: length from 1/8 in to 2 in = 3/8 in "flat floor between two peaks"`."""

    name: str
    type: TypeName
    least: Expression | None
    most: Expression | None
    default: Expression | None
    doc: Text | None
    span: Span = _span()
    name_span: Span = _span()


@frozen
class Part:
    """`part page[k from 1 to 5] = pocket_page(...)`: makes what the value describes."""

    family: Family
    value: Expression
    doc: Text | None
    span: Span = _span()


@frozen
class Piece:
    """`piece strip from paper, height: height { run ... }`."""

    family: Family
    stock: Expression
    settings: tuple[Setting, ...]
    body: tuple[Statement, ...]
    doc: Text | None
    span: Span = _span()


@frozen
class Run:
    """`run tail to head { panel ... fold ... }`: panels in the order in which they lie, from edge `start` to edge
    `end`."""

    start: Path
    end: Path
    body: tuple[Statement, ...]
    span: Span = _span()


@frozen
class Panel:
    """`panel rise[k]: peak`. The size is a length along the run."""

    family: Family
    size: Expression
    settings: tuple[Setting, ...]
    doc: Text | None
    span: Span = _span()


@frozen
class Fold:
    """`fold crest[k]: mountain` in a run, or `fold crease: in_place, on: ..., over: ...` outside one."""

    family: Family
    kind: str
    settings: tuple[Setting, ...]
    doc: Text | None
    span: Span = _span()
    kind_span: Span = _span()


@frozen
class Each:
    """`each k from 1 to n { ... }`."""

    counter: str
    first: Expression
    last: Expression
    body: tuple[Statement, ...]
    span: Span = _span()


@frozen
class When:
    """`if condition { ... }`: its statements stand only where the condition holds."""

    condition: Expression
    body: tuple[Statement, ...]
    span: Span = _span()


@frozen
class Align:
    """`align edge to edge, inside: 1/8 in` in the braces of a join."""

    what: Path
    to: Path
    settings: tuple[Setting, ...]
    span: Span = _span()


@frozen
class Join:
    """`join what to where, by: tape, moving: yes { align ... }`. A join carries `what`; a `close` (closes=True) brings
    together what is already placed."""

    family: Family
    what: Path
    to: Path
    settings: tuple[Setting, ...]
    body: tuple[Statement, ...]
    closes: bool
    doc: Text | None
    span: Span = _span()


@frozen
class Place:
    """`place mouth: front.body.back, rear.body.back { spine = front.body.spine }`."""

    family: Family
    faces: tuple[Path, ...]
    body: tuple[Statement, ...]
    doc: Text | None
    span: Span = _span()


@frozen
class Pose:
    """`pose open_at[k from 0 to n] from made_up { strip.crest = shut }`."""

    family: Family
    base: Path | None
    body: tuple[Statement, ...]
    span: Span = _span()


@frozen
class Require:
    """`require name: a >= b because "..."`; `prefer` (strict=False) warns instead of refusing."""

    name: str
    condition: Expression
    because: Text
    settings: tuple[Setting, ...]
    strict: bool
    span: Span = _span()
    name_span: Span = _span()


@frozen
class Step:
    """`step decorate: "...", after: page, before: mount, reads: made_up_width`."""

    family: Family
    text: Text
    settings: tuple[Setting, ...]
    span: Span = _span()


Statement = (
    Use
    | Fact
    | Amend
    | Component
    | Album
    | Variant
    | Takes
    | Part
    | Piece
    | Run
    | Panel
    | Fold
    | Each
    | When
    | Align
    | Join
    | Place
    | Pose
    | Require
    | Step
)
