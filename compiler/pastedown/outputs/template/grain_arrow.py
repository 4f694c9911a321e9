"""The arrow with two heads that lies along the grain of the paper."""

from collections.abc import Iterator

from attrs import frozen

from pastedown.outputs.template.drawing import OnSheet, Patch, Stroke, Words, line
from pastedown.outputs.template.ground import Ground
from pastedown.outputs.template.letter_width import ASCENT
from pastedown.outputs.template.line_kind import THIN
from pastedown.outputs.template.name_block import spots_on
from pastedown.outputs.template.room import Box
from pastedown.outputs.template.shape import Bounds

_PART = "grain"
_SIZE = 2.4
_LENGTHS = (40.0, 25.0, 15.0, 10.0)
_HEAD_LENGTH = 2.6
_HEAD_HALF = 1.0
_WORD_ABOVE = 1.6
_ANGLES = {"width": 0.0, "height": 90.0}


@frozen
class Arrow:
    """The arrow and its word; `box` is the room they take."""

    stroke: Stroke
    heads: tuple[Patch, Patch]
    word: Words
    box: Box


def arrow_on_piece(grain: str, bounds: Bounds, window: Bounds, on_sheet: OnSheet, ground: Ground) -> Arrow | None:
    """The longest arrow that finds room on the piece, which it takes; None if none does."""
    places = list(spots_on(bounds.common(window), on_sheet))
    for length in _LENGTHS:
        for x, y in places:
            arrow = arrow_at(grain, x, y, length)
            if ground.on_piece(arrow.box):
                ground.room.take(arrow.box)
                return arrow
    return None


def arrow_at(grain: str, x: float, y: float, length: float) -> Arrow:
    """An arrow with its middle there, in millimetres of the sheet. `grain` is "height" or "width"."""
    half, angle = length / 2, _ANGLES[grain]
    # As much on the side without the word: an arrow close beside a fold would be taken for part of it.
    aside = _WORD_ABOVE + ASCENT * _SIZE
    box = Box(x, y, angle, half, half, aside, aside)
    along, across = box.directions
    ends = [(x + along[0] * way * half, y + along[1] * way * half) for way in (-1, 1)]
    word = Words("grain", x + across[0] * _WORD_ABOVE, y + across[1] * _WORD_ABOVE, _SIZE, "middle", angle)
    heads = tuple(_heads(ends, along, across))
    return Arrow(line(_PART, THIN, *ends), (heads[0], heads[1]), word, box)


def _heads(ends: list[tuple[float, float]], along: tuple[float, float], across: tuple[float, float]) -> Iterator[Patch]:
    for (x, y), inwards in zip(ends, (1, -1), strict=True):
        foot = x + along[0] * inwards * _HEAD_LENGTH, y + along[1] * inwards * _HEAD_LENGTH
        sides = [(foot[0] + across[0] * _HEAD_HALF * s, foot[1] + across[1] * _HEAD_HALF * s) for s in (-1, 1)]
        yield Patch(_PART, ((x, y), sides[0], sides[1]))
