"""Writes a number in the way in which another one was written, as long as a ruler can show it so."""

from __future__ import annotations

import re
from fractions import Fraction

from pastedown.quantity.decimals import is_on_inch_rule, mixed_fraction, rounded_decimal
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.literal import read_quantity
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.unit import UNITS

_UNIT = re.compile(r"[^0-9./\s½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒⁄‐‑-].*\Z", re.DOTALL)
_METRIC = ("mm", "cm", "m")
# Half a millimetre is the finest division of a common metric rule. Common practice, no source.
_FINEST_METRIC = Fraction(1, 2)
_MOST_PLACES = 6


def in_style_of(words: str, value: Quantity, ruler: Ruler) -> str:
    """`value` in the unit of `words`: as a decimal where they have a point or a metric unit, else as a fraction. A
    length that this unit cannot show plainly, such as whole millimetres in inches, goes into the unit of the ruler
    where that can."""
    found = _UNIT.search(words)
    unit = found.group().strip() if found else ""
    if value.dimension != LENGTH or _is_plain(value, unit):
        return _written(words, value)
    own = "in" if ruler.in_inches else "mm"
    return _written(f"1 {own}", value) if _is_plain(value, own) else _written(words, value)


def is_plain(length: Quantity, ruler: Ruler) -> bool:
    """Whether a length lies on a mark of a common rule of the ruler's unit."""
    return _is_plain(length, "in" if ruler.in_inches else "mm")


def _is_plain(length: Quantity, unit: str) -> bool:
    """Whether a common rule that shows this unit has a mark for the length."""
    if unit in _METRIC:
        return (length.millimetres / _FINEST_METRIC).denominator == 1
    return unit == "pt" or is_on_inch_rule(length.inches)


def _written(words: str, value: Quantity) -> str:
    found = _UNIT.search(words)
    unit = found.group().strip() if found else ""
    size = _size_of(unit)
    if size is None:
        return words
    amount = value.value / size
    as_decimal = "." in words or unit in _METRIC
    fits = (amount * 10**_MOST_PLACES).denominator == 1
    written = rounded_decimal(amount, _MOST_PLACES) if as_decimal and fits else mixed_fraction(amount)
    gap = " " if unit and not words[: found.start() if found else 0].endswith(tuple("0123456789./")) else ""
    return f"{written}{gap}{unit}"


def _size_of(unit: str) -> Fraction | None:
    """One of the unit, in millimetres; 1 for a bare number."""
    if not unit:
        return Fraction(1)
    if unit in UNITS:
        return UNITS[unit].value
    try:
        return read_quantity(f"1 {unit}").value
    except ValueError:
        return None
