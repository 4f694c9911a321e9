"""Advice on the safe side: what is written reads back as an amount that is enough, and not much more than that."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.quantity import INCH_RULER, Dimension, Quantity, Ruler, Show, inches, mm, number, read_quantity, write
from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MASS, NUMBER, VOLUME
from pastedown.quantity.enough import at_least, at_most, more_than
from pastedown.quantity.write import is_written_whole

RULERS = (
    INCH_RULER,
    Ruler(inches("1/16"), Show.METRIC),
    Ruler(inches("1/7"), Show.INCHES),
    Ruler(mm(1), Show.INCHES),
    Ruler(mm("1/2"), Show.BOTH),
    Ruler(mm(1), Show.METRIC),
)
DIMENSIONS = (
    NUMBER, LENGTH, AREA, VOLUME, ANGLE, MASS, GRAMMAGE, Dimension(money=1, currency="EUR"),
    Dimension(money=1, currency="JPY"), Dimension(length=-3, mass=1), Dimension(length=-1, mass=2),
)  # fmt: skip
values = st.fractions(min_value=0, max_value=3000, max_denominator=10_000)


@given(values, st.sampled_from(DIMENSIONS), st.sampled_from(RULERS))
def test_every_amount_is_on_the_safe_side_and_written_whole(value: Fraction, of: Dimension, ruler: Ruler) -> None:
    q = Quantity(value, of)
    assert at_least(q, ruler) >= q
    assert more_than(q, ruler) > q
    assert at_most(q, ruler) <= q
    for moved in (at_least(q, ruler), more_than(q, ruler), at_most(q, ruler)):
        assert is_written_whole(moved, ruler)


@given(values, st.sampled_from([ruler for ruler in RULERS if ruler.show is not Show.BOTH]))
def test_a_length_that_is_written_reads_back_as_enough(value: Fraction, ruler: Ruler) -> None:
    assert read_quantity(write(at_least(mm(value), ruler), ruler)) >= mm(value)


@pytest.mark.parametrize(
    ("move", "q", "ruler", "written"),
    [
        (at_least, inches("1/3"), INCH_RULER, "3/8 in"),
        (at_least, inches("3/8"), INCH_RULER, "3/8 in"),
        (more_than, inches("3/8"), INCH_RULER, "7/16 in"),
        (more_than, inches(0), INCH_RULER, "1/16 in"),
        (at_least, mm("8.2"), Ruler(mm(1), Show.METRIC), "9 mm"),
        (at_least, mm("1.001"), Ruler(inches("1/16"), Show.METRIC), "1.01 mm"),
        (at_most, mm(210), INCH_RULER, "8 1/4 in"),
        (at_most, inches("8.27"), INCH_RULER, "8.27 in"),
        (more_than, number(2), INCH_RULER, "3"),
        (at_least, number("1/300"), INCH_RULER, "0.0034"),
    ],
)
def test_amounts_a_maker_can_set(
    move: Callable[[Quantity, Ruler], Quantity], q: Quantity, ruler: Ruler, written: str
) -> None:
    assert write(move(q, ruler), ruler) == written
