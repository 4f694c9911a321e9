"""The outline of all zones of a map together: where the paper ends, also round a bay, a hole or a gap between parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pastedown.outputs.pictures.map_sheet import Area, MapSheet
from pastedown.outputs.pictures.strokes import straight
from pastedown.outputs.template.drawing import Stroke

_Spot = tuple[float, float]


def outlines(at: MapSheet, zones: Sequence[Area]) -> Iterator[Stroke]:
    """A closed line round each of what hangs together and round each hole. Zones do not lie over one another."""
    onward: dict[_Spot, list[_Spot]] = {}
    for start, end in sorted(_sides(zones)):
        onward.setdefault(start, []).append(end)
    while onward:
        ring = [next(iter(onward))]
        while (ends := onward.get(ring[-1])) is not None:
            if len(ends) == 1:
                del onward[ring[-1]]
            ring.append(ends.pop())
        yield straight("edge", *(at.spot(*spot) for spot in _corners(ring)))


def rest(start: float, end: float, taken: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """What is left of a side from `start` to `end`."""
    reached = start
    for low, high in sorted(taken):
        if low >= end:
            break
        if low > reached:
            yield reached, low
        reached = max(reached, high)
    if reached < end:
        yield reached, end


def _sides(zones: Sequence[Area]) -> Iterator[tuple[_Spot, _Spot]]:
    """The sides with no zone beyond them, each the way on which its zone lies on the left."""
    for zone in zones:
        for place, onward in ((zone.right, True), (zone.left, False)):
            beyond = [(each.tail, each.head) for each in zones if (each.left if onward else each.right) == place]
            for low, high in rest(zone.tail, zone.head, beyond):
                yield ((place, low), (place, high)) if onward else ((place, high), (place, low))
        for place, onward in ((zone.head, True), (zone.tail, False)):
            beyond = [(each.left, each.right) for each in zones if (each.tail if onward else each.head) == place]
            for low, high in rest(zone.left, zone.right, beyond):
                yield ((high, place), (low, place)) if onward else ((low, place), (high, place))


def _corners(ring: Sequence[_Spot]) -> list[_Spot]:
    """A closed way without the spots that lie amid a straight line; it begins and ends in one corner."""
    spots = ring[:-1]
    kept = [
        spot
        for number, spot in enumerate(spots)
        if not any(spots[number - 1][axis] == spot[axis] == spots[(number + 1) % len(spots)][axis] for axis in (0, 1))
    ]
    return [*kept, kept[0]]
