"""Takes a text, gives its tokens, unless it is past a limit."""

from attrs import define, field

from pastedown.diagnostic import Diagnostic
from pastedown.source import SourceText
from pastedown.syntax.brackets import CLOSING, OPENING
from pastedown.syntax.language import COMMENT, Language
from pastedown.syntax.limits import (
    MOST_JOINED,
    MOST_NESTED,
    MOST_TOKENS,
    TOKENS_OF_A_SLOT,
    too_deep,
    too_long_sum,
    too_many_tokens,
)
from pastedown.syntax.statement_heads import MAY_END, STATEMENT_WORDS
from pastedown.syntax.token import Token

# Signs and words whose two sides are worked out one after the other, and those after which a new sum begins; a name
# that follows a value begins the next statement.
_JOINING = frozenset({"PLUS_MINUS", "TIMES_OVER", "WITH"})
_SEPARATING = STATEMENT_WORDS | {"EQUAL", "COMMA", "LABEL", "COLON", "TO"}


class Refused(Exception):
    """The file is past a limit."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.id)
        self.diagnostic = diagnostic


def tokens_within_limits(source: SourceText, language: Language) -> tuple[list[Token], list[Token]]:
    """The tokens of a file and its comments. Raises Refused."""
    tokens: list[Token] = []
    comments: list[Token] = []
    depth = _Depth()
    weight = 0
    for token in language.all_tokens(source):
        (comments if token.type == COMMENT else tokens).append(token)
        weight += 1 + (TOKENS_OF_A_SLOT * token.text.count("{") if token.type == "TEXT" else 0)
        if weight > MOST_TOKENS:
            raise Refused(too_many_tokens(token.span))
        depth.take(token)
    return tokens, comments


@define
class _Depth:
    """How many brackets are open, and how many signs join values, here and around each open bracket."""

    opened: list[Token] = field(factory=list)
    joined_outside: list[int] = field(factory=list)
    joined: int = 0
    before: str = ""

    def take(self, token: Token) -> None:
        kind, before, self.before = token.type, self.before, token.type
        if kind in _JOINING:
            self.joined += 1
            if self.joined > MOST_JOINED:
                raise Refused(too_long_sum(token.span))
        elif kind in _SEPARATING or (kind == "NAME" and before in MAY_END):
            self.joined = self.joined_outside[-1] if self.joined_outside else 0
        elif kind in CLOSING:
            self.opened.append(token)
            self.joined_outside.append(self.joined)
            if len(self.opened) > MOST_NESTED:
                raise Refused(too_deep(token.span, self.opened[0].span))
        elif kind in OPENING and self.opened:
            self.opened.pop()
            self.joined = self.joined_outside.pop()
