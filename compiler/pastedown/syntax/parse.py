"""Takes the text of a file. Gives its statements, and what is wrong with the rest of it.

Afterwards every statement is well formed, whatever its names may mean; nothing that a maker writes raises an error.
"""

from attrs import field, frozen

from pastedown.diagnostic import Diagnostic
from pastedown.source import SourceText
from pastedown.syntax.brackets import CLOSING, OPENING
from pastedown.syntax.comments import comment_hides_code
from pastedown.syntax.faults import Faults
from pastedown.syntax.hidden_characters import hidden_characters
from pastedown.syntax.language import COMMENT, Language, Unexpected, language
from pastedown.syntax.limits import (
    MOST_LETTERS,
    MOST_NESTED,
    MOST_TOKENS,
    too_deep,
    too_long_file,
    too_many_tokens,
)  # fmt: skip
from pastedown.syntax.quotes import mend_quotes
from pastedown.syntax.read_words import read_words
from pastedown.syntax.recover import readable_statements
from pastedown.syntax.token import UNCLOSED, Token
from pastedown.tree.statement import Statement


@frozen
class ParseResult:
    """The statements that could be read, in the order in which they stand, and what there is to tell.

    `broken_words` are the names in statements that could not be read: that one of them is unknown, or lacks something,
    is no mistake of its own.
    """

    statements: tuple[Statement, ...]
    diagnostics: tuple[Diagnostic, ...]
    broken_words: frozenset[str] = field(factory=frozenset)


class _Refused(Exception):
    """The file is past a limit."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.id)
        self.diagnostic = diagnostic


def parse(source: SourceText, grammar: str) -> ParseResult:
    """Read a file; `grammar` is the path of the grammar, or of the folder with it. Raises nothing for any text.

    A file past a limit has no statements and one diagnostic.
    """
    if len(source.text) > MOST_LETTERS:
        return ParseResult((), (too_long_file(source),))
    faults = Faults()
    try:
        tokens = _within_limits(source, language(grammar), faults)
    except _Refused as refused:
        return ParseResult((), (refused.diagnostic,))
    statements = _statements(tokens, language(grammar), faults, hidden_characters(source))
    return ParseResult(statements, faults.in_order(), frozenset(faults.broken_words))


def _within_limits(source: SourceText, words: Language, faults: Faults) -> list[Token]:
    """The tokens of a file without its comments, of which only warnings are left. Raises _Refused."""
    tokens: list[Token] = []
    opened: list[Token] = []
    start = 1 if source.text.startswith("\ufeff") else 0
    for token in words.all_tokens(source, start, len(source.text)):
        if token.type == COMMENT:
            hiding = comment_hides_code(token)
            if hiding:
                faults.tell(hiding)
            continue
        tokens.append(token)
        if token.type in CLOSING:
            opened.append(token)
            if len(opened) > MOST_NESTED:
                raise _Refused(too_deep(token.span, opened[0].span))
        elif opened and token.type in OPENING:
            opened.pop()
        if len(tokens) > MOST_TOKENS:
            raise _Refused(too_many_tokens(token.span))
    return tokens


def _statements(
    tokens: list[Token], words: Language, faults: Faults, hidden: list[Diagnostic]
) -> tuple[Statement, ...]:
    """Reads the file as a whole if it can be, else what can be read of it."""
    attempt = Faults()
    read = read_words(tokens, words, attempt)
    if not any(token.spoiled or token.type == UNCLOSED for token in read):
        try:
            statements = words.file(read)
        except Unexpected:
            pass
        else:
            faults.take(attempt, hidden)
            return statements
    mended, told = mend_quotes(tokens, words)
    again = Faults()
    read = read_words(mended, words, again)
    faults.take(again, [*told, *hidden])
    return words.file(readable_statements(read, words, faults))
