"""Above a drawing: the piece's name, an arrow that says which way up it lies, and what it is."""

from collections.abc import Iterator

from attrs import frozen

from pastedown.outputs.in_words import GRAIN_WORDS
from pastedown.outputs.template.drawing import Patch, Stroke, Words, line
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.line_kind import THIN
from pastedown.outputs.template.name_block import face_up, how_many
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
    """The name, and the rows below it."""

    name: str
    rows: tuple[str, ...]
    width: float

    @property
    def height(self) -> float:
        return _NAME_ROW + max(_ROW * len(self.rows), _ARROW - _NAME_ROW) + 1.5

    def drawn(self, left: float, top: float) -> Iterator[Stroke | Patch | Words]:
        """The title with its upper left corner there; the arrow points to the head."""
        x = left + 2.5
        yield line("way-up", THIN, (x, top + _ARROW), (x, top + _HEAD_LENGTH / 2))
        yield Patch(
            "way-up",
            ((x, top), (x - _HEAD_HALF, top + _HEAD_LENGTH), (x + _HEAD_HALF, top + _HEAD_LENGTH)),
        )
        yield Words(self.name, left + _WORDS_FROM, top + _NAME_SIZE, _NAME_SIZE)
        for number, row in enumerate(self.rows):
            yield Words(row, left + _WORDS_FROM, top + _NAME_ROW + (number + 0.75) * _ROW, _SIZE)


def title_of_drawing(piece: CutPiece, scale: str, unnumbered: int, width: float = LEAST_WIDTH) -> Title:
    """`scale` is empty where it is of no use; `unnumbered` lines are drawn without their distances. The title takes up
    to that `width`."""
    room = max(width, LEAST_WIDTH) - _WORDS_FROM
    grain = () if piece.grain == "any" else (f"grain {GRAIN_WORDS[piece.grain]}",)
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
    return Title(shortened(piece.name, _NAME_SIZE, room), tuple(rows), room + _WORDS_FROM)
