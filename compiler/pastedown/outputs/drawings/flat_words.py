"""A drawing of a flat piece in words, for who cannot see it."""

from pastedown.outputs.drawings.flat_drawing import View
from pastedown.outputs.in_words import counted, measure
from pastedown.plan.plan import CutPiece
from pastedown.quantity.ruler import Ruler

_PLURALS = {"valley": "valley fold", "mountain": "mountain fold", "mark": "line that is not scored"}


def flat_words(piece: CutPiece, ruler: Ruler, view: View) -> str:
    """What is drawn: the piece, its size and how many lines it has. Where they lie stands in the score chart."""
    size = f"{measure(piece.width, ruler)} wide and {measure(piece.height, ruler)} high"
    drawn = f"Flat drawing of the {piece.name}, head up, {size}"
    folds = () if view is View.SIZE else piece.folds
    lines = [fold.kind for fold in (*folds, *piece.bend_lines)]
    told = [_counted(lines.count(kind), words) for kind, words in _PLURALS.items() if kind in lines]
    return f"{drawn}, with {' and '.join(told)}." if told else f"{drawn}."


def _counted(count: int, words: str) -> str:
    if words.startswith("line"):
        return f"{count} {words.replace('line that is', 'lines that are')}" if count > 1 else f"{count} {words}"
    return counted(count, words)
