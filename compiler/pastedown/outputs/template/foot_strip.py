"""Below the drawing: the kinds of lines in words, and two bars to measure before anything is cut.

The bars are 6 in and 150 mm long. A bar that is out by more than 1/64 in, the finest division of common inch rules, is
out by a quarter of one per cent, which two pieces that go into one another would feel.
"""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from pastedown.outputs.template.drawing import Stroke, Words, line
from pastedown.outputs.template.layout import Layout
from pastedown.outputs.template.line_kind import CUT, JOIN, MARK, MOUNTAIN, REGISTER, SLIT, THIN, VALLEY, LineKind
from pastedown.outputs.template.piece_lines import cross
from pastedown.quantity.quantity import Length, inches, mm

_LEGEND_SIZE = 2.3
_BAR_SIZE = 2.6
# Columns of the legend from the left margin: where samples begin, and where words begin.
_COLUMNS = ((Fraction(0), Fraction(14)), (Fraction(56), Fraction(81)), (Fraction(140), Fraction(154)))
_ROWS = (Fraction(2), Fraction(26, 5), Fraction(42, 5))
_SAMPLE = Fraction(12)
# In line widths: four periods of dashes, two of double-dotted ones and six of short dashes, each ended by a dash.
_SAMPLES = {VALLEY: VALLEY.width * 72, MOUNTAIN: MOUNTAIN.width * 92, MARK: MARK.width * 76}
_CROSS_ARM = Fraction(9, 5)
_NOTE = Fraction(12)
_TICK = Fraction(13, 5)
_SHORT_TICK = Fraction(8, 5)


@frozen
class CheckBar:
    """A bar of a round length, with a tick every `step` and a long one every `every` steps."""

    part: str
    words: str
    length: Length
    step: Length
    every: int
    down: Fraction


INCH_BAR = CheckBar("check-bar-inches", "measure me: 6 in", inches(6), inches("1/2"), 2, Fraction(16))
METRIC_BAR = CheckBar("check-bar-millimetres", "measure me: 150 mm", mm(150), mm(5), 2, Fraction(104, 5))

# 1/64 in is 0.396875 mm.
_PRINT_NOTE = (
    "Print on {paper} at actual size (100 %), not scaled to fit. If a bar is out by more than 1/64 in (0.4 mm), "
    "do not use this sheet."
)


def foot_strokes(layout: Layout, joined: bool) -> Iterator[Stroke]:
    """Samples and bars; `joined` says whether the sheet has neighbours."""
    for kind, row, column in _entries(joined):
        x, y = layout.left + _COLUMNS[column][0], layout.foot_top + _ROWS[row]
        if kind is REGISTER:
            yield from cross("legend", (x + _SAMPLE / 2, y), _CROSS_ARM)
        else:
            yield line("legend", kind, (x, y), (x + _SAMPLES.get(kind, _SAMPLE), y))
    for bar in (INCH_BAR, METRIC_BAR):
        yield from _bar(bar, layout)


def foot_words(layout: Layout, joined: bool) -> Iterator[Words]:
    """The legend's words, the note on printing and the bars' names."""
    for kind, row, column in _entries(joined):
        yield _words(kind.words, layout.left + _COLUMNS[column][1], layout.foot_top + _ROWS[row], _LEGEND_SIZE)
    note = _PRINT_NOTE.format(paper=layout.paper.name)
    yield Words(note, float(layout.left), float(layout.foot_top + _NOTE), _LEGEND_SIZE)
    for bar in (INCH_BAR, METRIC_BAR):
        end = layout.left + bar.length.millimetres
        yield _words(bar.words, end + 2, layout.foot_top + bar.down - _TICK / 2, _BAR_SIZE)


def _entries(joined: bool) -> tuple[tuple[LineKind, int, int], ...]:
    """Each kind with its row and its column."""
    always = ((CUT, 0, 0), (SLIT, 1, 0), (VALLEY, 0, 1), (MOUNTAIN, 1, 1), (MARK, 2, 1))
    return (*always, (JOIN, 0, 2), (REGISTER, 1, 2)) if joined else always


def _bar(bar: CheckBar, layout: Layout) -> Iterator[Stroke]:
    x, y = layout.left, layout.foot_top + bar.down
    yield line(bar.part, THIN, (x, y), (x + bar.length.millimetres, y))
    for n in range(int((bar.length / bar.step).value) + 1):
        at = x + bar.step.millimetres * n
        yield line(bar.part, THIN, (at, y), (at, y - (_SHORT_TICK if n % bar.every else _TICK)))


def _words(text: str, x: Fraction, middle: Fraction, size: float) -> Words:
    """The text with the middle of its small letters at that height."""
    return Words(text, float(x), float(middle) + size * 0.3, size)
