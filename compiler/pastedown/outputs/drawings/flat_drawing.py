"""A flat piece to scale on one sheet: how large it is, which way up, and where each line lies from both edges.

Takes a cut piece, gives a sheet just large enough. Afterwards no word lies over a line or over another word.
"""

from collections.abc import Iterable, Iterator
from enum import Enum
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, field, frozen

from pastedown.outputs.drawings.dimension import DEPTH, depth_of_upright, level_dimension, upright_dimension
from pastedown.outputs.drawings.label import label_of
from pastedown.outputs.drawings.ladder import CAPTION, PITCH, Ladder, ladder_along, level_ladder, upright_ladder
from pastedown.outputs.drawings.ladder_captions import level_caption, upright_caption
from pastedown.outputs.drawings.legend import Legend, least_width, legend_of
from pastedown.outputs.drawings.scale import scaled, scales
from pastedown.outputs.drawings.title import Title, title_of_drawing
from pastedown.outputs.drawings.told_cuts import ToldCuts, told_cuts
from pastedown.outputs.in_words import prose
from pastedown.outputs.template.cut_out_names import cut_out_names
from pastedown.outputs.template.drawing import OnSheet, Patch, Sheet, Stroke, Words
from pastedown.outputs.template.edge_names import edge_names
from pastedown.outputs.template.grain_arrow import arrow_on_piece
from pastedown.outputs.template.ground import Ground, box_of
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.piece_lines import lines_of_piece
from pastedown.outputs.template.piece_shape import PieceShape, shape_of
from pastedown.outputs.template.room import Room
from pastedown.outputs.template.shape import corners_of
from pastedown.plan.plan import CutPiece
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler


class View(Enum):
    """How much a drawing tells, and the width and height in millimetres it may take. Lines: all of it; what fits on A4
    and on US Letter with margins of 20 mm and some lines of writing. Size: the piece before it is scored, with the
    lines that are drawn when it is cut, which take as much. Plain: which piece it is and which way it lies."""

    LINES = (170, 215)
    SIZE = (120, 115)
    PLAIN = (82, 80)


_RIM = 2.0
_BETWEEN = 2.5
# Without a ladder or a dimension there is still the name of an edge to be written beside the piece.
_EDGE_NAME = 5.0
_SIDES = ("width", "height")


@frozen
class _Beside:
    """The room that is kept free on the four sides of the piece, in millimetres."""

    left: float
    top: float
    right: float
    bottom: float


@frozen
class _Plan:
    """A drawing in one scale, laid out but not drawn yet."""

    piece: CutPiece
    ruler: Ruler
    shape: PieceShape
    across: Ladder | None
    up: Ladder | None
    title: Title
    view: View
    cuts: tuple[str, ...] = ()
    beside: _Beside = field(init=False)

    @beside.default
    def _keep_free(self) -> _Beside:
        if self.view is View.PLAIN:
            return _Beside(_EDGE_NAME, _EDGE_NAME, _EDGE_NAME, _EDGE_NAME)
        across = self.across.depth + CAPTION + 1 if self.across else _EDGE_NAME
        up = self.up.depth + CAPTION + 1 if self.up else _EDGE_NAME
        # Numbers that are moved apart reach beyond the piece.
        over = max(0.0, (self.up.span + PITCH - float(self.shape.bounds.height)) / 2) if self.up else 0.0
        below = max(across if self.across else DEPTH, over + _EDGE_NAME)
        right = depth_of_upright(label_of(self.piece.height, self.ruler), float(self.shape.bounds.height))
        return _Beside(up, max(across, over + _EDGE_NAME), up if self.up else right, below)

    @property
    def legend(self) -> Legend:
        strokes = lines_of_piece(self.shape, self.shape.bounds, self.on_sheet)
        return legend_of(strokes, self.width - 2 * _RIM)

    @property
    def width(self) -> float:
        drawn = self.beside.left + float(self.shape.bounds.width) + self.beside.right
        numbers = self.across.span + PITCH if self.across else 0.0
        return 2 * _RIM + max(drawn, numbers, self.title.width, 0.0 if self.view is View.PLAIN else least_width())

    @property
    def height(self) -> float:
        drawn = self.beside.top + float(self.shape.bounds.height) + self.beside.bottom
        legend = 0.0 if self.view is View.PLAIN else _BETWEEN + self.legend.height
        return 2 * _RIM + self.title.height + drawn + legend + self.told.height

    @property
    def told(self) -> ToldCuts:
        return told_cuts(self.cuts, self.width - 2 * _RIM)

    @property
    def fits(self) -> bool:
        crowded = self.across and self.up and self.across.span > float(self.shape.bounds.width) + 2 * PITCH
        # Numbers need their room, whatever else is told.
        widest, highest = (View.LINES if self.across or self.up else self.view).value
        return self.width <= widest and self.height - self.told.height <= highest and not crowded

    @property
    def on_sheet(self) -> OnSheet:
        spare = self.width - self.beside.left - self.beside.right - float(self.shape.bounds.width)
        left = Fraction(round((self.beside.left + spare / 2) * 10), 10)
        top = Fraction(round((_RIM + self.title.height + self.beside.top) * 10), 10)
        return OnSheet(left - self.shape.bounds.left, top + self.shape.bounds.top)


def flat_drawing(piece: CutPiece, ruler: Ruler, view: View = View.LINES, *, cuts_told: bool = False) -> Sheet:
    """The piece in the largest scale that fits. Where its lines are too many to be numbered, it says so; what fits in
    no scale has words alone. With `cuts_told` the sizes and places of what is cut out of it stand below in words."""
    cuts = tuple(prose(cut.text, ruler) for cut in piece.cuts) if cuts_told else ()
    shown = evolve(piece, folds=()) if view is View.SIZE else piece
    longest = max(piece.width.millimetres, piece.height.millimetres)
    across, up = (None if view is View.PLAIN else ladder_along(shown, side, ruler) for side in _SIDES)
    some_scales = [by for by in scales() if longest / by <= max(View.LINES.value)]
    plans = (evolve(_in_scale(shown, ruler, by, view, across, up), cuts=cuts) for by in some_scales)
    plan = next((plan for plan in plans if plan.fits), None)
    if plan is None:
        plain = (_in_scale(shown, ruler, by, view, None, None, left_out=bool(across or up)) for by in some_scales)
        plans = (evolve(each, cuts=cuts) for each in plain)
        plan = next((plan for plan in plans if plan.fits), None)
    return _sheet(plan) if plan else _words_alone(shown)


def _in_scale(
    piece: CutPiece, ruler: Ruler, by: int, view: View, across: Ladder | None, up: Ladder | None, left_out: bool = False
) -> _Plan:
    shape = scaled(shape_of(piece), by)
    scale = "" if view is View.PLAIN else f"scale 1:{by}"
    title = title_of_drawing(piece, scale, len(shape.folds) if left_out else 0, float(shape.bounds.width))
    return _Plan(piece, ruler, shape, across, up, title, view)


def _words_alone(piece: CutPiece) -> Sheet:
    title = title_of_drawing(piece, "too large or too small to be drawn", 0)
    paper = Paper("drawing", mm(Fraction(title.width + 2 * _RIM)), mm(Fraction(title.height + 2 * _RIM)))
    strokes, patches, words = _sorted(title.drawn(_RIM, _RIM))
    return Sheet(f"{piece.name}, not drawn", paper, strokes, patches, words)


def _sheet(plan: _Plan) -> Sheet:
    width, height = (Fraction(round(side * 10), 10) for side in (plan.width, plan.height))
    on_sheet, bounds = plan.on_sheet, plan.shape.bounds
    drawn: list[Stroke | Patch | Words] = [*lines_of_piece(plan.shape, bounds, on_sheet)]
    drawn += plan.title.drawn(_RIM, _RIM)
    if plan.view is not View.PLAIN:
        legend_top = float(height) - _RIM - plan.told.height - plan.legend.height
        drawn += plan.legend.drawn(_RIM, legend_top)
        drawn += plan.told.drawn(_RIM, legend_top + plan.legend.height)
        drawn += _measures(plan, float(width))
    ground = _ground(plan, drawn, float(width), float(height))
    drawn += edge_names(plan.piece, bounds, bounds, on_sheet, ground)
    grain = plan.piece.grain_as_cut
    arrow = None if grain == "any" else arrow_on_piece(grain, bounds, bounds, on_sheet, ground)
    drawn += (arrow.stroke, *arrow.heads, arrow.word) if arrow else ()
    drawn += cut_out_names(plan.shape, bounds, on_sheet, ground)
    return Sheet(f"{plan.piece.name}, flat", Paper("drawing", mm(width), mm(height)), *_sorted(drawn))


def _measures(plan: _Plan, width: float) -> Iterator[Stroke | Patch | Words]:
    """The ladders, or where there is none the whole width and the whole height."""
    bounds, on_sheet = plan.shape.bounds, plan.on_sheet
    (left, top), (right, bottom) = (on_sheet.float_spot(at) for at in _corners(plan.shape))
    by = float(plan.piece.width.millimetres / bounds.width) if bounds.width else 1.0
    if plan.across:
        places = [left + float(at.millimetres) / by for at in plan.across.places]
        room = (left - PITCH, right + PITCH) if plan.up else (_RIM + PITCH / 2, width - _RIM - PITCH / 2)
        yield from level_ladder(plan.across.near, places, bottom, 1, room)
        yield from level_ladder(plan.across.far, places, top, -1, room)
        yield from level_caption(plan.piece, plan.across.depth, (left, right), top, bottom, width - 2 * _RIM)
    else:
        yield from level_dimension(label_of(plan.piece.width, plan.ruler), left, right, bottom)
    if plan.up:
        # The sheet's y runs down: the ladder begins at the head.
        places = [bottom - float(at.millimetres) / by for at in reversed(plan.up.places)]
        over = max(0.0, (plan.up.span + PITCH - (bottom - top)) / 2)
        room = (top - over, bottom + over)
        yield from upright_ladder(plan.up.near[::-1], places, left, -1, room)
        yield from upright_ladder(plan.up.far[::-1], places, right, 1, room)
        yield from upright_caption(plan.up.depth, (left, right), top, bottom)
    else:
        yield from upright_dimension(label_of(plan.piece.height, plan.ruler), top, bottom, right)


def _corners(shape: PieceShape) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    return (shape.bounds.left, shape.bounds.top), (shape.bounds.right, shape.bounds.bottom)


def _ground(plan: _Plan, drawn: Iterable[Stroke | Patch | Words], width: float, height: float) -> Ground:
    room = Room()
    for each in drawn:
        if isinstance(each, Words):
            room.take(box_of(each))
        else:
            corners = corners_of(each.moves) if isinstance(each, Stroke) else [*each.corners, each.corners[0]]
            for start, end in pairwise(corners):
                room.take_line(start, end)
    openings = [corners_of(tuple(map(plan.on_sheet.move, cut.moves))) for cut in plan.shape.inner_cuts if cut.closed]
    outline = corners_of(tuple(map(plan.on_sheet.move, plan.shape.outline)))
    return Ground((_RIM, _RIM), (width - _RIM, height - _RIM), outline, openings, room)


def _sorted(
    drawn: Iterable[Stroke | Patch | Words],
) -> tuple[tuple[Stroke, ...], tuple[Patch, ...], tuple[Words, ...]]:
    all_of_it = list(drawn)
    return (
        tuple(each for each in all_of_it if isinstance(each, Stroke)),
        tuple(each for each in all_of_it if isinstance(each, Patch)),
        tuple(each for each in all_of_it if isinstance(each, Words)),
    )
