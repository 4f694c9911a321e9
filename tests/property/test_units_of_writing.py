"""A length is the same in whatever unit and form it is written: no verdict and no exact value hangs on it."""

import random
from fractions import Fraction
from functools import cache
from itertools import zip_longest

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import Compiled, compile_design
from pastedown.quantity.quantity import Length
from property.recipe_text import EXAMPLES, with_lengths_written
from property.test_order_of_lines import FAULTY
from test_examples import DESIGNS, FILES

INCH = Fraction(127, 5)
UNITS = {
    "in": INCH, "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "ft": 12 * INCH, "yd": 36 * INCH,
    "pt": INCH / 1000,
}  # fmt: skip


def written(length: Length, chance: random.Random) -> str:
    """The length in some unit, as a decimal, a fraction, or a whole number and a fraction. Nothing is rounded."""
    unit = chance.choice(sorted(UNITS))
    number = length.value / UNITS[unit]
    forms = [f"{number.numerator}/{number.denominator} {unit}"]
    if (decimal := finite_decimal(number)) is not None:
        forms.append(f"{decimal} {unit}")
    if unit in ("in", "ft", "yd") and number > 1 and number.denominator > 1:
        whole, rest = divmod(number.numerator, number.denominator)
        forms += [f"{whole}{gap}{rest}/{number.denominator} {unit}" for gap in " -"]
    return chance.choice(forms) if number.denominator > 1 else f"{number} {unit}"


def finite_decimal(number: Fraction) -> str | None:
    """The number with all its digits after a point; None where they never end, or are more than twelve."""
    for places in range(13):
        if (10**places * number).denominator == 1:
            digits = str(10**places * number).rjust(places + 1, "0")
            return f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return None


@pytest.mark.parametrize(
    ("number", "decimal"), [("1/8", "0.125"), ("215.9", "215.9"), ("12", "12"), ("1/3", None), ("0.012", "0.012")]
)
def test_the_decimals_of_this_test(number: str, decimal: str | None) -> None:
    assert finite_decimal(Fraction(number)) == decimal


def told(compiled: Compiled) -> list[object]:
    """What is told; that a fraction of a metric unit is unusual is a remark on the writing."""
    return [(each.id, each.sentence) for each in compiled.diagnostics if each.id != "metric-fraction"]


def everything(compiled: Compiled) -> list[object]:
    """All values, verdicts, cuts and messages of all designs of a file."""
    found: list[object] = told(compiled)
    for design in compiled.designs:
        if design.model is not None:
            model = design.model
            found += [(each.path, each.value) for each in model.measurements]
            found += [(each.path, each.holds, each.left, each.right) for each in model.requirements]
            found += [(piece.path, piece.outline, piece.inner_cuts, piece.runs) for piece in model.pieces]
            found.append(model.stocks)
    return found


def first_difference(name: str, files: dict[str, str]) -> object:
    """What differs first between the rewritten files and the shipped ones; None where nothing does."""
    before, after = everything(shipped(name)), everything(compile_design(name, files[name], files.get))
    return next((pair for pair in zip_longest(before, after) if pair[0] != pair[1]), None)


@cache
def shipped(name: str) -> Compiled:
    return compile_design(name, FILES[name], FILES.get)


@pytest.mark.parametrize("name", DESIGNS)
@settings(max_examples=3, deadline=None)
@given(seed=st.integers(min_value=0, max_value=10_000))
def test_the_unit_of_writing_changes_nothing(name: str, seed: int) -> None:
    chance = random.Random(seed)
    files = {file: with_lengths_written(text, lambda length: written(length, chance)) for file, text in FILES.items()}
    assert files != FILES
    assert first_difference(name, files) is None


@settings(max_examples=3, deadline=None)
@given(st.integers(min_value=0, max_value=10_000))
def test_the_units_of_the_library_change_nothing_either(seed: int) -> None:
    chance = random.Random(seed)
    files = {
        file: with_lengths_written(text, lambda length: written(length, chance)) for file, text in EXAMPLES.items()
    }
    for name in ("harbour_walk.album", "almanac.album"):
        assert first_difference(name, files) is None


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10_000))
def test_the_unit_of_writing_changes_no_refusal(seed: int) -> None:
    chance = random.Random(seed)
    text = with_lengths_written(FAULTY, lambda length: written(length, chance))
    found, expected = (told(compile_design("faulty.album", each, lambda _: None)) for each in (text, FAULTY))
    assert found == expected
    assert len(expected) > 5
