"""Rounding to marks: exact, and the same on both sides of nought."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.quantity import DimensionError, Quantity, degrees, inches, is_on_mark, mm, number, round_to

LENGTHS = st.fractions(min_value=-1000, max_value=1000, max_denominator=10_000).map(mm)
MARKS = st.fractions(min_value=Fraction(1, 64), max_value=100, max_denominator=640).map(mm)
WAYS = st.sampled_from(["down", "up", "nearest"])


@pytest.mark.parametrize(
    ("value", "way", "expected"),
    [
        ("2.6", "down", "2"), ("2.4", "up", "3"), ("2.4", "nearest", "2"), ("2.6", "nearest", "3"),
        # Half way goes towards the greater value on both sides of nought.
        ("2.5", "nearest", "3"), ("3.5", "nearest", "4"), ("-2.5", "nearest", "-2"), ("-2.4", "down", "-3"),
        ("-2.6", "up", "-2"), ("3", "down", "3"), ("3", "up", "3"),
    ],
)  # fmt: skip
def test_ways(value: str, way: str, expected: str) -> None:
    assert round_to(mm(value), way, mm(1)) == mm(expected)


def test_metric_length_to_an_eighth_of_an_inch() -> None:
    # 100 mm lie between 31/8 in (98.425 mm) and 32/8 in (101.6 mm).
    assert round_to(mm(100), "down", inches("1/8")) == mm("98.425")
    assert round_to(mm(100), "up", inches("1/8")) == mm("101.6")


@pytest.mark.parametrize(
    ("millimetres", "mark", "expected"),
    # Papercatalog, 'Metric Measurements': 215.9 x 279.4 mm is reported as 216 x 279 mm.
    [("215.9", "1", "216"), ("279.4", "1", "279"), ("10972.8", "100", "11000"), ("1018.54", "1", "1019")],
)
def test_published_roundings(millimetres: str, mark: str, expected: str) -> None:
    assert round_to(mm(millimetres), "nearest", mm(mark)) == mm(expected)


@given(LENGTHS, MARKS)
def test_down_and_up_enclose_the_length_within_one_mark(length: Quantity, mark: Quantity) -> None:
    down, up = round_to(length, "down", mark), round_to(length, "up", mark)
    assert down <= length <= up
    assert up - down == (mm(0) if is_on_mark(length, mark) else mark)
    assert round_to(length, "nearest", mark) in (down, up)


@given(LENGTHS, MARKS)
def test_nearest_is_at_most_half_a_mark_away(length: Quantity, mark: Quantity) -> None:
    away = (round_to(length, "nearest", mark) - length).value
    assert -mark.value / 2 < away <= mark.value / 2


@given(LENGTHS, MARKS, WAYS)
def test_rounding_twice_is_rounding_once(length: Quantity, mark: Quantity, way: str) -> None:
    once = round_to(length, way, mark)
    assert is_on_mark(once, mark)
    assert round_to(once, way, mark) == once


def test_dimensions_must_agree() -> None:
    with pytest.raises(DimensionError, match="an angle and a length"):
        round_to(degrees(45), "down", mm(1))
    with pytest.raises(DimensionError):
        is_on_mark(number(5), mm(1))


@pytest.mark.parametrize("mark", ["0", "-1"])
def test_marks_are_more_than_nought(mark: str) -> None:
    with pytest.raises(ValueError, match="mark"):
        round_to(mm(5), "down", mm(mark))


def test_unknown_way() -> None:
    with pytest.raises(ValueError, match="sideways"):
        round_to(mm(5), "sideways", mm(1))
