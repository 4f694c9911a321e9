"""A piece's cuts and folds as drawn: seen from its face, head up, x from the left edge, y from the tail."""

from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import ArcTo, CutPath, FlatPiece, LineTo, Point, Run, Score
from pastedown.plan.plan import FoldLine, PlanArc, PlanLine, PlanPath, PlanPoint
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import NO_LENGTH, Length


def plan_path(path: CutPath) -> PlanPath:
    """The cut as the plan holds it, its name in words."""
    return PlanPath(spoken(path.name), _point(path.start), tuple(_move(move) for move in path.moves), path.closed)


def inner_cuts(piece: FlatPiece) -> tuple[PlanPath, ...]:
    """Windows and slits, sorted by name and place."""
    paths = sorted(piece.inner_cuts, key=lambda path: (natural_key(path.name), path.start.x.value, path.start.y.value))
    return tuple(plan_path(path) for path in paths)


def fold_lines(piece: FlatPiece) -> tuple[FoldLine, ...]:
    """Every score right across the piece: upright lines for a run from side to side, level ones for the other."""
    return tuple(line for run in runs_in_order(piece) for line in _lines(run, run.scores, piece))


def bend_lines(piece: FlatPiece) -> tuple[FoldLine, ...]:
    """The edges of panels that bend, right across the piece."""
    return tuple(line for run in runs_in_order(piece) for line in _lines(run, bend_edges(run), piece))


def bend_edges(run: Run) -> tuple[Score, ...]:
    """Where panels of the run begin and end that bend: as lines of kind "mark", in the order in which they lie. An edge
    that is scored, or is the edge of the paper, needs no line of its own."""
    known = {NO_LENGTH, run.side, *(score.at for score in run.scores)}
    edges: dict[Length, Score] = {}
    for panel in run.panels:
        if panel.bends:
            for at, words in ((panel.start, "begins"), (panel.end, "ends")):
                if at not in known:
                    edges[at] = Score(f"{panel.name} {words}", at, "mark")
    return tuple(edges.values())


def side_of_bend_edge(run: Run, at: Length) -> str:
    """ "face" or "back": the side that lies inside the bend which begins or ends there. What is drawn on it does not
    show on the outside. The back where nothing says to which side the panel bends."""
    ways = {panel.bends for panel in run.panels if panel.bends and at in (panel.start, panel.end)}
    return "face" if ways == {"valley"} else "back"


def runs_in_order(piece: FlatPiece) -> list[Run]:
    """The runs that have panels, sorted by direction, never by the order of lines."""
    return sorted((run for run in piece.runs if run.panels), key=lambda run: (run.axis, run.first_edge, run.last_edge))


def _lines(run: Run, scores: tuple[Score, ...], piece: FlatPiece) -> list[FoldLine]:
    upright = run.axis == "width"
    side = piece.width if upright else piece.height
    lines = []
    for score in scores:
        at = side - score.at if run.reversed else score.at
        lines.append(FoldLine(spoken(score.name), score.kind, *_ends(upright, at, piece)))
    return lines


def _ends(upright: bool, at: Length, piece: FlatPiece) -> tuple[PlanPoint, PlanPoint]:
    if upright:
        return PlanPoint(at, NO_LENGTH), PlanPoint(at, piece.height)
    return PlanPoint(NO_LENGTH, at), PlanPoint(piece.width, at)


def _point(point: Point) -> PlanPoint:
    return PlanPoint(point.x, point.y)


def _move(move: LineTo | ArcTo) -> PlanLine | PlanArc:
    if isinstance(move, LineTo):
        return PlanLine(_point(move.end))
    return PlanArc(_point(move.end), _point(move.centre), move.radius, move.clockwise)
