"""A length is the same in whatever unit it is written: no verdict and no exact value hangs on it."""

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.geometry.model import Model
from test_examples import DESIGNS, FILES

INCH = Fraction(127, 5)
LENGTH = re.compile(r"(?<![\w.])(?:(\d+) )?(\d+)(?:/(\d+))? in(?![\w])(?! x )(?<! x)")
UNITS = {"in": INCH, "mm": Fraction(1), "cm": Fraction(10), "ft": 12 * INCH, "m": Fraction(1000)}


def rewritten(text: str, units: list[str]) -> str:
    """Every length in inches of the recipe written in other units, taken in turn; comments and texts are left alone."""
    turn = 0

    def rewrite(match: re.Match[str]) -> str:
        nonlocal turn
        whole, top, bottom = match.groups()
        value = (int(whole or 0) + Fraction(int(top), int(bottom or 1))) * INCH
        unit = units[turn % len(units)]
        turn += 1
        number = value / UNITS[unit]
        return f"{number.numerator}/{number.denominator} {unit}" if number.denominator > 1 else f"{number} {unit}"

    pieces = re.split(r'("[^"]*"|#[^\n]*|\d[\d /]* in x \d[\d /]* in)', text)
    return "".join(piece if at % 2 else LENGTH.sub(rewrite, piece) for at, piece in enumerate(pieces))


def model_of(name: str, files: dict[str, str]) -> Model:
    (design,) = compile_design(name, files[name], files.get).designs
    assert design.model is not None
    return design.model


@pytest.mark.parametrize("name", DESIGNS)
@settings(max_examples=4, deadline=None)
@given(units=st.lists(st.sampled_from(sorted(UNITS)), min_size=1, max_size=7))
def test_the_unit_of_writing_changes_nothing(name: str, units: list[str]) -> None:
    before, after = (
        model_of(name, FILES),
        model_of(name, {file: rewritten(text, units) for file, text in FILES.items()}),
    )
    assert [(each.path, each.value) for each in before.measurements] == [
        (each.path, each.value) for each in after.measurements
    ]
    assert [(each.path, each.holds) for each in before.requirements] == [
        (each.path, each.holds) for each in after.requirements
    ]
    assert [piece.outline for piece in before.pieces] == [piece.outline for piece in after.pieces]
