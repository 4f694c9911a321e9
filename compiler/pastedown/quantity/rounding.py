"""Rounding to the marks of a ruler, exactly."""

from fractions import Fraction
from math import ceil, floor

from pastedown.quantity.quantity import DimensionError, Quantity

WAYS = ("down", "up", "nearest")


def round_to(q: Quantity, way: str, mark: Quantity) -> Quantity:
    """The multiple of `mark` next to `q`.

    `way` is "down" (towards the lesser value), "up" (towards the greater value) or "nearest". A quantity half way
    between two marks goes to the greater one, also below nought: -2.5 rounds to -2. The result is a new instruction:
    what errors of the hand `q` had are not in it.

    Raises DimensionError where `q` and `mark` differ in dimension, ValueError for another way and for a mark of nought
    or less.
    """
    steps = _steps(q, mark)
    mark = mark.exact
    match way:
        case "down":
            return mark * floor(steps)
        case "up":
            return mark * ceil(steps)
        case "nearest":
            return mark * floor(steps + Fraction(1, 2))
    raise ValueError(f"a quantity is rounded {', '.join(WAYS[:-1])} or {WAYS[-1]}, not {way!r}")


def is_on_mark(q: Quantity, mark: Quantity) -> bool:
    """Whether `q` is a whole multiple of `mark`. Raises as `round_to` does."""
    return _steps(q, mark).denominator == 1


def _steps(q: Quantity, mark: Quantity) -> Fraction:
    if q.dimension != mark.dimension:
        raise DimensionError(f"{q.dimension.words} and {mark.dimension.words}")
    if mark.value <= 0:
        raise ValueError("the mark to round to is not more than nought")
    return q.value / mark.value
