"""Ladders: every line across a piece with its distance from both edges, beside the piece, joined to it by leaders.

A ladder along the width stands below the piece (from the left edge) and above it (from the right edge), one along the
height to its left (from the tail) and to its right (from the head).
"""

from collections.abc import Iterator, Sequence

from attrs import frozen

from pastedown.outputs.drawings.label import SIZE, Label, label_of
from pastedown.outputs.drawings.spread import spread
from pastedown.outputs.template.drawing import Stroke, Words, line
from pastedown.outputs.template.letter_width import ASCENT, DESCENT
from pastedown.outputs.template.line_kind import FINE
from pastedown.plan.plan import CutPiece, FoldLine
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.quantity.ruler import Ruler

LETTERS = {"valley": "V", "mountain": "M", "mark": "D"}
PITCH = 3.1
# From the edge to the leader's start, its two bends, its end and the number, in millimetres.
_GAP, _BEND, _BENT, _END, _NUMBER = 0.8, 2.0, 6.0, 7.0, 7.8
# From the base line to the middle of figures.
MIDDLE = SIZE * 0.36
CAPTION = SIZE * (ASCENT + DESCENT) + 1.2


@frozen
class Ladder:
    """`places` are the lines' distances from the first edge, in the order in which they lie, with both edges; `near`
    the labels at the first edge's side and `far` those at the other."""

    places: tuple[Length, ...]
    near: tuple[Label, ...]
    far: tuple[Label, ...]

    @property
    def depth(self) -> float:
        """How far from the edge the numbers reach."""
        return _NUMBER + max(label.width for label in (*self.near, *self.far))

    @property
    def span(self) -> float:
        """The least room its numbers take side by side."""
        return PITCH * (len(self.places) - 1)


def ladder_along(piece: CutPiece, axis: str, ruler: Ruler) -> Ladder | None:
    """The ladder of the lines right across the piece along its "width" or its "height"; None if there are none."""
    side = piece.width if axis == "width" else piece.height
    found = [
        (at, LETTERS[fold.kind]) for fold in (*piece.folds, *piece.bend_lines) if (at := _place(fold, axis)) is not None
    ]
    if not found:
        return None
    marks = [(NO_LENGTH, ""), *sorted(found, key=lambda mark: mark[0].value), (side, "")]
    return Ladder(
        tuple(at for at, _ in marks),
        tuple(label_of(at, ruler, letter) for at, letter in marks),
        tuple(label_of(side - at, ruler, letter) for at, letter in marks),
    )


def _place(fold: FoldLine, axis: str) -> Length | None:
    if axis == "width":
        return fold.start.x if fold.start.x == fold.end.x else None
    return fold.start.y if fold.start.y == fold.end.y and fold.start.x != fold.end.x else None


def level_ladder(
    labels: Sequence[Label], places: Sequence[float], edge: float, away: int, room: tuple[float, float]
) -> Iterator[Stroke | Words]:
    """Leaders and upright numbers of a ladder along the width. `edge` is the height of the piece's edge on the sheet,
    `away` 1 for numbers below it and -1 for those above; the numbers stand in the `room` from left to right."""
    for label, x, moved in zip(labels, places, spread(places, PITCH, *room), strict=True):
        downs = [edge + away * down for down in (_GAP, _BEND, _BENT, _END)]
        yield line("leader", FINE, *zip((x, x, moved, moved), downs, strict=True))
        yield label.words(moved + MIDDLE, edge + away * _NUMBER, "end" if away > 0 else "start", 90.0)


def upright_ladder(
    labels: Sequence[Label], places: Sequence[float], edge: float, away: int, room: tuple[float, float]
) -> Iterator[Stroke | Words]:
    """Likewise along the height: `edge` is where the piece's edge lies from left to right, `away` 1 for numbers to the
    right of it and -1 for those to the left. `places` climb down the sheet."""
    for label, y, moved in zip(labels, places, spread(places, PITCH, *room), strict=True):
        outs = [edge + away * out for out in (_GAP, _BEND, _BENT, _END)]
        yield line("leader", FINE, *zip(outs, (y, y, moved, moved), strict=True))
        yield label.words(edge + away * _NUMBER, moved + MIDDLE, "start" if away > 0 else "end")
