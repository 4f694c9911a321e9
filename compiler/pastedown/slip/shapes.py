"""The flat pieces of a design as they were really cut and scored: a copy in which lines can be moved."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import define, evolve, frozen

from pastedown.geometry.actual import Side
from pastedown.geometry.follow import each_of
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.model import Model
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.value import PanelValue
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.tree.expression import Expression, Path
from pastedown.tree.statement import Piece, Takes


@define(eq=False)
class Shape:
    """One side of a piece with the run along it. `ends` is where each panel ends, from `first_edge`; `scores` has the
    numbers of the panels that end at each score. `as_bought` is a side that nobody cuts."""

    side: Length
    ends: list[Length]
    panels: tuple[str, ...]
    scores: dict[str, int]
    first_edge: str
    as_bought: bool
    last_edge: str

    def copied(self) -> Shape:
        """A copy whose lines can be moved by themselves."""
        return evolve(self, ends=list(self.ends))

    def is_like(self, other: Shape) -> bool:
        """Whether both have all lines in the same places."""
        return self.side == other.side and self.ends == other.ends

    def size(self, panel: int | None) -> Length:
        """The size of a panel by its number, or of the whole side."""
        if panel is None:
            return self.side
        return self.ends[panel] - (self.ends[panel - 1] if panel else NO_LENGTH)

    @property
    def is_scored_throughout(self) -> bool:
        """Whether every panel but the last ends at a score."""
        return len(self.scores) == len(self.ends) - 1

    def resize(self, panel: int | None, size: Length) -> None:
        """Give a panel another size, which moves all after it; or the whole side, which the last panel takes up. A side
        as it was bought stays as long as it is: its neighbours take up what a panel is more or less, half each."""
        if panel is None:
            self.side = size
            if self.ends:
                self.ends[-1] = size
            return
        by = size - self.size(panel)
        if self.as_bought and len(self.ends) > 1:
            last = len(self.ends) - 1
            before = NO_LENGTH if panel == 0 else by if panel == last else by / 2
            if panel:
                self.ends[panel - 1] -= before
            if panel < last:
                self.ends[panel] += by - before
            return
        self.ends[panel:] = [end + by for end in self.ends[panel:]]
        self.side = self.ends[-1]

    def scale(self, by: Length) -> None:
        """Everything so many times as large, as a template prints it; `by` is a plain number. A side as it was bought
        is not, and the lines across it are: from its middle where they are the same from either edge, for there the
        template lies with as much over on both sides; else from the first edge."""
        if self.as_bought:
            middle = self.side / 2 if self._is_alike_from_both_edges else NO_LENGTH
            self.ends[:-1] = [middle + (end - middle) * by for end in self.ends[:-1]]
            return
        self.side = self.side * by
        self.ends = [end * by for end in self.ends]

    @property
    def _is_alike_from_both_edges(self) -> bool:
        sizes = [self.size(panel) for panel in range(len(self.ends))]
        return sizes == sizes[::-1]

    @property
    def possible(self) -> bool:
        """Whether every panel still has a size above nought."""
        starts = [NO_LENGTH, *self.ends[:-1]]
        return self.side.value > 0 and all(start < end for start, end in zip(starts, self.ends, strict=False))


Shapes = dict[Side, Shape]


def shapes_of(model: Model) -> Shapes:
    """The sides of all pieces as designed."""
    return {(piece.path, axis): _shape(piece, axis) for piece in model.pieces for axis in AXES}


def _shape(piece: FlatPiece, axis: str) -> Shape:
    side = piece.height if axis == "height" else piece.width
    stock = piece.stock
    bought = {stock.roll_width, stock.height, stock.width} - {None}
    run = next((run for run in piece.runs if run.axis == axis), None)
    if run is None:
        first, last = ("tail", "head") if axis == "height" else (piece.left, piece.right)
        return Shape(side, [], (), {}, first, side in bought, last)
    ends = [panel.end for panel in run.panels]
    numbers = {score.name: ends.index(score.at) for score in run.scores}
    names = tuple(panel.name for panel in run.panels)
    return Shape(side, ends, names, numbers, run.first_edge, side in bought, run.last_edge)


@frozen(eq=False)
class CutTo:
    """A fact of a part, and all that is cut to it: sides (panel None) and panels by their numbers. `handed_down` says
    that they are of parts that were given it by its plain name."""

    instance: Instance
    name: str
    places: tuple[tuple[Side, int | None], ...]
    handed_down: bool = False

    @property
    def path(self) -> str:
        return self.instance.path_of(self.name, None)

    @property
    def read_off(self) -> tuple[tuple[Side, int | None], ...]:
        """Where it can be read: where it is a whole side of something, there alone, for what is folded about that is
        cut to it and does not make it longer; else on all panels that are cut to it."""
        sides = tuple(place for place in self.places if place[1] is None)
        return sides or self.places

    @property
    def is_given(self) -> bool:
        """Whether it was told from outside, and is not worked out by its part."""
        return self.instance.kind_of(self.name) is Takes and self.instance.setting(self.name) is not None


def cut_to(parts: Iterable[Instance], shapes: Shapes) -> tuple[CutTo, ...]:
    """For each fact that sides or panels of its own part are cut to by its plain name, what is cut to it."""
    found: list[CutTo] = []
    for instance in parts:
        places: dict[str, list[tuple[Side, int | None]]] = {}
        for piece in _pieces(instance):
            for axis in AXES:
                shape = shapes.get((piece.path, axis))
                if shape is not None:
                    _gather(instance, piece, axis, shape, places)
        found.extend(CutTo(instance, name, tuple(all_of_it)) for name, all_of_it in sorted(places.items()))
    return tuple(found)


def _gather(
    instance: Instance, piece: PieceMaker, axis: str, shape: Shape, places: dict[str, list[tuple[Side, int | None]]]
) -> None:
    key = (piece.path, axis)
    setting = piece.setting(axis)
    if setting is not None and (name := _plain_name(setting[0], instance)):
        places.setdefault(name, []).append((key, None))
    for number, panel in enumerate(shape.panels):
        source = piece.panel_source(PanelValue(piece, axis, panel))
        if source is not None and source[1].part is instance and (name := _plain_name(source[0], instance)):
            places.setdefault(name, []).append((key, number))


def _pieces(instance: Instance) -> list[PieceMaker]:
    found: list[PieceMaker] = []
    for name in instance.names():
        if instance.kind_of(name) is Piece and not instance.is_removed(name):
            found.extend(each for each in each_of(instance.lookup(name, instance.span)) if isinstance(each, PieceMaker))
    return found


def _plain_name(expression: Expression, instance: Instance) -> str:
    plain = isinstance(expression, Path) and not expression.trailers and instance.has(expression.head)
    return expression.head if plain and isinstance(expression, Path) else ""
