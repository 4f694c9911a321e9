"""The lines of one cut piece as shapes, worked out once for all its sheets."""

from attrs import frozen

from pastedown.outputs.template.line_kind import FOLD_KINDS, LineKind
from pastedown.outputs.template.shape import Bounds, Move, Straight, bounds_of, moves_of, spot
from pastedown.plan.plan import CutPiece


@frozen
class InnerCut:
    """A window, if `closed`, or a slit."""

    name: str
    moves: tuple[Move, ...]
    closed: bool


@frozen
class Fold:
    """A fold line with the kind of line it is drawn in."""

    name: str
    kind: LineKind
    line: Straight


@frozen
class PieceShape:
    """All lines of a piece, and the box about its outline."""

    outline: tuple[Move, ...]
    bounds: Bounds
    inner_cuts: tuple[InnerCut, ...]
    folds: tuple[Fold, ...]


def shape_of(piece: CutPiece) -> PieceShape:
    """The piece's lines. What has no length is left out: there is nothing to draw."""
    outline = _drawable(moves_of(piece.outline))
    inner = tuple(InnerCut(cut.name, _drawable(moves_of(cut)), cut.closed) for cut in piece.inner_cuts)
    folds = tuple(
        Fold(fold.name, FOLD_KINDS[fold.kind], Straight(spot(fold.start), spot(fold.end)))
        for fold in piece.folds
        if fold.start != fold.end
    )
    bounds = bounds_of(outline, spot(piece.outline.start))
    return PieceShape(outline, bounds, tuple(cut for cut in inner if cut.moves), folds)


def _drawable(moves: tuple[Move, ...]) -> tuple[Move, ...]:
    return tuple(move for move in moves if move.start != move.end)
