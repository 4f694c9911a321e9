"""Numbered names: the order in which people read them, [2] before [10], and what they have in common."""

import re

_LAST_INDEX = re.compile(r"\[[^\]]*\]$")
_INDEX = re.compile(r"\[[^\]]*\]")
_NUMBER_OR_WORDS = re.compile(r"([0-9]+)|([^0-9]+)")

# Numbers compare by how many digits they have and then digit by digit, so that no number is too long to be compared.
NaturalKey = tuple[tuple[int, int, str], ...]


def without_indexes(path: str) -> str:
    """The path with every index left out: the name of the whole family."""
    return _INDEX.sub("", path)


def without_number(path: str) -> str:
    """The path without the index at its end: the name of the family that it is of."""
    return _LAST_INDEX.sub("", path)


def natural_key(path: str) -> NaturalKey:
    """A key to sort paths by. Two paths with equal keys differ at most in leading noughts."""
    return tuple(
        (0, len(number.lstrip("0")), number.lstrip("0")) if number else (1, 0, words)
        for number, words in _NUMBER_OR_WORDS.findall(path)
    )
