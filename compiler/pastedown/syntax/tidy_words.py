"""A word, a number or a text as it is usually written: `8 1/2 in` for `8-1/2"`, straight quotes for curly ones."""

import re
from fractions import Fraction
from unicodedata import numeric

from pastedown.syntax.read_numbers import sides_of
from pastedown.syntax.token import Token

_AMOUNT = re.compile(
    r"(?:(?P<whole>[0-9]+)(?:\s+|[-\u2010\u2011]))?(?P<top>[0-9]+)[/\u2044](?P<bottom>[0-9]+)"
    r"|(?P<before>[0-9]*)(?:\s+|[-\u2010\u2011])?(?P<sign>[\u00bc-\u00be\u2150-\u215e])"
    r"|[0-9]+(?:\.[0-9]+)?"
)
_BLANK_OUTSIDE_SLOTS = re.compile(r" (?![^{}]*\})")
# A comment in a slot ends with its line.
_COMMENT_IN_SLOT = re.compile(r"\{[^{}]*#")
_UNIT_SIGNS = {'"': "in", "\u201d": "in", "\u2033": "in", "\u00b0": "deg"}
_SIGNS = {"\u2264": "<=", "\u2265": ">=", "\u2212": "-"}


def tidy_word(token: Token) -> str:
    """A token of a file that can be read, as it is usually written."""
    if token.type == "QUANTITY":
        return _tidy_quantity(token.text)
    if token.type == "TEXT":
        return _tidy_text(token.text)
    if token.type in ("LABEL", "DOTTED"):
        return "".join(token.text.split())
    return _SIGNS.get(token.text, token.text)


def _tidy_quantity(text: str) -> str:
    """The two sides of a sheet have both their unit."""
    measures = [_amount_and_unit(side) for side in sides_of(text)]
    shared = next((unit for _, unit in measures if unit), "")
    return " x ".join(f"{amount} {unit or shared}".strip() for amount, unit in measures)


def _amount_and_unit(side: str) -> tuple[str, str]:
    match = _AMOUNT.match(side)
    if match is None:
        return side, ""
    unit = " ".join(side[match.end() :].split())
    return _tidy_amount(match), _UNIT_SIGNS.get(unit, unit)


def _tidy_amount(match: re.Match[str]) -> str:
    if match["top"]:
        return f"{match['whole'] or ''} {match['top']}/{match['bottom']}".strip()
    if match["sign"]:
        # The smallest fraction that is one character is a tenth.
        part = Fraction(numeric(match["sign"])).limit_denominator(10)
        return f"{match['before']} {part}".strip()
    return match[0]


def pieces_of_text(token: Token) -> tuple[str, ...]:
    """A text with its quotes, divided at the blanks where a line may end: not within a slot."""
    text = tidy_word(token)
    return (text,) if _COMMENT_IN_SLOT.search(text) else tuple(_BLANK_OUTSIDE_SLOTS.split(text))


def _tidy_text(text: str) -> str:
    if _COMMENT_IN_SLOT.search(text):
        return text
    words = " ".join(text[1:-1].split())
    return f"\u201c{words}\u201d" if '"' in words else f'"{words}"'
