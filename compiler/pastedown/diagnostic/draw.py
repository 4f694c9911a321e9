"""Diagnostics as a maker reads them in a terminal: the sentence, the line with the words marked, why, and what to try.

Takes diagnostics in any order. Gives text of at most 100 columns, without a line end after the last line. No character
of a recipe reaches a terminal that could move its cursor or turn the order of a line.
"""

from collections.abc import Iterable
from itertools import groupby

from pastedown.diagnostic.diagnostic import Diagnostic, Label, Severity
from pastedown.diagnostic.excerpt import excerpt
from pastedown.diagnostic.in_order import WORST_FIRST, in_order, worst
from pastedown.diagnostic.visible_text import ELLIPSIS, columns, shortened, wrapped
from pastedown.source import Span

ROOM = 100
MOST_DRAWN = 50
MOST_LABELS = 12
MOST_WAYS = 8
LEAST_GUTTER = 3
# A sentence may quote the recipe, and a recipe may hold a word of a million letters.
LONGEST_PROSE = 1200
LONGEST_NAME = 60
MOST_FILES_NAMED = 3

_COLOURS = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.NOTE: "1;36"}
_QUIET = "2"
_STRONG = "1"


def draw(diagnostics: Iterable[Diagnostic], *, colour: bool = False) -> str:
    """All of them by file and position, then a summary; nothing for none.

    At most 50 are drawn, errors before warnings before notes; the rest are counted. `colour` adds terminal colours.
    """
    ordered = in_order(diagnostics)
    if not ordered:
        return ""
    drawn = worst(ordered, MOST_DRAWN)
    blocks = ["\n".join(_one(diagnostic, colour)) for diagnostic in drawn]
    if len(ordered) > len(drawn):
        blocks.append(f"and {len(ordered) - len(drawn)} more")
    return "\n\n".join([*blocks, _painted(summary(ordered), _STRONG, colour)])


def summary(diagnostics: Iterable[Diagnostic]) -> str:
    """How many of each kind and where: "2 errors, 1 warning in lantern.album"."""
    ordered = in_order(diagnostics)
    counts = [(sum(one.severity is severity for one in ordered), severity.value) for severity in WORST_FIRST]
    told = ", ".join(f"{count} {word}{'' if count == 1 else 's'}" for count, word in counts if count)
    files = dict.fromkeys(_short_name(one.place) for one in ordered if one.place)
    return f"{told or 'nothing to mend'}{_in_files(tuple(files))}"


def _in_files(files: tuple[str, ...]) -> str:
    if not files:
        return ""
    if len(files) > MOST_FILES_NAMED:
        return f" in {len(files)} files"
    *others, last = files
    return f" in {', '.join(others)} and {last}" if others else f" in {last}"


def _one(diagnostic: Diagnostic, colour: bool) -> list[str]:
    word = diagnostic.severity.value
    head, *rest = wrapped(f"{_short(diagnostic.sentence)} [{diagnostic.id}]", f"{word}: ", "  ", ROOM)
    lines = [_painted(word, _COLOURS[diagnostic.severity], colour) + head[len(word) :], *rest]
    lines += _frames(diagnostic, colour)
    lines += _advice(diagnostic.reason, "Why")
    lines += _advice(diagnostic.way_out, "Try")
    return lines


def _advice(text: str, head: str) -> list[str]:
    """`Try: ...`; each further line of the text begins with "or"."""
    lines: list[str] = []
    for way in list(filter(str.strip, text.split("\n")))[:MOST_WAYS]:
        first = f"  {head}: " if not lines else "   or: "
        lines += wrapped(_short(way), first, " " * len(first), ROOM)
    return lines


def _frames(diagnostic: Diagnostic, colour: bool) -> list[str]:
    """The excerpts, one frame a file: the maker's own first, then that of the fault, in each the lines as they
    stand."""
    marks = _marks(diagnostic)
    gutter = max((len(str(mark.span.line)) for mark in marks), default=0)
    lines: list[str] = []
    for _, group in groupby(marks, key=lambda mark: id(mark.span.source)):
        lines += _frame(tuple(group), max(gutter, LEAST_GUTTER), _COLOURS[diagnostic.severity] if colour else "")
    if len(diagnostic.labels) > MOST_LABELS:
        lines.append(f"  and {len(diagnostic.labels) - MOST_LABELS} more places")
    return lines


def _marks(diagnostic: Diagnostic) -> tuple[Label, ...]:
    """What to mark, the fault itself as a label without words: file by file, in each line by line."""
    main = (Label(diagnostic.span, ""),) if diagnostic.span else ()
    marks = (*main, *diagnostic.labels[:MOST_LABELS])
    sources = list(dict.fromkeys(mark.span.source for mark in sorted(marks, key=lambda mark: not mark.own)))

    def standing(mark: Label) -> tuple[int, int, bool, int]:
        return sources.index(mark.span.source), mark.span.line, mark not in main, mark.span.start

    return tuple(sorted(marks, key=standing))


def _frame(marks: tuple[Label, ...], gutter: int, paint: str) -> list[str]:
    named = next((mark.span for mark in marks if mark.own or not mark.words), marks[0].span)
    lines = [_painted(f"  in {_short_name(named)}, line {named.line}:", _QUIET, bool(paint))]
    standing = ""
    for mark in marks:
        words, sign = mark.words, "-" if mark.words and not mark.own else "^"
        cut = excerpt(mark.span, ROOM - gutter - 6)  # a marker may stand just past the end
        numbered = f"  {cut.line:>{gutter}} | {cut.shown}"
        if numbered != standing:
            lines.append(numbered.rstrip())
            standing = numbered
        if cut.last_line > cut.line:
            words = f"to line {cut.last_line}{': ' if words else ''}{words}"
        lines += _marker(" " * (gutter + 3) + "| ", cut.before, cut.wide, sign, _short(words), paint)
    return lines


def _marker(margin: str, before: int, wide: int, sign: str, words: str, paint: str) -> list[str]:
    """The marker, its words beside it where there is room, else on lines of their own below."""
    line = margin + " " * before + _painted(sign * wide, paint or _STRONG, bool(paint) and sign == "^")
    if not words:
        return [line]
    told = wrapped(words, "", "", ROOM - len(margin))
    if len(told) == 1 and len(margin) + before + wide + 1 + columns(told[0]) <= ROOM:
        return [f"{line} {told[0]}"]
    return [line, *(margin + words_line for words_line in told)]


def _short(text: str) -> str:
    return text if len(text) <= LONGEST_PROSE else text[:LONGEST_PROSE] + ELLIPSIS


def _short_name(span: Span) -> str:
    return shortened(span.source.name, LONGEST_NAME)


def _painted(text: str, code: str, colour: bool) -> str:
    return f"\x1b[{code}m{text}\x1b[0m" if colour else text
