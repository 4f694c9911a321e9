"""Where the words of the areas of a map stand: in the area itself where there is room, else in a column beside the map,
each with a line that ends in its area.

Afterwards no words lie over others, over the rim of an area, over what is hatched or over one of these lines.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from attrs import evolve, frozen

from pastedown.outputs.pictures.lettering import ROW, SIZE
from pastedown.outputs.pictures.strokes import leader_dot, straight
from pastedown.outputs.pictures.view import Spot
from pastedown.outputs.template.drawing import Patch, Stroke, Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, shortened, width_of
from pastedown.outputs.template.wrap import lines_of

# Room left free around words in an area, and from its rim to where a line points at it, in millimetres.
_FREE, _INSIDE = 0.7, 1.5
_BELOW_ONE_ANOTHER = 1.5
_MOST_ROWS = 3
# In an area letters may be smaller, where there is no other room; a choice.
_SIZES = (SIZE, 2.8)
# How far along the room that is left words are tried: the middle first.
_TRIED = (0.5, 0.25, 0.75, 0.0, 1.0)


@frozen
class Box:
    """An area on the sheet in millimetres, y downwards, and the words about it, which read `inches` or `metric` in one
    system of units alone. Words never stand in what is `hatched`."""

    left: float
    top: float
    right: float
    bottom: float
    words: str
    hatched: bool = False
    inches: str = ""
    metric: str = ""

    def shares(self, other: Box) -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        return across > 0 and min(self.bottom, other.bottom) > max(self.top, other.top)


_Way = tuple[Spot, Spot]


def words_of_areas(boxes: Sequence[Box], column: float, room: float, top: float) -> list[Stroke | Patch | Words]:
    """All words, and the lines of those that stand in the column, which begins at `column` and is `room` wide."""
    beside = [box for box in boxes if box.hatched or not any(True for _ in _places(box))]
    while True:
        drawn, ways = _in_column(beside, column, room, top)
        placed = [(box, _free_place(box, boxes, ways)) for box in boxes if box not in beside]
        crowded = [box for box, words in placed if words is None]
        if not crowded:
            return [*drawn, *(words for _, words in placed if words is not None)]
        beside.append(crowded[0])


def _places(box: Box) -> Iterator[tuple[Box, Words]]:
    """Where its words find room in an area, the largest letters first; level, then turned to be read from the right."""
    for size, angle in product(_SIZES, (0.0, 90.0)):
        longest = max(width_of(words, size) for words in (box.words, box.inches, box.metric))
        long, high = longest + 2 * _FREE, size * (ASCENT + DESCENT) + 2 * _FREE
        base = size * (ASCENT - DESCENT) / 2
        wide, tall = (long, high) if angle == 0 else (high, long)
        across, down = box.right - box.left - wide, box.bottom - box.top - tall
        if across < 0 or down < 0:
            continue
        for up, along in product(_TRIED, _TRIED):
            left, top = box.left + across * along, box.top + down * up
            x, y = left + wide / 2, top + tall / 2
            spot = (x, y + base) if angle == 0 else (x + base, y)
            words = evolve(_words(box, *spot, "middle", angle), size=size)
            yield Box(left, top, left + wide, top + tall, ""), words


def _words(box: Box, x: float, y: float, anchor: str = "start", angle: float = 0.0) -> Words:
    return Words(box.words, x, y, SIZE, anchor, angle, box.inches, box.metric)


def _free_place(box: Box, boxes: Sequence[Box], ways: Sequence[_Way]) -> Words | None:
    hatched = [other for other in boxes if other.hatched]
    for place, words in _places(box):
        if not any(place.shares(other) for other in hatched) and not any(_goes_through(way, place) for way in ways):
            return words
    return None


def _goes_through(way: _Way, box: Box) -> bool:
    """Whether a straight line enters the box: what is left of it between each pair of opposite sides."""
    (x, y), (to_x, to_y) = way
    begins, ends = 0.0, 1.0
    for start, step, low, high in ((x, to_x - x, box.left, box.right), (y, to_y - y, box.top, box.bottom)):
        if step == 0:
            if not low < start < high:
                return False
            continue
        near, far = sorted(((low - start) / step, (high - start) / step))
        begins, ends = max(begins, near), min(ends, far)
    return begins < ends


def _in_column(
    boxes: Sequence[Box], left: float, room: float, top: float
) -> tuple[list[Stroke | Patch | Words], list[_Way]]:
    """The words of these areas from top to bottom, in the order in which the areas lie."""
    drawn: list[Stroke | Patch | Words] = []
    ways: list[_Way] = []
    y = top
    for box in sorted(boxes, key=lambda one: (one.top + one.bottom, -one.left - one.right)):
        rows = [shortened(row, SIZE, room) for row in lines_of(box.words, SIZE, room)[:_MOST_ROWS]]
        height, tall = len(rows) * ROW, box.bottom - box.top
        y = max(y, (box.top + box.bottom) / 2 - height / 2 if tall < height else box.top)
        inside = min(_INSIDE, tall / 2)
        goal = min(max(y + height / 2, box.top + inside), box.bottom - inside)
        x = box.right - min(_INSIDE, (box.right - box.left) / 2)
        ways.append(((left - 0.8, y + height / 2), (x, goal)))
        drawn.append(straight("leader", *ways[-1]))
        drawn.append(leader_dot((x, goal)))
        base = ROW / 2 + SIZE * (ASCENT - DESCENT) / 2
        if rows == [box.words]:
            drawn.append(_words(box, left, y + base))
        else:
            drawn += [Words(row, left, y + number * ROW + base, SIZE) for number, row in enumerate(rows)]
        y += height + _BELOW_ONE_ANOTHER
    return drawn, ways
