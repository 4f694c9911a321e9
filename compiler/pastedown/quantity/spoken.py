"""Quantities in words, for captions: "two and one eighth inches"."""

from fractions import Fraction

from pastedown.quantity.decimals import ABOUT, is_on_inch_rule, rounded_decimal
from pastedown.quantity.dimension import ANGLE, LENGTH, NUMBER
from pastedown.quantity.quantity import DimensionError, Quantity
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

_SMALL = (
    "nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}
_MOST_IN_WORDS = 9999


def spoken(q: Quantity, ruler: Ruler = INCH_RULER) -> str:
    """A length, an angle or a plain number in words, with "about" where the words are not exact.

    Lengths are said in inches unless `ruler` shows the metric system alone. A length off every mark of an inch rule is
    said to 0.001 in, a metric one to 0.01 mm, an angle to 0.01 degree, a number to four places. Raises DimensionError
    for any other dimension.
    """
    if q.dimension == LENGTH:
        if ruler.show is Show.METRIC:
            return _counted(q.millimetres, 2, "millimetre", "millimetres")
        return _spoken_inches(q.inches)
    if q.dimension == ANGLE:
        return _counted(q.value, 2, "degree", "degrees")
    if q.dimension == NUMBER:
        return _sentence(q.value, 4)
    raise DimensionError(f"{q.dimension.words} is not said in words")


def _spoken_inches(value: Fraction) -> str:
    if not is_on_inch_rule(value) or abs(value) > _MOST_IN_WORDS:
        return _counted(value, 3, "inch", "inches")
    whole, rest = divmod(abs(value), 1)
    sign = "minus " if value < 0 else ""
    if rest == 0:
        return f"{sign}{_whole(int(whole))} {'inch' if whole == 1 else 'inches'}"
    if whole == 0:
        return f"{sign}{_parts(rest)} of an inch" if rest != Fraction(1, 2) else f"{sign}half an inch"
    return f"{sign}{_whole(int(whole))} and {_parts(rest)} inches"


def _parts(rest: Fraction) -> str:
    """A proper fraction of an inch rule: "one eighth", "three quarters"."""
    return f"{_whole(rest.numerator)} {_PARTS[rest.denominator]}{'s' if rest.numerator > 1 else ''}"


def _counted(value: Fraction, places: int, one: str, many: str) -> str:
    return f"{_sentence(value, places)} {one if abs(value) == 1 else many}"


def _sentence(value: Fraction, places: int) -> str:
    text = rounded_decimal(value, places)
    about = "" if (value * 10**places).denominator == 1 else ABOUT
    if abs(value) > _MOST_IN_WORDS:
        return text if " " in text else about + text
    whole, point, decimals = text.lstrip("-").partition(".")
    tail = " point " + " ".join(_SMALL[int(digit)] for digit in decimals) if point else ""
    return f"{about}{'minus ' if text.startswith('-') else ''}{_whole(int(whole))}{tail}"


def _whole(number: int) -> str:
    """A whole number from nought to _MOST_IN_WORDS."""
    if number < 20:
        return _SMALL[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens] + (f"-{_SMALL[ones]}" if ones else "")
    size, name = (1000, "thousand") if number >= 1000 else (100, "hundred")
    many, rest = divmod(number, size)
    link = " and " if rest < 100 else " "
    return f"{_whole(many)} {name}" + (link + _whole(rest) if rest else "")
