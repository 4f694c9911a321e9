"""How many sheets of printer paper a piece takes, what of it each one shows, and the crosses that bring them together.

Neighbouring sheets show a common strip 10 mm wide. Along its middle runs a dotted line: the later sheet is trimmed
along it and laid on the same line of the earlier one, so that the crosses on that line meet and 5 mm are left for glue.
"""

from bisect import bisect_left
from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise, product

from attrs import evolve, frozen

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
# A join is moved so far at most, in such steps, to lie beside every line that runs along it: a fold on the very line
# that is trimmed is hard to see, and its dashes fill the gaps of the dots. So far beside it that the sheet laid on top
# does not show it at all, if possible, else as far as letters stand from lines. Choices, no source.
_MOVED, _STEP, _BESIDE = 12, Fraction(1), (OVERLAP / 2 + 1, Fraction(3))


@frozen
class Tile:
    """What one sheet shows of a piece. Row 1 is at the head, column 1 at the left edge."""

    row: int
    column: int
    window: Bounds


@frozen
class Tiling:
    """The sheets of one piece: `paper` as it lies for reading, and their rows and columns. `moved` is how far to the
    right and upwards they show more of the piece than if it lay in the middle of them all."""

    paper: Paper
    rows: int
    columns: int
    piece: Bounds
    moved: Spot = (Fraction(0), Fraction(0))

    @property
    def count(self) -> int:
        return self.rows * self.columns

    def tiles(self) -> tuple[Tile, ...]:
        """The sheets in reading order."""
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
        spare_across, spare_up = self._spare
        left = self.piece.left + spare_across / 2 + self.moved[0] + (column - 1) * (width - OVERLAP)
        top = self.piece.top - spare_up / 2 + self.moved[1] - (row - 1) * (height - OVERLAP)
        return Bounds(left, top - height, left + width, top)


    @property
    def _spare(self) -> Spot:
        """How much wider and higher the piece is than what the sheets show together: less than nought."""
        layout = Layout(self.paper)
        return (
            self.piece.width - _together(layout.drawing_width, self.columns),
            self.piece.height - _together(layout.drawing_height, self.rows),
        )

    def beside(self, upright: Collection[Fraction], level: Collection[Fraction]) -> "Tiling":
        """The same sheets, moved no farther than need be for their joins to lie beside the lines that run along them:
        `upright` ones by their x, `level` ones by their y. Where that is not possible they stay."""
        spare_across, spare_up = self._spare
        across = _clear_of(upright, self.upright_joins(), -spare_across / 2 - _RIM)
        up = _clear_of(level, self.level_joins(), -spare_up / 2 - _RIM)
        return evolve(self, moved=(across, up))


def tiling_of(piece: Bounds, paper: Paper) -> Tiling:
    """The way with the fewest sheets; upright where lying paper does no better."""
    return min(_tiling(piece, paper), _tiling(piece, paper.turned()), key=lambda way: way.count)


def _clear_of(lines: Collection[Fraction], joins: Sequence[Fraction], most: Fraction) -> Fraction:
    """How far all joins are to be moved, `most` at most either way."""
    in_order = sorted(set(lines))
    ways = [way for steps in range(_MOVED + 1) for way in (steps * _STEP, -steps * _STEP) if abs(way) <= most]
    for beside, by in product(_BESIDE, ways):
        if all(_is_beside(join + by, in_order, beside) for join in joins):
            return by
    return Fraction(0)


def _is_beside(join: Fraction, lines: Sequence[Fraction], far: Fraction) -> bool:
    after = bisect_left(lines, join)
    return all(abs(join - line) >= far for line in lines[max(after - 1, 0) : after + 1])


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
