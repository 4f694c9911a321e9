"""Why a length went to the mark it went to, in words."""

from pastedown.geometry.model import Move
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write_text

_WHY = {
    "down": "What goes inside something goes down to a mark, so that it still fits.",
    "up": "What goes over or round something goes up to a mark, so that it is never too small.",
    "nearest": "It may be more as well as less, so it goes to the nearest mark, and what hangs on it follows.",
}


def why_moved(move: Move, ruler: Ruler) -> str:
    """The reason for the direction of a move."""
    by = move.mark - move.written
    if move.way == "nearest" and abs(by.value) * 2 == ruler.marks.value:
        other = "above" if by.value < 0 else "below"
        return f"It lies half way between two marks; this one serves the whole design better than the one {other}."
    if move.lost:
        return write_text(move.lost, ruler)
    if move.further:
        return "With the mark it would go to by itself, the design does not go together."
    return _WHY[move.way]

