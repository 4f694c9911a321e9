"""Tables on sheets of printer paper: columns as wide as they need to be, or as there is room for."""

from collections.abc import Sequence

from attrs import frozen

from pastedown.outputs.booklet.blocks import Table, plain_said
from pastedown.outputs.booklet.leaf import Leaves
from pastedown.outputs.booklet.wrap import lines_of
from pastedown.outputs.safe_text import plain
from pastedown.outputs.template.letter_width import width_of
from pastedown.outputs.template.line_kind import CUT, FINE

_SIZE = 2.9
_STEP = _SIZE * 1.35
_GUTTER = 4.0
_ABOVE, _BELOW = 1.0, 1.2


@frozen
class _Column:
    """Where the column begins, how wide it is, and on which side its cells end."""

    at: float
    width: float
    to_the_right: bool


def set_table(leaves: Leaves, table: Table) -> None:
    """Titles and rows; the titles again on each new sheet. Rows too long for a sheet go on over several."""
    columns = _columns(table, leaves.room)
    cells = [[plain_said(cell) for cell in row] for row in table.rows]
    _titles(leaves, table, columns)
    for row in cells:
        lines = _lines(row, columns)
        if leaves.left_over < len(lines) * _STEP + _ABOVE + _BELOW:
            leaves.need(len(lines) * _STEP + _ABOVE + _BELOW)
            if leaves.is_fresh:
                _titles(leaves, table, columns)
        _row(leaves, lines, columns)
        leaves.rule(FINE, (0, 0), (leaves.room, 0))
    leaves.skip(3)


def _titles(leaves: Leaves, table: Table, columns: Sequence[_Column]) -> None:
    _row(leaves, _lines(table.columns, columns), columns)
    leaves.rule(CUT, (0, 0), (leaves.room, 0))


def _lines(row: Sequence[str], columns: Sequence[_Column]) -> list[list[str]]:
    """The row line by line, each line a text a column."""
    cells = [lines_of(cell, _SIZE, column.width) for cell, column in zip(row, columns, strict=True)]
    return [[cell[n] if n < len(cell) else "" for cell in cells] for n in range(max(map(len, cells)))]


def _row(leaves: Leaves, lines: list[list[str]], columns: Sequence[_Column]) -> None:
    leaves.y += _ABOVE
    for line in lines:
        leaves.need(_STEP)
        for text, column in zip(line, columns, strict=True):
            if text and column.to_the_right:
                leaves.write(text, _SIZE, _SIZE, column.at + column.width, "end")
            elif text:
                leaves.write(text, _SIZE, _SIZE, column.at)
        leaves.y += _STEP
    leaves.y += _BELOW


def _columns(table: Table, room: float) -> list[_Column]:
    rows = [table.columns, *([plain_said(cell) for cell in row] for row in table.rows)]
    wanted = [max(width_of(plain(row[n]), _SIZE) for row in rows) for n in range(len(table.columns))]
    widths = _shared(wanted, room - _GUTTER * (len(wanted) - 1))
    columns, at = [], 0.0
    for number, width in enumerate(widths):
        columns.append(_Column(at, width, number in table.to_the_right))
        at += width + _GUTTER
    return columns


def _shared(wanted: list[float], room: float) -> list[float]:
    """What each column wants, the widest cut down to one width until all find room."""
    if sum(wanted) <= room:
        return wanted
    left, given = room, [0.0] * len(wanted)
    for count, number in zip(
        range(len(wanted), 0, -1), sorted(range(len(wanted)), key=wanted.__getitem__), strict=True
    ):
        given[number] = min(wanted[number], left / count)
        left -= given[number]
    return given
