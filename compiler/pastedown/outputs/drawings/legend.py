"""The kinds of lines that a drawing has, each a sample beside its words."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from pastedown.outputs.drawings.ladder import LETTERS
from pastedown.outputs.template.drawing import Stroke, Words, line
from pastedown.outputs.template.letter_width import width_of
from pastedown.outputs.template.line_kind import CUT, MARK, MOUNTAIN, SLIT, VALLEY, LineKind

ROW = 3.8
_SIZE = 2.3
_WORDS_FROM = 19.0
_BETWEEN = 5.0
# In line widths: whole periods of the pattern, ended by a dash.
_SAMPLES = {VALLEY: VALLEY.width * 57, MOUNTAIN: MOUNTAIN.width * 58, MARK: MARK.width * 76}
_SAMPLE = Fraction(14)
_IN_ORDER = (CUT, SLIT, VALLEY, MOUNTAIN, MARK)
_LETTER_OF = {VALLEY: LETTERS["valley"], MOUNTAIN: LETTERS["mountain"], MARK: LETTERS["mark"]}


@frozen
class Legend:
    """The entries in rows of `columns`, `step` millimetres apart."""

    kinds: tuple[LineKind, ...]
    columns: int
    step: float

    @property
    def height(self) -> float:
        return -(-len(self.kinds) // self.columns) * ROW

    def drawn(self, left: float, top: float) -> Iterator[Stroke | Words]:
        """The legend with its upper left corner there."""
        for number, kind in enumerate(self.kinds):
            row, column = divmod(number, self.columns)
            x, y = left + column * self.step, top + (row + 0.5) * ROW
            yield line("legend", kind, (x, y), (x + float(_SAMPLES.get(kind, _SAMPLE)), y))
            yield Words(_words(kind), x + _WORDS_FROM, y + _SIZE * 0.33, _SIZE)


def least_width() -> float:
    """The room that any entry takes."""
    return max(map(_width, _IN_ORDER))


def legend_of(strokes: Iterator[Stroke] | list[Stroke], room: float) -> Legend:
    """The legend of the kinds of lines among the strokes, in as many columns as find room."""
    used = {stroke.kind for stroke in strokes}
    kinds = tuple(kind for kind in _IN_ORDER if kind in used)
    step = max((_width(kind) for kind in kinds), default=room) + _BETWEEN
    return Legend(kinds, max(1, int((room + _BETWEEN) // step)), step)


def _width(kind: LineKind) -> float:
    return _WORDS_FROM + width_of(_words(kind), _SIZE)


def _words(kind: LineKind) -> str:
    letter = _LETTER_OF.get(kind, "")
    return f"{letter}  {kind.words}" if letter else kind.words
