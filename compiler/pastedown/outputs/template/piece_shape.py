"""The lines of one cut piece as shapes, worked out once for all its sheets."""

from attrs import evolve, frozen

from pastedown.outputs.template.line_kind import FOLD_KINDS, LineKind
from pastedown.outputs.template.on_paper import stretches_on_paper
from pastedown.outputs.template.shape import Bounds, Move, Straight, bounds_of, moves_of, spot
from pastedown.plan.plan import CutPiece, FoldLine, PlanPath


@frozen
class InnerCut:
    """A window, if `closed`, or a slit."""

    name: str
    moves: tuple[Move, ...]
    closed: bool
    bounds: Bounds


@frozen
class Fold:
    """A fold line with the kind of line it is drawn in."""

    name: str
    kind: LineKind
    line: Straight
    bounds: Bounds


@frozen
class PieceShape:
    """All lines of a piece, and the box about its outline."""

    outline: tuple[Move, ...]
    bounds: Bounds
    inner_cuts: tuple[InnerCut, ...]
    folds: tuple[Fold, ...]

    def seen_in(self, window: Bounds) -> "PieceShape":
        """The piece without those folds, windows and slits that lie wholly outside the window."""
        return evolve(
            self,
            inner_cuts=tuple(cut for cut in self.inner_cuts if cut.bounds.meets(window)),
            folds=tuple(fold for fold in self.folds if fold.bounds.meets(window)),
        )


def shape_of(piece: CutPiece) -> PieceShape:
    """The piece's lines. What has no length is left out: there is nothing to draw."""
    outline = _drawable(moves_of(piece.outline))
    inner = tuple(_inner_cut(cut) for cut in piece.inner_cuts)
    openings = tuple(cut.moves for cut in inner if cut.closed)
    lines = [fold for fold in (*piece.folds, *piece.bend_lines) if fold.start != fold.end]
    if piece.is_rectangle and not openings:
        folds = [_fold(line, _line(line)) for line in lines]
    else:
        folds = [fold for line in lines for fold in _folds(line, outline, openings)]
    bounds = bounds_of(outline, spot(piece.outline.start))
    return PieceShape(outline, bounds, tuple(cut for cut in inner if cut.moves), tuple(folds))


def _inner_cut(cut: PlanPath) -> InnerCut:
    moves = _drawable(moves_of(cut))
    return InnerCut(cut.name, moves, cut.closed, bounds_of(moves, spot(cut.start)))


def _folds(fold: FoldLine, outline: tuple[Move, ...], openings: tuple[tuple[Move, ...], ...]) -> list[Fold]:
    """The fold as far as there is paper: one line, or several where a window or a notch lies in its way."""
    return [_fold(fold, line) for line in stretches_on_paper(_line(fold), outline, openings)]


def _line(fold: FoldLine) -> Straight:
    return Straight(spot(fold.start), spot(fold.end))


def _fold(fold: FoldLine, line: Straight) -> Fold:
    return Fold(fold.name, FOLD_KINDS[fold.kind], line, bounds_of((line,), line.start))


def _drawable(moves: tuple[Move, ...]) -> tuple[Move, ...]:
    return tuple(move for move in moves if move.start != move.end)
