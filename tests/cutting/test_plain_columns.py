"""Column generation without libraries, against HiGHS (a general-purpose solver) and against trying everything."""

from fractions import Fraction
from functools import cache

import highspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.judge import judge
from pastedown.cutting.budget import Budget
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.plain_linear import PlainMaster
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet
from pastedown.cutting.slicing import Layout, Tree, counts_of, size_of
from pastedown.cutting.strips import StripCutter
from pastedown.cutting.task import Base, Kind

ENDLESS = 10.0**9


@st.composite
def programmes(draw: st.DrawFn) -> tuple[list[int], list[tuple[list[int], int]]]:
    rows = draw(st.integers(1, 5))
    demands = draw(st.lists(st.integers(0, 40), min_size=rows, max_size=rows))
    column = st.tuples(st.lists(st.integers(0, 4), min_size=rows, max_size=rows), st.integers(1, 9))
    columns = [([int(at == row) for at in range(rows)], draw(st.integers(1, 9))) for row in range(rows)]
    return demands, columns + draw(st.lists(column, max_size=12))


@given(programmes())
@settings(max_examples=60, deadline=None)
def test_the_linear_programme_comes_to_what_highs_finds(
    programme: tuple[list[int], list[tuple[list[int], int]]],
) -> None:
    demands, columns = programme
    layouts = [Layout(0, tuple((row, n) for row, n in enumerate(counts) if n), 0) for counts, _ in columns]
    master = PlainMaster(demands, layouts[: len(demands)], [float(cost) for _, cost in columns[: len(demands)]])
    for one, (_, cost) in list(zip(layouts, columns, strict=True))[len(demands) :]:
        master.add(one, float(cost))
    master.solve(Budget(ENDLESS))
    amounts = master.used()
    for row, demand in enumerate(demands):
        came = sum(amount * counts[row] for amount, (counts, _) in zip(amounts, columns, strict=True))
        assert came >= demand - 1e-6
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("output_flag", False)
    # HiGHS keeps to the first number of threads it is told, in the whole process.
    solver.setOptionValue("threads", 1)
    for demand in demands:
        solver.addRow(float(demand), highspy.kHighsInf, 0, np.array([], dtype=np.int32), np.array([], dtype=np.double))
    for counts, cost in columns:
        rows = [row for row, n in enumerate(counts) if n]
        solver.addCol(
            float(cost), 0.0, highspy.kHighsInf, len(rows), np.array(rows, dtype=np.int32),
            np.array([float(counts[row]) for row in rows]),
        )  # fmt: skip
    solver.run()
    least = solver.getInfo().objective_function_value
    assert sum(a * cost for a, (_, cost) in zip(amounts, columns, strict=True)) == pytest.approx(least, abs=1e-6)


def most_in_stages(kinds: list[Kind], values: list[int], width: int, height: int, stages: int) -> int:
    """The most that a sheet is worth if it is cut in so many stages, the first of them along x, by trying every
    cut; waste falls off free."""

    @cache
    def most(w: int, h: int, axis: int, left: int) -> int:
        best = max([0, *(v for k, v in zip(kinds, values, strict=True) for a, b, _ in k.ways() if a <= w and b <= h)])
        if left == 0:
            return best
        best = max(best, most(w, h, 1 - axis, left - 1))
        for at in range(1, (h if axis == 0 else w)):
            if axis == 0:
                best = max(best, most(w, at, 1, left - 1) + most(w, h - at, 0, left))
            else:
                best = max(best, most(at, h, 0, left - 1) + most(w - at, h, 1, left))
        return best

    return most(width, height, 0, stages)


@st.composite
def sheets(draw: st.DrawFn) -> tuple[list[Kind], list[int], int, int]:
    width, height = draw(st.integers(3, 12)), draw(st.integers(3, 12))
    sizes = draw(st.lists(st.tuples(st.integers(1, 12), st.integers(1, 12), st.booleans()), min_size=1, max_size=4))
    kinds = [Kind(min(w, h) if turns else w, max(w, h) if turns else h, 99, turns) for w, h, turns in sizes]
    values = draw(st.lists(st.integers(1, 30), min_size=len(kinds), max_size=len(kinds)))
    return kinds, values, width, height


@given(sheets(), st.sampled_from([2, 3]))
@settings(max_examples=80, deadline=None)
def test_the_best_strips_are_the_best_there_are(case: tuple[list[Kind], list[int], int, int], stages: int) -> None:
    kinds, values, width, height = case
    cutter = StripCutter(kinds, Base(width, height, 1, 1, None, 0), 0)
    worth = [float(value) for value in values]
    found = list((cutter.two_stages if stages == 2 else cutter.three_stages)(worth, Budget(ENDLESS)))

    def value_of(tree: Tree) -> int:
        w, h = size_of(tree, kinds)
        assert w <= width and h <= height
        return sum(values[kind] * count for kind, count in counts_of(tree))

    assert max([0, *map(value_of, found)]) == most_in_stages(kinds, values, width, height, stages)


def test_forty_kits_from_two_sizes_cost_little_more_than_the_area() -> None:
    pieces = [
        Piece("front", Fraction(17, 2), Fraction(29, 4), 200, False), Piece("rear", 9, 8, 200, False),
        Piece("strip", Fraction(57, 4), 8, 40, False), Piece("card", Fraction(7, 2), 5, 200, True),
    ]  # fmt: skip
    offers = [Sheet("small", 12, 12, price=Fraction(9), pack=10), Sheet("big", 18, 24, price=Fraction(23, 2), pack=4)]
    problem = Problem(tuple(offers), tuple(pieces))
    plain, full = make_plan(problem, Effort(1500, libraries=False)), make_plan(problem, Effort(1500))
    judge(problem, plain)
    assert plain.cost is not None and full.cost is not None and full.cost <= plain.cost <= full.cost * Fraction(103, 100)
