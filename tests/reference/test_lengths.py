"""Lengths and units against published definitions, through the compiler.

LEN-10 and LEN-11 (units of CSS, PDF and TeX) are in test_formats.py.
"""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.outputs.to_cut_list import make as make_cut_list
from reference.through_the_compiler import fact, plan, value


def test_an_inch_is_25_4_millimetres_exactly() -> None:
    # LEN-01: international yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
    assert value("1 in") == Fraction(254, 10)


def test_foot_and_yard() -> None:
    # LEN-02: as LEN-01.
    assert value("1 ft") == Fraction("304.8")
    assert value("1 yd") == Fraction("914.4")


@settings(max_examples=25, deadline=None)
@given(st.fractions(min_value=0, max_value=10_000, max_denominator=1_000))
def test_millimetres_to_inches_and_back_is_the_same_length(millimetres: Fraction) -> None:
    # LEN-02: follows from an exact inch.
    in_inches = value(f"{millimetres} mm / 1 in")
    assert value(f"{in_inches} in") == millimetres == in_inches * Fraction(127, 5)


def test_a_caliper_point_is_a_thousandth_of_an_inch() -> None:
    # LEN-03: PrintWiki, "Point": 80-point board is 0.080 in; Debian units 2.22-2, pointthickness.
    assert value("80 pt") == value("0.080 in") == Fraction("2.032")


@pytest.mark.parametrize(
    ("inches", "millimetres"),
    # LEN-04: worked out from LEN-01.
    [("1/64", "0.396875"), ("1/32", "0.79375"), ("1/16", "1.5875"), ("1/8", "3.175"), ("3/16", "4.7625"),
     ("1/4", "6.35"), ("3/8", "9.525"), ("1/2", "12.7"), ("5/8", "15.875"), ("3/4", "19.05"), ("7/8", "22.225")],
)  # fmt: skip
def test_fractions_of_an_inch(inches: str, millimetres: str) -> None:
    assert value(f"{inches} in") == Fraction(millimetres)


def test_a_fraction_and_its_decimal_are_one_length() -> None:
    # LEN-04: 3/16 and 0.1875.
    assert value("3/16 in") == value("0.1875 in")
    assert value("1 3/16 in") == value("1.1875 in")


def test_letter_in_millimetres_is_rounded_only_when_asked() -> None:
    # LEN-05: a paper catalogue, "Metric Measurements": 215.9 by 279.4, rounded to 216 by 279.
    assert (value("8 1/2 in"), value("11 in")) == (Fraction("215.9"), Fraction("279.4"))
    assert value("8 1/2 in rounded nearest to 1 mm") == 216
    assert value("11 in rounded nearest to 1 mm") == 279


def test_conversions_keep_their_digits_until_the_end() -> None:
    # LEN-06: NIST SP 811 B.7.2, 36 ft = 10.9728 m, reported as 11.0 m.
    assert value("36 ft") == Fraction("10972.8")
    assert value("36 ft rounded nearest to 0.1 m") == 11_000
    # LEN-07: NIST Metric Style Guide, LC 1137, as quoted by a trade page: 36 in is 91 cm, 40.1 in is 101.9 cm.
    assert value("36 in rounded nearest to 1 cm") == 910
    assert value("40.1 in rounded nearest to 0.1 cm") == 1019


def cut(width: str) -> str:
    """The width that the cut list writes for a card, on a ruler of millimetres."""
    body = f"""
      ruler = millimetres to 1
      stuff = stock(kind: card, sheet: 500 mm x 500 mm, grain: none)
      piece probe from stuff, height: 400 mm, width: {width}, loose: yes
    """
    text = make_cut_list(plan(body))["cut-list.txt"].decode()
    (row,) = [line for line in text.split("\n") if line.startswith("probe ")]
    return row.partition("400 mm")[2].partition(" mm")[0].strip()


@pytest.mark.parametrize(
    ("width", "written"),
    # LEN-08: NIST SP 811 B.7.1, from memory: half way goes to the even digit. The cut list writes to 0.01 mm. The first
    # row is that of the source.
    [("6.9749515 mm", "about 6.97"), ("6.975 mm", "about 6.98"), ("6.965 mm", "about 6.96"), ("6.97 mm", "6.97"),
     # LEN-05: nothing is rounded that can be written whole.
     ("8 1/2 in", "215.9"), ("11 in", "279.4")],
)  # fmt: skip
def test_what_the_cut_list_writes(width: str, written: str) -> None:
    assert cut(width) == written


def test_what_is_written_rounded_is_never_fed_back() -> None:
    # LEN-06 and LEN-07: the exact value stays inside the model. A third of an inch is written as 8.47 mm; three of
    # them are an inch, not 25.41 mm.
    assert cut("1/3 in") == "about 8.47"
    assert cut("3 * (1/3 in)") == "25.4"


def test_a_pound_is_453_59237_grams_exactly() -> None:
    # LEN-09: agreement of 1959, through a basis weight: 500 sheets of 20 by 26 inches of "1 lb cover" weigh one pound.
    assert value("500 * 20 in * 26 in * 1 lb cover") == Fraction("453.59237")


def test_ways_of_writing_are_one_and_the_same_length() -> None:
    body = 'a = 8 1/2 in\nb = 8-1/2"\nc = 8½ in\nd = 8.5in\ne = 21.59 cm\nf = 215.9 mm'
    assert {fact(body, name) for name in "abcdef"} == {Fraction("215.9")}
