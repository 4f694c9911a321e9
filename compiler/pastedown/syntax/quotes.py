"""Texts that end too early or too late: an inch mark that closes one, a quote that is missing.

One quote too many or too few turns everything behind it inside out. So these are looked for before anything else, once
it is known that the file cannot be read as it stands; a file that can be read is never judged by these rules.
"""

import re
from collections.abc import Sequence

from attrs import frozen

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.source import Span
from pastedown.syntax.language import Language
from pastedown.syntax.statement_heads import STATEMENT_WORDS, type_at
from pastedown.syntax.token import UNCLOSED, Token

# Each mended text means reading on from its end; more than this in one file are left as they are.
_MOST_MENDED = 40

_ENDS_IN_A_NUMBER = re.compile(r"[0-9\u00bc-\u00be\u2150-\u215e]$")
_QUOTES = re.compile(r'["\u201c\u201d]')
_HEAD_ON_ITS_LINE = re.compile(
    r"\n[ \t]*(?:\}|(?:use|component|album|variant|takes|part|piece|run|panel|fold|each|if|join|close|align|place|pose"
    r"|require|prefer|fixed|step)[ \t]+[a-z]|[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*|\[[^\]\n]*\])*[ \t]*(?:=|with[ \t]*\{))"
)


@frozen
class _Mend:
    """The text that begins at token `at` really ends at the offset `end`."""

    at: int
    end: int
    diagnostic: Diagnostic


def mend_quotes(tokens: list[Token], language: Language) -> tuple[list[Token], list[Diagnostic]]:
    """The tokens with every suspicious text ended where it was most likely meant to end, and what to say about each."""
    diagnostics: list[Diagnostic] = []
    looked = 0
    while len(diagnostics) < _MOST_MENDED:
        mend = _first_mend(tokens, looked)
        if mend is None:
            break
        diagnostics.append(mend.diagnostic)
        token = tokens[mend.at]
        text = Token("TEXT", token.source.text[token.start : mend.end], token.source, token.start, mend.end)
        text.spoiled = True
        rest = language.tokens(token.source, mend.end, len(token.source.text))
        tokens = [*tokens[: mend.at], text, *rest]
        looked = mend.at + 1
    return tokens, diagnostics


def _first_mend(tokens: Sequence[Token], start: int) -> _Mend | None:
    for at in range(start, len(tokens)):
        token = tokens[at]
        if token.type == "TEXT":
            mend = _inch_mark(tokens, at) or _runs_over_statements(tokens, at)
            if mend is not None:
                return mend
        elif token.type == UNCLOSED:
            return _never_closed(tokens, at)
    return None


def _inch_mark(tokens: Sequence[Token], at: int) -> _Mend | None:
    """`"needs 1/2" of room"`: a number before the closing quote, and words behind it that no statement begins with."""
    token = tokens[at]
    if not _ENDS_IN_A_NUMBER.search(token.text[:-1]) or not _goes_on(tokens, at + 1):
        return None
    text = token.source.text
    closing = _QUOTES.search(text, token.end)
    end = closing.end() if closing else _line_end(text, token.end)
    if _HEAD_ON_ITS_LINE.search(text, token.end, end):
        end = _line_end(text, token.end)
    inches = Span(token.source, token.end - 1, token.end)
    return _Mend(at, end, _inch_mark_in_text(inches, token))


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    if at >= len(tokens) or "\n" in tokens[at].source.text[tokens[at - 1].end : tokens[at].start]:
        return False
    kind, following = tokens[at].type, type_at(tokens, at + 1)
    if kind in STATEMENT_WORDS:
        return following not in ("NAME", "LABEL") or type_at(tokens, at + 2) in ("NAME", "TEXT", UNCLOSED)
    if kind == "NAME":
        return following not in ("EQUAL", "DOTTED", "LSQB", "WITH")
    return kind in ("OF", "TO", "FROM", "IS", "LABEL", "ROUNDED", "QUANTITY")


def _runs_over_statements(tokens: Sequence[Token], at: int) -> _Mend | None:
    """A text of several lines of which one looks like a statement: its closing quote is missing on the first."""
    token = tokens[at]
    if "\n" not in token.text:
        return None
    head = _HEAD_ON_ITS_LINE.search(token.source.text, token.start, token.end)
    return _Mend(at, _first_line(token, head.start()), _unclosed(token, head)) if head else None


def _never_closed(tokens: Sequence[Token], at: int) -> _Mend:
    token = tokens[at]
    head = _HEAD_ON_ITS_LINE.search(token.source.text, token.start)
    return _Mend(at, _first_line(token, head.start() if head else token.end), _unclosed(token, head))


def _first_line(token: Token, before: int) -> int:
    """The end of the line on which a text begins, a brace left out that opens what follows."""
    text = token.source.text
    end = min(_line_end(text, token.start), before)
    line = text[token.start : end].rstrip()
    return token.start + len(line[:-1].rstrip() if line.endswith("{") and "}" not in line else line)


def _line_end(text: str, start: int) -> int:
    end = text.find("\n", start)
    return len(text) if end < 0 else end


def _inch_mark_in_text(span: Span, token: Token) -> Diagnostic:
    return error(
        "inch-mark-in-text",
        span,
        "This inch mark ends the text before its last words.",
        reason="Between quotes a quote closes the text, even behind a number.",
        way_out="Write `in` for the mark, or better a slot with the name of the measure, as in `{margin}`.",
        labels=(Label(Span(token.source, token.start, token.start + 1), "the text was opened here"),),
    )


def _unclosed(token: Token, head: re.Match[str] | None) -> Diagnostic:
    labels = ()
    if head:
        at = head.start() + len(head[0]) - len(head[0].lstrip())
        labels = (Label(Span(token.source, at, head.end()), "this would be part of the text"),)
    return error(
        "unclosed-text",
        Span(token.source, token.start, token.start + 1),
        "This text has no closing quote.",
        reason="Everything behind it would be words to read, and nothing would be made of it.",
        way_out=f"Put `{'”' if token.text[0] == '“' else token.text[0]}` where the text ends.",
        labels=labels,
    )
