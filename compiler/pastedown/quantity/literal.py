"""Reads one quantity as a maker writes it: `8 1/2 in`, `21.5 mm`, `12 pt`, `45 deg`, `12.50 EUR`, `5`."""

import re
from fractions import Fraction
from functools import lru_cache

from pastedown.quantity.dimension import Dimension
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.unit import METRIC_UNITS, UNIT_NAMES, UNIT_SIGNS, UNITS
from pastedown.quantity.weight import BASIC_SIZES, grammage

__all__ = ["MOST_DIGITS", "UNIT_NAMES", "UNIT_WORDS", "LiteralError", "metric_fraction", "read_quantity"]

# Longer numbers cost time and memory out of proportion, and no measure of paper needs them.
MOST_DIGITS = 24

_FRACTION_SIGNS = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅐": Fraction(1, 7), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8), "⅑": Fraction(1, 9), "⅒": Fraction(1, 10),
}  # fmt: skip

# Hyphens and slashes that word processors put in place of the typed ones count as typed. A number is never followed by
# more of a number ("1.2.3", "1/2/3"). Parts of a number never touch without a separator, so matching is linear.
_QUANTITY = re.compile(
    rf"""
    (?P<number>
        (?P<decimal> [0-9]*\.[0-9]+ )
      | (?: (?P<whole> [0-9]+ ) (?: \s+ | [-\u2010\u2011] ) )? (?P<top> [0-9]+ ) [/\u2044] (?P<bottom> [0-9]+ )
      | (?: (?P<before_sign> [0-9]+ ) (?: \s+ | [-\u2010\u2011] )? )? (?P<sign> [{"".join(_FRACTION_SIGNS)}] )
      | (?P<plain> [0-9]+ )
    )
    (?! [0-9./\u2044{"".join(_FRACTION_SIGNS)}] )
    \s* (?P<unit> [^\s0-9].* )?
    """,
    re.VERBOSE | re.DOTALL,
)

_HABITS = {
    "inch": "in", "inches": "in", "ins": "in", "'": "ft", "’": "ft", "′": "ft", "''": "in", "’’": "in", "“": "in",
    "foot": "ft", "feet": "ft", "yard": "yd", "yards": "yd", "yds": "yd", "mil": "pt", "mils": "pt", "thou": "pt",
    "point": "pt", "points": "pt", "pts": "pt", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm",
    "millimeters": "mm", "mms": "mm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm",
    "centimeters": "cm", "cms": "cm", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "gram": "g",
    "grams": "g", "gr": "g", "kgs": "kg", "kilogram": "kg", "kilograms": "kg", "g/m2": "gsm", "g/m²": "gsm",
    "g/m^2": "gsm", "degree": "deg", "degrees": "deg", "percent": "%", "º": "deg",
}  # fmt: skip

# What makers write for each unit in letters.
UNIT_WORDS: dict[str, str] = {
    **{name: name for name in UNIT_NAMES if name in UNITS and len(name) > 1},
    **{word: unit for word, unit in _HABITS.items() if word.isalpha()},
}

_MONEY_CODE = re.compile(r"[A-Z]{3}")
_CODE_IN_OTHER_LETTERS = re.compile(r"[A-Za-z]{3}")
_POUNDS = ("lb", "lbs", "pound", "pounds")


class LiteralError(ValueError):
    """A quantity that cannot be read.

    `id` is the name of the diagnostic, `reason` a sentence that says what is wrong, `way_out` one that says what to
    write instead.
    """

    def __init__(self, id: str, reason: str, way_out: str) -> None:
        super().__init__(reason)
        self.id = id
        self.reason = reason
        self.way_out = way_out


def read_quantity(text: str) -> Quantity:
    """The quantity that `text` (one number with or without its unit, nothing else) stands for, exactly.

    Raises LiteralError for everything else, and for numbers of more than MOST_DIGITS digits.
    """
    return _read(_single_blanks(text))


def metric_fraction(text: str) -> bool:
    """Whether `text` is a fraction of a metric unit ("7 1/2 mm"): readable, but no metric ruler has such marks."""
    match = _QUANTITY.fullmatch(_single_blanks(text))
    return bool(match and (match["top"] or match["sign"]) and match["unit"] in METRIC_UNITS)


def _single_blanks(text: str) -> str:
    return " ".join(text.split())


@lru_cache(maxsize=4096)
def _read(text: str) -> Quantity:
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise LiteralError(
            "unreadable-quantity",
            f"`{_excerpt(text)}` is not a quantity.",
            "Write one number and its unit, such as `8 1/2 in`, `21.5 mm` or `12 pt`.",
        )
    return _with_unit(_number(match), match["number"], match["unit"] or "")


def _number(match: re.Match[str]) -> Fraction:
    digits = sum(letter.isdigit() and letter.isascii() for letter in match["number"])
    if digits > MOST_DIGITS:
        raise LiteralError(
            "number-too-long",
            f"This number has {digits} digits, and a number may have up to {MOST_DIGITS}.",
            "Write it with fewer digits: no ruler or scale shows so many.",
        )
    if match["decimal"] or match["plain"]:
        return Fraction(match["decimal"] or match["plain"])
    if match["sign"]:
        return int(match["before_sign"] or 0) + _FRACTION_SIGNS[match["sign"]]
    return _fraction(match)


def _fraction(match: re.Match[str]) -> Fraction:
    top, bottom = int(match["top"]), int(match["bottom"])
    if bottom == 0:
        raise LiteralError(
            "zero-denominator",
            f"`{match['number']}` divides by nought.",
            "Write the number of equal parts below the line, as in `1/8`.",
        )
    if match["whole"] is None:
        return Fraction(top, bottom)
    value = int(match["whole"]) + Fraction(top, bottom)
    if top >= bottom:
        raise LiteralError(
            "improper-fraction",
            f"The fraction in `{_excerpt(match[0])}` is a whole or more.",
            f"If that is the measure you mean, write `{_joined(_mixed(value), _excerpt(match['unit'] or ''))}`.",
        )
    return value


def _with_unit(value: Fraction, number: str, unit: str) -> Quantity:
    one = UNITS.get(unit) or UNIT_SIGNS.get(unit)
    if one is not None:
        return one * value
    first, _, basis = unit.partition(" ")
    if first.lower() in _POUNDS:
        return _pounds(value, number, basis)
    if _MONEY_CODE.fullmatch(unit) and _meant(unit) is None:
        return Quantity(value, Dimension(money=1, currency=unit))
    raise LiteralError("unknown-unit", f"`{_excerpt(unit)}` is not a unit.", _way_to_a_unit(number, unit))


def _pounds(value: Fraction, number: str, basis: str) -> Quantity:
    if basis in BASIC_SIZES:
        return grammage(value, basis)
    if basis:
        reason = f"`{_excerpt(basis)}` is not a basic size of paper."
        raise LiteralError("unknown-unit", reason, f"Write one of {_one_of_each_size(value, number)}.")
    raise LiteralError(
        "bare-pound",
        f"`{number} lb` does not say pounds of what basic size, and the same number is a different paper in each.",
        f"Name the basic size: {_one_of_each_size(value, number)}.",
    )


def _one_of_each_size(value: Fraction, number: str) -> str:
    """Every basic size once, with the grammage that `value` pounds are in it."""
    return ", ".join(f"`{number} lb {name}` = {round(value * grams)} gsm" for name, grams in _GSM_OF_ONE_POUND.items())


def _gsm_of_one_pound() -> dict[str, Fraction]:
    """By the first name of each basic size."""
    first_names = {size: name for name, size in reversed(BASIC_SIZES.items())}
    return {name: (grammage(1, name) / UNITS["gsm"]).value for name in reversed(first_names.values())}


_GSM_OF_ONE_POUND = _gsm_of_one_pound()


def _way_to_a_unit(number: str, unit: str) -> str:
    meant = _meant(unit)
    if meant is not None:
        return f"Write `{_joined(number, meant)}`."
    if _CODE_IN_OTHER_LETTERS.fullmatch(unit):
        return f"For money write the code of the currency in capitals: `{number} {unit.upper()}`."
    known = ", ".join(UNITS)
    return f"Units are {known}, %, `lb` with a basic size, and the three capitals of a currency, such as EUR."


def _meant(unit: str) -> str | None:
    """The unit that somebody who wrote `unit` most likely meant."""
    small = unit.lower()
    return small if small in UNITS else _HABITS.get(small)


def _joined(number: str, unit: str) -> str:
    touching = not unit or unit in UNIT_SIGNS
    return number + unit if touching else f"{number} {unit}"


def _mixed(value: Fraction) -> str:
    whole, rest = divmod(value.numerator, value.denominator)
    return f"{whole} {rest}/{value.denominator}" if rest else str(whole)


def _excerpt(text: str) -> str:
    """`text` short enough for a sentence, without characters that would break it up."""
    shown = "".join(letter if letter.isprintable() and letter != "`" else "?" for letter in text[:32])
    return shown + ("..." if len(text) > 32 else "")
