"""What to say where a plain number stands in for a length."""

import re

_NUMBER = re.compile(r"[-+]?[0-9][0-9./ -]*")
_NAME = re.compile(r"[a-z][a-z0-9_.\[\]]*")


def how_to_add_the_unit(words: str) -> str:
    """The way out for `words`, a plain number where a length belongs: a unit can be written behind a number only."""
    if _NUMBER.fullmatch(words):
        return f"Write the unit: {words} in, or {words} mm."
    if _NAME.fullmatch(words):
        return f"Give {words} its unit where it is stated, as in 1/2 in or 12 mm."
    return "One of its numbers needs a unit, as in 1/2 in or 12 mm."
