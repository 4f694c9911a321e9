"""Mirrored templates: a piece as it is seen from its back, for who marks out or cuts with the face down.

Left and right change over, and so do valley and mountain: what folds towards one side folds away from the other.
Heights stay as they are.
"""

from attrs import evolve

from pastedown.plan.plan import CutPiece, FoldLine, Plan, PlanArc, PlanLine, PlanPath, PlanPoint, ScoreChart
from pastedown.quantity.quantity import Length

_OTHER_KIND = {"valley": "mountain", "mountain": "valley"}
_NO_CHARTS: tuple[ScoreChart, ...] = ()


def plan_from_back(plan: Plan) -> Plan:
    """The plan with all its pieces as seen from the back. Their ids end in "-mirrored", so that nobody takes the file
    of one for the file of the other."""
    return evolve(plan, pieces=tuple(map(piece_from_back, plan.pieces)))


def piece_from_back(piece: CutPiece) -> CutPiece:
    """The piece as seen from its back; x is measured from the edge that lies left then. Score charts are left out."""
    width = piece.width
    return evolve(
        piece,
        id=f"{piece.id}-mirrored",
        name=f"{piece.name}, mirrored",
        left=piece.right if piece.right not in ("", "right") else "right edge of the face",
        right=piece.left if piece.left not in ("", "left") else "left edge of the face",
        face_up=f"back, {piece.face_up} down" if piece.face_up else "back, face down",
        outline=_path(piece.outline, width),
        inner_cuts=tuple(_path(cut, width) for cut in piece.inner_cuts),
        folds=tuple(_fold(fold, width) for fold in piece.folds),
        bend_lines=tuple(_fold(line, width) for line in piece.bend_lines),
        score_charts=_NO_CHARTS,
        bend_charts=_NO_CHARTS,
        cuts=(),
    )


def _path(path: PlanPath, width: Length) -> PlanPath:
    moves = tuple(_move(move, width) for move in path.moves)
    return evolve(path, start=_point(path.start, width), moves=moves)


def _move(move: PlanLine | PlanArc, width: Length) -> PlanLine | PlanArc:
    end = _point(move.end, width)
    if isinstance(move, PlanLine):
        return PlanLine(end)
    return evolve(move, end=end, centre=_point(move.centre, width), clockwise=not move.clockwise)


def _fold(fold: FoldLine, width: Length) -> FoldLine:
    kind = _OTHER_KIND.get(fold.kind, fold.kind)
    return evolve(fold, kind=kind, start=_point(fold.start, width), end=_point(fold.end, width))


def _point(point: PlanPoint, width: Length) -> PlanPoint:
    return PlanPoint(width - point.x, point.y)
