"""Where on a sheet words may go: in the drawing, on the piece or beside it, and never over a line or other words."""

from collections.abc import Callable, Iterable
from math import atan2, degrees, hypot

from attrs import frozen

from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, width_of
from pastedown.outputs.template.room import Box, Room
from pastedown.outputs.template.shape import FloatSpot, holds

# How far from a line the letters keep.
GAP = 0.9


@frozen
class Ground:
    """The drawing of one sheet in millimetres of the sheet: its upper left and lower right corner, the piece's outline
    and its openings as chains of corners, and what is taken so far."""

    upper_left: FloatSpot
    lower_right: FloatSpot
    outline: list[FloatSpot]
    openings: list[list[FloatSpot]]
    room: Room

    def on_piece(self, box: Box) -> bool:
        """Whether the box is free and lies on the piece itself."""
        return self.free(box) and self._is_paper(box.middle)

    def beside_piece(self, box: Box) -> bool:
        """Whether the box is free and lies outside the outline."""
        return self.free(box) and not holds(self.outline, *box.middle)

    def free(self, box: Box) -> bool:
        """Whether the box lies in the drawing and over nothing else. A free box is all on the piece or all off it."""
        (left, top), (right, bottom) = self.upper_left, self.lower_right
        inside = all(left <= x <= right and top <= y <= bottom for x, y in box.corners())
        return inside and self.room.is_free(box)

    def _is_paper(self, place: FloatSpot) -> bool:
        return holds(self.outline, *place) and not any(holds(opening, *place) for opening in self.openings)


@frozen
class SheetLine:
    """A straight line of the sheet as it is read: from `start`, `length` long, in the direction `along`, which is at
    `angle` degrees anticlockwise from the right and never downwards or to the left."""

    start: FloatSpot
    along: FloatSpot
    angle: float
    length: float

    def spot(self, along: float, above: float) -> FloatSpot:
        """The place so far along the line and so far above it, as its reader sees it."""
        (x, y), (dx, dy) = self.start, self.along
        return x + dx * along + dy * above, y + dy * along - dx * above


def as_read(one: FloatSpot, other: FloatSpot) -> SheetLine:
    """The line between two spots of a sheet, from left to right or, if it is upright, from below upwards."""
    start, end = (other, one) if (one[0], -one[1]) > (other[0], -other[1]) else (one, other)
    length = hypot(end[0] - start[0], end[1] - start[1])
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return SheetLine(start, along, degrees(atan2(-along[1], along[0])), length)


def box_of(words: Words) -> Box:
    """The room the words take."""
    width = max(width_of(text, words.size) for text in (words.text, words.inches, words.metric))
    before = {"start": 0.0, "middle": width / 2, "end": width}[words.anchor]
    below, above = DESCENT * words.size, ASCENT * words.size
    return Box(words.x, words.y, words.angle, before, width - before, below, above)


def beside_line(text: str, size: float, line: SheetLine, along: float, out: float) -> tuple[Words, Words]:
    """The text along a line, begun `along` from where reading starts: on its upper side, and on its lower side. The
    letters keep `out` from the line."""
    above, below = out + DESCENT * size, -out - ASCENT * size
    upper, lower = (Words(text, *line.spot(along, offset), size, "start", line.angle) for offset in (above, below))
    return upper, lower


def first_on_piece(ground: Ground, ways: Iterable[tuple[Words, ...]]) -> tuple[Words, ...]:
    """The first of the ways to write that finds room on the piece, and takes it; nothing if none does."""
    for way in ways:
        boxes = [box_of(words) for words in way]
        if all(map(ground.on_piece, boxes)):
            for box in boxes:
                ground.room.take(box)
            return way
    return ()


def first_beside_piece(ground: Ground, ways: Iterable[Words]) -> tuple[Words, ...]:
    """The first of the words that finds room off the piece, and takes it; nothing if none does."""
    return _first(ground, ways, ground.beside_piece)


def first_free(ground: Ground, ways: Iterable[Words]) -> tuple[Words, ...]:
    """The first of the words that finds room anywhere, and takes it; nothing if none does."""
    return _first(ground, ways, ground.free)


def _first(ground: Ground, ways: Iterable[Words], may: Callable[[Box], bool]) -> tuple[Words, ...]:
    for words in ways:
        if may(box_of(words)):
            ground.room.take(box_of(words))
            return (words,)
    return ()
