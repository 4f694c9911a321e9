"""Above the drawing: what is shown, from what it is cut, how large it is, and which sheet of how many this is."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from pastedown.outputs.in_words import GRAIN_WORDS
from pastedown.outputs.template.drawing import Patch, Stroke, Words, line
from pastedown.outputs.template.grain_arrow import Arrow, arrow_at
from pastedown.outputs.template.layout import Layout
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.line_kind import FINE
from pastedown.outputs.template.name_block import face_up, how_many
from pastedown.outputs.template.tiling import Tile, Tiling
from pastedown.plan.plan import CutPiece
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_TITLE_SIZE = 4.2
_SIZE = 2.5
_TITLE_BASE = 3.4
_FIRST_ROW = 7.2
_ROW_STEP = 3.2
_ROWS = 4
_WIDEST_PHRASE = 110.0
_WIDEST_NAME = 20.0
_BETWEEN = " · "

_PART = "sheet-map"
_MAP_WIDTH = Fraction(30)
_MAP_HEIGHT = Fraction(10)
_MAP_CELL = Fraction(4)
_MAP_TOP = Fraction(8)
# Smaller cells are not drawn one by one: they would run into a black patch.
_LEAST_CELL = Fraction(6, 5)
_MAP_ROOM = 46.0
_ARROW_LENGTH = 11.0
_ARROW_ROOM = 14.0
_ARROW_DOWN = 11.0


@frozen
class Head:
    """What the strip says. `arrow` is "height" or "width" where the arrow of the grain found no room on the piece."""

    layout: Layout
    tiling: Tiling
    tile: Tile
    arrow: str

    @property
    def _right(self) -> float:
        return float(self.layout.right) - (_MAP_ROOM if self.tiling.count > 1 else 0.0)

    def words(self, title: str, phrases: tuple[str, ...]) -> Iterator[Words]:
        """Title, facts in at most four rows, and the sheet's place among its fellows."""
        left, top = float(self.layout.left), float(self.layout.head_top)
        room = self._right - left - (_ARROW_ROOM if self.arrow else 0.0)
        yield Words(shortened(title, _TITLE_SIZE, room), left, top + _TITLE_BASE, _TITLE_SIZE)
        for n, row in enumerate(_rows(phrases, room)):
            yield Words(row, left, top + _FIRST_ROW + n * _ROW_STEP, _SIZE)
        if self.tiling.count > 1:
            for n, text in enumerate(self.tiling.place(self.tile)):
                yield Words(text, float(self.layout.right), top + _TITLE_BASE + n * _ROW_STEP, _SIZE, "end")

    def grain_arrow(self) -> Arrow | None:
        """The arrow that found no room on the piece."""
        if not self.arrow:
            return None
        x, y = self._right - _ARROW_ROOM / 2, float(self.layout.head_top) + _ARROW_DOWN
        return arrow_at(self.arrow, x, y, _ARROW_LENGTH)

    def map_strokes(self) -> Iterator[Stroke]:
        """All sheets, small, as they lie."""
        if self.tiling.count == 1:
            return
        cell = self._cell
        left, top = self._map_corner
        right, bottom = left + cell * self.tiling.columns, top + cell * self.tiling.rows
        fine = cell >= _LEAST_CELL
        for n in range(self.tiling.columns + 1) if fine else (0, self.tiling.columns):
            yield line(_PART, FINE, (left + cell * n, top), (left + cell * n, bottom))
        for n in range(self.tiling.rows + 1) if fine else (0, self.tiling.rows):
            yield line(_PART, FINE, (left, top + cell * n), (right, top + cell * n))

    def map_patches(self) -> Iterator[Patch]:
        """This sheet among them, black."""
        if self.tiling.count == 1:
            return
        cell = self._cell
        left = self._map_corner[0] + cell * (self.tile.column - 1)
        top = self._map_corner[1] + cell * (self.tile.row - 1)
        corners = ((left, top), (left + cell, top), (left + cell, top + cell), (left, top + cell))
        yield Patch(_PART, tuple((float(x), float(y)) for x, y in corners))

    @property
    def _cell(self) -> Fraction:
        return min(_MAP_CELL, _MAP_WIDTH / self.tiling.columns, _MAP_HEIGHT / self.tiling.rows)

    @property
    def _map_corner(self) -> tuple[Fraction, Fraction]:
        return self.layout.right - self._cell * self.tiling.columns, self.layout.head_top + _MAP_TOP


def title_of(piece: CutPiece) -> str:
    """The piece's name and how many of it to cut."""
    return f"{piece.name}: {how_many(piece)}"


def facts_of(piece: CutPiece, ruler: Ruler) -> tuple[str, ...]:
    """Size by role, stock, side and grain, each short enough for a row."""
    grain = "grain: any" if piece.grain == "any" else f"grain {GRAIN_WORDS[piece.grain_as_cut]}"
    facts = (
        f"height {write(piece.height, ruler)} from tail to head",
        f"width {write(piece.width, ruler)} from {_side('left', piece.left)} to {_side('right', piece.right)}",
        f"stock: {piece.stock}",
        face_up(piece),
        grain,
    )
    return tuple(shortened(fact, _SIZE, _WIDEST_PHRASE) for fact in facts)


def how_to_join(tile: Tile) -> str:
    """What to do with this sheet once it is printed."""
    sides = ["left"] * (tile.column > 1) + ["upper"] * (tile.row > 1)
    if not sides:
        return "Lay this sheet down first: the others go on top, crosses on crosses."
    return f"Trim at the {' and '.join(sides)} dotted line, lay on, crosses on crosses."


def _side(side: str, name: str) -> str:
    return f"{shortened(name, _SIZE, _WIDEST_NAME)} ({side})" if name not in ("", side) else side


def _rows(phrases: tuple[str, ...], room: float) -> list[str]:
    """The phrases in rows; what finds no room in the last row is left out with a mark that there is more."""
    rows = [""]
    for phrase in phrases:
        longer = rows[-1] + _BETWEEN + phrase if rows[-1] else phrase
        if width_of(longer, _SIZE) <= room or not rows[-1] or len(rows) == _ROWS:
            rows[-1] = longer
        else:
            rows.append(phrase)
    return [shortened(row, _SIZE, room) for row in rows]
