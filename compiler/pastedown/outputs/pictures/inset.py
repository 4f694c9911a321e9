"""What is too small on a picture of the whole is drawn larger beside it: which part that is, and the lines in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from attrs import evolve, frozen

from pastedown.outputs.pictures.line_art import Chain
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.view import Spot

# On the picture, in millimetres: what is new and smaller than this is drawn larger, in a room of this size. Chosen by
# looking at all examples.
_SMALL = 22.0
_WIDE, _TALL = 70.0, 34.0
# Of its larger side, so much of what is around it is shown on each side.
_AROUND = 0.5
_LEAST_GAIN = 1.6
_RIM = 2.0


@frozen
class Window:
    """A part of a picture, in millimetres of the scene, y upwards, and the scale in which it is drawn larger."""

    left: float
    right: float
    low: float
    high: float
    scale: float

    @property
    def corners(self) -> tuple[Spot, ...]:
        return (self.left, self.low), (self.right, self.low), (self.right, self.high), (self.left, self.high)

    def part(self, start: Spot, end: Spot) -> tuple[Spot, Spot] | None:
        """What of a straight line lies in the window, by halving planes (Liang and Barsky, 1984)."""
        (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
        begin, stop = 0.0, 1.0
        for way, room in ((-dx, x - self.left), (dx, self.right - x), (-dy, y - self.low), (dy, self.high - y)):
            if way == 0:
                if room < 0:
                    return None
            elif way < 0:
                begin = max(begin, room / way)
            else:
                stop = min(stop, room / way)
        if begin >= stop:
            return None
        return (x + dx * begin, y + dy * begin), (x + dx * stop, y + dy * stop)


def window_of(scene: Scene, scale: float, whole: tuple[Spot, Spot]) -> Window | None:
    """Around what is new and how it moves; None where that is to be seen well on the whole picture, which is drawn in
    `scale`. It reaches hardly further than the `whole`, from its lower left to its upper right corner."""
    points = [corner for number in scene.new for corner in scene.plates[number].corners()]
    spots = [scene.view.seen(point) for point in (*points, *(point for way in scene.moves for point in way))]
    if not points:
        return None
    left, right = min(spot[0] for spot in spots), max(spot[0] for spot in spots)
    low, high = min(spot[1] for spot in spots), max(spot[1] for spot in spots)
    largest = max(right - left, high - low)
    around = largest * _AROUND
    larger = min(_WIDE / (right - left + 2 * around), _TALL / (high - low + 2 * around), 1.0)
    if largest * scale >= _SMALL or larger < scale * _LEAST_GAIN:
        return None
    rim = _RIM / scale
    return Window(
        max(left - around, whole[0][0] - rim), min(right + around, whole[1][0] + rim),
        max(low - around, whole[0][1] - rim), min(high + around, whole[1][1] + rim), larger,
    )  # fmt: skip


def clipped(chains: Iterable[Chain], window: Window) -> Iterator[Chain]:
    """The chains so far as they lie in the window."""
    for chain in chains:
        spots: list[Spot] = []
        for one, other in pairwise(chain.spots):
            kept = window.part(one, other)
            if kept is None:
                continue
            if spots and spots[-1] != kept[0]:
                yield evolve(chain, spots=tuple(spots))
                spots = []
            spots = [*spots, kept[1]] if spots else list(kept)
        if spots:
            yield evolve(chain, spots=tuple(spots))
