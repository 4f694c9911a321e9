"""Room around arrows: other lines leave off beside one, so that it is made out on hatched and crowded ground.

Takes chains and the ways of arrows in millimetres of the scene, and the scale; gives the chains without what lies too
near. Folds are left whole: their patterns tell them apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot, sqrt

from attrs import evolve

from pastedown.outputs.pictures.line_art import Chain
from pastedown.outputs.pictures.view import Spot

# On the picture, in millimetres from the middle of an arrow's line: a hatching keeps off so far, any other line so far.
# What is left over and shorter than the last is no line. Chosen by looking at all examples.
_OFF = {"hatch": 1.1, "sticky": 0.8, "edge": 0.6, "new": 0.6, "guide": 0.6}
_SHORTEST = 1.0


def cleared(chains: Iterable[Chain], ways: Sequence[Sequence[Spot]], scale: float) -> Iterator[Chain]:
    """The chains with gaps where arrows pass over them."""
    shafts = [pair for way in ways for pair in pairwise(way) if pair[0] != pair[1]]
    for chain in chains:
        off = _OFF.get(chain.kind, 0.0) / scale
        near = [pair for pair in shafts if off and _may_meet(chain, pair, off)]
        if not near:
            yield chain
            continue
        spots: list[Spot] = []
        for one, other in pairwise(chain.spots):
            for start, end in _kept(one, other, near, off, _SHORTEST / scale):
                if spots and spots[-1] != start:
                    yield evolve(chain, spots=tuple(spots))
                    spots = []
                spots = [*spots, end] if spots else [start, end]
        if spots:
            yield evolve(chain, spots=tuple(spots))


def _may_meet(chain: Chain, shaft: tuple[Spot, Spot], off: float) -> bool:
    return all(
        min(spot[at] for spot in chain.spots) <= max(end[at] for end in shaft) + off
        and max(spot[at] for spot in chain.spots) >= min(end[at] for end in shaft) - off
        for at in (0, 1)
    )


def _kept(
    one: Spot, other: Spot, shafts: Sequence[tuple[Spot, Spot]], off: float, shortest: float
) -> Iterator[tuple[Spot, Spot]]:
    length = hypot(other[0] - one[0], other[1] - one[1])
    gaps = sorted(gap for shaft in shafts for gap in _too_near(one, other, shaft, off))
    reached = 0.0
    for begin, stop in [*gaps, (1.0, 1.0)]:
        if begin > reached and ((begin - reached) * length >= shortest or (reached, begin) == (0.0, 1.0)):
            yield _between(one, other, reached), _between(one, other, begin)
        reached = max(reached, stop)


def _between(one: Spot, other: Spot, part: float) -> Spot:
    if part in (0.0, 1.0):
        return one if part == 0.0 else other
    return one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part


def _too_near(one: Spot, other: Spot, shaft: tuple[Spot, Spot], off: float) -> Iterator[tuple[float, float]]:
    """The parts of a line that lie nearer to a straight shaft than allowed: in the box around it, or the round of an
    end."""
    (x, y), (dx, dy) = one, (other[0] - one[0], other[1] - one[1])
    for end in shaft:
        yield from _in_round(x - end[0], y - end[1], dx, dy, off)
    long = hypot(shaft[1][0] - shaft[0][0], shaft[1][1] - shaft[0][1])
    a, b = (shaft[1][0] - shaft[0][0]) / long, (shaft[1][1] - shaft[0][1]) / long
    along, across = (x - shaft[0][0]) * a + (y - shaft[0][1]) * b, (y - shaft[0][1]) * a - (x - shaft[0][0]) * b
    begin, stop = 0.0, 1.0
    for at, way, low, high in ((along, dx * a + dy * b, 0.0, long), (across, dy * a - dx * b, -off, off)):
        if way == 0.0:
            if not low < at < high:
                return
            continue
        ends = sorted(((low - at) / way, (high - at) / way))
        begin, stop = max(begin, ends[0]), min(stop, ends[1])
    if begin < stop:
        yield begin, stop


def _in_round(x: float, y: float, dx: float, dy: float, radius: float) -> Iterator[tuple[float, float]]:
    square = dx * dx + dy * dy
    if not square:
        return
    half = (x * dx + y * dy) / square
    under = half * half - (x * x + y * y - radius * radius) / square
    if under > 0:
        begin, stop = max(-half - sqrt(under), 0.0), min(-half + sqrt(under), 1.0)
        if begin < stop:
            yield begin, stop
