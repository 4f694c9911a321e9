"""What each cut takes out of a piece, and whether two cuts meet.

A cut's region is a convex polygon with exact corners. A straight cut's is what falls off; a round one's is a polygon
drawn about it, so that two cuts whose regions keep apart keep apart themselves. Two convex polygons keep apart if and
only if some side of one of them, or an edge of the sheet, has the one on the one side and the other on the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from pastedown.geometry.piece import Point
from pastedown.quantity.quantity import Length

Spot = tuple[Fraction, Fraction]

# The sides of the polygon about a round touch it in the directions of these Pythagorean triples, so that its corners
# are exact: they lie at most one part in fifty further out than the circle.
_TRIPLES = (("1", "0"), ("12/13", "5/13"), ("4/5", "3/5"), ("3/5", "4/5"), ("5/13", "12/13"), ("0", "1"))
_TOUCHING = tuple((Fraction(x), Fraction(y)) for x, y in _TRIPLES)

_SHEET: tuple[Spot, ...] = ((Fraction(1), Fraction(0)), (Fraction(0), Fraction(1)))


@frozen
class Region:
    """A cut's `name` and the corners of what it takes out; a slit has two. `edges` are the edges of the piece that the
    cut begins at: none for a cut inside it."""

    name: str
    corners: tuple[Spot, ...]
    edges: frozenset[str]

    @property
    def left(self) -> Fraction:
        return min(x for x, _ in self.corners)

    @property
    def right(self) -> Fraction:
        return max(x for x, _ in self.corners)

    @property
    def bottom(self) -> Fraction:
        return min(y for _, y in self.corners)

    @property
    def top(self) -> Fraction:
        return max(y for _, y in self.corners)


def region(name: str, corners: Sequence[Point], edges: Sequence[str] = ()) -> Region:
    """The region with these corners, in the order in which one walks round it."""
    return Region(name, tuple((point.x.value, point.y.value) for point in corners), frozenset(edges))


def half_round(middle: Length, radius: Length) -> list[tuple[Length, Length]]:
    """Corners about a half circle on a straight line: how far along the line, and how far off it."""
    after = quarter_round(radius)
    return [*((middle - x, y) for x, y in after), *((middle + x, y) for x, y in reversed(after))]


def quarter_round(radius: Length) -> list[tuple[Length, Length]]:
    """Corners about a quarter circle whose middle is the origin, from the x axis round to the y axis."""
    corners = []
    for (x1, y1), (x2, y2) in pairwise(_TOUCHING):
        # Where the tangents at two unit directions cross: both have x * X + y * Y = 1.
        cross = x1 * y2 - x2 * y1
        corners.append((radius * ((y2 - y1) / cross), radius * ((x1 - x2) / cross)))
    return corners


def keep_apart(one: Region, other: Region) -> bool:
    """Whether paper is left between the two. Cuts that share an edge of the piece may touch there, as a notch may begin
    where a mitre ends; all others may not so much as touch, for the paper between them would be nought wide."""
    may_touch = bool(one.edges & other.edges)
    axes = [*_SHEET, *_across_sides(one.corners), *_across_sides(other.corners)]
    return any(_parted(axis, one.corners, other.corners, may_touch) for axis in axes)


def _across_sides(corners: tuple[Spot, ...]) -> list[Spot]:
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return [(y2 - y1, x1 - x2) for (x1, y1), (x2, y2) in pairs if (x1, y1) != (x2, y2)]


def _parted(axis: Spot, one: tuple[Spot, ...], other: tuple[Spot, ...], may_touch: bool) -> bool:
    a = [x * axis[0] + y * axis[1] for x, y in one]
    b = [x * axis[0] + y * axis[1] for x, y in other]
    if may_touch:
        return max(a) <= min(b) or max(b) <= min(a)
    return max(a) < min(b) or max(b) < min(a)
