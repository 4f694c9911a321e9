"""Drawing of plain text files: headings, paragraphs and tables that line up in a fixed-width letter.

Everything drawn here goes through `plain` first, so no text of a stranger's can break a line, hide or turn round.
"""

import re
import textwrap
from collections.abc import Iterable, Sequence

from attrs import frozen

from pastedown.outputs.safe_text import plain

PAGE_WIDTH = 92
NO_BREAK_SPACE = "\u00a0"

_GUTTER = "  "
# Letters that take two places or none: the blocks of East Asian writing and of pictures, combining accents, joiners.
_TWO_PLACES = re.compile("[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\uff00-\uff60\U0001f300-\U0001faff]")
_NO_PLACE = re.compile("[\u0300-\u036f\u200c\u200d\ufe00-\ufe0f]")


@frozen
class Column:
    """`widest` is the most letters a line of a cell may take; longer cells are wrapped, never cut off. `measures` stand
    to the right, and what is in brackets, the same measure in other units, goes on a line of its own. A `whole` word
    is never broken: it is what one searches for."""

    title: str
    widest: int
    to_the_right: bool = False
    measures: bool = False
    whole: bool = False


def heading(text: str, line: str = "=") -> list[str]:
    """The text, wrapped, with a line under it."""
    lines = wrapped(text)
    return [*lines, line * max(map(_places, lines), default=0)]


def wrapped(text: str, first: str = "", rest: str | None = None, width: int = PAGE_WIDTH) -> list[str]:
    """A paragraph in lines of at most `width` letters: the first begins with `first`, the others with `rest` (or as
    much blank). No-break spaces hold a number and its unit together and come out as spaces."""
    indent = " " * len(first) if rest is None else rest
    lines = textwrap.wrap(
        plain(text), width, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False, tabsize=1
    )
    return [line.replace(NO_BREAK_SPACE, " ").rstrip() for line in lines]


def table(columns: Sequence[Column], rows: Iterable[Sequence[str]]) -> list[str]:
    """Rows under titles, two spaces between columns."""
    cells = [[_cell(text, column) for text, column in zip(row, columns, strict=True)] for row in rows]
    titles = [_cell(column.title, column) for column in columns]
    widths = [max(_places(line) for row in (titles, *cells) for line in row[n]) for n in range(len(columns))]
    rule = [["-" * width] for width in widths]
    return [line for row in (titles, rule, *cells) for line in _row(row, widths, columns)]


def text_file(lines: Iterable[str]) -> bytes:
    """The lines as a file: UTF-8, each ended by a line feed."""
    return "".join(f"{line}\n" for line in lines).encode()


def _cell(text: str, column: Column) -> list[str]:
    parts = text.split(" (") if column.measures else [text]
    stacked = [parts[0], *(f"({part}" for part in parts[1:])]
    width = max(column.widest, _places(text)) if column.whole else column.widest
    return [line for part in stacked for line in wrapped(part, width=width)] or [""]


def _row(cells: Sequence[list[str]], widths: Sequence[int], columns: Sequence[Column]) -> list[str]:
    height = max(len(cell) for cell in cells)
    return [
        _GUTTER.join(
            _filled(cell[n] if n < len(cell) else "", width, column.to_the_right or column.measures)
            for cell, width, column in zip(cells, widths, columns, strict=True)
        ).rstrip()
        for n in range(height)
    ]


def _filled(text: str, width: int, to_the_right: bool) -> str:
    blank = " " * (width - _places(text))
    return blank + text if to_the_right else text + blank


def _places(text: str) -> int:
    return len(text) + len(_TWO_PLACES.findall(text)) - len(_NO_PLACE.findall(text))
