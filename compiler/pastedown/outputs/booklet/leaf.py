"""Sheets of printer paper that are filled from the top downwards, in millimetres from their upper left corner."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve, frozen

from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words, line
from pastedown.outputs.template.letter_width import shortened
from pastedown.outputs.template.line_kind import FINE, LineKind
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.shape import Move, Round, Spot, Straight
from pastedown.quantity.quantity import mm

MARGIN = 20.0
_FOOT = 12.0
_FOOT_SIZE = 2.5
_ABOVE_FOOT = 6.0
# A kilometre.
_ENDLESS = 1_000_000


@frozen
class Foot:
    """What stands at the foot of every sheet: `left` the title, `right` the stamp."""

    left: str
    right: str


class Leaves:
    """The sheets filled so far; `y` is how far down the last one is filled. This is what changes while a booklet is
    laid out."""

    def __init__(self, paper: Paper, foot: Foot) -> None:
        self._paper, self._foot = paper, foot
        self._width, self._height = float(paper.width.millimetres), float(paper.height.millimetres)
        self._full: list[Sheet] = []
        self._begin()

    @property
    def room(self) -> float:
        """The width that may be written on."""
        return self._width - 2 * MARGIN

    @property
    def left_over(self) -> float:
        """The height that is free on this sheet."""
        return self._height - _FOOT - _ABOVE_FOOT - self.y

    @property
    def most(self) -> float:
        """The height of a whole sheet."""
        return self._height - _FOOT - _ABOVE_FOOT - MARGIN

    def trial(self) -> "Leaves":
        """One endless sheet of the same width, to see how high something gets."""
        return Leaves(evolve(self._paper, height=mm(_ENDLESS)), self._foot)

    @property
    def is_fresh(self) -> bool:
        return self.y == MARGIN

    def need(self, height: float) -> None:
        """Goes on to a new sheet unless so much height is free on this one."""
        if self.left_over < height and not self.is_fresh:
            self._end()

    def skip(self, height: float) -> None:
        """Leaves room free, but none at the top of a sheet."""
        if not self.is_fresh:
            self.y += height

    def write(self, text: str, size: float, down: float, at: float = 0.0, anchor: str = "start") -> None:
        """One line with its base line so far `down`, `at` from the left margin. The height is not taken."""
        self._words.append(Words(text, MARGIN + at, self.y + down, size, anchor))

    def rule(self, kind: LineKind, start: tuple[float, float], end: tuple[float, float]) -> None:
        """A line between two places, from the left margin and from where the sheet is filled to."""
        places = [(MARGIN + x, self.y + y) for x, y in (start, end)]
        self._strokes.append(line("rule", kind, *places))

    def draw(self, sheet: Sheet, at: float, raised: float = 0.0) -> None:
        """A drawing with its upper left corner `at` from the left margin, and so far `raised` above what is free: as
        much of it as is empty. The height is not taken."""
        across, down = Fraction(round((MARGIN + at) * 10), 10), Fraction(round((self.y - raised) * 10), 10)
        self._strokes += (_moved_stroke(stroke, across, down) for stroke in sheet.strokes)
        self._patches += (_moved_patch(patch, float(across), float(down)) for patch in sheet.patches)
        self._words += (evolve(words, x=words.x + float(across), y=words.y + float(down)) for words in sheet.words)

    def sheets(self) -> Iterator[Sheet]:
        """All sheets, each with its foot."""
        if not self.is_fresh or not self._full:
            self._end()
        for number, sheet in enumerate(self._full, 1):
            yield evolve(
                sheet,
                strokes=(*sheet.strokes, self._foot_rule()),
                words=(*sheet.words, *self._foot_words(number)),
            )

    def _begin(self) -> None:
        self.y = MARGIN
        self._words: list[Words] = []
        self._strokes: list[Stroke] = []
        self._patches: list[Patch] = []

    def _end(self) -> None:
        self._full.append(
            Sheet("booklet", self._paper, tuple(self._strokes), tuple(self._patches), tuple(self._words))
        )
        self._begin()

    def _foot_rule(self) -> Stroke:
        y = self._height - _FOOT - 3.6
        return line("rule", FINE, (MARGIN, y), (self._width - MARGIN, y))

    def _foot_words(self, number: int) -> Iterator[Words]:
        y, third = self._height - _FOOT, self.room / 3
        yield Words(shortened(self._foot.left, _FOOT_SIZE, third), MARGIN, y, _FOOT_SIZE)
        yield Words(f"page {number} of {len(self._full)}", self._width / 2, y, _FOOT_SIZE, "middle")
        yield Words(shortened(self._foot.right, _FOOT_SIZE, third), self._width - MARGIN, y, _FOOT_SIZE, "end")


def _moved_stroke(stroke: Stroke, across: Fraction, down: Fraction) -> Stroke:
    return evolve(stroke, moves=tuple(_moved(move, across, down) for move in stroke.moves))


def _moved(move: Move, across: Fraction, down: Fraction) -> Move:
    def spot(place: Spot) -> Spot:
        return place[0] + across, place[1] + down

    if isinstance(move, Round):
        return evolve(move, start=spot(move.start), end=spot(move.end), centre=spot(move.centre))
    return Straight(spot(move.start), spot(move.end))


def _moved_patch(patch: Patch, across: float, down: float) -> Patch:
    return Patch(patch.part, tuple((x + across, y + down) for x, y in patch.corners))
