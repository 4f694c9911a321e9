"""The shape of one field of a piece: its outline within the lines that bound it, with every edge told by its kind."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from pastedown.outputs.template.shape import FloatSpot, corners_of, moves_of
from pastedown.plan.plan import CutPiece, PlanPath
from pastedown.plan.space import FieldNumber, SpatialPiece

# What an edge is: cut, or the line beside the next field on that side.
CUT, LEFT, RIGHT, TAIL, HEAD = "cut", "left", "right", "tail", "head"
_SAME = 1e-7


@frozen
class Ring:
    """A closed chain of corners and the kind of the edge that begins at each. The paper lies to its left: outer rings
    run anticlockwise as seen from the face, openings clockwise."""

    spots: tuple[FloatSpot, ...]
    kinds: tuple[str, ...]


@frozen
class FieldShape:
    """The rings of a field, the outer one first; none where nothing is left of it."""

    rings: tuple[Ring, ...]


class FieldShapes:
    """The shapes of the fields of all pieces, each worked out once."""

    def __init__(self, pieces: Sequence[CutPiece]) -> None:
        self._pieces = {piece.id: piece for piece in pieces}
        self._known: dict[tuple[str, tuple[float, ...]], FieldShape] = {}

    def of(self, piece: SpatialPiece, number: FieldNumber) -> FieldShape:
        column, row = piece.columns.strips[number[0]], piece.rows.strips[number[1]]
        ends = tuple(map(float, (column.start, column.end, row.start, row.end)))
        key = (piece.handle, ends)
        if key not in self._known:
            last = (len(piece.columns.strips) - 1, len(piece.rows.strips) - 1)
            bounded = (number[0] > 0, number[0] < last[0], number[1] > 0, number[1] < last[1])
            self._known[key] = _shape(self._pieces[piece.handle], ends, bounded)
        return self._known[key]


def _shape(piece: CutPiece, ends: tuple[float, ...], bounded: tuple[bool, ...]) -> FieldShape:
    rings: list[Ring] = []
    for path in (piece.outline, *(cut for cut in piece.inner_cuts if cut.closed)):
        ring = _ring(path, bool(rings))
        for side, kind in enumerate((LEFT, RIGHT, TAIL, HEAD)):
            if bounded[side] and ring is not None:
                ring = _clipped(ring, side, ends[side], kind)
        if ring is not None:
            rings.append(ring)
        elif not rings:
            return FieldShape(())
    return FieldShape(tuple(rings))


def _ring(path: PlanPath, is_opening: bool) -> Ring | None:
    spots = corners_of(moves_of(path))
    spots = [spot for number, spot in enumerate(spots) if not _same(spot, spots[number - 1])]
    if len(spots) < 3:
        return None
    if (_area(spots) < 0) != is_opening:
        spots.reverse()
    return Ring(tuple(spots), (CUT,) * len(spots))


def _clipped(ring: Ring, side: int, at: float, kind: str) -> Ring | None:
    """What lies on the inner side of an upright or level line: cut off edge by edge (Sutherland and Hodgman, 1974)."""
    axis, sign = side // 2, 1 if side % 2 == 0 else -1
    spots: list[FloatSpot] = []
    kinds: list[str] = []
    count = len(ring.spots)
    for number in range(count):
        here, then = ring.spots[number], ring.spots[(number + 1) % count]
        inside, next_inside = ((spot[axis] - at) * sign > -_SAME for spot in (here, then))
        if inside:
            spots.append(here)
            on_line = abs(here[axis] - at) <= _SAME and abs(then[axis] - at) <= _SAME
            leaves = abs(here[axis] - at) <= _SAME and not next_inside
            kinds.append(kind if leaves or on_line else ring.kinds[number])
        touches = abs(here[axis] - at) <= _SAME if inside else abs(then[axis] - at) <= _SAME
        if inside != next_inside and not touches:
            part = (at - here[axis]) / (then[axis] - here[axis])
            other = here[1 - axis] + part * (then[1 - axis] - here[1 - axis])
            spots.append((at, other) if axis == 0 else (other, at))
            kinds.append(kind if inside else ring.kinds[number])
    return Ring(tuple(spots), tuple(kinds)) if len(spots) >= 3 and abs(_area(spots)) > _SAME else None


def _area(spots: Sequence[FloatSpot]) -> float:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)) / 2


def _same(one: FloatSpot, other: FloatSpot) -> bool:
    return abs(one[0] - other[0]) <= _SAME and abs(one[1] - other[1]) <= _SAME
