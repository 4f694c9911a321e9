"""Takes a text in quotes, gives its plain words and the expressions in its slots.

`{{` and `}}` stand for braces. Blanks and line ends count as one blank, and none is kept at either end.
"""

import re
from collections.abc import Callable

from attrs import define, field

from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.source import Span
from pastedown.syntax.shortened import shortened
from pastedown.syntax.token import Token
from pastedown.tree.expression import Expression, Text

_BRACES = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")

_AMOUNT = r"(?<![\w.])(?:[0-9]+[ -])?(?:[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|[0-9]*[\u00bc-\u00be\u2150-\u215e])"
_FRACTION = r"(?<![\w.])(?:[0-9]+[ -])?(?:[0-9]+/[0-9]+|[0-9]*[\u00bc-\u00be\u2150-\u215e])"
_SIDE = rf"{_AMOUNT}\s?(?:in|mm|cm|\")?"
_UNIT = r"(?:mm|cm|ft|yd|gsm|pt|inch|inches|millimetres?|centimetres?)\b|[\"\u201d\u2033]"
# `in` is a word as well as a unit. Before one of these it is the word, unless a fraction stands before it.
_AFTER_THE_WORD_IN = (
    "the|an?|this|that|these|those|each|every|all|both|any|some|no|one|two|three|four|it|its|them|their|your|our|my"
    "|which|place|turn|order|front|total|half|line|pairs?|rows?|piles?|stacks?|hand|between|advance|case|sequence"
)
# The size of a sheet as it is bought is left alone: no design changes it.
_MEASURE = re.compile(
    rf"(?P<bought>{_SIDE}\s?[x\u00d7]\s?{_SIDE})"
    rf"|(?P<typed>{_AMOUNT}\s?(?:{_UNIT}|in\b(?!\s+(?:{_AFTER_THE_WORD_IN})\b))|{_FRACTION}\s?in\b)"
)

# Reads what stands between two offsets as an expression; None if it cannot be read, of which it has told then.
ReadSlot = Callable[[int, int], Expression | None]


def read_text(token: Token, read_slot: ReadSlot) -> tuple[Text | None, tuple[Diagnostic, ...]]:
    """The text of a token, quotes left out; None if a slot of it cannot be read. A readable one may have a warning."""
    reading = _Reading(token, read_slot)
    start, end = token.start + 1, token.end - 1
    done = start
    for match in _BRACES.finditer(token.source.text, start, end):
        reading.words(done, match.start())
        done = match.end()
        reading.braces(match)
    reading.words(done, end)
    reading.flush()
    text = Text(_trimmed(reading.pieces), token.span) if reading.whole else None
    return text, tuple(reading.diagnostics)


@define
class _Reading:
    """What has been read of one text."""

    token: Token
    read_slot: ReadSlot
    pieces: list[str | Expression] = field(factory=list)
    fragments: list[str] = field(factory=list)
    diagnostics: list[Diagnostic] = field(factory=list)
    whole: bool = True

    def words(self, start: int, end: int) -> None:
        text = self.token.source.text[start:end]
        if text:
            self.fragments.append(text)
        typed = _typed_measure(text)
        if typed:
            span = Span(self.token.source, start + typed.start(), start + typed.end())
            self.diagnostics.append(_digit_in_text(span))

    def braces(self, match: re.Match[str]) -> None:
        span = Span(self.token.source, match.start(), match.end())
        if match[0] in ("{{", "}}"):
            self.fragments.append(match[0][0])
        elif match[1] is None:
            self._broken(_lone_brace(span))
        elif not match[1].strip():
            self._broken(_empty(span))
        else:
            self._slot(match)

    def _slot(self, match: re.Match[str]) -> None:
        value = self.read_slot(match.start(1), match.end(1))
        if value is None:
            self.whole = False
        else:
            self.flush()
            self.pieces.append(value)

    def _broken(self, diagnostic: Diagnostic) -> None:
        self.diagnostics.append(diagnostic)
        self.whole = False

    def flush(self) -> None:
        """The words since the last slot become one piece."""
        if self.fragments:
            self.pieces.append("".join(self.fragments))
            self.fragments.clear()


def _trimmed(pieces: list[str | Expression]) -> tuple[str | Expression, ...]:
    single = [re.sub(r"\s+", " ", piece) if isinstance(piece, str) else piece for piece in pieces]
    if single and isinstance(single[0], str):
        single[0] = single[0].lstrip()
    if single and isinstance(single[-1], str):
        single[-1] = single[-1].rstrip()
    return tuple(piece for piece in single if piece != "")


def _typed_measure(text: str) -> re.Match[str] | None:
    """The first measure among the words."""
    return next((match for match in _MEASURE.finditer(text) if match["typed"]), None)


def _digit_in_text(span: Span) -> Diagnostic:
    return warning(
        "digit-in-text",
        span,
        f"The measure `{shortened(span.text)}` is typed into a text.",
        reason="When the design changes or is shown in other units, the typed measure stays as it is.",
        way_out=f"Write a slot: the measure's name in braces, or `{{{shortened(span.text)}}}` if it never changes.",
    )


def _lone_brace(span: Span) -> Diagnostic:
    return error(
        "bad-slot",
        span,
        f"The brace `{span.text}` stands alone in this text.",
        reason="What stands between `{` and `}` in a text is worked out and put in its place.",
        way_out=f"Write a whole slot, as in `{{sheets}}`, or `{span.text * 2}` for a brace that is to be printed.",
    )


def _empty(span: Span) -> Diagnostic:
    return error(
        "empty-slot",
        span,
        "The braces in this text are empty.",
        reason="What stands between braces in a text is worked out and put in its place; here that is nothing.",
        way_out="Write what is to be shown, as in `{sheets}`, or leave the braces out.",
    )
