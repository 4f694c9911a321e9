"""The line of a recipe that a diagnostic points at, cut to the width of a terminal, and where its marker stands."""

from attrs import frozen

from pastedown.diagnostic.visible_text import ELLIPSIS, MOST_MARKS, Cell, cells
from pastedown.source import Span


@frozen
class Excerpt:
    """`line` counts from 1. `shown` is the line or the part of it round the span; the marker stands `before`
    columns from its start and is `wide` columns wide. `last_line` is where the span ends; only its first line is shown.
    """

    line: int
    shown: str
    before: int
    wide: int
    last_line: int


def excerpt(span: Span, room: int) -> Excerpt:
    """The first line of the span in at most `room` columns (at least 10).

    A longer line is cut to a window about the start of the span, "…" standing for what is left out.
    """
    source = span.source
    start = min(max(span.start, 0), len(source.text))
    end = min(max(span.end, start), len(source.text))
    line, column = source.line_and_column(start)
    last_line = source.line_and_column(max(start, end - 1))[0]
    text = source.line(line)
    first = min(column - 1, len(text))
    last = len(text) if last_line > line else min(first + end - start, len(text))
    shown, before, wide = _window(text, first, last, room)
    return Excerpt(line, shown, before, max(1, wide), last_line)


def _window(text: str, first: int, last: int, room: int) -> tuple[str, int, int]:
    """What is shown of the line, the columns before character `first`, and those from there up to `last`."""
    # Enough characters on either side to fill the room even if each letter carries its marks; the rest of a line of a
    # million characters is never looked at.
    reach = room * (MOST_MARKS + 1)
    left = max(0, first - reach)
    near = cells(text[left : first + reach])
    begin, end = _bounds(near, first - left, room, whole=left == 0 and first + reach >= len(text))
    cut_left = ELLIPSIS if left + begin > 0 else ""
    cut_right = ELLIPSIS if left + end < len(text) else ""
    shown = cut_left + "".join(cell.shown for cell in near[begin:end]) + cut_right
    before = len(cut_left) + _columns(near[begin : first - left])
    wide = _columns(near[first - left : min(end, last - left)]) + (len(cut_right) if last - left > end else 0)
    return shown, before, wide


def _bounds(near: tuple[Cell, ...], at: int, room: int, whole: bool) -> tuple[int, int]:
    """Which cells fit: all of them, or a third of the room before `at` and the rest from there on."""
    if whole and _columns(near) <= room:
        return 0, len(near)
    room -= 2 * len(ELLIPSIS)
    begin, end = _back(near, at, room // 3), at
    used = _columns(near[begin:at])
    while end < len(near) and used + near[end].columns <= room:
        used += near[end].columns
        end += 1
    begin = _back(near, begin, room - used)
    while begin < at and near[begin].columns == 0:
        begin += 1  # a mark whose letter is cut off
    return begin, end


def _back(near: tuple[Cell, ...], at: int, room: int) -> int:
    """How far back from `at` the cells reach that fit the room."""
    while at > 0 and near[at - 1].columns <= room:
        at -= 1
        room -= near[at].columns
    return at


def _columns(some: tuple[Cell, ...]) -> int:
    return sum(cell.columns for cell in some)
