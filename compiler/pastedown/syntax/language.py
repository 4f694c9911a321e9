"""The grammar as a parser: the one place that makes a Lark instance, and makes it once a process."""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from operator import length_hint
from pathlib import Path
from typing import Any

from attrs import frozen
from lark import Lark, UnexpectedToken
from lark.lexer import Lexer, PatternStr

from pastedown.source import SourceText
from pastedown.syntax.build import Build
from pastedown.syntax.tables import read_tables
from pastedown.syntax.token import UNCLOSED, UNKNOWN, Token
from pastedown.tree.expression import Expression
from pastedown.tree.statement import Statement

FILE = "file"
SLOT = "slot"

BLANKS = "BLANKS"
COMMENT = "COMMENT"


class Unexpected(Exception):
    """A token that cannot stand where it stands. `at` counts tokens; it is their number if more were expected."""

    def __init__(self, at: int, stop: UnexpectedToken) -> None:
        super().__init__(at)
        self.at = at
        self._stop = stop

    @property
    def expected(self) -> frozenset[str]:
        """The word classes of which one could stand here: worked out when asked for, because it takes its time."""
        return frozenset(self._stop.accepts)


class _Ready(Lexer):
    """Hands lark the tokens that have been read already, so that nothing is read twice."""

    def __init__(self, lexer_conf: Any) -> None:
        pass

    def lex(self, tokens: Any, parser_state: Any = None) -> Iterator[Any]:
        return iter(tokens)


@frozen(eq=False)
class Language:
    """Reads words and parses them, as the grammar says.

    `types` gives the word class of each word and sign that the grammar spells out, `keywords` those that are words.
    """

    _lark: Lark
    _pattern: re.Pattern[str]
    types: Mapping[str, str]
    keywords: frozenset[str]
    spelling: Mapping[str, str]

    def tokens(self, source: SourceText, start: int = 0, end: int | None = None) -> Iterator[Token]:
        """The words of a part of a text in order, without blanks and comments."""
        return (token for token in self.all_tokens(source, start, end) if token.type != COMMENT)

    def all_tokens(
        self, source: SourceText, start: int = 0, end: int | None = None, *, blanks: bool = False
    ) -> Iterator[Token]:
        """The words and comments of a part of a text in order, and what stands between them if `blanks` are wanted.

        A byte order mark at the very beginning is no part of the text.
        """
        text, types = source.text, self.types
        if start == 0 and text.startswith("\ufeff"):
            start = 1
        for match in self._pattern.finditer(text, start, len(text) if end is None else end):
            kind: str = match.lastgroup  # type: ignore[assignment]
            if kind == BLANKS and not blanks:
                continue
            word = match[0]
            yield Token(types.get(word, kind), word, source, match.start(), match.end())

    def file(self, tokens: Sequence[Token]) -> tuple[Statement, ...]:
        """The statements that the tokens of a file, or of what stands in braces, make. Raises Unexpected."""
        return self._parse(tokens, FILE)  # type: ignore[no-any-return]

    def slot(self, tokens: Sequence[Token]) -> Expression:
        """The expression that the tokens between the braces of a text make. Raises Unexpected."""
        return self._parse(tokens, SLOT)  # type: ignore[no-any-return]

    def _parse(self, tokens: Sequence[Token], start: str) -> Any:
        reading = iter(tokens)
        try:
            return self._lark.parse(reading, start=start)
        except UnexpectedToken as stop:
            read = len(tokens) - length_hint(reading)
            at = len(tokens) if stop.token.type == "$END" else read - 1
            raise Unexpected(at, stop) from None


def parser_from(grammar_file: Path) -> Lark:
    """The parser worked out from the grammar itself."""
    return Lark.open(
        str(grammar_file),
        parser="lalr",
        lexer=_Ready,
        start=[FILE, SLOT],
        keep_all_tokens=True,
        transformer=Build(),
    )


@cache
def language(grammar: str) -> Language:
    """The language of the grammar file at the path `grammar`, or of `album.lark` in that folder."""
    path = Path(grammar)
    file = path / "album.lark" if path.is_dir() else path
    lark = read_tables(file, _Ready, Build()) or parser_from(file)
    types = {term.pattern.value: term.name for term in lark.terminals if isinstance(term.pattern, PatternStr)}
    keywords = frozenset(word for word in types if word.isalpha())
    return Language(lark, _one_pattern(lark), types, keywords, {kind: word for word, kind in types.items()})


def _one_pattern(lark: Lark) -> re.Pattern[str]:
    """All word classes of the grammar, those of higher priority first, and after them what belongs to none.

    Words that the grammar spells out are NAMEs as far as this pattern goes, as they are for lark.
    """
    spelt = [term for term in lark.terminals if isinstance(term.pattern, PatternStr)]
    classes = sorted((term for term in lark.terminals if term not in spelt), key=lambda term: -term.priority)
    signs = [term for term in spelt if not term.pattern.value.isalpha()]
    named = [f"(?P<{term.name}>{term.pattern.to_regexp()})" for term in classes]
    unclosed = f'(?P<{UNCLOSED}>["\u201c].*)'
    marks = [f"(?P<{term.name}>{term.pattern.to_regexp()})" for term in signs]
    return re.compile("|".join([*named, unclosed, *marks, f"(?P<{UNKNOWN}>.)"]), re.DOTALL)
