"""Plans are what they claim to be: judged one by one, compared with what trying everything finds, the same every time."""

import json
import subprocess
import sys
from fractions import Fraction
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting.brute_force import fewest_sheets
from cutting.judge import judge
from pastedown.cutting.bound import by_area
from pastedown.cutting.make_plan import WITHOUT_LIBRARIES, make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet, Trim
from pastedown.cutting.task import Base, Kind, Task

QUICK = Effort(60)
PURE = Effort(60, libraries=False)
COMPILER = Path(__file__).parent.parent.parent / "compiler"
INSTANCES = json.loads((Path(__file__).parent / "instances.json").read_text(encoding="utf-8"))["instances"]


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Odd sizes, halves and thirds, raw edges, offcuts, several sizes with prices and packs, pieces that fit nowhere."""
    part = draw(st.sampled_from([Fraction(1), Fraction(1, 2), Fraction(1, 3), Fraction(127, 320)]))

    def length(low: int, high: int) -> Fraction:
        return draw(st.integers(low, high)) * part

    edge: st.SearchStrategy[Fraction | int] = st.sampled_from([0, 0, part, 2 * part])
    priced = draw(st.booleans())
    sheets = [
        Sheet(
            f"size {number}", length(8, 30), length(8, 30),
            price=draw(st.integers(1, 9)) if priced else None, pack=draw(st.sampled_from([1, 1, 3, 10])),
            trim=Trim(draw(edge), draw(edge), draw(edge), draw(edge)),
        )
        for number in range(draw(st.integers(0, 2)))
    ]
    sheets += [
        Sheet(f"offcut {number}", length(3, 30), length(3, 30), on_hand=draw(st.integers(0, 2)))
        for number in range(draw(st.integers(0, 2)))
    ]
    pieces = [
        Piece(f"piece {number}", length(1, 32), length(1, 20), draw(st.integers(0, 12)), draw(st.booleans()))
        for number in range(draw(st.integers(0, 6)))
    ]
    return Problem(tuple(sheets), tuple(pieces))


@settings(max_examples=60, deadline=None)
@given(problems(), st.sampled_from([QUICK, PURE, Effort(0), Effort(0, libraries=False)]))
def test_every_plan_is_accepted_by_an_independent_judge(problem: Problem, effort: Effort) -> None:
    judge(problem, make_plan(problem, effort))


small = st.tuples(st.integers(1, 9), st.integers(1, 9), st.booleans())


@settings(max_examples=60, deadline=None)
@given(st.integers(5, 10), st.integers(5, 10), st.lists(small, min_size=1, max_size=6), st.booleans())
def test_small_plans_are_the_best_there_are(
    width: int, height: int, pieces: list[tuple[int, int, bool]], libraries: bool
) -> None:
    fewest = fewest_sheets(width, height, pieces)
    problem = Problem(
        (Sheet("sheet", width, height),), tuple(Piece(str(n), w, h, 1, turns) for n, (w, h, turns) in enumerate(pieces))
    )
    plan = make_plan(problem, Effort(150, libraries))
    judge(problem, plan)
    if fewest is None:
        assert plan.misfits
        return
    assert not plan.misfits
    assert plan.new_sheets == fewest
    assert plan.least_sheets is not None
    assert plan.least_sheets <= fewest


@settings(max_examples=15, deadline=None)
@given(problems(), st.randoms(use_true_random=False))
def test_the_order_of_pieces_decides_nothing(problem: Problem, dice: "object") -> None:
    pieces = list(problem.pieces)
    dice.shuffle(pieces)  # type: ignore[attr-defined]
    one = make_plan(problem, QUICK)
    other = make_plan(Problem(problem.sheets, tuple(pieces)), QUICK)
    assert [(p.times, [(e.x, e.y, e.width, e.height) for e in p.block.ends()]) for p in one.patterns] == [
        (p.times, [(e.x, e.y, e.width, e.height) for e in p.block.ends()]) for p in other.patterns
    ]


@pytest.mark.parametrize("instance", INSTANCES, ids=lambda instance: str(instance["name"]))
@pytest.mark.parametrize("libraries", [True, False])
def test_known_instances(instance: dict[str, object], libraries: bool) -> None:
    from benchmarks.cutting import problem_of

    problem = problem_of(instance)
    plan = make_plan(problem, Effort(1_000, libraries))
    judge(problem, plan)
    bounds = instance["bounds"]
    assert isinstance(bounds, dict)
    assert plan.least_sheets is not None
    assert plan.least_sheets <= bounds["best_known"]
    if libraries:
        assert plan.new_sheets <= bounds["best_known"]
    else:
        assert plan.new_sheets <= bounds["best_known"] * 1.15 + 1


def yield_of(width: Fraction | int, height: Fraction | int, w: Fraction | int, h: Fraction | int, turns: bool) -> int:
    """How many pieces the planner gets out of one sheet: it must say that one more needs a second one."""
    count = 1
    while True:
        problem = Problem((Sheet("parent", width, height),), (Piece("sheet", w, h, count, turns),))
        plan = make_plan(problem, QUICK)
        judge(problem, plan)
        if plan.new_sheets > 1:
            return count - 1
        count += 1


HALF = Fraction(1, 2)


@pytest.mark.parametrize(
    ("parent", "piece", "least"),
    [
        # Parent sheets in inches and what trade tables say is cut from them, all pieces lying one way.
        ((17, 22), (8 + HALF, 11), 4),
        ((25, 38), (12, 12), 6),
        ((20, 26), (8 + HALF, 11), 4),
        ((23, 35), (8 + HALF, 11), 6),
        ((23, 35), (11, 8 + HALF), 8),
    ],
)
def test_yield_of_parent_sheets(parent: tuple[int, int], piece: tuple[Fraction, Fraction], least: int) -> None:
    one_way = yield_of(*parent, *piece, False)
    assert one_way == (parent[0] // piece[0]) * (parent[1] // piece[1])
    turned = yield_of(*parent, *piece, True)
    assert one_way <= turned
    assert least <= turned <= parent[0] * parent[1] // (piece[0] * piece[1])


def test_a_piece_that_fits_nowhere_is_named_with_what_is_short() -> None:
    problem = Problem(
        (Sheet("letter", Fraction(17, 2), 11, trim=Trim(left=HALF)),),
        (Piece("too wide", Fraction(34, 4), 3, 2, False), Piece("turned it fits", 10, 3, 2, True), Piece("fits", 8, 3, 2)),
    )
    plan = make_plan(problem)
    judge(problem, plan)
    (misfit,) = plan.misfits
    assert misfit.piece.label == "too wide"
    assert (misfit.short_width, misfit.short_height) == (HALF, 0)
    assert plan.new_sheets == 2


def test_offcuts_are_used_first_and_no_more_than_there_are() -> None:
    pieces = (Piece("tag", 4, 4, 10, False),)
    problem = Problem((Sheet("new", 8, 8), Sheet("strip", 4, 9, on_hand=2), Sheet("scrap", 3, 3, on_hand=50)), pieces)
    plan = make_plan(problem)
    judge(problem, plan)
    assert plan.new_sheets == 2
    # The strips give two each, and the rest comes from two new sheets; the scrap is too small for any.
    assert [each.used for each in plan.bought] == [2, 2, 0]
    assert plan.proven


@pytest.mark.parametrize("libraries", [True, False])
def test_offcuts_are_cut_also_where_that_saves_no_sheet(libraries: bool) -> None:
    # Two leaves a sheet leave no room for tags but at the edge: without the strip, nine tags would go there.
    sheets = (Sheet("new", 18, 24), Sheet("strip", 5, 12, on_hand=1), Sheet("scrap", 4, 4, on_hand=1))
    problem = Problem(sheets, (Piece("leaf", 9, 11, 8, False), Piece("tag", 4, 3, 9, False)))
    plan = make_plan(problem, Effort(600, libraries))
    judge(problem, plan)
    assert [each.used for each in plan.bought] == [3, 1, 1]
    assert plan.new_sheets == plan.least_sheets
    on_hand = [pattern for pattern in plan.patterns if pattern.sheet.on_hand is not None]
    assert sorted(sum(len(run.pieces) * run.times for run in pattern.runs) for pattern in on_hand) == [1, 4]


def test_many_copies_are_cut_by_few_patterns_without_libraries() -> None:
    # Twelve albums fill fifteen sheets; twelve of these can be cut alike, an album each.
    pieces = (Piece("leaf", 7, 5, 96, False), Piece("page", 6, 5, 12, False), Piece("strip", 11, 5, 12, False),
              Piece("latch", 2, 3, 48, False))
    problem = Problem((Sheet("sheet", 18, 24),), pieces)
    plan = make_plan(problem, Effort(1000, libraries=False))
    judge(problem, plan)
    assert plan.new_sheets == 15
    assert max(pattern.times for pattern in plan.patterns) == 12
    assert plan.settings < 30


def test_where_only_offcuts_are_there_what_is_short_is_said() -> None:
    problem = Problem((Sheet("strip", 4, 9, on_hand=2),), (Piece("tag", 4, 4, 10, False),))
    plan = make_plan(problem)
    judge(problem, plan)
    assert plan.short == ((0, 6),)
    assert not plan.proven


@pytest.mark.parametrize("effort", [Effort(), Effort(libraries=False)])
@pytest.mark.parametrize(
    ("prices", "packs", "count", "cost"),
    [
        # Four pieces fit the large sheet and one the small one.
        ((10, 3), (1, 1), 9, 23),
        ((10, 3), (1, 1), 4, 10),
        ((10, 2), (1, 1), 4, 8),
        # Packs are counted whole: five small ones come for 6.
        ((10, 6), (1, 5), 9, 12),
        ((10, 6), (1, 5), 6, 12),
        ((10, 6), (1, 5), 5, 6),
    ],
)
def test_the_cheapest_mix_of_sizes(
    effort: Effort, prices: tuple[int, int], packs: tuple[int, int], count: int, cost: int
) -> None:
    problem = Problem(
        (Sheet("large", 10, 10, prices[0], packs[0]), Sheet("small", 5, 5, prices[1], packs[1])),
        (Piece("square", 5, 5, count),),
    )
    plan = make_plan(problem, effort)
    judge(problem, plan)
    assert plan.cost == cost
    assert plan.least_cost is not None
    assert plan.least_cost <= cost


@pytest.mark.parametrize("libraries", [True, False])
def test_the_cheapest_mix_that_only_a_long_look_can_fill(libraries: bool) -> None:
    # Sheets that cost about as much for their area: every mix is near the bound, and one alone is at it.
    sheets = (Sheet("square", 96, 96, 113), Sheet("letter", 68, 88, 85), Sheet("large", 120, 160, 239))
    sizes = ((45, 42, 2), (46, 38, 6), (46, 8, 4), (22, 20, 6), (43, 38, 4), (17, 22, 6), (41, 32, 6))
    pieces = tuple(Piece(f"{w} by {h}", w, h, count, (w, h) not in ((46, 38), (43, 38))) for w, h, count in sizes)
    problem = Problem(sheets, pieces)
    plan = make_plan(problem, Effort(libraries=libraries))
    judge(problem, plan)
    assert (plan.cost, plan.proven) == (452, True)


def test_packs_are_bought_whole_also_where_fewest_is_proven() -> None:
    # A quarter of a large sheet would do for 7.5 in price, but it comes whole; two small ones are 20.
    small, large = Sheet("small", 10, 10, price=10), Sheet("large", 20, 20, price=19)
    plan = make_plan(Problem((small, large), (Piece("page", 5, 6, 5),)), PURE)
    assert (plan.cost, plan.least_cost) == (19, 19)


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 60), st.lists(st.tuples(st.integers(1, 9), st.integers(1, 20)), min_size=2, max_size=3))
def test_whole_packs_against_every_mix(worth: int, packs: list[tuple[int, int]]) -> None:
    bases = tuple(Base(capacity, 1, cost, 1, None, n) for n, (cost, capacity) in enumerate(packs))
    task = Task((Kind(1, 1, worth, False),), bases, Fraction(1), Fraction(1))
    every = product(*(range(worth // capacity + 2) for _, capacity in packs))
    holding = [mix for mix in every if sum(n * capacity for n, (_, capacity) in zip(mix, packs, strict=True)) >= worth]
    cheapest = min(sum(n * cost for n, (cost, _) in zip(mix, packs, strict=True)) for mix in holding)
    assert by_area(task) == cheapest


def test_a_sheet_is_cut_in_plain_stacks_where_that_takes_fewer_settings() -> None:
    # Three in one stack, two and the low one in the next: widths of 8 1/2, heights of 6 1/2 twice, 5 7/8, then 8.
    pieces = (Piece("leaf", Fraction(17, 2), Fraction(13, 2), 5), Piece("strip", 8, Fraction(47, 8), 1))
    plan = make_plan(Problem((Sheet("sheet", 18, 24),), pieces), PURE)
    judge(Problem((Sheet("sheet", 18, 24),), pieces), plan)
    assert plan.settings <= 5


def test_a_mix_of_packs_for_many_copies_without_libraries() -> None:
    # A hundred large sheets give 400 of 425 cards. The rest: five large ones and a pack of small ones, 14 and 9.50,
    # against two packs of five, 28, or three packs of small ones, 28.50, or another hundred.
    sheets = (Sheet("small", 12, 12, price=Fraction(19, 2), pack=10), Sheet("five", 18, 24, price=14, pack=5),
              Sheet("hundred", 18, 24, price=200, pack=100))
    problem = Problem(sheets, (Piece("card", 8, 11, 425, False),))
    plan = make_plan(problem, Effort(1000, libraries=False))
    judge(problem, plan)
    assert plan.cost == Fraction(447, 2)
    assert [each.packs for each in plan.bought] == [1, 1, 1]


def test_prices_for_all_sizes_or_none() -> None:
    with pytest.raises(ValueError, match="price"):
        Problem((Sheet("one", 4, 4, price=1), Sheet("other", 5, 5)), ())


def test_a_sheet_of_one_piece_is_cut_twice_and_the_rest_is_whole() -> None:
    problem = Problem((Sheet("sheet", 10, 20),), (Piece("piece", 6, 20, 1),))
    (pattern,) = make_plan(problem).patterns
    (cut,) = pattern.cuts
    assert (cut.axis, cut.fence, cut.strips, cut.alike) == ("x", 6, 1, 1)
    assert [(left.width, left.height) for left in pattern.offcuts] == [(4, 20)]


def test_equal_strips_share_a_setting_and_the_last_one_needs_none() -> None:
    problem = Problem((Sheet("sheet", 12, 10),), (Piece("strip", 4, 10, 3),))
    (pattern,) = make_plan(problem).patterns
    assert [(cut.fence, cut.strips) for cut in pattern.cuts] == [(4, 2)]
    assert pattern.settings == 1
    assert pattern.cuts[0].strokes(42, 10) == 2 * 5


def test_the_offcut_stays_in_one_piece() -> None:
    problem = Problem((Sheet("sheet", 12, 12),), (Piece("one", 3, 4, 3), Piece("other", 6, 4, 1)))
    (pattern,) = make_plan(problem).patterns
    # 60 of 144 are used: rows of 12 and of 3 leave 7 of the height free, columns 7 of the width.
    assert pattern.offcuts[0].area >= 12 * 4


def test_labels_of_equal_pieces_are_all_dealt_out() -> None:
    problem = Problem(
        (Sheet("sheet", 10, 10),),
        (Piece("red", 5, 5, 7), Piece("blue", 5, 5, 2), Piece("turned", 5, 5, 3, True)),
    )
    plan = make_plan(problem)
    judge(problem, plan)
    assert plan.new_sheets == 3


def test_nothing_to_cut() -> None:
    plan = make_plan(Problem((Sheet("sheet", 10, 10),), (Piece("none", 5, 5, 0),)))
    assert (plan.new_sheets, plan.patterns, plan.proven) == (0, (), True)
    plan = make_plan(Problem((), (Piece("some", 5, 5, 3),)))
    assert plan.misfits[0].nearest is None


def test_more_effort_is_never_asked_of_the_clock() -> None:
    """The plan depends on the work allowed, and there is one even without any."""
    problem = Problem((Sheet("sheet", 100, 100),), tuple(Piece(str(n), 20 + n, 31 - n, 5, True) for n in range(10)))
    for work in (0, 1, 10, 200):
        one, other = make_plan(problem, Effort(work)), make_plan(problem, Effort(work))
        judge(problem, one)
        assert one == other


def test_hostile_sizes_end_soon() -> None:
    problem = Problem(
        (Sheet("huge", 10**9, 10**9 + 7), Sheet("tiny", Fraction(1, 10**9), 1)),
        (Piece("thin", 1, 10**9, 3), Piece("odd", Fraction(1, 3), Fraction(10**9, 7), 10**6), Piece("half", 10**9, 10**8, 9)),
    )
    plan = make_plan(problem, Effort(200))
    assert sum(pattern.times for pattern in plan.patterns) == plan.new_sheets > 0


def test_without_the_libraries_the_plan_says_what_they_would_bring() -> None:
    pieces = tuple(Piece(str(n), 31 - n, 20 + n, 12, True) for n in range(10))
    plan = make_plan(Problem((Sheet("sheet", 100, 100),), pieces), Effort(50, libraries=False))
    assert plan.proven or plan.advice == WITHOUT_LIBRARIES


def test_libraries_are_not_imported_before_they_are_needed() -> None:
    code = (
        "import sys; from pastedown.cutting.make_plan import make_plan; from pastedown.cutting.problem import *;"
        "make_plan(Problem((Sheet('s', 9, 9),), (Piece('p', 4, 4, 4),)));"
        "make_plan(Problem((Sheet('s', 9, 9),), tuple(Piece('p', 2 + n, 5, 3) for n in range(5))), Effort(50, False));"
        "print(sorted({'numpy', 'highspy'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=COMPILER)
    assert done.stdout.strip() == "[]"
