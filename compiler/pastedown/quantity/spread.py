"""How far an amount may come out off its nominal value by the errors of the hand.

With s the factor and e the half-width of each error: worst case sum |s e|; root-sum-square the square root of the sum
of (s e) squared; score the nominal value over the root-sum-square (Scholz, "Tolerance Stack Analysis Methods", 1995,
names both sums). How often it fails assumes that the errors are independent, centred, and anywhere within their limits
with the same chance, so that each has a standard deviation of its half-width over the square root of three (JCGM
100:2008, 4.3.7), and that their sum is spread normally.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from math import erfc, exp, expm1, isqrt, log1p, pi, sqrt

from attrs import define, field

from pastedown.quantity.quantity import Quantity

# Square roots are given to so many binary places of the model's units: far finer than any paper.
_ROOT_BITS = 40


# The values of errors in common are gone through so many standard deviations each way, in so many steps (even).
_REACH = 8
_STEPS = 400


@define(frozen=True, slots=False)
class Spread:
    """A nominal amount and its errors: `terms` by name, factor times half-width with its sign, the largest first."""

    nominal: Quantity
    terms: tuple[tuple[str, Quantity], ...] = field(default=())

    @cached_property
    def worst(self) -> Quantity:
        """The most by which it can come out off, all errors at their worst together. Exact."""
        return self._like(sum((abs(term.value) for _, term in self.terms), Fraction(0)))

    @cached_property
    def rss_squared(self) -> Fraction:
        """The square of the root-sum-square, exact."""
        return sum((term.value**2 for _, term in self.terms), Fraction(0))

    @cached_property
    def rss(self) -> Quantity:
        """The root-sum-square, exact to a millionth of a millionth and never above the worst case."""
        return min(self._like(square_root(self.rss_squared)), self.worst, key=lambda each: each.value)

    @property
    def score(self) -> Fraction | None:
        """The nominal value counted in root-sum-squares; None without any error."""
        return self.nominal.value / self.rss.value if self.rss.value else None

    @property
    def order(self) -> Fraction:
        """What sorts like the score, exactly: its square, with its sign. Only for a spread that has errors."""
        square = self.nominal.value**2 / self.rss_squared
        return square if self.nominal.value >= 0 else -square

    @property
    def chance(self) -> float:
        """How often it comes out below nought, from 0 to 1; 0 where not even the worst case does."""
        if not self.terms or self.nominal >= self.worst:
            return 0.0
        return erfc(sqrt(3) * float(self.score or 0) / sqrt(2)) / 2

    @property
    def one_in(self) -> int | None:
        """One in how many comes out below nought, to two figures; None for fewer than one in a million, and where not
        even the worst case does."""
        return _one_in(self.chance)

    def chance_of_any(self, things: int, shared: frozenset[str]) -> float:
        """How often at least one of several things with this same spread comes out below nought, from 0 to 1. The
        errors called `shared` are one and the same for all of them, the others are each thing's own: the shared ones
        are held still, one value after the other, and what the own ones do there is weighed by how often that comes."""
        alone = self.chance
        own = sqrt(float(sum((term.value**2 for name, term in self.terms if name not in shared), Fraction(0))) / 3)
        if things < 2 or not own or not alone:
            return alone
        common = sqrt(float(sum((term.value**2 for name, term in self.terms if name in shared), Fraction(0))) / 3)
        nominal, total = float(self.nominal.value), 0.0
        for step in range(_STEPS + 1):
            at = _REACH * (2 * step / _STEPS - 1)
            one = erfc((nominal + common * at) / (own * sqrt(2))) / 2
            any_of_them = 1.0 if one >= 1 else -expm1(things * log1p(-one))
            # Simpson's rule: ends once, odd steps four times, even ones twice.
            weight = 1 if step in (0, _STEPS) else 4 if step % 2 else 2
            total += weight * exp(-at * at / 2) * any_of_them
        return min(1.0, total * 2 * _REACH / _STEPS / 3 / sqrt(2 * pi))

    def one_in_of_any(self, things: int, shared: frozenset[str]) -> int | None:
        """One in how many lots of so many things has at least one that comes out below nought; else like `one_in`."""
        return _one_in(self.chance_of_any(things, shared))

    def _like(self, value: Fraction) -> Quantity:
        return Quantity(value, self.nominal.dimension)


def _one_in(chance: float) -> int | None:
    return None if chance < 1e-6 else max(1, round(float(f"{1 / chance:.2g}")))


def spread_of(amount: Quantity) -> Spread | None:
    """The spread of an amount; None for one without errors of the hand, and for one that is no measure of paper."""
    if amount.errors is None:
        return None
    try:
        terms = amount.errors.terms()
    except OverflowError:
        return None
    ranked = sorted(terms.items(), key=lambda term: (-abs(term[1]), term[0]))
    found = tuple((name, Quantity(value, amount.dimension)) for name, value in ranked)
    return Spread(amount.exact, found) if found else None


def square_root(value: Fraction) -> Fraction:
    """The square root, rounded down to a binary fraction; exact where the root is rational. Raises ValueError below
    nought."""
    above, below = isqrt(value.numerator), isqrt(value.denominator)
    if above * above == value.numerator and below * below == value.denominator:
        return Fraction(above, below)
    return Fraction(isqrt((value.numerator << 2 * _ROOT_BITS) // value.denominator), 1 << _ROOT_BITS)


def give_or_take(amount: Quantity, step: Quantity) -> Quantity | None:
    """The root-sum-square of an amount, rounded up to a whole number of `step`; None without errors of the hand."""
    spread = spread_of(amount)
    if spread is None:
        return None
    steps = spread.rss.value / step.value
    return Quantity(step.value * -(-steps.numerator // steps.denominator), amount.dimension)


__all__ = ["Spread", "give_or_take", "spread_of", "square_root"]
