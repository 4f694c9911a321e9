"""Texts that end too early or too late: an inch mark that closes one, a quote that is missing.

One quote too many or too few turns everything behind it inside out. So these are looked for before anything else, once
it is known that the file cannot be read as it stands; a file that can be read is never judged by these rules.
"""

import re
from collections.abc import Sequence
from itertools import islice

from attrs import frozen

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.source import SourceText, Span
from pastedown.syntax.language import Language
from pastedown.syntax.statement_heads import STATEMENT_WORDS, begins_line, type_at
from pastedown.syntax.token import UNCLOSED, UNKNOWN, Token

# Looking for the end of a text may mean looking through the whole file; more than this in one file are left alone.
_MOST_MENDED = 200
# A text and the words behind it by which it is judged.
_LOOK_AHEAD = 4

_DIGITS = frozenset("0123456789½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒")
_AFTER_A_TEXT = frozenset({"COMMA", "RPAR", "RSQB", "RBRACE", "LBRACE"})
_NEVER_AFTER_A_TEXT = frozenset(
    {"OF", "TO", "FROM", "IS", "LABEL", "ROUNDED", "QUANTITY", "DOTTED", "LPAR", "PLUS_MINUS", "TIMES_OVER", UNKNOWN}
)
_SINGLE_QUOTES = {"'": "'", "\u2018": "\u2019", "\u00ab": "\u00bb"}
_BEHIND_A_TEXT = frozenset({"LBRACE", "RBRACE", "TEXT", UNCLOSED})
# Words of a sentence, and not of a setting or a statement.
_WORDS = re.compile(r"[ \t]*[-.;?!()\w](?![^\"\n]*[:=])")
_QUOTE_WITHOUT_BACKSLASH = re.compile(r'(?<!\\)"')
_QUOTES = re.compile(r'["\u201c\u201d]')
# How each statement begins, with enough behind its first word that the same word at the beginning of a line of prose
# ("album is shut", "fold the flap over") is none.
_NAME = r"[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*|\[[^\]\n]*\])*"
_HEAD_ON_ITS_LINE = re.compile(
    r"\n[ \t]*(?:\}"
    r"|use[ \t][a-z0-9_, \t]+[ \t]from\b"
    rf"|(?:component|album)[ \t]+{_NAME}[ \t]*[\"\u201c{{\n]"
    rf"|variant[ \t]+{_NAME}[ \t]+of\b"
    rf"|(?:part|fixed)[ \t]+{_NAME}[ \t]*="
    rf"|(?:piece|each)[ \t]+{_NAME}[ \t]+from\b"
    rf"|(?:run|align)[ \t]+{_NAME}[ \t]+to[ \t]+{_NAME}"
    rf"|(?:takes|panel|fold|join|close|place|require|prefer|step)[ \t]+{_NAME}[ \t]*:"
    rf"|pose[ \t]+{_NAME}[ \t]*(?:\{{|from\b)"
    r"|if[ \t][^\"\n]*\{[ \t]*(?=\n)"
    rf"|{_NAME}[ \t]*(?:=|with[ \t]*\{{[^}}\n]*(?:=|(?=\n))))"
)


@frozen
class _Mend:
    """A text really ends at the offset `end`."""

    end: int
    diagnostic: Diagnostic


def mend_quotes(source: SourceText, language: Language) -> tuple[list[Token], list[Diagnostic]]:
    """The tokens of a text, each suspicious one in quotes ended where it was most likely meant to end, and what to say
    about it."""
    diagnostics: list[Diagnostic] = []
    kept: list[Token] = []
    ahead: list[Token] = []
    coming = language.tokens(source)
    while True:
        ahead += islice(coming, _LOOK_AHEAD - len(ahead))
        if not ahead:
            return kept, diagnostics
        mend = _mend(ahead) if len(diagnostics) < _MOST_MENDED else None
        if mend is None:
            kept.append(ahead.pop(0))
            continue
        diagnostics.append(mend.diagnostic)
        start = ahead[0].start
        text = Token("TEXT", source.text[start : mend.end], source, start, mend.end)
        text.spoiled = True
        kept.append(text)
        ahead, coming = [], language.tokens(source, mend.end)


def _mend(ahead: Sequence[Token]) -> _Mend | None:
    """What there is to mend in the first of the tokens."""
    if ahead[0].type == "TEXT":
        return _backslashed(ahead[0]) or _inch_mark(ahead) or _runs_over_statements(ahead)
    return _never_closed(ahead[0]) if ahead[0].type == UNCLOSED else None


def _backslashed(token: Token) -> _Mend | None:
    """`"the \\"best\\" page"`: a quote that was to stand in the text, written as in other languages."""
    if token.text[-2:] != '\\"':
        return None
    text = token.source.text
    closing = _QUOTE_WITHOUT_BACKSLASH.search(text, token.end, _line_end(text, token.end))
    if closing is None:
        return None
    return _Mend(closing.end(), _quote_in_text(Span(token.source, token.end - 2, token.end), token))


def _inch_mark(ahead: Sequence[Token]) -> _Mend | None:
    """`"needs 1/2" of room"`: a number before the closing quote, and words behind it that no statement begins with."""
    token = ahead[0]
    if token.text[-2] not in _DIGITS or not _goes_on(ahead):
        return None
    text = token.source.text
    end = _closing(text, token.end)
    if _HEAD_ON_ITS_LINE.search(text, token.end, end):
        end = _line_end(text, token.end)
    inches = Span(token.source, token.end - 1, token.end)
    return _Mend(end, _inch_mark_in_text(inches, token))


def _closing(text: str, start: int) -> int:
    """The end of a text that goes on at `start`: behind its closing quote, past further inch marks of its line."""
    last = _line_end(text, start)
    closing = _QUOTES.search(text, start)
    while closing and text[closing.start() - 1] in _DIGITS and _WORDS.match(text, closing.end()):
        following = _QUOTES.search(text, closing.end(), last)
        if following is None:
            break
        closing = following
    return closing.end() if closing else last


def _goes_on(ahead: Sequence[Token]) -> bool:
    """Whether what follows a text on its line is no beginning of a statement, and nothing that may follow a text."""
    if len(ahead) == 1 or "\n" in ahead[1].source.text[ahead[0].end : ahead[1].start]:
        return False
    kind, following = ahead[1].type, type_at(ahead, 2)
    if kind in STATEMENT_WORDS:
        return following not in ("NAME", "LABEL") or type_at(ahead, 3) in ("NAME", "TEXT", UNCLOSED)
    if kind == "NAME" and following == "DOTTED":
        return any(letter.isspace() for letter in ahead[2].text)  # a full stop and the next sentence, no path
    if kind == "NAME":
        return following not in ("EQUAL", "LSQB", "WITH")
    if kind == "COMMA":
        return following == type_at(ahead, 3) == "NAME"
    if kind in ("TEXT", UNCLOSED):
        return ahead[1].start == ahead[0].end  # `"trim to 12""`
    return kind in _NEVER_AFTER_A_TEXT


def _runs_over_statements(ahead: Sequence[Token]) -> _Mend | None:
    """A text of several lines of which one looks like a statement, with a word touching its closing quote: that opens
    another text, and the closing one is missing on the first line."""
    token = ahead[0]
    if "\n" not in token.text or len(ahead) == 1 or ahead[1].start > token.end or ahead[1].type in _AFTER_A_TEXT:
        return None
    head = _HEAD_ON_ITS_LINE.search(token.source.text, token.start, token.end)
    return _Mend(_first_line(token, head.start()), _unclosed(token, head)) if head else None


def _never_closed(token: Token) -> _Mend:
    head = _HEAD_ON_ITS_LINE.search(token.source.text, token.start)
    return _Mend(_first_line(token, head.start() if head else token.end), _unclosed(token, head))


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


def _quote_in_text(span: Span, token: Token) -> Diagnostic:
    return error(
        "quote-in-text",
        span,
        "This quote ends the text, for a backslash does nothing here.",
        reason="A text between straight quotes goes to the next straight quote.",
        way_out="Put the text between curly quotes, in which straight ones may stand, or write curly ones in it.",
        labels=(Label(Span(token.source, token.start, token.start + 1), "the text was opened here"),),
    )


def _unclosed(token: Token, head: re.Match[str] | None) -> Diagnostic:
    labels: tuple[Label, ...] = ()
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


def end_of_bare_text(tokens: Sequence[Token], at: int) -> int | None:
    """Where the words are over that begin at `at` on one line and should stand between double quotes: they follow
    `because`, a step or a title without any, or stand between single quotes. None if no such words begin here."""
    single = _SINGLE_QUOTES.get(tokens[at].text) if tokens[at].type == UNKNOWN else None
    if single is None and not _wants_a_text(tokens, at):
        return None
    end = at + 1
    while end < len(tokens) and not begins_line(tokens, end) and tokens[end].type not in _BEHIND_A_TEXT:
        if tokens[end].type == "COMMA" and type_at(tokens, end + 1) == "LABEL":
            break
        if tokens[end].type == "DOTTED" and "\n" in tokens[end].text:
            part_from_full_stop(tokens[end])
            break
        end += 1
        if single is not None and tokens[end - 1].text == single:
            return end
    return end if _wants_a_text(tokens, at) else None


def _wants_a_text(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word stands at `at` where the grammar has only a text, or a text and braces."""
    if not (tokens[at].text[:1].isalpha() or tokens[at].text in _SINGLE_QUOTES) or tokens[at].type == "TEXT":
        return False
    if begins_line(tokens, at):
        return False
    before, earlier = type_at(tokens, at - 1), type_at(tokens, at - 2)
    titled = before == "NAME" and earlier in ("COMPONENT", "ALBUM")
    return before == "BECAUSE" or (before == "LABEL" and earlier == "STEP") or titled


def part_from_full_stop(token: Token) -> None:
    """Leaves the name alone of a dot and a name: the full stop of a sentence is no dot of a path, and the name on the
    next line begins a statement."""
    name = token.word_span
    token.type, token.text, token.start = "NAME", name.text, name.start
