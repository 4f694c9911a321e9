"""What the numbers of a ladder are measured from."""

from collections.abc import Iterator

from pastedown.outputs.drawings.label import SIZE
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, shortened
from pastedown.plan.plan import CutPiece

_CLEAR = 0.9


def level_caption(
    piece: CutPiece, depth: float, sides: tuple[float, float], top: float, bottom: float, room: float
) -> Iterator[Words]:
    """Below the ladder below, and above the one above; no longer than the `room`."""
    x = sum(sides) / 2
    for side, name, y in (
        ("left", piece.left, bottom + depth + _CLEAR + ASCENT * SIZE),
        ("right", piece.right, top - depth - _CLEAR - DESCENT * SIZE),
    ):
        named = f"from the {side} edge" if name in ("", side) else f"from the {side} edge, the {name}"
        yield Words(shortened(named, SIZE, room), x, y, SIZE, "middle")


def upright_caption(depth: float, sides: tuple[float, float], top: float, bottom: float) -> Iterator[Words]:
    """Beyond the ladder at the left, and beyond the one at the right, read from below upwards."""
    y = (top + bottom) / 2
    yield Words("from the tail", sides[0] - depth - _CLEAR - DESCENT * SIZE, y, SIZE, "middle", 90.0)
    yield Words("from the head", sides[1] + depth + _CLEAR + ASCENT * SIZE, y, SIZE, "middle", 90.0)
