"""Arrows: the ways of what moves, as lines with a head.

Takes a scene and its scale, gives lines in millimetres of the scene, y upwards. Afterwards no arrow is shorter than can
be made out, and of each is told which stretches lie behind paper, if the scene
wants that told: there it is drawn in dashes, and its head hollow.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from pastedown.outputs.pictures.hidden import Hider
from pastedown.outputs.pictures.line_art import solid_of
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.strokes import ARROW_LENGTH, length_of, rounded, towards
from pastedown.outputs.pictures.view import Seen, Spot

# On the picture, in millimetres: a shorter arrow is hardly more than its head; a stretch between two others that is
# shorter than the second is drawn as they are.
_LEAST_WAY, _STRETCH = 9.0, 2.0
# The line of an arrow ends so far inside its head.
_IN_HEAD = 0.7
# In millimetres of the scene: what moves has the arrow upon it, and paper nearer than this to the arrow is what moves,
# or what it is laid on, and does not hide it.
_UPON = 3.0
# Each straight part of a way is looked at in so many places.
_LOOKS = 4


@frozen
class Stretch:
    """A part of an arrow's line; `behind` paper or to be seen."""

    spots: tuple[Spot, ...]
    behind: bool


@frozen
class Arrow:
    """Its line, which ends inside the head, in stretches from its beginning, and the head's tip and direction."""

    stretches: tuple[Stretch, ...]
    tip: Spot
    before: Spot

    @property
    def is_behind(self) -> bool:
        """Whether its head lies behind paper."""
        return self.stretches[-1].behind


def ways_on(scene: Scene, scale: float) -> Iterator[list[Seen]]:
    """How what moves does so, in millimetres of the scene. A way that is too short for an arrow begins further off."""
    for way in scene.moves:
        places = rounded([scene.view.seen(point) for point in way])
        length = along(places) * scale
        by = max(_LEAST_WAY / length, 1.0) if length > 0 else 1.0
        x, y, near = places[-1]
        yield [(x + (a - x) * by, y + (b - y) * by, near + (c - near) * by) for a, b, c in places]


def along(spots: Sequence[Spot] | Sequence[Seen]) -> float:
    return sum(length_of((one[0], one[1]), (other[0], other[1])) for one, other in pairwise(spots))


def arrows_of(scene: Scene, scale: float, least: float = 0.0) -> list[Arrow]:
    """The arrows, but for those shorter than `least` on the picture."""
    ways = [way for way in ways_on(scene, scale) if along(way) * scale >= least]
    hider = Hider(solid_of(scene, scale)[0] if ways and scene.some_behind else ())
    return [_arrow(way, hider, scale) for way in ways]


def _arrow(way: list[Seen], hider: Hider, scale: float) -> Arrow:
    head = ARROW_LENGTH / scale
    looked = [_part(one, other, part / _LOOKS) for one, other in pairwise(way) for part in range(_LOOKS)]
    looked.append(way[-1])
    behind = [not hider.shows((x, y, near + _UPON)) for x, y, near in looked]
    spots = [(x, y) for x, y, _ in looked]
    tip = spots[-1]
    before = next((spot for spot in reversed(spots[:-1]) if length_of(spot, tip) >= head), spots[0])
    foot = towards(tip, before, min(head, length_of(tip, before)) * _IN_HEAD)
    # The line ends inside the head, however round its way is.
    kept = [number for number, spot in enumerate(spots[:-1]) if length_of(spot, tip) > head * _IN_HEAD] or [0]
    line = [(spots[number], behind[number]) for number in kept]
    return Arrow(tuple(_stretches([*line, (foot, line[-1][1])], _STRETCH / scale)), tip, before)


def _part(one: Seen, other: Seen, part: float) -> Seen:
    x, y, near = (a + (b - a) * part for a, b in zip(one, other, strict=True))
    return x, y, near


def _stretches(line: Sequence[tuple[Spot, bool]], shortest: float) -> Iterator[Stretch]:
    """What is alike one after the other; what is too short to be told goes with what follows it, the last with what is
    before it."""
    found: list[Stretch] = []
    for spot, behind in line:
        if not found:
            found.append(Stretch((spot,), behind))
        elif found[-1].behind == behind:
            found[-1] = Stretch((*found[-1].spots, spot), behind)
        elif along(found[-1].spots) < shortest:
            # It joins what came before it, if that is now the same again.
            short = found.pop()
            earlier = found.pop().spots if found else ()
            found.append(Stretch((*earlier, *short.spots, spot), behind))
        else:
            found.append(Stretch((found[-1].spots[-1], spot), behind))
    if len(found) > 1 and along(found[-1].spots) < shortest:
        last = found.pop()
        found[-1] = Stretch((*found[-1].spots, *last.spots), found[-1].behind)
    yield from found


def shafts_of(arrows: Iterable[Arrow]) -> list[tuple[Spot, ...]]:
    """What is to be seen of them: lines of other things leave off there."""
    found = []
    for arrow in arrows:
        found += [stretch.spots for stretch in arrow.stretches if not stretch.behind]
        if not arrow.is_behind:
            found.append((arrow.before, arrow.tip))
    return found
