"""Finding room for words beside lines: which part of a sheet is taken, kept in a coarse grid to be quick."""

from collections import defaultdict
from math import ceil, cos, floor, hypot, radians, sin

from attrs import frozen

from pastedown.outputs.template.shape import FloatSpot

_CELL = 8.0
_CLEAR = 0.6

Corners = tuple[FloatSpot, ...]
Cell = tuple[int, int]


@frozen
class Box:
    """A box about the spot `x`, `y`: it reaches `before` and `after` along a direction and `below` and `above` across
    it. The direction is `angle` degrees anticlockwise from the right, on a sheet whose y runs down."""

    x: float
    y: float
    angle: float
    before: float
    after: float
    below: float
    above: float

    def corners(self, clear: float = 0.0) -> Corners:
        """The four corners, with a rim of `clear` all round."""
        along, across = self.directions
        before, after, below, above = -self.before - clear, self.after + clear, -self.below - clear, self.above + clear
        return tuple(
            (self.x + along[0] * a + across[0] * b, self.y + along[1] * a + across[1] * b)
            for a, b in ((before, below), (after, below), (after, above), (before, above))
        )

    @property
    def middle(self) -> FloatSpot:
        corners = self.corners()
        return (corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2

    @property
    def directions(self) -> tuple[FloatSpot, FloatSpot]:
        """Along and across, each one long."""
        turn = radians(self.angle)
        return (cos(turn), -sin(turn)), (-sin(turn), -cos(turn))


@frozen
class Taken:
    """A line or a box that is taken, with the box about it: left, top, right, bottom."""

    corners: Corners
    about: tuple[float, float, float, float]


class Room:
    """What is taken on one sheet. The one thing in a template that changes while it is drawn."""

    def __init__(self) -> None:
        self._taken: dict[Cell, list[Taken]] = defaultdict(list)

    def take_line(self, start: FloatSpot, end: FloatSpot) -> None:
        """Nothing may be written across this line any more."""
        steps = max(1, ceil(hypot(end[0] - start[0], end[1] - start[1]) / (_CELL / 2)))
        cells = {
            _cell(start[0] + (end[0] - start[0]) * n / steps, start[1] + (end[1] - start[1]) * n / steps)
            for n in range(steps + 1)
        }
        taken = _taken((start, end))
        for cell in sorted(cells):
            self._taken[cell].append(taken)

    def take(self, box: Box) -> None:
        """Nothing may be written over this box any more."""
        taken = _taken(box.corners())
        for cell in _cells_about(taken, 0):
            self._taken[cell].append(taken)

    def is_free(self, box: Box) -> bool:
        """Whether the box, with a small rim, touches nothing that is taken."""
        asked = _taken(box.corners(_CLEAR))
        near = (other for cell in _cells_about(asked, 1) for other in self._taken.get(cell, ()))
        return not any(_touch(asked, other) for other in near)


def _taken(corners: Corners) -> Taken:
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return Taken(corners, (min(across), min(down), max(across), max(down)))


def _cell(x: float, y: float) -> Cell:
    return floor(x / _CELL), floor(y / _CELL)


def _cells_about(shape: Taken, ring: int) -> list[Cell]:
    """The cells the shape spans, and `ring` more on each side: a line is noted every half cell, so it may pass through
    a corner of a cell without being noted there, but never without being noted next to it."""
    (left, top), (right, bottom) = _cell(*shape.about[:2]), _cell(*shape.about[2:])
    return [(x, y) for x in range(left - ring, right + ring + 1) for y in range(top - ring, bottom + ring + 1)]


def _touch(one: Taken, other: Taken) -> bool:
    """Whether two convex shapes meet: they do unless a line parallel to a side of one of them parts them."""
    left, top, right, bottom = one.about
    if other.about[0] > right or other.about[2] < left or other.about[1] > bottom or other.about[3] < top:
        return False
    return not any(_parted(one.corners, other.corners, side) for it in (one, other) for side in _sides(it.corners))


def _sides(shape: Corners) -> list[FloatSpot]:
    return [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in zip(shape, shape[1:] + shape[:1], strict=True)]


def _parted(one: Corners, other: Corners, side: FloatSpot) -> bool:
    first = [x * side[1] - y * side[0] for x, y in one]
    second = [x * side[1] - y * side[0] for x, y in other]
    return max(first) < min(second) or max(second) < min(first)
