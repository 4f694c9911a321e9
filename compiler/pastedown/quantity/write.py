"""Quantities as text a maker reads. What is not exact says so: "about 5.084 in"."""

from collections.abc import Iterable
from fractions import Fraction

from pastedown.quantity.decimals import ABOUT, decimal, is_on_inch_rule, mixed_fraction, padded_decimal, rounded_decimal
from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MASS, NUMBER, VOLUME, Dimension
from pastedown.quantity.quantity import MILLIMETRES_IN_AN_INCH, DimensionError, Length, Quantity
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.spoken import spoken
from pastedown.quantity.unit import UNITS

__all__ = [
    "csv_decimal", "is_written_whole", "mark_beside", "spoken", "write", "write_beside_mark", "write_length",
    "write_on_ruler", "write_text",
]  # fmt: skip

_SQUARE_INCH = MILLIMETRES_IN_AN_INCH**2
_CUBIC_INCH = MILLIMETRES_IN_AN_INCH**3
_DENSITY = Dimension(length=-3, mass=1)

# Digits after the point of the currencies that do not have two: ISO 4217, table A.1, from memory.
MONEY_PLACES = {
    "BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0, "UGX": 0,
    "UYI": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0, "BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3,
    "OMR": 3, "TND": 3,
}  # fmt: skip

_CSV_UNITS: dict[str, Quantity] = {
    **UNITS,
    "": Quantity(Fraction(1), NUMBER),
    "sq in": UNITS["in"] * UNITS["in"],
    "sq mm": UNITS["mm"] * UNITS["mm"],
    "sq cm": UNITS["cm"] * UNITS["cm"],
}


def write(q: Quantity, ruler: Ruler) -> str:
    """`q` in the units that `ruler` shows, with "about" where the text is not exact.

    Where both are shown, the system of the ruler's marks leads: "8 1/2 in (215.9 mm)" or "215.9 mm (8 1/2 in)".
    """
    if q.dimension == LENGTH:
        return _in_systems(_length_in_inches(q), _metric_length(q), ruler.show, ruler.in_inches)
    if q.dimension == AREA:
        return _in_systems(_inch_area(q), _metric_area(q), ruler.show, ruler.in_inches)
    if q.dimension == VOLUME:
        return _in_systems(_inch_volume(q), _metric_volume(q), ruler.show, ruler.in_inches)
    return _write_without_ruler(q)


def write_text(text: Iterable[str | Quantity], ruler: Ruler) -> str:
    """Words with the quantities among them written out."""
    return "".join(write(part, ruler) if isinstance(part, Quantity) else part for part in text)


def is_written_whole(q: Quantity, ruler: Ruler) -> bool:
    """Whether what `write` puts first is exact, not rounded."""
    return not write(q, ruler).startswith(ABOUT)


def write_length(q: Length, show: Show) -> str:
    """A length in the units `show` asks for, inches first. Raises DimensionError for anything but a length."""
    return _in_systems(_length_in_inches(q), _metric_length(q), show, inches_lead=True)


def write_on_ruler(q: Length, ruler: Ruler) -> str:
    """A length as it is found on the ruler: itself on a mark or half-way between two, which a hand can read, otherwise
    by the mark it lies next to, and from which side; the length itself follows in brackets.

    For example "a little under 5 1/8 in (5.121 in)", which can be read out. Raises DimensionError for anything but a
    length.
    """
    if mark_beside(q, ruler) is None:
        return write(q, ruler)
    in_inches, metric = _length_in_inches(q), _metric_length(q)
    shown = {Show.INCHES: [in_inches], Show.METRIC: [metric]}.get(ruler.show)
    itself = ", ".join(shown or ([in_inches, metric] if ruler.in_inches else [metric, in_inches]))
    return f"{write_beside_mark(q, ruler)} ({itself})"


def write_beside_mark(q: Length, ruler: Ruler) -> str:
    """As `write_on_ruler`, without the length itself behind the mark that it lies next to. Raises likewise."""
    mark = mark_beside(q, ruler)
    if mark is None:
        return write(q, ruler)
    on_it = (_length_in_inches if ruler.in_inches else _metric_length)(mark).removeprefix(ABOUT)
    return f"a little {'under' if mark > q else 'over'} {on_it}"


def mark_beside(q: Length, ruler: Ruler) -> Length | None:
    """The mark of the ruler that a length lies next to; None for one on a mark or half-way between two, which a hand
    can read. Raises DimensionError for anything but a length."""
    return None if is_on_mark(q * 2, ruler.marks) else round_to(q, "nearest", ruler.marks)


def csv_decimal(q: Quantity, unit: str) -> str:
    """`q` counted in `unit` as a plain decimal to 4 places: "8.5".

    `unit` is a unit of the language, "sq in", "sq mm", "sq cm", a currency, or empty for a plain number. Raises
    ValueError for any other, and DimensionError where `q` is not of the unit's dimension.
    """
    one = _CSV_UNITS.get(unit)
    if one is None and unit and unit == q.dimension.currency:
        one = Quantity(Fraction(1), Dimension(money=1, currency=unit))
    if one is None:
        raise ValueError(f"{unit!r} is not a unit of the lists")
    if one.dimension != q.dimension:
        raise DimensionError(f"{q.dimension.words} is not counted in {unit or 'plain numbers'}")
    return rounded_decimal(q.value / one.value, 4)


def _in_systems(in_inches: str, metric: str, show: Show, inches_lead: bool) -> str:
    if show is Show.INCHES:
        return in_inches
    if show is Show.METRIC:
        return metric
    return f"{in_inches} ({metric})" if inches_lead else f"{metric} ({in_inches})"


def _length_in_inches(q: Length) -> str:
    value = q.inches
    return f"{mixed_fraction(value) if is_on_inch_rule(value) else decimal(value, 3)} in"


def _metric_length(q: Length) -> str:
    return f"{decimal(q.millimetres, 2)} mm"


def _inch_area(q: Quantity) -> str:
    return f"{decimal(q.value / _SQUARE_INCH, 2)} sq in"


def _metric_area(q: Quantity) -> str:
    return f"{decimal(q.value / 100, 2)} cm²"


def _inch_volume(q: Quantity) -> str:
    return f"{decimal(q.value / _CUBIC_INCH, 2)} cu in"


def _metric_volume(q: Quantity) -> str:
    return f"{decimal(q.value / 1000, 2)} cm³"


def _write_without_ruler(q: Quantity) -> str:
    dimension = q.dimension
    if dimension == NUMBER:
        return _number(q.value)
    if dimension == ANGLE:
        return f"{decimal(q.value, 2)}°"
    if dimension == GRAMMAGE:
        return f"{decimal(q.value / UNITS['gsm'].value, 0)} gsm"
    if dimension == MASS:
        return f"{decimal(q.value / 1000, 5)} kg" if abs(q.value) >= 1000 else f"{decimal(q.value, 2)} g"
    if dimension == _DENSITY:
        return f"{decimal(q.value * 1000, 3)} g/cm³"
    if dimension == Dimension(money=1, currency=dimension.currency):
        return _money(q.value, dimension.currency)
    return f"{decimal(q.value, 4)} {_compound_unit(dimension)}"


def _number(value: Fraction) -> str:
    """A decimal where four places are exact, otherwise a fraction, or a rounded decimal where that is too fine."""
    if (value * 10_000).denominator == 1 or value.denominator > 100:
        return decimal(value, 4)
    return mixed_fraction(value)


def _money(value: Fraction, currency: str) -> str:
    places = MONEY_PLACES.get(currency, 2)
    about = "" if (value * 10**places).denominator == 1 else ABOUT
    return f"{about}{padded_decimal(value, places)} {currency}".rstrip()


def _compound_unit(dimension: Dimension) -> str:
    """A unit for what has no name of its own, such as "EUR/mm²" or "g·mm"."""
    powers = (
        ("g", dimension.mass), ("mm", dimension.length), ("°", dimension.angle), (dimension.currency, dimension.money),
    )  # fmt: skip
    above = "·".join(_raised(unit, power) for unit, power in powers if power > 0)
    below = "·".join(_raised(unit, -power) for unit, power in powers if power < 0)
    return f"{above}/{below}" if below else above


def _raised(unit: str, power: int) -> str:
    return unit if power == 1 else unit + str(power).translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"))
