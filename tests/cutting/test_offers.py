"""One more size on offer never makes a plan dearer, and what the sizes bound is true."""

from fractions import Fraction
from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.brute_force import Small, fewest_sheets
from cutting.judge import judge
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet


def offers(least: int, most: int) -> st.SearchStrategy[list[Sheet]]:
    one = st.builds(
        Sheet, st.just("size"), st.integers(6, 30), st.integers(6, 30), st.integers(1, 12), st.sampled_from([1, 1, 3, 10])
    )
    return st.lists(one, min_size=least, max_size=most)


wanted = st.lists(
    st.builds(Piece, st.just("piece"), st.integers(1, 12), st.integers(1, 12), st.integers(1, 9), st.booleans()),
    min_size=1, max_size=4,
)
on_hand = st.lists(
    st.builds(Sheet, st.just("offcut"), st.integers(3, 20), st.integers(3, 20), on_hand=st.integers(1, 2)), max_size=1
)


@settings(max_examples=20, deadline=None)
@given(offers(2, 3), on_hand, wanted)
def test_one_more_size_never_makes_a_plan_dearer(sizes: list[Sheet], there: list[Sheet], pieces: list[Piece]) -> None:
    def planned(some: tuple[Sheet, ...]) -> Fraction | None:
        problem = Problem((*some, *there), tuple(pieces))
        plan = make_plan(problem, Effort(25, libraries=False))
        judge(problem, plan)
        return None if plan.misfits or plan.short else plan.cost

    cost = planned(tuple(sizes))
    for some in combinations(sizes, len(sizes) - 1):
        fewer = planned(some)
        if fewer is not None:
            assert cost is not None
            assert cost <= fewer


def cheapest(sizes: list[Sheet], pieces: list[Small]) -> Fraction | None:
    """What the cheapest plan on two sizes costs, by trying every way to share the pieces out."""
    holds = {
        (number, members): fewest_sheets(int(size.width), int(size.height), [
            piece for at, piece in enumerate(pieces) if members >> at & 1
        ]) == 1
        for number, size in enumerate(sizes) for members in range(1, 1 << len(pieces))
    }  # fmt: skip
    used: list[set[tuple[int, int]]] = [{(0, 0)}]
    for members in range(1, 1 << len(pieces)):
        found: set[tuple[int, int]] = set()
        part = members
        while part:
            if part & members & -members:
                for one, other in used[members ^ part]:
                    found |= {(one + 1, other)} if holds[0, part] else set()
                    found |= {(one, other + 1)} if holds[1, part] else set()
            part = (part - 1) & members
        used.append(found)
    costs = [
        sum((-(-count // size.pack) * Fraction(size.price or 0) for count, size in zip(counts, sizes, strict=True)), Fraction(0))
        for counts in used[-1]
    ]
    return min(costs, default=None)


few = st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9), st.booleans()), min_size=1, max_size=5)


@settings(max_examples=40, deadline=None)
@given(offers(2, 2), few)
def test_the_bound_against_every_way_to_share_the_pieces_out(
    sizes: list[Sheet], pieces: list[Small]
) -> None:
    small = [evolve(size, width=size.width % 9 + 4, height=size.height % 9 + 4) for size in sizes]
    cost = cheapest(small, pieces)
    problem = Problem(tuple(small), tuple(Piece(str(n), w, h, 1, turns) for n, (w, h, turns) in enumerate(pieces)))
    plan = make_plan(problem, Effort(60, libraries=False))
    judge(problem, plan)
    if cost is None:
        assert plan.misfits
        return
    assert plan.least_cost is not None
    assert plan.cost is not None
    assert plan.least_cost <= cost <= plan.cost


@pytest.mark.parametrize("libraries", [True, False])
def test_a_size_that_is_no_use_keeps_none_from_being_found(libraries: bool) -> None:
    # Twelve of the large sheets do for 13.80; two packs of the small ones, which every mix held, cost 14.80.
    sheets = (
        Sheet("small", 416, 293, Fraction(37, 5), 20), Sheet("middling", 316, 446, Fraction(189, 10), 50),
        Sheet("large", 697, 490, Fraction(23, 20)), Sheet("there", 416, 293, on_hand=2),
        Sheet("offcut", 210, 300, on_hand=1), Sheet("scrap", 210, 148, on_hand=1),
    )  # fmt: skip
    pieces = (
        Piece("leaf", 145, 200, 75), Piece("mat", 135, 110, 75, True), Piece("strip", 22, 200, 75),
        Piece("corner", 25, 25, 300, True),
    )  # fmt: skip
    problem = Problem(sheets, pieces)
    plan = make_plan(problem, Effort(libraries=libraries))
    judge(problem, plan)
    assert (plan.cost, plan.proven) == (Fraction(69, 5), True)


def test_few_large_pieces_are_counted_and_not_measured_by_their_area() -> None:
    # By the area two packs of small boards would do; but no small one holds more than three covers, no strip any.
    small, large = Sheet("small", 96, 192, 11, 4), Sheet("large", 208, 304, 52, 10)
    pieces = (Piece("cover", 66, 54, 26), Piece("spine", 24, 54, 13))
    plan = make_plan(Problem((large, small, Sheet("strip", 56, 112, on_hand=1)), pieces), Effort(libraries=False))
    assert (plan.cost, plan.least_cost) == (33, 33)


def test_of_a_thousand_kits_the_mix_is_proven_without_libraries() -> None:
    # One piece to a small sheet, six to a large one; by the area the small ones would be cheaper.
    small, large = Sheet("small", 190, 190, Fraction(199, 20), 25), Sheet("large", 284, 380, Fraction(29, 2), 10)
    pieces = (Piece("front", 128, 112, 1050), Piece("rear", 130, 112, 1050), Piece("note", 116, 96, 1050, True))
    problem = Problem((small, large), pieces)
    plan = make_plan(problem, Effort(libraries=False))
    judge(problem, plan)
    assert plan.proven
    assert [each.packs for each in plan.bought] == [0, 53]
