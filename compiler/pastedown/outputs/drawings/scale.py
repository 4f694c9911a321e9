"""Scales of drawings: 1:1, 1:2, 1:5, 1:10 and so on, the series of ISO 5455 (from memory)."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve

from pastedown.outputs.template.piece_shape import Fold, InnerCut, PieceShape
from pastedown.outputs.template.shape import Bounds, Move, Round, Spot, Straight

_STEPS = (1, 2, 5)
# 1:10 000 draws a kilometre as a hand's breadth; nothing larger is a piece of paper.
_DECADES = 5


def scales() -> Iterator[int]:
    """By how much a drawing is smaller than the piece, the largest drawing first."""
    for decade in range(_DECADES):
        yield from (step * 10**decade for step in _STEPS)


def scaled(shape: PieceShape, by: int) -> PieceShape:
    """The shape so many times smaller, exactly."""
    share = Fraction(1, by)
    return PieceShape(
        _moves(shape.outline, share),
        _bounds(shape.bounds, share),
        tuple(_inner_cut(cut, share) for cut in shape.inner_cuts),
        tuple(_fold(fold, share) for fold in shape.folds),
    )


def _inner_cut(cut: InnerCut, share: Fraction) -> InnerCut:
    return evolve(cut, moves=_moves(cut.moves, share), bounds=_bounds(cut.bounds, share))


def _fold(fold: Fold, share: Fraction) -> Fold:
    line = Straight(_spot(fold.line.start, share), _spot(fold.line.end, share))
    return evolve(fold, line=line, bounds=_bounds(fold.bounds, share))


def _moves(moves: tuple[Move, ...], share: Fraction) -> tuple[Move, ...]:
    return tuple(_move(move, share) for move in moves)


def _move(move: Move, share: Fraction) -> Move:
    start, end = _spot(move.start, share), _spot(move.end, share)
    if isinstance(move, Round):
        return evolve(move, start=start, end=end, centre=_spot(move.centre, share), radius=move.radius * share)
    return Straight(start, end)


def _bounds(bounds: Bounds, share: Fraction) -> Bounds:
    return Bounds(bounds.left * share, bounds.bottom * share, bounds.right * share, bounds.top * share)


def _spot(place: Spot, share: Fraction) -> Spot:
    return place[0] * share, place[1] * share
