"""What a maker calls the things that the grammar expects or finds."""

from collections.abc import Mapping

from pastedown.syntax.shortened import shortened
from pastedown.syntax.token import Token

VALUE = frozenset({"QUANTITY", "NAME", "LPAR"})

# Signs and words that a form cannot do without, in the order in which they are worth naming.
_NEEDED = ("EQUAL", "COLON", "FROM", "TO", "OF", "BECAUSE", "LBRACE", "RPAR", "RSQB", "RBRACE", "COMMA")
_MOST_NAMED = 3


def expected_words(expected: frozenset[str], spelling: Mapping[str, str]) -> str:
    """What could stand here, in a maker's words: "a value", "`to`", "`,` or `)`". Empty if nearly everything could."""
    if expected >= VALUE:
        return "a value, such as `1/2 in` or a name"
    if "LABEL" in expected:
        return "a name with a colon, such as `height:`"
    if "NAME" in expected and "$END" not in expected:
        return "a name"
    needed = [f"`{spelling[kind]}`" for kind in _NEEDED if kind in expected]
    if "TEXT" in expected and "$END" not in expected and not needed:
        return "a text in quotes"
    if "$END" in expected or not needed:
        return ""
    return " or ".join(needed[:_MOST_NAMED])


def found_words(token: Token) -> str:
    """What stands here, in a maker's words."""
    shown = shortened(token.text)
    if token.type == "TEXT":
        return "a text" if shown.endswith("...") else f"the text {shown}"
    return f"`{shown}`"
