"""Numbers as text: decimals and the fractions of an inch rule."""

from fractions import Fraction

# 1/64 in is the finest division of a common inch rule. Common practice, no source.
FINEST_FRACTION = 64

# Leads what is rounded.
ABOUT = "about "

# Beyond this a number is not worth its digits: 24 are more than any measure has, and Python refuses to print thousands.
_MOST = 10**24


def decimal(value: Fraction, places: int) -> str:
    """`value` to at most `places` decimals, without trailing noughts, led by "about" where that is not exact."""
    text = rounded_decimal(value, places)
    exact = (value * 10**places).denominator == 1
    return text if exact or abs(value) >= _MOST else ABOUT + text


def rounded_decimal(value: Fraction, places: int) -> str:
    """`value` to at most `places` decimals, without trailing noughts.

    What lies half way between two decimals goes to the even one (NIST SP 811, appendix B.7.1).
    """
    text = padded_decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def padded_decimal(value: Fraction, places: int) -> str:
    """`value` to exactly `places` decimals, half way going to the even one."""
    if abs(value) >= _MOST:
        return f"{'less than -' if value < 0 else 'more than '}{_MOST}"
    steps = round(value * 10**places)
    whole, rest = divmod(abs(steps), 10**places)
    sign = "-" if steps < 0 else ""
    return f"{sign}{whole}.{rest:0{places}}" if places else f"{sign}{whole}"


def is_on_inch_rule(value: Fraction) -> bool:
    """Whether `value` inches fall on a mark of a rule divided into halves, quarters and so on to FINEST_FRACTION."""
    return FINEST_FRACTION % value.denominator == 0


def mixed_fraction(value: Fraction) -> str:
    """`value` as a maker writes it: "8 1/2", "1/2", "8", "-1/2"."""
    if abs(value) >= _MOST:
        return padded_decimal(value, 0)
    whole, rest = divmod(abs(value.numerator), value.denominator)
    sign = "-" if value < 0 else ""
    if rest == 0:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}/{value.denominator}" if whole else f"{sign}{rest}/{value.denominator}"
