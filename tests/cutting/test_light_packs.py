"""A pack for few sheets is dropped where sheets left over hold their pieces, and kept where they do not."""

from fractions import Fraction

from pastedown.cutting.budget import Budget
from pastedown.cutting.light_packs import without_light_packs
from pastedown.cutting.pool import Choice, cost_of, made, sheets_of
from pastedown.cutting.slicing import layout
from pastedown.cutting.task import Base, Kind, Task

# Six pages go on a large sheet, one on a small one.
LARGE, SMALL = Base(18, 24, 145, 10, None, 0), Base(12, 12, 99, 25, None, 1)
SIX = (1, *[(0, 0, 0)] * 3)


def task(pages: int, *more: Base) -> Task:
    return Task((Kind(8, 7, pages, False),), (LARGE, SMALL, *more), Fraction(1), Fraction(1))


def dropped(pages: int, choice: Choice, *more: Base) -> list[int]:
    wanted = task(pages, *more)
    other = without_light_packs(wanted, choice, Budget(200))
    assert made(wanted, other) == [pages]
    assert cost_of(wanted, other) <= cost_of(wanted, choice)
    assert all(base.limit is None or n <= base.limit for n, base in zip(sheets_of(wanted, other), wanted.bases, strict=True))
    return sheets_of(wanted, other)


def test_five_small_sheets_go_on_one_large_that_is_paid() -> None:
    assert dropped(6 * 17 + 5, ((layout(0, SIX), 17), (layout(1, 0), 5))) == [18, 0]


def test_a_sheet_half_empty_takes_them_too() -> None:
    assert dropped(6 * 19 + 3 + 2, ((layout(0, SIX), 19), (layout(0, (1, 0, 0, 0)), 1), (layout(1, 0), 2))) == [20, 0]


def test_a_pack_is_kept_where_nothing_is_left_over() -> None:
    assert dropped(6 * 20 + 5, ((layout(0, SIX), 20), (layout(1, 0), 5))) == [20, 5]


def test_the_last_pack_of_many_is_emptied_and_the_others_stay() -> None:
    assert dropped(6 * 9 + 27, ((layout(0, SIX), 9), (layout(1, 0), 27))) == [10, 25]


def test_what_is_on_hand_takes_them_and_no_more_than_there_is() -> None:
    choice = ((layout(0, SIX), 10), (layout(1, 0), 2))
    assert dropped(62, choice, Base(9, 9, 0, 1, 2, 2)) == [10, 0, 2]
    assert dropped(62, choice, Base(9, 9, 0, 1, 1, 2)) == [10, 2, 0]
