"""Where statements begin, seen from the tokens alone. Nothing but recovery from mistakes relies on it."""

from collections.abc import Sequence

from pastedown.syntax.token import Token

# What follows the word that begins a statement: a name with a colon or an index, a name with a colon, or a name.
TITLED = frozenset({"PANEL", "FOLD", "JOIN", "CLOSE", "PLACE", "STEP"})
_LABELLED = frozenset({"TAKES", "REQUIRE", "PREFER"})
WITH_LABEL = TITLED | _LABELLED
_NAMED = frozenset(
    {"USE", "COMPONENT", "ALBUM", "VARIANT", "PART", "PIECE", "POSE", "EACH", "RUN", "ALIGN", "FIXED"}
)
DECLARING = TITLED | _LABELLED | _NAMED
STATEMENT_WORDS = DECLARING | {"IF"}
# These statements have braces of their own always; some others may.
WITH_BRACES = frozenset({"COMPONENT", "ALBUM", "VARIANT", "RUN", "EACH", "IF", "POSE"})
# These statements stand in no braces.
OF_A_FILE = frozenset({"COMPONENT", "ALBUM", "VARIANT", "USE"})

MAY_END = frozenset({"NAME", "DOTTED", "QUANTITY", "TEXT", "RPAR", "RSQB", "RBRACE", "LBRACE", "UNCLOSED", "UNKNOWN"})


def type_at(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].type if 0 <= at < len(tokens) else ""


def begins_line(tokens: Sequence[Token], at: int) -> bool:
    """Whether a line ends between the token at `at` and the one before."""
    token = tokens[at]
    return at == 0 or "\n" in token.source.text[tokens[at - 1].end : token.start]


def may_follow_a_statement(tokens: Sequence[Token], at: int) -> bool:
    """Whether the token before could be the last of a statement, or opens the braces in which statements stand."""
    return at == 0 or tokens[at - 1].type in MAY_END


def is_keyword_head(tokens: Sequence[Token], at: int) -> bool:
    """Whether the word at `at` begins a statement, judged by what follows it."""
    kind, following = tokens[at].type, type_at(tokens, at + 1)
    if kind == "IF":
        return may_follow_a_statement(tokens, at)
    if kind in _NAMED:
        return following == "NAME"
    if kind in _LABELLED or kind in TITLED:
        return following == "LABEL" or (
            kind in TITLED and following == "NAME" and type_at(tokens, at + 2) == "LSQB"
        )
    return False


def is_head(tokens: Sequence[Token], at: int) -> bool:
    """Whether a statement begins at `at`, as far as can be told without reading it.

    A word of the language begins one if the right thing follows, or at the start of a line. A name does if it sets or
    amends a path, or at the start of a line; or if another name follows on its line: then it is a word of the language
    misspelt.
    """
    kind = tokens[at].type
    if kind in STATEMENT_WORDS:
        fits = is_keyword_head(tokens, at)
        return fits or (may_follow_a_statement(tokens, at) and begins_line(tokens, at))
    if kind != "NAME" or not may_follow_a_statement(tokens, at):
        return False
    if begins_line(tokens, at) or sets_a_path(tokens, at):
        return True
    if tokens[at].text in ("and", "or"):
        return False
    after_name = type_at(tokens, at - 1) in ("NAME", "DOTTED", "RSQB")
    return not after_name and type_at(tokens, at + 1) in ("NAME", "LABEL") and not begins_line(tokens, at + 1)


def sets_a_path(tokens: Sequence[Token], at: int) -> bool:
    """Whether the name at `at` begins a fact, or a path that is amended."""
    return may_follow_a_statement(tokens, at) and type_at(tokens, after_path(tokens, at)) in ("EQUAL", "WITH")


def after_path(tokens: Sequence[Token], at: int) -> int:
    """Where the path that begins at `at` is over. Its indexes hold no brackets of their own beyond a few."""
    at += 1
    while type_at(tokens, at) in ("DOTTED", "LSQB"):
        if tokens[at].type == "LSQB":
            at = _after_index(tokens, at)
        at += 1
    return at


def _after_index(tokens: Sequence[Token], at: int) -> int:
    longest = at + 16
    while at < longest and type_at(tokens, at) not in ("RSQB", ""):
        at += 1
    return at
