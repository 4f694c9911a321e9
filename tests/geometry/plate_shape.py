"""The shape of one field of a piece, flat, for drawings: its outline and windows, cut off where the folds bound it."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, ceil, cos, pi, sin

from pastedown.geometry.folded_piece import Field
from pastedown.geometry.piece import ArcTo, CutPath, FlatPiece, Point

Flat = tuple[float, float]
# How far an arc turns between two corners at most, and which area in square millimetres is none.
_CHORD = pi / 16
_NOTHING = 1e-9


def shapes_of(piece: FlatPiece, one: Field) -> tuple[list[Flat], list[list[Flat]]]:
    """The corners of what is left of a field, and of each window in it, in millimetres from the left edge and from the
    tail; none where all of it is cut away. Arcs are chords. Where an outline enters a field more than once, what lies
    between runs to and fro along its edge."""
    windows = [within(polygon(cut), one) for cut in piece.inner_cuts if cut.closed]
    return within(polygon(piece.outline), one), [window for window in windows if window]


def polygon(cut: CutPath) -> list[Flat]:
    """The corners of a closed cut, its arcs as chords."""
    found = [_flat(cut.start)]
    for move in cut.moves:
        if isinstance(move, ArcTo):
            found += _chords(found[-1], move)
        found.append(_flat(move.end))
    return found[:-1] if found[0] == found[-1] else found


def within(corners: list[Flat], one: Field) -> list[Flat]:
    """What of a polygon lies within a field, anticlockwise; nothing where it only touches it."""
    left, right, tail, head = (float(edge) for edge in (one.left, one.right, one.tail, one.head))
    for number, edge, way in ((0, left, 1), (0, right, -1), (1, tail, 1), (1, head, -1)):
        corners = _cut_off(corners, lambda spot, at=number, by=edge, to=way: (spot[at] - by) * to)  # type: ignore[misc]
    area = _area(corners)
    if abs(area) < _NOTHING:
        return []
    return corners if area > 0 else corners[::-1]


def _cut_off(corners: list[Flat], inwards: Callable[[Flat], float]) -> list[Flat]:
    """What lies on the inner side of a line; `inwards` is how far inside a spot lies."""
    found: list[Flat] = []
    for before, here in zip(corners[-1:] + corners[:-1], corners, strict=True):
        was, now = inwards(before), inwards(here)
        if (was < 0 < now) or (now < 0 < was):
            share = was / (was - now)
            found.append((before[0] + share * (here[0] - before[0]), before[1] + share * (here[1] - before[1])))
        if now >= 0:
            found.append(here)
    return found


def _area(corners: list[Flat]) -> float:
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return sum(x * other_y - other_x * y for (x, y), (other_x, other_y) in pairs) / 2


def _chords(start: Flat, move: ArcTo) -> list[Flat]:
    """The corners between the ends of an arc."""
    x, y = _flat(move.centre)
    end = _flat(move.end)
    first = atan2(start[1] - y, start[0] - x)
    turn = (atan2(end[1] - y, end[0] - x) - first) % (2 * pi)
    turn = turn - 2 * pi if move.clockwise else turn
    count = max(1, ceil(abs(turn) / _CHORD - 1e-9))
    radius = float(move.radius.value)
    angles = (first + turn * step / count for step in range(1, count))
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]


def _flat(point: Point) -> Flat:
    return float(point.x.value), float(point.y.value)
