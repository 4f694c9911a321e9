"""Takes the text of a file. Gives its statements, and what is wrong with the rest of it.

Afterwards every statement is well formed, whatever its names may mean; nothing that a maker writes raises an error.
"""

from attrs import field, frozen

from pastedown.diagnostic import Diagnostic
from pastedown.source import SourceText
from pastedown.syntax.comments import comment_hides_code
from pastedown.syntax.faults import Faults
from pastedown.syntax.hidden_characters import hidden_characters
from pastedown.syntax.language import Language, Unexpected, language
from pastedown.syntax.limits import MOST_LETTERS, too_long_file
from pastedown.syntax.quotes import mend_quotes
from pastedown.syntax.read_words import read_words
from pastedown.syntax.recover import readable_statements
from pastedown.syntax.token import UNCLOSED, Token
from pastedown.syntax.within_limits import Refused, tokens_within_limits
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


def parse(source: SourceText, grammar: str) -> ParseResult:
    """Read a file; `grammar` is the path of the grammar, or of the folder with it. Raises nothing for any text.

    A file past a limit has no statements and one diagnostic.
    """
    if len(source.text) > MOST_LETTERS:
        return ParseResult((), (too_long_file(source),))
    words = language(grammar)
    try:
        tokens, comments = tokens_within_limits(source, words)
    except Refused as refused:
        return ParseResult((), (refused.diagnostic,))
    statements, faults = _statements(source, tokens, words)
    for diagnostic in (*hidden_characters(source), *filter(None, map(comment_hides_code, comments))):
        faults.tell(diagnostic)
    return ParseResult(statements, faults.in_order(), frozenset(faults.broken_words))


def _statements(source: SourceText, tokens: list[Token], words: Language) -> tuple[tuple[Statement, ...], Faults]:
    """The statements of the file if it can be read as a whole, else those that can be read, and what to tell."""
    faults = Faults()
    if not any(token.type == UNCLOSED for token in tokens):
        read = read_words(tokens, words, faults)
        whole = _parsed(read, words)
        if whole is not None:
            spoiled = any(token.spoiled for token in read)
            return (_rest(read, words, faults) if spoiled else whole), faults
    # Reading words changes them, so they are taken from the text again.
    faults = Faults()
    mended, told = mend_quotes(source, words)
    for diagnostic in told:
        faults.tell(diagnostic)
    return _rest(read_words(mended, words, faults), words, faults), faults


def _rest(tokens: list[Token], words: Language, faults: Faults) -> tuple[Statement, ...]:
    return _parsed(readable_statements(tokens, words, faults), words) or ()


def _parsed(tokens: list[Token], words: Language) -> tuple[Statement, ...] | None:
    try:
        return words.file(tokens)
    except Unexpected:
        return None
