"""Lengths and units against published definitions, through the compiler.

LEN-10 and LEN-11 (units of CSS, PDF and TeX) belong to file formats and are checked where templates are read back.
"""

from fractions import Fraction

import pytest

from pastedown.quantity.quantity import Quantity
from pastedown.quantity.write import write_length
from reference.through_the_compiler import fact, made, value


def test_an_inch_is_25_4_millimetres_exactly() -> None:
    # LEN-01: international yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
    assert value("1 in") == Fraction(254, 10)


def test_foot_and_yard() -> None:
    # LEN-02: as LEN-01.
    assert value("1 ft") == Fraction("304.8")
    assert value("1 yd") == Fraction("914.4")


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


def shown(expression: str) -> str:
    """A length as outputs write it in millimetres."""
    model = made(f"ruler = millimetres to 1\nprobed = {expression}").model
    assert model is not None
    (found,) = [each.value for each in model.measurements if each.path == "probed"]
    assert isinstance(found, Quantity)
    return write_length(found, model.ruler.show)


def test_a_length_half_way_is_written_with_an_even_last_digit() -> None:
    # LEN-08: NIST SP 811 B.7.1, from memory: half way goes to the even digit. Lengths are written to 0.01 mm.
    assert shown("6.975 mm") == "about 6.98 mm"
    assert shown("6.965 mm") == "about 6.96 mm"
    assert shown("6.97495 mm") == "about 6.97 mm"


def test_a_pound_is_453_59237_grams_exactly() -> None:
    # LEN-09: agreement of 1959, through a basis weight: 500 sheets of 20 by 26 inches of "1 lb cover" weigh one pound.
    assert value("500 * 20 in * 26 in * 1 lb cover") == Fraction("453.59237")


def test_ways_of_writing_are_one_and_the_same_length() -> None:
    body = 'a = 8 1/2 in\nb = 8-1/2"\nc = 8½ in\nd = 8.5in\ne = 21.59 cm\nf = 215.9 mm'
    assert {fact(body, name) for name in "abcdef"} == {Fraction("215.9")}
