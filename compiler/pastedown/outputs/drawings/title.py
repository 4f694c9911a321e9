"""Above a drawing: the piece's name, an arrow that says which way up it lies, and what it is."""

from collections.abc import Iterator

from attrs import frozen

from pastedown.outputs.in_words import GRAIN_WORDS
from pastedown.outputs.template.drawing import Patch, Stroke, Words, line
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.line_kind import THIN
from pastedown.outputs.template.name_block import face_up, how_many
from pastedown.outputs.template.wrap import lines_of
from pastedown.plan.plan import CutPiece

# A title is no narrower than this.
LEAST_WIDTH = 74.0
_NAME_SIZE = 3.6
_SIZE = 2.5
_ROW = 3.5
_NAME_ROW = 5.2
_WORDS_FROM = 7.0
_ARROW = 9.0
_HEAD_LENGTH, _HEAD_HALF = 3.0, 1.4
_BETWEEN = " · "


@frozen
class Title:
    """The name in its lines, and the rows below it."""

    names: tuple[str, ...]
    rows: tuple[str, ...]
    width: float

    @property
    def height(self) -> float:
        return max(self._names_height + _ROW * len(self.rows), _ARROW) + 1.5

    @property
    def _names_height(self) -> float:
        return _NAME_ROW * len(self.names)

    def drawn(self, left: float, top: float) -> Iterator[Stroke | Patch | Words]:
        """The title with its upper left corner there; the arrow points to the head."""
        x = left + 2.5
        yield line("way-up", THIN, (x, top + _ARROW), (x, top + _HEAD_LENGTH / 2))
        yield Patch(
            "way-up",
            ((x, top), (x - _HEAD_HALF, top + _HEAD_LENGTH), (x + _HEAD_HALF, top + _HEAD_LENGTH)),
        )
        for number, name in enumerate(self.names):
            yield Words(name, left + _WORDS_FROM, top + _NAME_SIZE + number * _NAME_ROW, _NAME_SIZE)
        for number, row in enumerate(self.rows):
            yield Words(row, left + _WORDS_FROM, top + self._names_height + (number + 0.75) * _ROW, _SIZE)


def title_of_drawing(piece: CutPiece, scale: str, unnumbered: int, width: float = LEAST_WIDTH) -> Title:
    """`scale` is empty where it is of no use; `unnumbered` lines are drawn without their distances. The title takes up
    to that `width`."""
    room = max(width, LEAST_WIDTH) - _WORDS_FROM
    grain = () if piece.grain == "any" else (f"grain {GRAIN_WORDS[piece.grain_as_cut]}",)
    number = () if piece.bought else (how_many(piece),)
    left_out = (f"{unnumbered} lines without numbers: see the score chart",) if unnumbered else ()
    named = (scale,) if scale else ()
    phrases = ("head at the top", face_up(piece), *number, f"from {piece.stock}", *grain, *left_out, *named)
    rows = [""]
    for phrase in (shortened(phrase, _SIZE, room) for phrase in phrases):
        longer = rows[-1] + _BETWEEN + phrase if rows[-1] else phrase
        if width_of(longer, _SIZE) <= room:
            rows[-1] = longer
        else:
            rows.append(phrase)
    return Title(tuple(_names(piece.name, room)), tuple(rows), room + _WORDS_FROM)


def _names(name: str, room: float) -> list[str]:
    """The name in two lines at most, the second with a mark if there is more."""
    first, *rest = lines_of(name, _NAME_SIZE, room)
    return [first, shortened(" ".join(rest), _NAME_SIZE, room)] if rest else [first]
