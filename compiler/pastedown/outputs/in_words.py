"""Values and the maker's sentences in words, for outputs that are read as running text."""

import re

from pastedown.outputs.plain_text import NO_BREAK_SPACE
from pastedown.plan.plan import PlanText
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write, write_beside_mark, write_on_ruler

GRAIN_WORDS = {"height": "along the height", "width": "along the width", "any": "any"}
# Of a piece that comes out of its sheets only across the grain it wants.
ACROSS = "Its grain had better run the other way, but the sheets are too small for that."

_INSIDE_A_MEASURE = re.compile(r" (?!\()")
# Behind a figure: "4 13/16 in", but not "a little under".
_BEFORE_A_UNIT = re.compile(r"(?<=\d) (?!\()")


def measure(value: Quantity, ruler: Ruler) -> str:
    """The value as a maker writes it, held together so that a line never ends between a number and its unit."""
    return _INSIDE_A_MEASURE.sub(NO_BREAK_SPACE, write(value, ruler))


def measure_on_ruler(value: Length, ruler: Ruler) -> str:
    """The length by the mark of the ruler it lies next to, unless it lies on one or half-way; each measure in it is
    held together likewise."""
    return _BEFORE_A_UNIT.sub(NO_BREAK_SPACE, write_on_ruler(value, ruler))


def measure_beside_mark(value: Length, ruler: Ruler) -> str:
    """As `measure_on_ruler`, with the mark alone where the length lies next to one."""
    return _BEFORE_A_UNIT.sub(NO_BREAK_SPACE, write_beside_mark(value, ruler))


def prose(text: PlanText, ruler: Ruler) -> str:
    """A sentence with its values in the ruler's units."""
    return "".join(measure(part, ruler) if isinstance(part, Quantity) else part for part in text)


def counted(count: int, noun: str) -> str:
    """A count and its noun: "1 piece", "6 pieces"."""
    return f"{count}{NO_BREAK_SPACE}{noun if count == 1 else noun + 's'}"


def sentence(text: str) -> str:
    """The text with a capital at its beginning and a stop at its end."""
    begun = text[:1].upper() + text[1:].rstrip()
    return begun if begun.endswith((".", "!", "?")) else f"{begun}."
