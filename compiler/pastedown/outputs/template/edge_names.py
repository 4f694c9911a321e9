"""The names of the four edges, beside the piece where there is room, else on it."""

from collections.abc import Iterator
from itertools import pairwise

from pastedown.outputs.template.drawing import OnSheet, Words
from pastedown.outputs.template.ground import GAP, Ground, first_beside_piece, first_on_piece
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, shortened
from pastedown.outputs.template.name_block import SHARES
from pastedown.outputs.template.shape import Bounds
from pastedown.plan.plan import CutPiece

_SIZE, _SMALL = 2.6, 2.1
_WIDEST = 45.0
# From the edge to the base line of words whose letters stand towards the edge, and of words that stand away from it.
_FEET_TO_EDGE = GAP + DESCENT * _SIZE
_HEADS_TO_EDGE = GAP + ASCENT * _SIZE


def edge_names(piece: CutPiece, bounds: Bounds, window: Bounds, on_sheet: OnSheet, ground: Ground) -> Iterator[Words]:
    """Head, tail, left and right edge, each if the sheet shows it. Words on the sides read from below upwards."""
    shown = bounds.common(window)
    left, top = on_sheet.float_spot((shown.left, shown.top))
    right, bottom = on_sheet.float_spot((shown.right, shown.bottom))
    across = [left + (right - left) * share for share in SHARES]
    up = [bottom + (top - bottom) * share for share in SHARES]
    if shown.top == bounds.top:
        yield from _level(ground, "head", across, top - _FEET_TO_EDGE, top + _HEADS_TO_EDGE)
    if shown.bottom == bounds.bottom:
        yield from _level(ground, "tail", across, bottom + _HEADS_TO_EDGE, bottom - _FEET_TO_EDGE)
    if shown.left == bounds.left:
        yield from _upright(ground, _side_names("left", piece.left), up, left - _FEET_TO_EDGE, left + _HEADS_TO_EDGE)
    if shown.right == bounds.right:
        beside, on_it = right + _HEADS_TO_EDGE, right - _FEET_TO_EDGE
        yield from _upright(ground, _side_names("right", piece.right), up, beside, on_it)


def _side_names(side: str, name: str) -> tuple[str, ...]:
    """What is written at the left or the right edge: which side it is, and its own name if it has one; that name alone
    where there is no room for both."""
    if name in ("", side):
        return (f"{side} edge",)
    short = shortened(name, _SIZE, _WIDEST)
    return f"{side} edge: {short}", short


def _level(ground: Ground, text: str, across: list[float], beside: float, on_it: float) -> tuple[Words, ...]:
    outside, inside = ([Words(text, x, y, _SIZE, "middle") for x in across] for y in (beside, on_it))
    return first_beside_piece(ground, outside) or first_on_piece(ground, ((words,) for words in inside))


def _upright(
    ground: Ground, texts: tuple[str, ...], up: list[float], beside: float, on_it: float
) -> tuple[Words, ...]:
    """The last of the texts in smaller letters before there is none."""
    tried = [*((text, _SIZE, up) for text in texts), (texts[-1], _SMALL, [*up, *_between(up)])]
    outside, inside = (
        [Words(text, x, y, size, "middle", 90.0) for text, size, places in tried for y in places]
        for x in (beside, on_it)
    )
    return first_beside_piece(ground, outside) or first_on_piece(ground, ((words,) for words in inside))


def _between(places: list[float]) -> list[float]:
    """The middles between neighbouring places."""
    return [(one + other) / 2 for one, other in pairwise(sorted(places))]
