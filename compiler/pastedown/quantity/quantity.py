"""Exact quantities: a rational number and its dimension, and the errors of the hand that went into it."""

from fractions import Fraction

from attrs import field, frozen

from pastedown.quantity.dimension import ANGLE, LENGTH, MONEY, NUMBER, Dimension
from pastedown.quantity.errors import Errors, combined, one_error

# 1 in = 25.4 mm exactly: international yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
MILLIMETRES_IN_AN_INCH = Fraction(127, 5)


class DimensionError(ValueError):
    """Two quantities of different dimensions were added, subtracted or compared."""


@frozen
class Quantity:
    """An exact amount. Lengths are held in millimetres, masses in grams, angles in degrees, so a grammage is held in
    grams for each square millimetre.

    `errors` say how far it may come out off that value when it is made by hand. They are carried through sums,
    differences, products and quotients (to the first order where both factors have them), and two quantities are equal
    whatever their errors.

    Adding, subtracting and ordering quantities of different dimensions raises `DimensionError`.
    """

    value: Fraction
    dimension: Dimension
    errors: Errors | None = field(default=None, eq=False, repr=False)

    def _same(self, other: "Quantity") -> None:
        if self.dimension != other.dimension:
            raise DimensionError(f"{self.dimension.words} and {other.dimension.words}")

    @property
    def exact(self) -> "Quantity":
        """The same amount as it is asked for, before any hand has made it: without errors."""
        return self if self.errors is None else Quantity(self.value, self.dimension)

    def with_error(self, name: str, half_width: "Quantity") -> "Quantity":
        """The same amount with one error more, that lies between minus and plus `half_width`."""
        self._same(half_width)
        errors = combined((1, self.errors), (1, one_error(name, half_width.value)))
        return Quantity(self.value, self.dimension, errors)

    def __add__(self, other: "Quantity") -> "Quantity":
        self._same(other)
        if self.errors is None and other.errors is None:
            return Quantity(self.value + other.value, self.dimension)
        return Quantity(self.value + other.value, self.dimension, combined((1, self.errors), (1, other.errors)))

    def __sub__(self, other: "Quantity") -> "Quantity":
        self._same(other)
        if self.errors is None and other.errors is None:
            return Quantity(self.value - other.value, self.dimension)
        return Quantity(self.value - other.value, self.dimension, combined((1, self.errors), (-1, other.errors)))

    def __neg__(self) -> "Quantity":
        if self.errors is None:
            return Quantity(-self.value, self.dimension)
        return Quantity(-self.value, self.dimension, combined((-1, self.errors)))

    def __mul__(self, other: "Quantity | int | Fraction") -> "Quantity":
        if not isinstance(other, Quantity):
            errors = None if self.errors is None else combined((other, self.errors))
            return Quantity(self.value * other, self.dimension, errors)
        value, dimension = self.value * other.value, self.dimension * other.dimension
        if self.errors is None and other.errors is None:
            return Quantity(value, dimension)
        return Quantity(value, dimension, combined((other.value, self.errors), (self.value, other.errors)))

    def __truediv__(self, other: "Quantity | int | Fraction") -> "Quantity":
        """Raises ZeroDivisionError for a divisor of nought."""
        if not isinstance(other, Quantity):
            errors = None if self.errors is None else combined((1 / Fraction(other), self.errors))
            return Quantity(self.value / other, self.dimension, errors)
        value, dimension = self.value / other.value, self.dimension / other.dimension
        if self.errors is None and other.errors is None:
            return Quantity(value, dimension)
        return Quantity(
            value, dimension, combined((1 / other.value, self.errors), (-value / other.value, other.errors))
        )

    def __lt__(self, other: "Quantity") -> bool:
        self._same(other)
        return self.value < other.value

    def __le__(self, other: "Quantity") -> bool:
        self._same(other)
        return self.value <= other.value

    def __gt__(self, other: "Quantity") -> bool:
        return other < self

    def __ge__(self, other: "Quantity") -> bool:
        return other <= self

    @property
    def millimetres(self) -> Fraction:
        """The value of a length in millimetres. Raises DimensionError for anything else."""
        if self.dimension != LENGTH:
            raise DimensionError(f"{self.dimension.words} is not a length")
        return self.value

    @property
    def inches(self) -> Fraction:
        """The value of a length in inches. Raises DimensionError for anything else."""
        return self.millimetres / MILLIMETRES_IN_AN_INCH


# A length is a quantity whose dimension is LENGTH; the name says so where only a length will do.
Length = Quantity


def mm(value: Fraction | int | str) -> Length:
    """A length in millimetres; text is read as an exact decimal or fraction ("0.3", "1/8")."""
    return Quantity(Fraction(value), LENGTH)


def inches(value: Fraction | int | str) -> Length:
    """A length in inches; text is read as an exact decimal or fraction ("0.3", "1/8")."""
    return Quantity(Fraction(value) * MILLIMETRES_IN_AN_INCH, LENGTH)


def number(value: Fraction | int | str) -> Quantity:
    """A plain number."""
    return Quantity(Fraction(value), NUMBER)


def degrees(value: Fraction | int | str) -> Quantity:
    """An angle in degrees."""
    return Quantity(Fraction(value), ANGLE)


def money(value: Fraction | int | str, currency: str) -> Quantity:
    """An amount of money; `currency` is an ISO 4217 code such as "EUR"."""
    return Quantity(Fraction(value), Dimension(money=1, currency=currency))


NO_LENGTH = mm(0)

__all__ = [
    "MILLIMETRES_IN_AN_INCH",
    "MONEY",
    "NO_LENGTH",
    "DimensionError",
    "Length",
    "Quantity",
    "degrees",
    "inches",
    "mm",
    "money",
    "number",
]
