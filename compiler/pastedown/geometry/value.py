"""What an expression can come to."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from attrs import field, frozen

from pastedown.design.stock import Stock
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler

if TYPE_CHECKING:
    from pastedown.design.recipe import Makeable
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.layer import Description
    from pastedown.geometry.make_piece import PieceMaker


@frozen
class Word:
    """A plain word with a meaning where it stands: a choice, a fold's kind, an angle."""

    text: str


@frozen
class TextValue:
    """A text with its slots filled by exact values."""

    pieces: tuple[str | Quantity, ...]


@frozen
class Nothing:
    """`nothing`: takes away what an inner layer declared."""


@frozen
class SheetValue:
    """Two sides of a bought sheet in the order written."""

    first: Length
    second: Length


@frozen
class Treatment:
    """What is done to an edge, a corner or the inside of a piece: a kind and its named lengths and words."""

    kind: str
    lengths: tuple[tuple[str, Length], ...]
    words: tuple[tuple[str, str], ...] = ()

    def length(self, name: str) -> Length | None:
        return dict(self.lengths).get(name)

    def word(self, name: str) -> str | None:
        return dict(self.words).get(name)


@frozen
class ListValue:
    """A list of values, all of one dimension."""

    items: tuple[Value, ...]


@frozen(eq=False)
class FamilyValue:
    """Several things of one name, each under its index. `asked` gives the one that what is said of all is asked of,
    where they came out unlike; None for a design that nobody has made yet."""

    name: str
    items: tuple[tuple[int, Value], ...]
    asked: Callable[[], Value] | None = field(default=None, eq=False, repr=False)
    _by_index: dict[int, Value] = field(init=False, repr=False, factory=dict)

    def at(self, index: int) -> Value | None:
        """The member of this number; None where there is none."""
        if not self._by_index:
            self._by_index.update(self.items)
        return self._by_index.get(index)


@frozen
class PanelValue:
    """A panel of a piece, by the axis of its run and its written name ("rise[2]")."""

    piece: PieceMaker
    axis: str
    name: str


@frozen
class LineValue:
    """A line of a piece: an edge, a middle, a fold, or an edge of a panel.

    `axis` is the direction along which the line has a position. `at` is that position from the left edge or from the
    tail. `fold` is the written name of a fold, or "" for what does not bend.
    """

    piece: PieceMaker
    axis: str
    words: str
    at: Length
    fold: str = ""


@frozen
class FaceValue:
    """One side ("face" or "back") of a piece or of one of its panels (axis and name; "" for the whole piece)."""

    piece: PieceMaker
    axis: str
    panel: str
    side: str


@frozen
class Reference:
    """Something declared in a part that has no value of its own: a place, a pose, a join, a step, a crease."""

    kind: str
    instance: Instance
    name: str
    index: int | None

    @property
    def path(self) -> str:
        return self.instance.path_of(self.name, self.index)


@frozen(eq=False)
class MakeableValue:
    """A component by its bare name, before it is called."""

    makeable: Makeable


Value: TypeAlias = (
    "Quantity | TextValue | bool | Word | Nothing | SheetValue | Treatment | Ruler | Stock | ListValue | FamilyValue"
    " | Instance | Description | PieceMaker | PanelValue | LineValue | FaceValue | Reference | MakeableValue"
)
