"""Arithmetic of facts against a plain account of it: exact fractions with their powers of length, mass and money."""

from collections.abc import Callable
from fractions import Fraction
from math import floor

import pytest
from attrs import frozen
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity
from pastedown.quantity.quantity import Quantity
from reference.through_the_compiler import refused, value

Powers = tuple[int, int, int]
NUMBER: Powers = (0, 0, 0)
UNITS: dict[str, tuple[Fraction, Powers]] = {
    "": (Fraction(1), NUMBER), "in": (Fraction(127, 5), (1, 0, 0)), "mm": (Fraction(1), (1, 0, 0)),
    "g": (Fraction(1), (0, 1, 0)), "gsm": (Fraction(1, 1_000_000), (-2, 1, 0)), "EUR": (Fraction(1), (0, 0, 1)),
    "%": (Fraction(1, 100), NUMBER),
}  # fmt: skip


@frozen
class Sum:
    """An expression with its value and powers; or None for both, where they cannot be told, and what is wrong."""

    words: str
    value: Fraction | None
    powers: Powers | None = NUMBER
    wrong: frozenset[str] = frozenset()


def combined(left: Sum, right: Sum, sign: str) -> Sum:
    words, wrong = f"({left.words} {sign} {right.words})", left.wrong | right.wrong
    if left.powers is None or right.powers is None:
        return Sum(words, None, None, wrong)
    powers = together(left.powers, right.powers, sign)
    if powers is None:
        return Sum(words, None, None, wrong | {"wrong-dimension"})
    a, b = left.value, right.value
    if sign == "/" and b == 0:
        return Sum(words, None, powers, wrong | {"divide-by-nought"})
    if a is None or b is None:
        return Sum(words, None, powers, wrong)
    if sign == "/":
        return Sum(words, a / b, powers, wrong)
    return Sum(words, {"+": a + b, "-": a - b, "*": a * b}[sign], powers, wrong)


def together(a: Powers, b: Powers, sign: str) -> Powers | None:
    """The powers of a sum, product or quotient; None where the two cannot be taken together."""
    if sign in "+-":
        return a if a == b else None
    times = 1 if sign == "*" else -1
    return a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]


leaves = st.builds(
    lambda number, unit: Sum(f"{number} {unit}".strip(), number * UNITS[unit][0], UNITS[unit][1]),
    st.integers(0, 6).map(Fraction) | st.fractions(0, 20, max_denominator=8),
    st.sampled_from(["", "", "in", "in", "mm", "mm", "g", "gsm", "EUR", "%"]),
)
sums = st.recursive(
    leaves, lambda inner: st.builds(combined, inner, inner, st.sampled_from("+-**//")), max_leaves=7
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(sums)
def test_a_sum_is_what_plain_arithmetic_says(expected: Sum) -> None:
    compiled = compile_design("sum.album", f"edition = 1\nalbum a {{ x = {expected.words} }}", lambda _: None)
    ids = {each.id for each in compiled.diagnostics if each.severity is Severity.ERROR}
    if expected.wrong:
        # Of two faults in one fact the second may go untold, never both.
        assert ids and ids <= expected.wrong
        return
    model = compiled.designs[0].model
    assert ids == set() and model is not None
    found = model.measurements[0].value
    assert isinstance(found, Quantity)
    dimension = found.dimension
    assert found.value == expected.value
    assert (dimension.length, dimension.mass, dimension.money) == expected.powers


values = st.fractions(-50, 50, max_denominator=16)
FUNCTIONS: dict[str, Callable[[list[Fraction]], Fraction]] = {
    "min": min,
    "max": max,
    "sum": lambda given: sum(given, Fraction(0)),
}


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(sorted(FUNCTIONS)), st.lists(values, min_size=1, max_size=5), st.booleans())
def test_functions_of_many(name: str, given_values: list[Fraction], listed: bool) -> None:
    words = ", ".join(f"{each} in" if each >= 0 else f"-({-each} in)" for each in given_values)
    found = value(f"{name}([{words}])" if listed else f"{name}({words})")
    assert found == FUNCTIONS[name](given_values) * Fraction(127, 5)


@settings(max_examples=60, deadline=None)
@given(st.fractions(0, 100, max_denominator=64), st.fractions(Fraction(1, 16), 3, max_denominator=16))
def test_rounding_goes_to_the_mark_below_above_or_nearest(length: Fraction, mark: Fraction) -> None:
    down = floor(length / mark) * mark
    up = -floor(-length / mark) * mark
    nearest = down if length - down < up - length else up
    for way, expected in (("down", down), ("up", up), ("nearest", nearest)):
        assert value(f"{length} in rounded {way} to {mark} in") == expected * Fraction(127, 5)


@settings(max_examples=30, deadline=None)
@given(values, values)
def test_whole_choose_and_comparisons(one: Fraction, other: Fraction) -> None:
    words = [f"({each})" if each >= 0 else f"(-({-each}))" for each in (one, other)]
    assert value(f"whole({words[0]})") == floor(one)
    for sign, holds in (("<", one < other), ("<=", one <= other), (">", one > other), (">=", one >= other),
                        ("is", one == other)):  # fmt: skip
        assert value(f"choose({words[0]} {sign} {words[1]}, yes: 1, no: 2)") == (1 if holds else 2)


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("2 + 3 * 4", 14), ("(2 + 3) * 4", 20), ("10 - 4 - 3", 3), ("24 / 4 / 2", 3), ("-2 * 3", -6), ("- 2 + 5", 3),
        ("+2", 2), ("2 - -3", 5), ("1/2 + 1/2", 1), ("7 / 2 rounded down to 1", 3), ("1 + 2.6 rounded nearest to 1", 4),
    ],
)  # fmt: skip
def test_what_binds_tighter(expression: str, expected: int) -> None:
    assert value(expression) == expected


@pytest.mark.parametrize(
    ("expression", "id"),
    [
        ("1 in + 1", "wrong-dimension"), ("1 in > 1", "wrong-dimension"), ("min(1 in, 2)", "wrong-dimension"),
        ("1 EUR + 1 USD", "wrong-dimension"), ("45 deg + 1", "wrong-dimension"), ("whole(1 in)", "wrong-dimension"),
        ("1 in rounded up to 1", "wrong-dimension"),
        ("1 / 0", "divide-by-nought"), ("1 in rounded up to 0 in", "out-of-range"), ('1 + "a"', "wrong-kind"),
        ("yes + 1", "wrong-kind"), ("choose(1, yes: 1, no: 2)", "not-a-condition"), ("1 is yes", "wrong-dimension"),
    ],
)  # fmt: skip
def test_what_does_not_go_together(expression: str, id: str) -> None:
    assert refused(f"x = {expression}") == [id]


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**4))
@settings(max_examples=50, deadline=None)
def test_a_square_root_is_exact_where_it_comes_out_even(side: Fraction) -> None:
    square = side * side
    assert value(f"square_root({square.numerator} / {square.denominator})") == side
    assert value(f"square_root(1 in * ({square.numerator} in / {square.denominator}))") == side * Fraction(127, 5)


@given(st.fractions(min_value=Fraction(1, 100), max_value=10**6, max_denominator=10**4))
@settings(max_examples=50, deadline=None)
def test_a_square_root_is_otherwise_a_hair_less(square: Fraction) -> None:
    root = value(f"square_root({square.numerator} / {square.denominator})")
    assert root**2 <= square < (root + Fraction(1, 10**12)) ** 2


def test_there_is_no_square_root_below_nought() -> None:
    assert refused("x = square_root(1 in - 2 in)") == ["wrong-dimension"]
    assert refused("x = square_root(1 - 2)") == ["out-of-range"]
    assert value("square_root(0)") == 0
