"""Text as it stands in the columns of a terminal, with nothing in it that hides, overprints or turns the line about.

A recipe comes from strangers: a control character could move the cursor, a bidirectional one could show a line in
another order than it is read. Both are written out, `<U+202E>`.
"""

from collections.abc import Iterator
from unicodedata import category, combining, east_asian_width

from attrs import frozen

# A tab is drawn as so many blanks wherever it stands, so that a marker under it fits whatever a terminal makes of tabs.
TAB = "    "
# Marks stacked on one letter beyond this many are written out: a tower of them would cover the lines above.
MOST_MARKS = 3
ELLIPSIS = "…"


@frozen
class Cell:
    """What one character of text looks like, and how many columns that takes."""

    shown: str
    columns: int


def cells(text: str) -> tuple[Cell, ...]:
    """One cell a character. A combining mark that follows a letter takes no column."""
    return tuple(_cells(text))


def visible(text: str) -> str:
    """The text on one line: line ends, tabs and runs of blanks become one blank, hidden characters are written out."""
    return "".join(cell.shown for cell in _cells(" ".join(text.split())))


def columns(text: str) -> int:
    """How many columns the text takes, once `visible`."""
    return sum(cell.columns for cell in _cells(text))


def shortened(text: str, room: int) -> str:
    """The text on one line of at most `room` columns, "…" standing for what is cut off its end."""
    shown = visible(text[: room * (MOST_MARKS + 1)])
    whole = columns(shown) <= room and len(text) <= room * (MOST_MARKS + 1)
    return shown if whole else shown[: _fitting(shown, room - len(ELLIPSIS))] + ELLIPSIS


def wrapped(text: str, first: str, later: str, room: int) -> list[str]:
    """The text in lines of at most `room` columns; the first line begins with `first`, the others with `later`.

    A word wider than a line is cut.
    """
    lines, line, used = [], first, columns(first)
    for gap, word in _words(visible(text), room - max(columns(first), columns(later))):
        width = columns(word)
        if line not in (first, later) and used + len(gap) + width > room:
            lines.append(line)
            line, used, gap = later, columns(later), ""
        line, used = line + gap + word, used + len(gap) + width
    return [*lines, line.rstrip()]


def _cells(text: str) -> Iterator[Cell]:
    marks = MOST_MARKS  # a mark at the very start has no letter to stand on
    for letter in text:
        if combining(letter) or category(letter) in ("Mn", "Me"):
            marks += 1
            yield Cell(letter, 0) if marks <= MOST_MARKS else _written_out(letter)
            continue
        cell = _cell(letter)
        marks = 0 if cell.shown == letter else MOST_MARKS
        yield cell


def _cell(letter: str) -> Cell:
    if letter == "\t":
        return Cell(TAB, len(TAB))
    kind = category(letter)
    if kind.startswith("C") or kind in ("Zl", "Zp"):
        return _written_out(letter)
    return Cell(letter, 2 if east_asian_width(letter) in "WF" else 1)


def _written_out(letter: str) -> Cell:
    shown = f"<U+{ord(letter):04X}>"
    return Cell(shown, len(shown))


def _words(text: str, room: int) -> Iterator[tuple[str, str]]:
    """Each word and the blank before it; the pieces of a word too wide for a line have none."""
    for at, word in enumerate(text.split(" ")):
        gap = " " if at else ""
        while columns(word) > room:
            head = _fitting(word, room)
            yield gap, word[:head]
            word, gap = word[head:], ""
        yield gap, word


def _fitting(word: str, room: int) -> int:
    used = 0
    for at, cell in enumerate(_cells(word)):
        used += cell.columns
        if used > room:
            return at
    return len(word)
