"""Reading quantities: one token, a number and its unit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.quantity import (
    ANGLE,
    GRAMMAGE,
    LENGTH,
    MASS,
    NUMBER,
    UNIT_NAMES,
    Dimension,
    LiteralError,
    Quantity,
    metric_fraction,
    read_quantity,
)
from pastedown.quantity.literal import MOST_DIGITS


@pytest.mark.parametrize(
    "text",
    [
        "8 1/2 in", '8-1/2"', '8 1/2"', "8½ in", "8 ½ in", "8-½ in", "8.5in", "8.50 in", "17/2 in", "8 1/2”", "8 1/2″",
        "8 2/4 in", "21.59 cm", "21.59cm", "215.9 mm", "8\u20111/2 in", "8 1\u20442 in", "8\u00a01/2\u00a0in",
        "8 1/2\nin", "  8   1/2   in  ", "0.2159 m", "8500 pt", "08.5 in",
    ],
)  # fmt: skip
def test_one_length_in_every_spelling(text: str) -> None:
    # Papercatalog, 'Metric Measurements': 8 1/2 in = 215.9 mm.
    assert read_quantity(text) == Quantity(Fraction("215.9"), LENGTH)


def test_three_spellings_of_three_sixteenths_are_one_number() -> None:
    assert read_quantity("3/16") == read_quantity("0.1875") == Quantity(Fraction(3, 16), NUMBER)
    assert read_quantity("1 3/16") == read_quantity("1.1875") == read_quantity("19/16")


@pytest.mark.parametrize(
    ("sign", "written_out"),
    [
        ("½", "1/2"), ("⅓", "1/3"), ("⅔", "2/3"), ("¼", "1/4"), ("¾", "3/4"), ("⅕", "1/5"), ("⅖", "2/5"), ("⅗", "3/5"),
        ("⅘", "4/5"), ("⅙", "1/6"), ("⅚", "5/6"), ("⅐", "1/7"), ("⅛", "1/8"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8"),
        ("⅑", "1/9"), ("⅒", "1/10"),
    ],
)  # fmt: skip
def test_fraction_signs(sign: str, written_out: str) -> None:
    assert read_quantity(f"{sign} in") == read_quantity(f"{written_out} in")
    assert read_quantity(f"5{sign} in") == read_quantity(f"5 {written_out} in")


@pytest.mark.parametrize(
    ("text", "value", "dimension"),
    [
        ("5", "5", NUMBER), ("1/2", "1/2", NUMBER), ("2 1/2", "5/2", NUMBER), ("0.3", "3/10", NUMBER),
        (".5", "1/2", NUMBER),
        ("10 %", "1/10", NUMBER), ("12.5%", "1/8", NUMBER), ("45 deg", "45", ANGLE), ("22.5°", "45/2", ANGLE),
        ("5 g", "5", MASS), ("1.25 kg", "1250", MASS), ("216 gsm", "216/1000000", GRAMMAGE),
        ("12.50 EUR", "25/2", Dimension(money=1, currency="EUR")),
        ("900 JPY", "900", Dimension(money=1, currency="JPY")),
        ("0 in", "0", LENGTH),
    ],
)  # fmt: skip
def test_every_dimension(text: str, value: str, dimension: Dimension) -> None:
    assert read_quantity(text) == Quantity(Fraction(value), dimension)


@pytest.mark.parametrize(
    ("text", "id", "way_out"),
    [
        ("8 9/8 in", "improper-fraction", "9 1/8 in"),
        ('8 8/8"', "improper-fraction", '`9"`'),
        ("1 5/4", "improper-fraction", "`2 1/4`"),
        ("1/0 in", "zero-denominator", "1/8"),
        ("8 1/0 in", "zero-denominator", "1/8"),
        ("65 lb", "bare-pound", "`65 lb cover` = 176 gsm, `65 lb text` = 96 gsm"),
        ("65 lbs", "bare-pound", "`65 lb cover`"),
        ("65 lb kraft", "unknown-unit", "`65 lb cover`"),
        ("5 inches", "unknown-unit", "`5 in`"),
        ("5 IN", "unknown-unit", "`5 in`"),
        ("216 GSM", "unknown-unit", "`216 gsm`"),
        ("216 g/m²", "unknown-unit", "`216 gsm`"),
        ("5'", "unknown-unit", "`5 ft`"),
        ("10 percent", "unknown-unit", "`10%`"),
        ("12.50 eur", "unknown-unit", "`12.50 EUR`"),
        ("12.50 EURO", "unknown-unit", "such as EUR"),
        ("5 t", "unknown-unit", "mm"),
        ("", "unreadable-quantity", "8 1/2 in"),
        ("in", "unreadable-quantity", "8 1/2 in"),
        ("1.2.3 in", "unreadable-quantity", "8 1/2 in"),
        ("8 5 in", "unreadable-quantity", "8 1/2 in"),
        ("8.5 1/2 in", "unreadable-quantity", "8 1/2 in"),
        ("5½½ in", "unreadable-quantity", "8 1/2 in"),
        ("1/2/3", "unreadable-quantity", "8 1/2 in"),
        ("-5 in", "unreadable-quantity", "8 1/2 in"),
        ("٣ in", "unreadable-quantity", "8 1/2 in"),
    ],
)
def test_refusals(text: str, id: str, way_out: str) -> None:
    with pytest.raises(LiteralError) as caught:
        read_quantity(text)
    assert caught.value.id == id
    assert way_out in caught.value.way_out
    assert caught.value.reason.endswith(".")


def test_way_out_of_an_improper_fraction_is_the_same_measure() -> None:
    with pytest.raises(LiteralError) as caught:
        read_quantity("8 19/16 in")
    suggested = caught.value.way_out.split("`")[1]
    assert read_quantity(suggested).inches == 8 + Fraction(19, 16)


@pytest.mark.parametrize(
    "number",
    ["1" * 25, "0." + "3" * 24, "1/" + "7" * 24, "9" * 1_000_000],
    ids=["whole", "decimal", "fraction", "a million digits"],
)
def test_long_numbers_are_refused_before_they_cost_anything(number: str) -> None:
    with pytest.raises(LiteralError) as caught:
        read_quantity(f"{number} in")
    digits = sum(letter in "0123456789" for letter in number)
    assert caught.value.id == "number-too-long"
    assert f"{digits} digits" in caught.value.reason


def test_longest_number_is_exact() -> None:
    number = "1" * MOST_DIGITS
    assert read_quantity(number).value == int(number)


@pytest.mark.parametrize(
    "text",
    ["1 " * 300_000, "1/" * 300_000, "1." * 300_000, "1-" * 300_000, "1 " + "x" * 600_000],
    ids=["blanks", "slashes", "points", "hyphens", "long unit"],
)
def test_hostile_tokens_are_answered(text: str) -> None:
    with pytest.raises(LiteralError) as caught:
        read_quantity(text)
    assert len(caught.value.reason) < 200


@given(st.text(max_size=60) | st.from_regex(r"[0-9]{1,3}[ \-]?[0-9/.½]{0,4} ?.{0,8}", fullmatch=True))
def test_any_text_is_a_quantity_or_a_plain_sentence(text: str) -> None:
    try:
        assert isinstance(read_quantity(text), Quantity)
    except LiteralError as error:
        assert f"{error.reason} {error.way_out}".isprintable()


@pytest.mark.parametrize(
    ("text", "warned"),
    [
        ("7 1/2 mm", True), ("1/2 cm", True), ("7½ mm", True), ("1-1/2 m", True), ("2 1/2 kg", True),
        ("7.5 mm", False), ("7 1/2 in", False), ('7 1/2"', False), ("1/2", False), ("7 mm", False), ("nonsense", False),
    ],
)  # fmt: skip
def test_fractions_of_metric_units(text: str, warned: bool) -> None:
    assert metric_fraction(text) is warned


def test_unit_names_are_the_words_a_name_may_not_be() -> None:
    assert {"in", "mm", "cm", "m", "ft", "yd", "lb", "g", "gsm", "deg", "pt", "t"} <= set(UNIT_NAMES)
    for unit in set(UNIT_NAMES) - {"lb", "t"}:
        assert read_quantity(f"1 {unit}").value > 0
