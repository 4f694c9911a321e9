"""The lines of a piece as they stand on one sheet: its cuts and folds, the joins and the crosses."""

from collections.abc import Iterator
from fractions import Fraction
from math import hypot

from pastedown.outputs.template.clip import chains_within, straight_within
from pastedown.outputs.template.drawing import OnSheet, Stroke, line
from pastedown.outputs.template.line_kind import CUT, JOIN, REGISTER, SLIT, LineKind
from pastedown.outputs.template.piece_shape import Fold, PieceShape
from pastedown.outputs.template.shape import Bounds, Move, Round, Spot
from pastedown.outputs.template.tiling import CROSS_ARM, Tile, Tiling


def lines_of_piece(shape: PieceShape, window: Bounds, on_sheet: OnSheet) -> Iterator[Stroke]:
    """Cuts and folds as far as the window shows them."""
    yield from _cut("cut", CUT, shape.outline, True, window, on_sheet)
    for cut in shape.inner_cuts:
        kind = CUT if cut.closed else SLIT
        yield from _cut(kind.name, kind, cut.moves, cut.closed, window, on_sheet)
    for fold in shape.folds:
        yield from _fold(fold, window, on_sheet)


def joins_of_sheet(tiling: Tiling, tile: Tile, on_sheet: OnSheet) -> Iterator[Stroke]:
    """The dotted lines along which this sheet joins its neighbours."""
    window = tile.window
    for x in tiling.upright_joins():
        if window.left < x < window.right:
            yield line("join", JOIN, on_sheet.spot((x, window.top)), on_sheet.spot((x, window.bottom)))
    for y in tiling.level_joins():
        if window.bottom < y < window.top:
            yield line("join", JOIN, on_sheet.spot((window.left, y)), on_sheet.spot((window.right, y)))


def cross(part: str, middle: Spot, arm: Fraction = CROSS_ARM) -> Iterator[Stroke]:
    """A register cross with its ring; `middle` on the sheet."""
    x, y = middle
    yield line(part, REGISTER, (x - arm, y), (x + arm, y))
    yield line(part, REGISTER, (x, y - arm), (x, y + arm))
    radius = arm / 2
    corners = [(x + radius, y), (x, y + radius), (x - radius, y), (x, y - radius)]
    ring = tuple(
        Round(start, end, middle, radius, True) for start, end in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    yield Stroke(part, REGISTER, ring, closed=True)


def shows_cross(middle: Spot, window: Bounds) -> bool:
    """Whether a cross about `middle`, on the piece, lies wholly in the window."""
    x, y = middle
    across = window.left + CROSS_ARM <= x <= window.right - CROSS_ARM
    return across and window.bottom + CROSS_ARM <= y <= window.top - CROSS_ARM


def _cut(
    part: str, kind: LineKind, moves: tuple[Move, ...], closed: bool, window: Bounds, on_sheet: OnSheet
) -> Iterator[Stroke]:
    for chain in chains_within(moves, window):
        yield Stroke(part, kind, tuple(map(on_sheet.move, chain)), closed=closed and chain == moves)


def _fold(fold: Fold, window: Bounds, on_sheet: OnSheet) -> Iterator[Stroke]:
    """The pattern runs from the fold's own start, so that its dashes meet where two sheets are joined."""
    shown = straight_within(fold.line, window)
    if shown is not None:
        dashes = fold.kind.dashes(_distance(fold.line.start, fold.line.end))
        gone = _distance(fold.line.start, shown.start)
        yield Stroke(fold.kind.name.replace(" ", "-"), fold.kind, (on_sheet.move(shown),), dashes=dashes, gone=gone)


def _distance(a: Spot, b: Spot) -> Fraction:
    return Fraction(hypot(a[0] - b[0], a[1] - b[1]))
