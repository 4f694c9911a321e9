"""Where numbers stand that find no room within a sheet, and the lines that lead to them: clear of other cuts and words.

All in millimetres of the paper, x to the right and y down.
"""

from collections.abc import Iterator, Sequence
from math import atan2, degrees, hypot

from attrs import define, field

from pastedown.outputs.template.room import Box, Room

Spot = tuple[float, float]
Ends = tuple[Spot, Spot]

# From the edge of the sheet to the rim of a circle, and between two rims.
_ASIDE, _APART = 4.0, 0.6
_SHARES = (0.5, 0.25, 0.75, 0.1, 0.9, 0.0, 1.0)
# How far a number may stand above or below where its leader begins.
_SHIFTS = (0.0, 5.0, -5.0, 10.0, -10.0, 18.0, -18.0, 30.0, -30.0, 45.0, -45.0, 24.0, -24.0)
_MOST_STROKES = 6
# A leader that stays so close to a cut for so long would be read as a part of it.
NEAR, LONG = 0.7, 3.0
# As near as this to where two cuts meet, it might begin at either.
_CORNER = 2.0


@define
class Beside:
    """The room to the right of a sheet and below it. The sheet and its cuts are lines."""

    left: float
    top: float
    right: float
    foot: float
    cuts: tuple[Ends, ...]
    bottom: float = field(init=False)
    _taken: list[tuple[Spot, float]] = field(init=False, factory=list)
    _leaders: list[Ends] = field(init=False, factory=list)

    def __attrs_post_init__(self) -> None:
        self.bottom = self.top

    def place(self, strokes: Sequence[Ends], radius: float, written: Room) -> tuple[Spot, Ends]:
        """The middle of a circle, and the leader from one of the strokes to its rim: of those that there is room for,
        one that is taken for no other's, and crosses no words and the fewest cuts; the shortest. It is taken."""
        best: tuple[tuple[bool, bool, bool, int, float], Spot, Ends] | None = None
        for stroke in strokes[:_MOST_STROKES]:
            for start in _along(stroke):
                for spot in self._spots(start, radius):
                    if not self._is_free(spot, radius):
                        continue
                    leader = start, _rim(start, spot, radius)
                    long = hypot(*_run(leader))
                    if best is not None and best[0] <= (False, False, False, 0, long):
                        continue
                    astray = self._is_astray(leader)
                    if best is not None and astray and not best[0][0]:
                        continue
                    corner, crossed = self._met(leader, stroke)
                    if best is not None and best[0] <= (astray, False, corner, crossed, long):
                        continue
                    rank = astray, not written.is_free(about(leader)), corner, crossed, long
                    if best is None or rank < best[0]:
                        best = rank, spot, leader
        if best is None:
            start = strokes[0][0]
            spot = self.right + _ASIDE + radius, max(start[1], self.bottom + _APART + radius)
            best = (True, True, True, 0, 0.0), spot, (start, _rim(start, spot, radius))
        _, spot, leader = best
        self._taken.append((spot, radius))
        self._leaders.append(leader)
        self.bottom = max(self.bottom, spot[1] + radius + _APART)
        return spot, leader

    def _spots(self, start: Spot, radius: float) -> Iterator[Spot]:
        """To the right of the sheet, then below it."""
        for shift in _SHIFTS:
            y = start[1] + shift
            if self.top + radius <= y <= self.foot + _ASIDE + radius:
                yield self.right + _ASIDE + radius, y
        for shift in _SHIFTS:
            x = start[0] + shift
            if self.left + radius <= x <= self.right:
                yield x, self.foot + _ASIDE + radius

    def _is_free(self, spot: Spot, radius: float) -> bool:
        return all(hypot(*_run((spot, other))) >= radius + more + _APART for other, more in self._taken)

    def _is_astray(self, leader: Ends) -> bool:
        """Whether it lies along a cut or an edge of the sheet or crosses another leader."""
        corners = (self.left, self.foot), (self.right, self.foot), (self.right, self.top), (self.left, self.top)
        edges = zip(corners, corners[1:] + corners[:1], strict=True)
        along = any(how_long_beside(leader, each) > LONG for each in (*self.cuts, *edges))
        return along or any(cross(leader, each) for each in self._leaders)

    def _met(self, leader: Ends, own: Ends) -> tuple[bool, int]:
        """Whether it begins where two cuts meet, and so at either; and how many cuts it crosses besides its own."""
        corner = any(_is_on(leader[0], each) for each in self.cuts if each != own)
        return corner, sum(how_long_beside(leader, each) > 0 for each in self.cuts if each != own)


def how_long_beside(leader: Ends, cut: Ends) -> float:
    """How much of a leader is no farther than `NEAR` from a level or upright cut."""
    (x1, y1), (x2, y2) = leader
    low, high = 0.0, 1.0
    for start, end, one, other in ((x1, x2, cut[0][0], cut[1][0]), (y1, y2, cut[0][1], cut[1][1])):
        first, last = min(one, other) - NEAR, max(one, other) + NEAR
        if start == end:
            if not first <= start <= last:
                return 0.0
            continue
        at = sorted(((first - start) / (end - start), (last - start) / (end - start)))
        low, high = max(low, at[0]), min(high, at[1])
    return max(high - low, 0.0) * hypot(x2 - x1, y2 - y1)


def cross(one: Ends, other: Ends) -> bool:
    """Whether two lines meet in more than an end."""

    def side(line: Ends, spot: Spot) -> float:
        (x1, y1), (x2, y2) = line
        return (x2 - x1) * (spot[1] - y1) - (y2 - y1) * (spot[0] - x1)

    return side(one, other[0]) * side(one, other[1]) < 0 and side(other, one[0]) * side(other, one[1]) < 0


def about(ends: Ends) -> Box:
    """A line as a box without height."""
    (x1, y1), (x2, y2) = ends
    return Box(x1, y1, degrees(atan2(y1 - y2, x2 - x1)), 0.0, hypot(x2 - x1, y2 - y1), 0.0, 0.0)


def _is_on(spot: Spot, cut: Ends) -> bool:
    return all(
        min(one, other) - _CORNER <= at <= max(one, other) + _CORNER for at, one, other in zip(spot, *cut, strict=True)
    )


def _along(stroke: Ends) -> Iterator[Spot]:
    (x1, y1), (x2, y2) = stroke
    for share in _SHARES:
        yield x1 + (x2 - x1) * share, y1 + (y2 - y1) * share


def _rim(start: Spot, spot: Spot, radius: float) -> Spot:
    """Where the leader meets the circle."""
    across, down = _run((start, spot))
    long = hypot(across, down)
    return (spot[0] - across / long * radius, spot[1] - down / long * radius) if long > radius else spot


def _run(ends: Ends) -> tuple[float, float]:
    return ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]
