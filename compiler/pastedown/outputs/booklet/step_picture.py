"""The one place where the picture of a step is asked for.

So far a step shows the flat pieces it is about: before it is scored for cutting, with its lines for scoring, folding
and creasing, and which way it lies for all else.
"""

from pastedown.outputs.booklet.blocks import Picture, Pictures
from pastedown.outputs.drawings.flat_drawing import View, flat_drawing
from pastedown.outputs.drawings.flat_words import flat_words
from pastedown.plan.plan import BuildStep, CutPiece, Plan

_VIEWS = {"cut": View.SIZE, "score": View.LINES, "fold": View.LINES}
# More drawings side by side show nothing any more: a choice, no source.
_MOST = 6


class StepPictures:
    """The pictures of a plan's steps. A piece is drawn once a view, however many steps show it."""

    def __init__(self, plan: Plan) -> None:
        self._ruler = plan.ruler
        self._pieces = {piece.id: piece for piece in plan.pieces}
        self._drawn: dict[tuple[str, View], Picture] = {}

    def of(self, step: BuildStep) -> Pictures | None:
        """What the step shows; None where it is about no piece, or about so many that none is meant."""
        pieces = [self._pieces[name] for name in step.pieces if name in self._pieces]
        if not 0 < len(pieces) <= _MOST:
            return None
        view = _VIEWS.get(step.kind, View.PLAIN)
        return Pictures(tuple(self._picture(piece, view) for piece in pieces))

    def _picture(self, piece: CutPiece, view: View) -> Picture:
        key = piece.id, view
        if key not in self._drawn:
            sheet = flat_drawing(piece, self._ruler, view)
            self._drawn[key] = Picture(f"{piece.id}-{view.name.lower()}", sheet, flat_words(piece, self._ruler, view))
        return self._drawn[key]
