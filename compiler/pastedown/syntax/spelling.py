"""Words of the language that are misspelt."""

from collections.abc import Iterable

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.syntax.faults import Faults
from pastedown.syntax.language import Language
from pastedown.syntax.shortened import shortened
from pastedown.syntax.statement_heads import (
    STATEMENT_WORDS,
    is_keyword_head,
    may_follow_a_statement,
    type_at,
)
from pastedown.syntax.token import Token

# Looking for the nearest word takes its time; a file with more strange words than this is no recipe.
_MOST_WORDS = 200


def mend_spelling(tokens: list[Token], language: Language, faults: Faults) -> None:
    """Tells of words at the beginning of statements that are nearly words of the language, and reads them as those."""
    nearest: dict[str, str | None] = {}
    for at, token in enumerate(tokens):
        if token.type != "NAME" or type_at(tokens, at + 1) not in ("NAME", "LABEL", "TEXT"):
            continue
        if not may_follow_a_statement(tokens, at):
            continue
        if token.text not in nearest:
            if len(nearest) == _MOST_WORDS:
                return
            nearest[token.text] = nearest_name(token.text, sorted(language.keywords))
        meant = nearest[token.text]
        if meant is not None and _read_as(tokens, at, language.types[meant]):
            faults.tell(misspelt(token, [meant]), token.text)
            token.text = meant


def _read_as(tokens: list[Token], at: int, meant: str) -> bool:
    """Whether the token could be that word, as which it counts from now on."""
    token = tokens[at]
    if type_at(tokens, at + 1) == "TEXT":
        # A reason may stand on a line of its own, where it looks like a statement that begins.
        token.type = meant if meant == "BECAUSE" else token.type
        return meant == "BECAUSE"
    if meant in STATEMENT_WORDS:
        token.type = meant
        if is_keyword_head(tokens, at):
            return True
        token.type = "NAME"
    return False


def misspelt(token: Token, meant: Iterable[str]) -> Diagnostic:
    """What to say about a word that is nearly one of those that are `meant`."""
    words = " or ".join(f"`{word}`" for word in meant)
    return error(
        "unexpected-word",
        token.span,
        f"`{shortened(token.text)}` is no word of the language.",
        reason="Only words of the language begin a statement or join its parts.",
        way_out=f"Did you mean {words}?",
    )
