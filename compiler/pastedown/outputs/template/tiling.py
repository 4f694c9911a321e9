"""How many sheets of printer paper a piece takes, what of it each one shows, and the crosses that bring them together.

Neighbouring sheets show a common strip 10 mm wide. Along its middle runs a dotted line: the later sheet is trimmed
along it and laid on the same line of the earlier one, so that the crosses on that line meet and 5 mm are left for glue.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from pastedown.outputs.template.layout import Layout
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.room import Box, Room
from pastedown.outputs.template.shape import Bounds, FloatSpot, Spot

OVERLAP = Fraction(10)
# More sheets than this are no template but a wallpaper, and every join adds its error: a choice, no source.
MOST_SHEETS = 60

# Half of the widest line, and a hair more, is drawn outside the bounds of a piece.
_RIM = Fraction(1, 2)

CROSS_ARM = Fraction(3)
_CROSS_ROOM = 4.0
_CROSS_FROM_CORNER = Fraction(14)
_PLACES_ALONG_A_JOIN = 17


@frozen
class Tile:
    """What one sheet shows of a piece. Row 1 is at the head, column 1 at the left edge."""

    row: int
    column: int
    window: Bounds


@frozen
class Tiling:
    """The sheets of one piece: `paper` as it lies for reading, and their rows and columns."""

    paper: Paper
    rows: int
    columns: int
    piece: Bounds

    @property
    def count(self) -> int:
        return self.rows * self.columns

    def tiles(self) -> tuple[Tile, ...]:
        """The sheets in reading order. The piece lies in the middle of all of them."""
        return tuple(
            Tile(row, column, self._window(row, column))
            for row in range(1, self.rows + 1)
            for column in range(1, self.columns + 1)
        )

    def place(self, tile: Tile) -> tuple[str, str]:
        """Which sheet it is, in words: its number in reading order, its row and its column."""
        number = (tile.row - 1) * self.columns + tile.column
        row_and_column = f"row {tile.row} of {self.rows}, column {tile.column} of {self.columns}"
        return f"sheet {number} of {self.count}", row_and_column

    def upright_joins(self) -> tuple[Fraction, ...]:
        """Where sheets join side by side: x of the piece."""
        return tuple(self._window(1, column).left + OVERLAP / 2 for column in range(2, self.columns + 1))

    def level_joins(self) -> tuple[Fraction, ...]:
        """Where sheets join one below the other: y of the piece."""
        return tuple(self._window(row, 1).top - OVERLAP / 2 for row in range(2, self.rows + 1))

    def _window(self, row: int, column: int) -> Bounds:
        layout = Layout(self.paper)
        width, height = layout.drawing_width, layout.drawing_height
        spare_across = self.piece.width - _together(width, self.columns)
        spare_up = self.piece.height - _together(height, self.rows)
        left = self.piece.left + spare_across / 2 + (column - 1) * (width - OVERLAP)
        top = self.piece.top - spare_up / 2 - (row - 1) * (height - OVERLAP)
        return Bounds(left, top - height, left + width, top)


def tiling_of(piece: Bounds, paper: Paper) -> Tiling:
    """The way with the fewest sheets; upright where lying paper does no better."""
    return min(_tiling(piece, paper), _tiling(piece, paper.turned()), key=lambda way: way.count)


def crosses(tiling: Tiling, corners: list[list[FloatSpot]]) -> tuple[Spot, ...]:
    """The middles of the register crosses on the piece: two on each join of two sheets, clear of the piece's lines if
    possible. `corners` are those lines as chains."""
    room = Room()
    for chain in corners:
        for start, end in pairwise(chain):
            room.take_line(start, end)
    found: list[Spot] = []
    for along in _joins(tiling):
        free = [place for place in along if room.is_free(_cross_box(place))]
        first, last = (free[0], free[-1]) if len(free) > 1 else (along[0], along[-1])
        found += [first, last]
    return tuple(found)


def _joins(tiling: Tiling) -> Iterator[list[Spot]]:
    """For every two neighbours, the places along their join at which a cross may stand."""
    for tile in tiling.tiles():
        window = tile.window
        if tile.column > 1:
            x = tiling.upright_joins()[tile.column - 2]
            yield [(x, y) for y in reversed(_places(window.bottom, window.top))]
        if tile.row > 1:
            y = tiling.level_joins()[tile.row - 2]
            yield [(x, y) for x in _places(window.left, window.right)]


def _places(start: Fraction, end: Fraction) -> list[Fraction]:
    first, last = start + _CROSS_FROM_CORNER, end - _CROSS_FROM_CORNER
    return [first + (last - first) * n / (_PLACES_ALONG_A_JOIN - 1) for n in range(_PLACES_ALONG_A_JOIN)]


def _cross_box(place: Spot) -> Box:
    return Box(float(place[0]), float(place[1]), 0, _CROSS_ROOM, _CROSS_ROOM, _CROSS_ROOM, _CROSS_ROOM)


def _tiling(piece: Bounds, paper: Paper) -> Tiling:
    layout = Layout(paper)
    rows = _sheets(piece.height + 2 * _RIM, layout.drawing_height)
    return Tiling(paper, rows, _sheets(piece.width + 2 * _RIM, layout.drawing_width), piece)


def _sheets(side: Fraction, shown: Fraction) -> int:
    """The least count for which that many strips of length `shown`, overlapping, cover the side."""
    return max(1, -((OVERLAP - side) // (shown - OVERLAP)))


def _together(shown: Fraction, count: int) -> Fraction:
    return shown * count - OVERLAP * (count - 1)
