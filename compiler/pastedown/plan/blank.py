"""What two pieces must share to be cut as one: the same blank, laid either way round.

A half turn in the plane brings left to right and head to tail. A piece and its half turn are the same blank; a mirror
image is not, since its face would lie underneath.
"""

from collections.abc import Hashable
from fractions import Fraction

from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.piece import ArcTo, CutPath, FlatPiece, LineTo, Point, Run
from pastedown.quantity.quantity import Length

_Place = tuple[Fraction, Fraction]


def blank_key(piece: FlatPiece) -> Hashable:
    """Equal for pieces that are cut, scored and named alike. Where they stand in the design does not matter."""
    named = (piece.component, without_indexes(piece.name), piece.doc, piece.stock, piece.loose)
    laid = (piece.height, piece.width, piece.grain, piece.against_grain, piece.face_up)
    return named, laid, frozenset((_form(piece, turned=False), _form(piece, turned=True)))


def _form(piece: FlatPiece, turned: bool) -> Hashable:
    """Edges, ladders and cuts as they lie, or as they lie after a half turn."""
    edges = (piece.right, piece.left) if turned else (piece.left, piece.right)
    runs = frozenset(_run_form(run, turned) for run in piece.runs)
    cuts = [_cut_form(path, piece, turned) for path in (piece.outline, *piece.inner_cuts)]
    return edges, runs, cuts[0], frozenset(cuts[1:])


def _run_form(run: Run, turned: bool) -> Hashable:
    """Names of edges stay with the paper, so a ladder that counts from the tail never equals one from the head."""
    return run.axis, run.first_edge, run.last_edge, run.reversed != turned, run.panels, run.scores


def _cut_form(path: CutPath, piece: FlatPiece, turned: bool) -> Hashable:
    """The cut from one agreed starting point, so that it does not matter where the outline was begun."""
    stretches = _stretches(path, piece, turned)
    if path.closed:
        first = min(range(len(stretches)), key=lambda place: stretches[place][0], default=0)
        return True, (*stretches[first:], *stretches[:first])
    return False, min(stretches, _backwards(stretches))


# One stretch of a cut: where it starts and ends, then for a round one its centre and which way it goes (1 with the
# clock, 2 against it); for a straight one the centre is its start, and the way is nought.
_Stretch = tuple[_Place, _Place, _Place, int]


def _stretches(path: CutPath, piece: FlatPiece, turned: bool) -> tuple[_Stretch, ...]:
    start = _place(path.start, piece, turned)
    first = start
    stretches: list[_Stretch] = []
    for move in path.moves:
        end = _place(move.end, piece, turned)
        stretches.append(_stretch(start, end, move, piece, turned))
        start = end
    if path.closed and start != first:
        stretches.append((start, first, start, 0))
    return tuple(stretches)


def _stretch(start: _Place, end: _Place, move: LineTo | ArcTo, piece: FlatPiece, turned: bool) -> _Stretch:
    if isinstance(move, LineTo):
        return start, end, start, 0
    return start, end, _place(move.centre, piece, turned), 1 if move.clockwise else 2


def _backwards(stretches: tuple[_Stretch, ...]) -> tuple[_Stretch, ...]:
    return tuple(
        (end, start, centre if way else end, (0, 2, 1)[way]) for start, end, centre, way in reversed(stretches)
    )


def _place(point: Point, piece: FlatPiece, turned: bool) -> _Place:
    return _turn(point.x, piece.width, turned), _turn(point.y, piece.height, turned)


def _turn(along: Length, side: Length, turned: bool) -> Fraction:
    return (side - along).value if turned else along.value
