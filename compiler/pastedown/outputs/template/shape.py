"""Shapes of a piece in exact millimetres: x from the left edge, y from the tail, face up, head up.

Takes paths of the plan, gives moves in which no arc is longer than a quarter turn between two axes. Such an arc goes
one way only in x and in y: its bounds are its ends, a straight cut meets it once, and every reader finds its centre.
"""

from fractions import Fraction
from math import atan2, ceil, cos, pi, sin

from attrs import frozen

from pastedown.plan.plan import PlanArc, PlanPath, PlanPoint

Spot = tuple[Fraction, Fraction]
FloatSpot = tuple[float, float]

_MOST_CORNERS = 5


@frozen
class Straight:
    """From `start` to `end`."""

    start: Spot
    end: Spot


@frozen
class Round:
    """From `start` to `end` about `centre`, a quarter turn at most; `clockwise` as it looks with the head up."""

    start: Spot
    end: Spot
    centre: Spot
    radius: Fraction
    clockwise: bool


Move = Straight | Round


@frozen
class Bounds:
    """A box with upright sides. `top` is towards the head, so `top` is more than `bottom`."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    def common(self, other: "Bounds") -> "Bounds":
        """What both boxes hold; it is turned inside out where they do not meet."""
        return Bounds(
            max(self.left, other.left),
            max(self.bottom, other.bottom),
            min(self.right, other.right),
            min(self.top, other.top),
        )

    def meets(self, other: "Bounds") -> bool:
        """Whether the boxes have a spot in common, be it on their rims."""
        shared = self.common(other)
        return shared.width >= 0 and shared.height >= 0

    @property
    def width(self) -> Fraction:
        return self.right - self.left

    @property
    def height(self) -> Fraction:
        return self.top - self.bottom


def spot(point: PlanPoint) -> Spot:
    """The point in millimetres."""
    return point.x.millimetres, point.y.millimetres


def moves_of(path: PlanPath) -> tuple[Move, ...]:
    """The path's moves one after the other; a closed path ends where it starts."""
    here = first = spot(path.start)
    moves: list[Move] = []
    for move in path.moves:
        end = spot(move.end)
        if isinstance(move, PlanArc):
            moves += _quarters(here, end, spot(move.centre), move.radius.millimetres, move.clockwise)
        else:
            moves.append(Straight(here, end))
        here = end
    if path.closed and here != first:
        moves.append(Straight(here, first))
    return tuple(moves)


def bounds_of(moves: tuple[Move, ...], start: Spot) -> Bounds:
    """The smallest box that holds the moves, which begin at `start`."""
    spots = [start, *(move.end for move in moves)]
    across, up = [x for x, _ in spots], [y for _, y in spots]
    return Bounds(min(across), min(up), max(across), max(up))


def corners_of(moves: tuple[Move, ...]) -> list[FloatSpot]:
    """The moves as a chain of straight lines, close enough to lay words beside them: within 0.03 of an arc's radius."""
    if not moves:
        return []
    corners = [_floats(moves[0].start)]
    for move in moves:
        if isinstance(move, Round):
            corners += _chords(move)
        corners.append(_floats(move.end))
    return corners


def holds(corners: list[FloatSpot], x: float, y: float) -> bool:
    """Whether the spot lies inside the closed chain: a ray from it crosses the chain an odd number of times."""
    inside = False
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside


def turning(move: Round) -> tuple[float, float]:
    """The direction in which the arc starts, seen from its centre, and how far it turns: radians, anticlockwise."""
    x, y = _floats(move.centre)
    (x1, y1), (x2, y2) = _floats(move.start), _floats(move.end)
    start, end = atan2(y1 - y, x1 - x), atan2(y2 - y, x2 - x)
    turn = (start - end) % (2 * pi) if move.clockwise else (end - start) % (2 * pi)
    return start, -turn if move.clockwise else turn


def _chords(move: Round) -> list[FloatSpot]:
    start, turn = turning(move)
    x, y = _floats(move.centre)
    radius = float(move.radius)
    count = max(1, ceil(abs(turn) / (pi / 16)))
    angles = (start + turn * step / count for step in range(1, count))
    return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]


def _quarters(start: Spot, end: Spot, centre: Spot, radius: Fraction, clockwise: bool) -> list[Move]:
    """The arc divided where it crosses the axes through its centre. All exact: the crossings are rational."""
    flip = -1 if clockwise else 1
    here = start[0] - centre[0], (start[1] - centre[1]) * flip
    last = end[0] - centre[0], (end[1] - centre[1]) * flip
    if not any(here) or not any(last):
        return [Straight(start, end)]
    moves: list[Move] = []
    before = start
    for _ in range(_MOST_CORNERS):
        axis = _next_axis(here)
        if _cross(here, last) > 0 and _cross(last, axis) >= 0:
            break
        corner = centre[0] + radius * axis[0], centre[1] + radius * axis[1] * flip
        moves.append(Round(before, corner, centre, radius, clockwise))
        here, before = axis, corner
    return [*moves, Round(before, end, centre, radius, clockwise)]


def _next_axis(direction: Spot) -> Spot:
    """The first of right, up, left and down that is met on turning anticlockwise."""
    x, y = direction
    if x > 0 and y >= 0:
        return Fraction(0), Fraction(1)
    if x <= 0 and y > 0:
        return Fraction(-1), Fraction(0)
    if x < 0:
        return Fraction(0), Fraction(-1)
    return Fraction(1), Fraction(0)


def _cross(a: Spot, b: Spot) -> Fraction:
    return a[0] * b[1] - a[1] * b[0]


def _floats(place: Spot) -> FloatSpot:
    return float(place[0]), float(place[1])
