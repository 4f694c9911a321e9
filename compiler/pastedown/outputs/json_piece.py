"""Pieces as JSON: what to cut, its shape, and where to score it. The shapes are described in album.schema.json."""

from pastedown.outputs.json_value import Json, json_length, json_text
from pastedown.plan.plan import CutPiece, FoldLine, Mark, PlanArc, PlanCut, PlanLine, PlanPath, PlanPoint, ScoreChart
from pastedown.quantity.ruler import Ruler


def json_sized_piece(piece: CutPiece, ruler: Ruler) -> Json:
    """What a knife and a ruler need to know of a piece: the shape `sized_piece` of the schema."""
    return {
        "id": piece.id,
        "name": piece.name,
        "doc": piece.doc,
        "paths": list(piece.paths),
        "count": piece.count,
        "height": json_length(piece.height, ruler),
        "width": json_length(piece.width, ruler),
        "grain": piece.grain_as_cut,
        "left_edge": piece.left,
        "right_edge": piece.right,
        "face_up": piece.face_up,
        "cuts": [_cut(cut, ruler) for cut in piece.cuts],
    }


def json_whole_piece(piece: CutPiece, ruler: Ruler) -> Json:
    """The shape `piece` of the schema."""
    return {
        **json_sized_piece(piece, ruler),
        "stock": piece.stock,
        "stock_kind": piece.stock_kind,
        "outline": _path(piece.outline, ruler),
        "inner_cuts": [_path(cut, ruler) for cut in piece.inner_cuts],
        "folds": [_fold(fold, ruler) for fold in piece.folds],
        "score_charts": [_chart(chart, ruler) for chart in piece.score_charts],
        "bend_lines": [_fold(line, ruler) for line in piece.bend_lines],
        "bend_charts": [_chart(chart, ruler) for chart in piece.bend_charts],
    }


def _cut(cut: PlanCut, ruler: Ruler) -> Json:
    return {
        "kind": cut.kind,
        "name": cut.name,
        "edges": list(cut.edges),
        "sizes": [{"name": name, "size": json_length(size, ruler)} for name, size in cut.sizes],
        "text": json_text(cut.text, ruler),
    }


def _point(point: PlanPoint, ruler: Ruler) -> Json:
    return {"x": json_length(point.x, ruler), "y": json_length(point.y, ruler)}


def _path(path: PlanPath, ruler: Ruler) -> Json:
    return {
        "name": path.name,
        "closed": path.closed,
        "start": _point(path.start, ruler),
        "moves": [_move(move, ruler) for move in path.moves],
    }


def _move(move: PlanLine | PlanArc, ruler: Ruler) -> Json:
    if isinstance(move, PlanLine):
        return {"kind": "line", "end": _point(move.end, ruler)}
    return {
        "kind": "arc",
        "end": _point(move.end, ruler),
        "centre": _point(move.centre, ruler),
        "radius": json_length(move.radius, ruler),
        "clockwise": move.clockwise,
    }


def _fold(fold: FoldLine, ruler: Ruler) -> Json:
    return {
        "name": fold.name,
        "kind": fold.kind,
        "scored_from": fold.scored_from,
        "start": _point(fold.start, ruler),
        "end": _point(fold.end, ruler),
    }


def _chart(chart: ScoreChart, ruler: Ruler) -> Json:
    return {
        "axis": chart.axis,
        "first_edge": chart.first_edge,
        "last_edge": chart.last_edge,
        "side": json_length(chart.side, ruler),
        "last_panel": json_length(chart.last_panel, ruler),
        "marks": [_mark(mark, ruler) for mark in chart.marks],
        "panels": [{"name": name, "size": json_length(size, ruler)} for name, size in chart.panels],
    }


def _mark(mark: Mark, ruler: Ruler) -> Json:
    return {
        "name": mark.name,
        "kind": mark.kind,
        "scored_from": mark.scored_from,
        "from_first": json_length(mark.from_first, ruler),
        "from_last": json_length(mark.from_last, ruler),
        "gap": json_length(mark.gap, ruler),
    }
