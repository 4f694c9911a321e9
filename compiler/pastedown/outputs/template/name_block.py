"""On the paper itself: what the piece is and which side lies up, so that it is still known once it is cut."""

from collections.abc import Iterator
from itertools import product

from pastedown.outputs.template.drawing import OnSheet, Words
from pastedown.outputs.template.ground import Ground, first_on_piece
from pastedown.outputs.template.letter_width import ASCENT, shortened, width_of
from pastedown.outputs.template.room import Box
from pastedown.outputs.template.shape import Bounds, FloatSpot
from pastedown.plan.plan import CutPiece

# Where along an edge, or across the piece, room is looked for: the middle first.
SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)

_LARGE = 3.2
_MIDDLING = 2.6
_SMALL = 2.1
_WIDEST = 90.0
_LINE_STEP = 1.35

_Line = tuple[str, float]


def name_block(piece: CutPiece, bounds: Bounds, window: Bounds, on_sheet: OnSheet, ground: Ground) -> tuple[Words, ...]:
    """Name, number and side in lines one below the other, level or upright; less of it on a small piece. Nothing runs
    between the lines unless there is no other room: a fold there would part what belongs together."""
    name, face = piece.name, face_up(piece)
    full = ((name, _LARGE), (how_many(piece), _MIDDLING), (face, _MIDDLING))
    small = ((name, _SMALL), (face, _SMALL))
    places = list(spots_on(bounds.common(window), on_sheet))
    kinds = product((full, small, small[1:]), (0.0, 90.0))
    ways = [(lines, x, y, angle) for lines, angle in kinds for x, y in places]
    whole = first_on_piece(ground, (_block(*way) for way in ways if ground.on_piece(_box(*way))))
    return whole or first_on_piece(ground, (_block(*way) for way in ways))


def spots_on(shown: Bounds, on_sheet: OnSheet) -> Iterator[FloatSpot]:
    """Places all over what the sheet shows of the piece, the middle first; in millimetres of the sheet."""
    left, top = on_sheet.float_spot((shown.left, shown.top))
    right, bottom = on_sheet.float_spot((shown.right, shown.bottom))
    for down, along in product(SHARES, SHARES):
        yield left + (right - left) * along, top + (bottom - top) * down


def face_up(piece: CutPiece) -> str:
    """Which side lies up, in words."""
    return f"this side up: {piece.face_up}" if piece.face_up else "this side up"


def how_many(piece: CutPiece) -> str:
    """How many to cut."""
    return "cut 1" if piece.count == 1 else f"cut {piece.count} pieces alike"


def _box(lines: tuple[_Line, ...], x: float, y: float, angle: float) -> Box:
    """The room that the whole block takes."""
    height = sum(size * _LINE_STEP for _, size in lines) / 2
    width = max(width_of(shortened(text, size, _WIDEST), size) for text, size in lines) / 2
    return Box(x, y, angle, width, width, height, height)


def _block(lines: tuple[_Line, ...], x: float, y: float, angle: float) -> tuple[Words, ...]:
    """The lines with their middle at the place; turned, they read from below upwards."""
    down = -sum(size * _LINE_STEP for _, size in lines) / 2
    block: list[Words] = []
    for text, size in lines:
        down += size * _LINE_STEP
        base = down - size * (_LINE_STEP - ASCENT) / 2
        at = (x + base, y) if angle else (x, y + base)
        block.append(Words(shortened(text, size, _WIDEST), *at, size, "middle", angle))
    return tuple(block)
