"""Quantities in words."""

import pytest

from pastedown.quantity import DimensionError, Ruler, Show, mm, read_quantity, spoken

METRIC_RULER = Ruler(mm(1), Show.METRIC)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2 1/8 in", "two and one eighth inches"),
        ("1 in", "one inch"),
        ("1/8 in", "one eighth of an inch"),
        ("3/8 in", "three eighths of an inch"),
        ("1/2 in", "half an inch"),
        ("1 3/4 in", "one and three quarters inches"),
        ("12 1/2 in", "twelve and one half inches"),
        ("5/64 in", "five sixty-fourths of an inch"),
        ("0 in", "nought inches"),
        ("25.4 mm", "one inch"),
        ("5.084 in", "five point nought eight four inches"),
        ("1/3 in", "about nought point three three three inches"),
        ("45 deg", "forty-five degrees"),
        ("1 deg", "one degree"),
        ("21", "twenty-one"),
        ("100", "one hundred"),
        ("1234", "one thousand two hundred and thirty-four"),
        ("2005", "two thousand and five"),
        ("0.25", "nought point two five"),
        ("123456 in", "123456 inches"),
    ],
)
def test_words(text: str, words: str) -> None:
    assert spoken(read_quantity(text)) == words


def test_metric_words() -> None:
    assert spoken(mm("215.9"), METRIC_RULER) == "two hundred and fifteen point nine millimetres"
    assert spoken(mm(1), METRIC_RULER) == "one millimetre"
    assert spoken(mm("-1.5"), METRIC_RULER) == "minus one point five millimetres"


def test_lengths_said_alike_wherever_they_were_written() -> None:
    assert spoken(read_quantity("215.9 mm")) == spoken(read_quantity("8 1/2 in")) == "eight and one half inches"


def test_what_is_not_said_in_words() -> None:
    with pytest.raises(DimensionError):
        spoken(read_quantity("5 g"))
