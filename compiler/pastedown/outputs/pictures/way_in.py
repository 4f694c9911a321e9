"""By which side what nothing holds slides into the place where it lies: a card between two sheets.

Takes where everything lies once it is in. It goes in along one of the four directions of the face that it lies on, if
something lies over it there and if nothing stands in that way: no sheet at its own height, and no shut fold that goes
round it. Everything is told by boxes along the directions of that face, which is exact for what lies square to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from pastedown.outputs.pictures.frame import Frame, Vector, dot, times
from pastedown.outputs.pictures.plate import Plate

# In millimetres: what reaches into the way by less does not stand in it, and so much of its thickness may be taken up.
_PLAY = 0.5
_OF_THICKNESS = 0.25
_FAR = 1e5
# The cosine from which on two leaves of a fold count as shut upon one another.
_SHUT = -0.99
# A way from below counts as so much longer, in millimetres: things are put in from above where they can be.
_FROM_BELOW = 1e4


@frozen
class Box:
    low: Vector
    high: Vector

    def meets(self, other: Box, play: Vector) -> bool:
        return all(
            min(self.high[at], other.high[at]) - max(self.low[at], other.low[at]) > play[at] for at in range(3)
        )

    def along(self, axis: int, sign: float) -> Box:
        """What it passes through on its way out, with the place where it lies."""
        low, high = list(self.low), list(self.high)
        if sign > 0:
            high[axis] = _FAR
        else:
            low[axis] = -_FAR
        return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def way_in(frame: Frame, outward: Vector, laid: Sequence[Plate], others: Sequence[Plate]) -> Vector | None:
    """The way by which what is `laid` on a face comes out again, as far as half of it stands out: a vector in
    millimetres. `frame` is that of the face, `outward` the way it looks; `others` are all the plates around. None
    where nothing covers it, so that it is simply laid there, or where every way is barred."""
    own = box_of(frame, laid)
    boxes = [(plate, box_of(frame, [plate])) for plate in others]
    up = dot(outward, frame.z)
    thin = (own.high[2] - own.low[2]) * _OF_THICKNESS
    play = (_PLAY, _PLAY, thin)
    above = Box(
        (own.low[0], own.low[1], own.low[2] if up < 0 else own.high[2] - thin),
        (own.high[0], own.high[1], own.low[2] + thin if up < 0 else own.high[2]),
    ).along(2, up)
    if not any(box.meets(above, play) for _, box in boxes):
        return None
    bars = [box for _, box in boxes if not box.meets(own, play)]
    bars += _folds(frame, boxes, own, thin)
    ways: list[tuple[float, int, Vector]] = []
    for axis, direction in ((0, frame.x), (1, frame.y)):
        length = own.high[axis] - own.low[axis]
        reach = _reach(boxes, own, play, axis)
        for sign in (1.0, -1.0):
            if any(bar.meets(own.along(axis, sign), play) for bar in bars):
                continue
            gap = max(reach[1] - own.high[axis] if sign > 0 else own.low[axis] - reach[0], 0.0)
            way = times(direction, sign * (gap + length / 2))
            ways.append((round(gap + (_FROM_BELOW if way[2] < -_PLAY else 0.0), 6), len(ways), way))
    return min(ways)[2] if ways else None


def _reach(boxes: Sequence[tuple[Plate, Box]], own: Box, play: Vector, axis: int) -> tuple[float, float]:
    """From where to where what it lies on reaches along an axis."""
    touching = []
    for _, box in boxes:
        apart = max(box.low[2] - own.high[2], own.low[2] - box.high[2])
        if all(min(box.high[at], own.high[at]) - max(box.low[at], own.low[at]) > play[at] for at in (0, 1)):
            touching.append((round(abs(apart), 3), box))
    nearest = min(apart for apart, _ in touching)
    near = [box for apart, box in touching if apart == nearest]
    return min(box.low[axis] for box in near), max(box.high[axis] for box in near)


def _folds(frame: Frame, boxes: Sequence[tuple[Plate, Box]], own: Box, thin: float) -> Iterator[Box]:
    """The shut folds that go round the height at which a thing lies, each from leaf to leaf."""
    by_field = {(plate.path, plate.number): (plate, box) for plate, box in boxes}
    for (path, number), (plate, box) in by_field.items():
        for axis in (0, 1):
            beyond = by_field.get((path, (number[0] + (axis == 0), number[1] + (axis == 1))))
            if beyond is None or dot(plate.frame.z, beyond[0].frame.z) > _SHUT:
                continue
            strips = plate.piece.columns if axis == 0 else plate.piece.rows
            at = float(strips.strips[number[axis]].end)
            spots = [(spot[0], spot[1]) for ring in plate.rings for spot in ring.spots]
            line = [(at, spot[1]) if axis == 0 else (spot[0], at) for spot in spots]
            places = [frame.coordinates(plate.frame.point(x, y, 0.0)) for x, y in line]
            low, high = min(box.low[2], beyond[1].low[2]), max(box.high[2], beyond[1].high[2])
            if low <= own.low[2] + thin and high >= own.high[2] - thin:
                wide = 2 * _PLAY
                yield Box(
                    (min(p[0] for p in places) - wide, min(p[1] for p in places) - wide, low),
                    (max(p[0] for p in places) + wide, max(p[1] for p in places) + wide, high),
                )


def box_of(frame: Frame, plates: Sequence[Plate]) -> Box:
    places = [frame.coordinates(corner) for plate in plates for corner in plate.corners()]
    low, high = (tuple(most(place[at] for place in places) for at in range(3)) for most in (min, max))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
