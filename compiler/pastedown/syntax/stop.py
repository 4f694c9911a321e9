"""Where the grammar could not go on."""

from collections.abc import Sequence

from attrs import frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.syntax.language import Language
from pastedown.syntax.statement_heads import type_at
from pastedown.syntax.token import Token

UNREAD = "This statement cannot be used until it can be read; the others are checked all the same."


@frozen
class Stop:
    """The token at `at` of a piece of the file, which may be one past its last, is none of those expected."""

    tokens: Sequence[Token]
    at: int
    expected: frozenset[str]
    language: Language

    @property
    def token(self) -> Token | None:
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    @property
    def before(self) -> Token | None:
        return self.tokens[self.at - 1] if self.at > 0 else None

    def kind(self, offset: int = 0) -> str:
        return type_at(self.tokens, self.at + offset)

    def unexpected(self, sentence: str, way_out: str) -> Diagnostic:
        """Tells of what stands here, or of the last token if nothing does."""
        token = self.token or self.before
        span = token.span if token else None
        return error("unexpected-word", span, sentence, reason=UNREAD, way_out=way_out)
