"""Like pieces out of one rectangle, against trying every cut at every whole unit."""

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.cutting.most_alike import most_alike


@cache
def tried(width: int, height: int, wide: int, high: int) -> int:
    if not ((wide <= width and high <= height) or (high <= width and wide <= height)):
        return 0
    best = 1
    for at in range(1, width // 2 + 1):
        best = max(best, tried(at, height, wide, high) + tried(width - at, height, wide, high))
    for at in range(1, height // 2 + 1):
        best = max(best, tried(width, at, wide, high) + tried(width, height - at, wide, high))
    return best


@settings(deadline=None, max_examples=60)
@given(st.integers(1, 22), st.integers(1, 22), st.integers(1, 9), st.integers(1, 9))
def test_no_way_of_cutting_gives_more(width: int, height: int, wide: int, high: int) -> None:
    assert most_alike(width, height, wide, high, may_turn=True) == tried(width, height, wide, high)


def test_what_may_not_turn_lies_in_rows() -> None:
    assert most_alike(Fraction(33, 4), Fraction(55, 8), Fraction(17, 4), Fraction(13, 4), may_turn=False) == 2
    # Three of 4 1/4 by 3 1/4 in: two above each other, and one upright beside them.
    assert most_alike(Fraction(33, 4), Fraction(55, 8), Fraction(17, 4), Fraction(13, 4), may_turn=True) == 3


@pytest.mark.parametrize("size", [60, 997, 10**9])
def test_a_great_many_are_no_worse_than_rows_and_take_no_time(size: int) -> None:
    found = most_alike(size, size, 2, 7, may_turn=True)
    assert (size // 2) * (size // 7) <= found <= size * size // 14
