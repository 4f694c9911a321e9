"""Dimension lines: arrows between two thin lines that stand off the edges, the measure beyond them."""

from collections.abc import Iterator

from pastedown.outputs.drawings.label import SIZE, Label
from pastedown.outputs.template.drawing import Patch, Stroke, Words, line
from pastedown.outputs.template.letter_width import ASCENT, DESCENT
from pastedown.outputs.template.line_kind import FINE

_PART = "dimension"
_GAP, _LINE, _END = 1.2, 6.0, 7.2
_CLEAR = 0.9
_HEAD_LENGTH, _HEAD_HALF = 2.0, 0.6
# From the base line to the middle of figures.
_MIDDLE = SIZE * 0.36

# How far from the edge the measure reaches.
DEPTH = _END + _CLEAR + SIZE * (ASCENT + DESCENT) + 0.8


def level_dimension(label: Label, left: float, right: float, edge: float) -> Iterator[Stroke | Patch | Words]:
    """Below the edge, from left to right."""
    for x in (left, right):
        yield line(_PART, FINE, (x, edge + _GAP), (x, edge + _END))
    yield line(_PART, FINE, (left, edge + _LINE), (right, edge + _LINE))
    head = min(_HEAD_LENGTH, (right - left) / 3)
    for x, inwards in ((left, head), (right, -head)):
        y = edge + _LINE
        yield Patch(_PART, ((x, y), (x + inwards, y - _HEAD_HALF), (x + inwards, y + _HEAD_HALF)))
    # A measure wider than the side would run into the lines that stand off it.
    below = _LINE if label.width <= right - left else _END
    yield label.words((left + right) / 2, edge + below + _CLEAR + ASCENT * SIZE, "middle")


def upright_dimension(label: Label, top: float, bottom: float, edge: float) -> Iterator[Stroke | Patch | Words]:
    """To the right of the edge, from top to bottom; it is read from below upwards where that is long enough."""
    for y in (top, bottom):
        yield line(_PART, FINE, (edge + _GAP, y), (edge + _END, y))
    yield line(_PART, FINE, (edge + _LINE, top), (edge + _LINE, bottom))
    head = min(_HEAD_LENGTH, (bottom - top) / 3)
    for y, inwards in ((top, head), (bottom, -head)):
        x = edge + _LINE
        yield Patch(_PART, ((x, y), (x - _HEAD_HALF, y + inwards), (x + _HEAD_HALF, y + inwards)))
    middle = (top + bottom) / 2
    if label.width <= bottom - top:
        yield label.words(edge + _LINE + _CLEAR + ASCENT * SIZE, middle, "middle", 90.0)
    else:
        yield label.words(edge + _END + _CLEAR, middle + _MIDDLE, "start")


def depth_of_upright(label: Label, height: float) -> float:
    """How far from the edge the measure of an upright dimension line reaches that is so high."""
    return DEPTH if label.width <= height else _END + _CLEAR + label.width
