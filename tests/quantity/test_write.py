"""Writing quantities: what is written reads back as the same quantity, or says "about"."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.quantity import (
    INCH_RULER,
    Dimension,
    DimensionError,
    Quantity,
    Ruler,
    Show,
    csv_decimal,
    degrees,
    inches,
    mm,
    money,
    number,
    read_quantity,
    write,
    write_length,
    write_on_ruler,
)
from pastedown.quantity.decimals import padded_decimal

METRIC_RULER = Ruler(mm(1), Show.METRIC)
HALF_MILLIMETRES = Ruler(mm("1/2"), Show.BOTH)
BOTH_ON_INCHES = Ruler(inches("1/16"), Show.BOTH)
RULERS = (INCH_RULER, METRIC_RULER, BOTH_ON_INCHES, HALF_MILLIMETRES)


@pytest.mark.parametrize(
    ("text", "in_inches", "metric"),
    [
        ("8 1/2 in", "8 1/2 in", "215.9 mm"),
        ("1/64 in", "1/64 in", "about 0.4 mm"),
        ("1/16 in", "1/16 in", "about 1.59 mm"),
        ("5.084 in", "5.084 in", "about 129.13 mm"),
        ("1/3 in", "about 0.333 in", "about 8.47 mm"),
        ("1/128 in", "about 0.008 in", "about 0.2 mm"),
        ("1/5 in", "0.2 in", "5.08 mm"),
        ("12 pt", "0.012 in", "about 0.3 mm"),
        ("1 mm", "about 0.039 in", "1 mm"),
        ("0.001 mm", "about 0 in", "about 0 mm"),
        ("12 in", "12 in", "304.8 mm"),
        ("0 in", "0 in", "0 mm"),
    ],
)
def test_lengths(text: str, in_inches: str, metric: str) -> None:
    length = read_quantity(text)
    assert write(length, INCH_RULER) == write_length(length, Show.INCHES) == in_inches
    assert write(length, METRIC_RULER) == write_length(length, Show.METRIC) == metric
    assert write(length, BOTH_ON_INCHES) == write_length(length, Show.BOTH) == f"{in_inches} ({metric})"
    assert write(length, HALF_MILLIMETRES) == f"{metric} ({in_inches})"


def test_less_than_nought() -> None:
    assert write(inches("-1/8"), INCH_RULER) == "-1/8 in"
    assert write(inches("-17/2"), BOTH_ON_INCHES) == "-8 1/2 in (-215.9 mm)"
    assert write(mm("-0.001"), METRIC_RULER) == "about 0 mm"


@pytest.mark.parametrize(
    ("value", "written"),
    # NIST SP 811, appendix B.7.1: half way goes to the even digit.
    [("0.0005", "about 0 in"), ("0.0015", "about 0.002 in"), ("0.0025", "about 0.002 in")],
)
def test_half_way_goes_to_the_even_digit(value: str, written: str) -> None:
    assert write(inches(value), INCH_RULER) == written


@pytest.mark.parametrize(
    ("value", "places", "written"),
    # The examples of NIST SP 811, appendix B.7.1 (to three, five and seven digits; half way to even), from memory.
    [
        ("6.9749515", 2, "6.97"), ("6.9749515", 4, "6.9750"), ("6.9749515", 6, "6.974952"),
        ("6.9749505", 6, "6.974950"),
    ],
)  # fmt: skip
def test_published_roundings(value: str, places: int, written: str) -> None:
    assert padded_decimal(Fraction(value), places) == written


@given(st.integers(min_value=0, max_value=64 * 1000))
def test_inch_fractions_read_back(steps: int) -> None:
    length = inches(Fraction(steps, 64))
    assert read_quantity(write(length, INCH_RULER)) == length


@given(st.integers(min_value=0, max_value=100 * 10_000))
def test_hundredths_of_a_millimetre_read_back(steps: int) -> None:
    length = mm(Fraction(steps, 100))
    assert read_quantity(write(length, METRIC_RULER)) == length


@given(st.fractions(min_value=0, max_value=10_000), st.sampled_from([Show.INCHES, Show.METRIC]))
def test_what_reads_back_otherwise_says_about(value: Fraction, show: Show) -> None:
    written = write_length(mm(value), show)
    read = read_quantity(written.removeprefix("about "))
    assert (read == mm(value)) is not written.startswith("about ")
    step = mm("0.0254") if show is Show.INCHES else mm("0.01")
    assert -step.value / 2 <= (read - mm(value)).value <= step.value / 2


@given(st.fractions(min_value=0, max_value=100, max_denominator=200))
def test_unit_of_writing_does_not_matter(value: Fraction) -> None:
    written = (read_quantity("1 in") * value, read_quantity("25.4 mm") * value, read_quantity("1000 pt") * value)
    assert len({write(length, BOTH_ON_INCHES) for length in written}) == 1


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("45 deg", "45°"), ("22.5 deg", "22.5°"), ("1/3 deg", "about 0.33°"),
        ("216 gsm", "216 gsm"), ("65 lb cover", "about 176 gsm"),
        ("12.5 EUR", "12.50 EUR"), ("1/3 EUR", "about 0.33 EUR"), ("1200 JPY", "1200 JPY"), ("1.5 KWD", "1.500 KWD"),
        ("5 g", "5 g"), ("1500 g", "1.5 kg"), ("1/3 g", "about 0.33 g"),
        ("5", "5"), ("0.3", "0.3"), ("2 1/2", "2.5"), ("2 1/3", "2 1/3"), ("12 %", "0.12"), ("1/997", "about 0.001"),
    ],
)  # fmt: skip
def test_other_dimensions(text: str, written: str) -> None:
    for ruler in RULERS:
        assert write(read_quantity(text), ruler) == written


def test_areas_and_volumes() -> None:
    letter = read_quantity("8 1/2 in") * read_quantity("11 in")
    # 8 1/2 x 11 = 93 1/2; 21.59 x 27.94 = 603.2246.
    assert write(letter, INCH_RULER) == "93.5 sq in"
    assert write(letter, METRIC_RULER) == "about 603.22 cm²"
    assert write(letter, BOTH_ON_INCHES) == "93.5 sq in (about 603.22 cm²)"
    assert write(mm(10) * mm(10) * mm(10), METRIC_RULER) == "1 cm³"
    assert write(inches(2) * inches(2) * inches(2), INCH_RULER) == "8 cu in"


def test_quantities_without_a_name() -> None:
    assert write(money(3, "EUR") / mm(2), METRIC_RULER) == "1.5 EUR/mm"
    assert write(money(3, "EUR") / (mm(2) * mm(1)), METRIC_RULER) == "1.5 EUR/mm²"
    assert write(Quantity(Fraction(5), Dimension(length=1, mass=1)), METRIC_RULER) == "5 g·mm"
    # ISO 534: apparent density is grammage over thickness. 200 grams for each square metre at 0.25 mm: 0.8 g/cm³.
    assert write(read_quantity("200 gsm") / mm("0.25"), METRIC_RULER) == "0.8 g/cm³"


@pytest.mark.parametrize(
    ("length", "ruler", "written"),
    [
        (inches("81/16"), INCH_RULER, "5 1/16 in"),
        (inches("5.084"), INCH_RULER, "a little over 5 1/16 in (5.084 in)"),
        (inches("1/3"), INCH_RULER, "a little over 5/16 in (about 0.333 in)"),
        (inches("1/64"), INCH_RULER, "a little over 0 in (1/64 in)"),
        (mm("5.4"), METRIC_RULER, "a little over 5 mm (5.4 mm)"),
        (mm("5.6"), METRIC_RULER, "a little under 6 mm (5.6 mm)"),
        (mm("5.5"), METRIC_RULER, "5.5 mm"),
        (inches("5.121"), Ruler(inches("1/16"), Show.BOTH), "a little under 5 1/8 in (5.121 in, about 130.07 mm)"),
        (mm("5.5"), HALF_MILLIMETRES, "5.5 mm (about 0.217 in)"),
        (inches("1/16"), Ruler(inches("1/16"), Show.METRIC), "about 1.59 mm"),
    ],
)
def test_on_a_ruler(length: Quantity, ruler: Ruler, written: str) -> None:
    assert write_on_ruler(length, ruler) == written


@pytest.mark.parametrize(
    ("quantity", "unit", "written"),
    [
        (inches("8.5"), "in", "8.5"), (inches("8.5"), "mm", "215.9"), (inches("1/16"), "in", "0.0625"),
        (inches("1/64"), "in", "0.0156"), (inches("1/3"), "in", "0.3333"), (mm(300), "cm", "30"), (mm(0), "in", "0"),
        (inches("-1/8"), "in", "-0.125"), (inches(2) * inches(3), "sq in", "6"), (mm(20) * mm(30), "sq cm", "6"),
        (degrees(45), "deg", "45"), (number("1/8"), "", "0.125"), (money("12.5", "EUR"), "EUR", "12.5"),
    ],
)  # fmt: skip
def test_decimals_for_lists(quantity: Quantity, unit: str, written: str) -> None:
    assert csv_decimal(quantity, unit) == written


def test_decimals_for_lists_refuse_what_does_not_fit() -> None:
    with pytest.raises(DimensionError):
        csv_decimal(degrees(45), "mm")
    with pytest.raises(ValueError, match="furlong"):
        csv_decimal(mm(45), "furlong")
    with pytest.raises(ValueError, match="USD"):
        csv_decimal(money(1, "EUR"), "USD")


def test_numbers_too_large_to_print_are_still_answered() -> None:
    huge = Fraction(10) ** 6000
    for quantity in (mm(huge), mm(-huge), number(huge), mm(huge) * mm(huge), money(huge, "EUR"), mm(1 / huge)):
        for ruler in RULERS:
            assert len(write(quantity, ruler)) < 100
    assert len(csv_decimal(mm(huge), "mm")) < 100
    assert len(write_on_ruler(mm(huge / 7), INCH_RULER)) < 250
