"""A flat piece with its folds turned: the fields between its folds, each a plate with a place of its own.

Two runs that cross cut a piece into fields. A fold turns about its line on the valley side, as in `fold.py`; what lies
in a shut fold and opens it is not counted here, so places are exact in the paper's plane and right to the thickness of
what is trapped out of it. A panel that bends turns like a fold at its edges: square at the one farther from where the
piece is placed, shut at both of them. Derived: so a board that closes over a gap stands beside the other one, and the
gap that it needs is its own thickness.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import prod

from attrs import frozen

from pastedown.geometry.frame import AT_THE_ORIGIN, Frame, Vector, along
from pastedown.geometry.piece import FlatPiece, Run

# The angle of every fold and bending panel by piece path and name; what is not named lies flat.
Angles = Mapping[tuple[str, str], str]
_EXACT = ("flat", "square", "shut")
# A piece of more fields is not folded here, and of so many that one panel is crossed by, the largest are looked at.
MOST_FIELDS = 1_000
_MOST_CROSSING = 12
# From one edge of the piece to the other: what lies between, first and last in millimetres, and its panel's name.
Strip = tuple[Fraction, Fraction, str]
# 1 where the paper beyond rises towards the face, else -1, and the angle; UNKNOWN where it is not said to which side.
_Turn = tuple[int, str]
_NO_TURN: _Turn = (1, "flat")
UNKNOWN = "unknown"
# Where a turn lies on its way: at a fold, or at the edge by which a panel that bends is left or reached.
AT_A_FOLD, LEAVING, REACHING = "", "leaving", "reaching"


@frozen
class Field:
    """What lies between two neighbouring folds of each run, in millimetres from the left edge and from the tail.
    `folds` counts the turned folds from the field that the piece is placed by, along its width and along its height:
    less than nought to the left or towards the tail; `shut` counts those of them that are shut. `panels` are the names
    of the panels that cross in it, along width and height ("" where there is no run)."""

    left: Fraction
    right: Fraction
    tail: Fraction
    head: Fraction
    frame: Frame
    folds: tuple[int, int]
    shut: tuple[int, int]
    panels: tuple[str, str]

    @property
    def area(self) -> Fraction:
        """In square millimetres."""
        return (self.right - self.left) * (self.head - self.tail)

    def corners(self) -> tuple[Vector, Vector]:
        """Two opposite corners on the face."""
        nought = Fraction(0)
        return self.frame.point(self.left, self.tail, nought), self.frame.point(self.right, self.head, nought)


@frozen
class FoldedPiece:
    """The fields of one piece. A field that nothing exact can be said of is missing."""

    piece: FlatPiece
    fields: tuple[Field, ...]

    def field_at(self, axis: str, at: Fraction, near: Field) -> Field | None:
        """The field in which a line across `axis` lies: the one given where the line bounds it, else the first."""
        touching = [one for one in self.fields if _touches(one, axis, at)]
        if any(one is near for one in touching):
            return near
        return touching[0] if touching else None

    def of_panel(self, panel: str) -> list[Field]:
        """The fields of a panel, one for each panel of the other run that crosses it and is not cut away there: the
        largest first, of several the one nearest to the middle. Of very many, only the first."""
        crossed = len(self.piece.runs) > 1
        found = [one for one in self.fields if panel in one.panels and not (crossed and is_cut_away(self.piece, one))]
        middle = self.piece.width.value + self.piece.height.value
        found.sort(key=lambda one: (-one.area, abs(one.left + one.right + one.tail + one.head - middle)))
        return found[:_MOST_CROSSING]

    def middle(self, axis: str, base: Field) -> Fraction:
        """The middle between the outermost edges of the folded piece along an axis of one of its fields, in that
        field's own coordinates."""
        direction = base.frame.axis(axis)
        ends = [along(corner, direction) for one in self.fields for corner in one.corners()]
        return (min(ends) + max(ends)) / 2 - along(base.frame.origin, direction)


def is_cut_away(piece: FlatPiece, one: Field) -> bool:
    """Whether the middle of a field lies outside the outline: a ray from it crosses the outline an even number of
    times. Rounded cuts count as straight ones."""
    x, y = (one.left + one.right) / 2, (one.tail + one.head) / 2
    inside = False
    at = piece.outline.start
    for move in piece.outline.moves:
        to = move.end
        low, high = sorted((at, to), key=lambda point: point.y.value)
        if low.y.value <= y < high.y.value:
            rise, run = high.y.value - low.y.value, high.x.value - low.x.value
            inside ^= low.x.value + run * (y - low.y.value) / rise > x
        at = to
    return not inside


def _touches(one: Field, axis: str, at: Fraction) -> bool:
    return one.left <= at <= one.right if axis == "width" else one.tail <= at <= one.head


def how_many_fields(piece: FlatPiece) -> int:
    """Into how many fields the runs of a piece cut it."""
    return prod(len(run.panels) for run in piece.runs)


def fold_piece(piece: FlatPiece, angles: Angles, panel: str, placed: Frame | None = None) -> tuple[FoldedPiece, Field]:
    """The piece folded, and the field of the panel it is placed by ("" for the largest). That field lies in `placed`,
    or at the origin."""
    columns, across = strips_of(piece, "width"), Turns(piece, "width", angles)
    rows, upward = strips_of(piece, "height"), Turns(piece, "height", angles)
    column, row = _chosen(columns, panel), _chosen(rows, panel)
    start = placed or AT_THE_ORIGIN
    caliper = piece.stock.caliper.value if piece.stock.caliper is not None else Fraction(0)
    fields: list[Field] = []
    base: Field | None = None
    for number, frame, folds, shut in _walk(columns, across, column, start, "width", caliper):
        for other, inner, more, more_shut in _walk(rows, upward, row, frame, "height", caliper):
            left, right, upright = columns[number]
            tail, head, lying = rows[other]
            field = Field(left, right, tail, head, inner, (folds, more), (shut, more_shut), (upright, lying))
            fields.append(field)
            if (number, other) == (column, row):
                base = field
    assert base is not None
    return FoldedPiece(piece, tuple(fields)), base


def strips_of(piece: FlatPiece, axis: str) -> list[Strip]:
    """What lies between two neighbouring folds along an axis, from the left edge or from the tail."""
    run = _run(piece, axis)
    side = piece.width.value if axis == "width" else piece.height.value
    if run is None:
        return [(Fraction(0), side, "")]
    found = [(panel.start.value, panel.end.value, panel.name) for panel in run.panels]
    if run.reversed:
        return [(side - end, side - start, name) for start, end, name in reversed(found)]
    return found


def _run(piece: FlatPiece, axis: str) -> Run | None:
    return next((run for run in piece.runs if run.axis == axis), None)


class Turns:
    """What is turned along one axis of a piece: its folds by their place, and its bending panels by their name."""

    def __init__(self, piece: FlatPiece, axis: str, angles: Angles) -> None:
        self._folds: dict[Fraction, _Turn] = {}
        self._bends: dict[str, _Turn] = {}
        run = _run(piece, axis)
        for score in run.scores if run is not None else ():
            angle = angles.get((piece.path, score.name), "flat")
            at = run.side.value - score.at.value if run is not None and run.reversed else score.at.value
            if angle != "flat":
                self._folds[at] = (_rise(score.kind), angle)
        for panel in run.panels if run is not None else ():
            angle = angles.get((piece.path, panel.name), "flat")
            if panel.bends and angle != "flat":
                # To which side it turns has to be known.
                self._bends[panel.name] = (_rise(panel.bends), UNKNOWN if panel.bends == "yes" else angle)

    def bends(self, strip: Strip) -> bool:
        return strip[2] in self._bends

    def over(self, near: Strip, far: Strip, at: Fraction) -> tuple[int, str, str]:
        """What turns on the way from one strip to the next, over the line between them: to which side, how far as a
        whole, and where on the way that is."""
        if near[2] in self._bends:
            return (*self._bends[near[2]], LEAVING)
        if far[2] in self._bends:
            return (*self._bends[far[2]], REACHING)
        return (*self._folds.get(at, _NO_TURN), AT_A_FOLD)

    def between(self, near: Strip, far: Strip, at: Fraction) -> _Turn:
        """What turns the paper over the line between two strips, where the angle is exact."""
        rise, angle, where = self.over(near, far, at)
        if where == LEAVING:
            return rise, "square" if angle == "shut" else angle
        if where == REACHING:
            return rise, {"square": "flat", "shut": "square"}.get(angle, angle)
        return rise, angle


def _rise(kind: str) -> int:
    return -1 if kind == "mountain" else 1


def _chosen(strips: list[Strip], panel: str) -> int:
    """The panel of that name, or else the widest one; of several the one nearest to the middle, the first of two."""
    named = next((number for number, strip in enumerate(strips) if panel and strip[2] == panel), None)
    if named is not None:
        return named
    side = strips[-1][1]

    def narrowness(at: int) -> tuple[Fraction, Fraction, int]:
        start, end, _ = strips[at]
        return start - end, abs(start + end - side), at

    return min(range(len(strips)), key=narrowness)


def _walk(
    strips: list[Strip], turns: Turns, start: int, frame: Frame, axis: str, caliper: Fraction
) -> list[tuple[int, Frame, int, int]]:
    """From the strip that is placed to both sides, as far as the angles are exact: the number of each strip, its frame,
    and how many folds lie between, all of them and the shut ones."""
    found = [(start, frame, 0, 0)]
    for onward in (1, -1):
        here, folds, shut, number = frame, 0, 0, start
        while 0 <= number + onward < len(strips):
            at = strips[number][1] if onward == 1 else strips[number][0]
            rise, angle = turns.between(strips[number], strips[number + onward], at)
            if number == start and onward == -1 and angle == "square" and turns.bends(strips[start]):
                # A piece that is placed by a panel that bends turns it at one edge, as any other does.
                angle = "flat"
            if angle not in _EXACT:
                break
            if angle != "flat":
                here = here.turned(axis, at, Fraction(0) if rise == 1 else -caliper, onward, rise, angle)
                folds += onward
                shut += onward if angle == "shut" else 0
            number += onward
            found.append((number, here, folds, shut))
    return found
