"""Folds on templates end where the paper ends."""

from attrs import evolve

from outputs.template_pieces import chain, piece
from pastedown.outputs.template.piece_shape import shape_of
from pastedown.plan.plan import CutPiece, FoldLine, PlanArc, PlanLine, PlanPath, PlanPoint
from pastedown.quantity.quantity import mm


def corner(x: int, y: int) -> PlanPoint:
    return PlanPoint(mm(x), mm(y))


def upright(x: int) -> FoldLine:
    return FoldLine("crease", "valley", corner(x, 0), corner(x, 100))


def level(y: int) -> FoldLine:
    return FoldLine("crease", "valley", corner(0, y), corner(60, y))


def leaf(*folds: FoldLine, notched: bool = True, windows: tuple[PlanPath, ...] = ()) -> CutPiece:
    """60 mm by 100 mm; with a notch 10 mm deep that takes the corner of head and left edge away for 30 mm."""
    spots = [(0, 0), (0, 70), (10, 70), (10, 100), (60, 100), (60, 0)] if notched else None
    outline = chain("outline", *((mm(x), mm(y)) for x, y in spots)) if spots else None
    return evolve(piece("leaf", mm(60), mm(100), outline), folds=folds, inner_cuts=windows)


def drawn(cut: CutPiece) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    lines = [fold.line for fold in shape_of(cut).folds]
    return [((int(a[0]), int(a[1])), (int(b[0]), int(b[1]))) for a, b in ((line.start, line.end) for line in lines)]


def test_a_fold_ends_at_a_notch() -> None:
    assert drawn(leaf(upright(5))) == [((5, 0), (5, 70))]
    assert drawn(leaf(level(80))) == [((10, 80), (60, 80))]
    assert drawn(leaf(upright(20), level(50))) == [((20, 0), (20, 100)), ((0, 50), (60, 50))]


def test_a_fold_along_a_cut_is_drawn_only_where_there_is_paper_on_both_sides() -> None:
    assert drawn(leaf(upright(10))) == [((10, 0), (10, 70))]
    assert drawn(leaf(level(70))) == [((10, 70), (60, 70))]


def test_a_window_parts_a_fold() -> None:
    view = chain("view", (mm(20), mm(40)), (mm(20), mm(60)), (mm(40), mm(60)), (mm(40), mm(40)))
    low = chain("low", (mm(25), mm(10)), (mm(25), mm(20)), (mm(40), mm(20)), (mm(40), mm(10)))
    both = leaf(upright(30), notched=False, windows=(view, low))
    assert drawn(both) == [((30, 0), (30, 10)), ((30, 20), (30, 40)), ((30, 60), (30, 100))]
    assert drawn(leaf(upright(20), notched=False, windows=(view,))) == [((20, 0), (20, 40)), ((20, 60), (20, 100))]
    assert drawn(leaf(upright(50), notched=False, windows=(view,))) == [((50, 0), (50, 100))]


def test_a_fold_ends_at_a_round_corner() -> None:
    moves = (PlanLine(corner(0, 50)), PlanArc(corner(50, 100), corner(50, 50), mm(50), True))
    outline = PlanPath("outline", corner(0, 0), (*moves, PlanLine(corner(60, 100)), PlanLine(corner(60, 0))), True)
    round_leaf = evolve(piece("leaf", mm(60), mm(100), outline), folds=(upright(20), level(90)))
    assert drawn(round_leaf) == [((20, 0), (20, 90)), ((20, 90), (60, 90))]
