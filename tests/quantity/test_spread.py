"""How often at least one of several like things fails, whose errors are partly one and the same."""

from fractions import Fraction

import numpy
import pytest

from pastedown.quantity.quantity import inches
from pastedown.quantity.spread import Spread

# The standard deviations are the half-widths over the square root of three.
SPREAD = Spread(inches("1/25"), (("strip", inches("3/100")), ("page", inches("2/100")), ("fold", -inches("1/100"))))


def test_errors_all_in_common_make_many_fail_as_often_as_one() -> None:
    assert SPREAD.chance_of_any(6, frozenset({"strip", "page", "fold"})) == SPREAD.chance


def test_errors_of_each_alone_make_many_fail_as_independent_things_do() -> None:
    assert SPREAD.chance_of_any(6, frozenset()) == pytest.approx(1 - (1 - SPREAD.chance) ** 6, rel=1e-9)


def test_errors_partly_in_common_lie_between_and_as_often_as_tried_at_random() -> None:
    shared = frozenset({"strip"})
    found = SPREAD.chance_of_any(6, shared)
    assert SPREAD.chance < found < SPREAD.chance_of_any(6, frozenset())
    random = numpy.random.default_rng(7)
    strip = random.normal(0, 0.03 / 3**0.5, (400_000, 1))
    own = random.normal(0, float(Fraction(5, 10_000)) ** 0.5 / 3**0.5, (400_000, 6))
    tried = ((0.04 + strip + own).min(axis=1) < 0).mean()
    assert found == pytest.approx(tried, rel=0.03)


def test_what_never_fails_alone_never_fails_among_many() -> None:
    wide = Spread(inches("6/100"), SPREAD.terms)
    assert wide.one_in is None and wide.one_in_of_any(100, frozenset()) is None
