"""A piece on sheets of printer paper at its true size: one, or several to be joined.

Takes a cut piece, gives its sheets in reading order. Afterwards every millimetre of its outline is on some sheet, and
no word lies over a line or over another word.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from pastedown.outputs.template.cut_out_names import cut_out_names
from pastedown.outputs.template.drawing import OnSheet, Sheet, Stroke, Words
from pastedown.outputs.template.edge_names import edge_names
from pastedown.outputs.template.fold_names import fold_names
from pastedown.outputs.template.foot_strip import foot_strokes, foot_words
from pastedown.outputs.template.grain_arrow import Arrow, arrow_on_piece
from pastedown.outputs.template.ground import Ground, first_free
from pastedown.outputs.template.head_strip import Head, facts_of, how_to_join, title_of
from pastedown.outputs.template.layout import Layout
from pastedown.outputs.template.name_block import name_block
from pastedown.outputs.template.paper import paper_for
from pastedown.outputs.template.piece_lines import cross, joins_of_sheet, lines_of_piece, shows_cross
from pastedown.outputs.template.piece_shape import PieceShape, shape_of
from pastedown.outputs.template.room import Room
from pastedown.outputs.template.shape import Spot, Straight, corners_of
from pastedown.outputs.template.tiling import MOST_SHEETS, Tile, Tiling, crosses, tiling_of
from pastedown.outputs.template.too_large import sheet_instead
from pastedown.plan.plan import CutPiece, Plan

# Where templates of every format lie.
FOLDER = "templates"

_NUMBER_SIZE = 2.1


def sheets_of(piece: CutPiece, plan: Plan) -> tuple[Sheet, ...]:
    """The sheets of one piece. A piece of more than MOST_SHEETS has one sheet that says so."""
    shape = shape_of(piece)
    tiling = tiling_of(shape.bounds, paper_for(plan.ruler))
    if tiling.count > MOST_SHEETS:
        return (sheet_instead(piece, plan, tiling),)
    tiling = tiling.beside(*_lines_along(shape))
    work = _Work(piece, plan, shape, tiling, _crosses(shape, tiling))
    return tuple(_sheet(evolve(work, shape=shape.seen_in(tile.window)), tile) for tile in tiling.tiles())


@frozen
class _Work:
    """What a sheet is drawn from. `shape` is what it shows of the piece. `crosses` are the middles of all register
    crosses, on the piece."""

    piece: CutPiece
    plan: Plan
    shape: PieceShape
    tiling: Tiling
    crosses: tuple[Spot, ...]


def _lines_along(shape: PieceShape) -> tuple[list[Fraction], list[Fraction]]:
    """Where folds and cuts inside a piece run upright, and where they run level."""
    lines = [fold.line for fold in shape.folds]
    lines += [move for cut in shape.inner_cuts for move in cut.moves if isinstance(move, Straight)]
    upright = [line.start[0] for line in lines if line.start[0] == line.end[0]]
    return upright, [line.start[1] for line in lines if line.start[1] == line.end[1]]


def _crosses(shape: PieceShape, tiling: Tiling) -> tuple[Spot, ...]:
    if tiling.count == 1:
        return ()
    all_moves = [shape.outline, *(cut.moves for cut in shape.inner_cuts), *((fold.line,) for fold in shape.folds)]
    return crosses(tiling, [corners_of(moves) for moves in all_moves])


def _sheet(work: _Work, tile: Tile) -> Sheet:
    layout = Layout(work.tiling.paper)
    window = tile.window
    on_sheet = OnSheet(layout.left - window.left, layout.drawing_top + window.top)
    strokes = [*lines_of_piece(work.shape, window, on_sheet), *joins_of_sheet(work.tiling, tile, on_sheet)]
    numbered = [(n, on_sheet.spot(at)) for n, at in enumerate(work.crosses, 1) if shows_cross(at, window)]
    for _, at in numbered:
        strokes += cross("register", at)
    ground = _ground(work.shape, layout, on_sheet, strokes)
    numbers = [words for n, (x, y) in numbered for words in _cross_number(n, float(x), float(y), ground)]
    names, arrow, unnamed = _words_on_piece(work, tile, on_sheet, ground)
    grain = work.piece.grain_as_cut
    head = Head(layout, work.tiling, tile, grain if arrow is None and grain != "any" else "")
    arrow = arrow or head.grain_arrow()
    joined = work.tiling.count > 1
    above = head.words(title_of(work.piece), _phrases(work, tile, unnamed))
    words = [*above, *numbers, *names, *foot_words(layout, joined)]
    drawn = [*strokes, *foot_strokes(layout, joined), *head.map_strokes(), *([arrow.stroke] if arrow else [])]
    patches = [*head.map_patches(), *(arrow.heads if arrow else ())]
    title = f"{work.piece.name}, actual size" + (f", {', '.join(work.tiling.place(tile))}" if joined else "")
    return Sheet(title, work.tiling.paper, tuple(drawn), tuple(patches), (*words, *([arrow.word] if arrow else [])))


def _words_on_piece(
    work: _Work, tile: Tile, on_sheet: OnSheet, ground: Ground
) -> tuple[list[Words], Arrow | None, int]:
    """The words and the arrow on and about the piece, and how many folds found no room for their name. They stand in
    the order of their worth: what comes first finds room first."""
    piece, bounds, window = work.piece, work.shape.bounds, tile.window
    words = [*edge_names(piece, bounds, window, on_sheet, ground)]
    arrow = None if piece.grain == "any" else arrow_on_piece(piece.grain_as_cut, bounds, window, on_sheet, ground)
    folds = fold_names(work.shape, window, on_sheet, ground)
    for name in (*folds, (*cut_out_names(work.shape, window, on_sheet, ground),)):
        words += name
    words += name_block(piece, bounds, window, on_sheet, ground)
    return words, arrow, folds.count(())


def _phrases(work: _Work, tile: Tile, unnamed: int) -> tuple[str, ...]:
    phrases = [*facts_of(work.piece, work.plan.ruler)]
    if work.tiling.count > 1:
        phrases.append(how_to_join(tile))
    if unnamed:
        folds = "1 fold" if unnamed == 1 else f"{unnamed} folds"
        phrases.append(f"{folds} without a name here: see the score chart")
    return (*phrases, work.plan.title)


def _ground(shape: PieceShape, layout: Layout, on_sheet: OnSheet, strokes: list[Stroke]) -> Ground:
    room = Room()
    for stroke in strokes:
        corners = corners_of(stroke.moves)
        for start, end in pairwise(corners):
            room.take_line(start, end)
    openings = [corners_of(tuple(map(on_sheet.move, cut.moves))) for cut in shape.inner_cuts if cut.closed]
    return Ground(
        (float(layout.left), float(layout.drawing_top)),
        (float(layout.right), float(layout.drawing_bottom)),
        corners_of(tuple(map(on_sheet.move, shape.outline))),
        openings,
        room,
    )


def _cross_number(number: int, x: float, y: float, ground: Ground) -> Iterator[Words]:
    """The number that a cross shares with its twin on the neighbouring sheet, in one of its four corners."""
    ways = (
        Words(str(number), x + across, y + down, _NUMBER_SIZE, anchor)
        for across, anchor in ((2.2, "start"), (-2.2, "end"))
        for down in (-1.7, 2.9)
    )
    yield from first_free(ground, ways)
