"""Writes a number in the way in which another one was written."""

from __future__ import annotations

import re
from fractions import Fraction

from pastedown.quantity.decimals import mixed_fraction, rounded_decimal
from pastedown.quantity.literal import read_quantity
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.unit import UNITS

_UNIT = re.compile(r"[^0-9./\s½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒⁄‐‑-].*\Z", re.DOTALL)
_MOST_PLACES = 6


def in_style_of(words: str, value: Quantity) -> str:
    """`value` in the unit of `words`: as a decimal where they have a point or a metric unit, else as a fraction."""
    found = _UNIT.search(words)
    unit = found.group().strip() if found else ""
    size = _size_of(unit)
    if size is None:
        return words
    amount = value.value / size
    as_decimal = "." in words or unit in ("mm", "cm", "m")
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
