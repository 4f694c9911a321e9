"""The order of work: every need is met by what stands before it, and nothing hangs on the order of lines."""

from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise
from random import Random
from typing import TypeVar

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.geometry.model import Crease, Join, Model, Side, Step
from pastedown.plan.from_geometry import plan_from
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import mm
from plan.small_models import PASTE, join, model, peaked_strip, piece, small_book, somewhere, step, titles

Edges = list[tuple[int, int]]
Ordered = TypeVar("Ordered", Join, Step)


def planned(design: Model) -> Plan:
    plan, faults = plan_from(design)
    assert faults == ()
    return plan


def place(plan: Plan, path: str, kind: str = "") -> tuple[int, int]:
    """The step that does this, and where within the step; with `kind` only among steps of that kind."""
    (found,) = [
        (each.number, each.refers.index(path)) for each in plan.steps if path in each.refers and kind in ("", each.kind)
    ]
    return found


# --- what lies in the nature of the work ------------------------------------------------------------------------------


def test_the_kinds_of_work_follow_one_another() -> None:
    kinds = list(dict.fromkeys(each.kind for each in planned(small_book(3)).steps))
    assert kinds == ["cut", "score", "fold", "join", "close"]


def test_parts_are_finished_before_they_are_joined() -> None:
    plan = planned(small_book(3))
    for number in (1, 2, 3):
        for inner in ("seam_tail", "seam_head"):
            assert place(plan, f"page[{number}].{inner}") < place(plan, f"mount[{number}]")
        assert place(plan, f"hinge.peak_shut[{number}]") < place(plan, f"mount[{number}]")


def test_a_close_comes_after_all_joins_that_place_its_sides() -> None:
    """Sheets hang in a chain; the close ties its two ends, so that every join between them comes first."""
    sheets = [piece(f"tray.sheet_{letter}", mm(60), mm(60)) for letter in "abcd"]
    chain = [
        join(f"tray.z_{one.name[-1]}", [(one.path, "", "back")], [(other.path, "", "face")])
        for one, other in pairwise(sheets)
    ]
    shut = join("tray.a_shut", [(sheets[0].path, "", "face")], [(sheets[3].path, "", "back")], closes=True)
    late = evolve(chain[1], after=("tray.wait",))
    plan = planned(model(sheets, [chain[0], late, chain[2], shut], [step("tray.wait")]))
    for joined in chain:
        assert place(plan, joined.path) < place(plan, "tray.a_shut")


def test_a_crease_waits_for_the_join_that_lays_the_piece_over_the_edge() -> None:
    strip, side = peaked_strip(1), piece("side", mm(60), mm(60))
    lay = join("z_lay", [(strip.path, "", "back")], [(side.path, "", "face")], by=PASTE, after=("wait",))
    on = Side("wing", ((strip.path, "front_wing", "face"),))
    crease = Crease("a_turn", "", "design", "a_turn", on, "side.spine", (), (), (), (), somewhere())
    plan = planned(evolve(model([strip, side], [lay], [step("wait")]), creases=(crease,)))
    assert place(plan, "wait") < place(plan, "z_lay") < place(plan, "a_turn")


def test_a_panel_is_stuck_down_before_it_is_creased_unless_it_is_written_otherwise() -> None:
    strip, side = peaked_strip(1), piece("side", mm(60), mm(60))
    lay = join("lay", [(strip.path, "", "back")], [(side.path, "", "face")], by=PASTE)
    shut = join("a_shut", [(strip.path, "front_wing", "back")], [(side.path, "", "face")], by=PASTE)
    shut = evolve(shut, closes=True)
    on = Side("wing", ((strip.path, "front_wing", "face"),))
    crease = Crease("a_turn", "", "design", "a_turn", on, "side.spine", (), (), (), (), somewhere())
    shut = evolve(shut, path="z_shut", name="z_shut")
    plan = planned(evolve(model([strip, side], [lay, shut]), creases=(crease,)))
    assert place(plan, "z_shut") < place(plan, "a_turn")
    other = evolve(crease, before=("z_shut",))
    plan = planned(evolve(model([strip, side], [lay, shut]), creases=(other,)))
    assert place(plan, "a_turn") < place(plan, "z_shut")


# --- what the maker wrote ---------------------------------------------------------------------------------------------


def test_a_name_without_an_index_means_the_whole_family() -> None:
    design = small_book(3)
    decorate = step("decorate", after=("page",), before=("mount",))
    plan = planned(evolve(design, steps=(decorate,)))
    for number in (1, 2, 3):
        assert place(plan, f"page[{number}].seam_head") < place(plan, "decorate") < place(plan, f"mount[{number}]")


def test_a_part_means_all_that_makes_it() -> None:
    plan = planned(evolve(small_book(3), steps=(step("choose", before=("page",)),)))
    for number in (1, 2, 3):
        assert place(plan, "choose") < place(plan, f"page[{number}].front_sheet", "cut")
    assert place(plan, "hinge.strip", "cut") < place(plan, "choose")


def test_an_order_within_a_part_may_be_written_from_inside() -> None:
    design = evolve(small_book(2), steps=(step("page[1].read", after=("seam_head",), before=("mount",)),))
    plan = planned(design)
    assert place(plan, "page[1].seam_head") < place(plan, "page[1].read") < place(plan, "mount[1]")


def test_a_piece_means_all_work_on_it() -> None:
    plan = planned(evolve(small_book(2), steps=(step("a_rest", after=("hinge.strip",), before=("hinge.peak_shut",)),)))
    assert place(plan, "hinge.strip", "fold") < place(plan, "a_rest") < place(plan, "hinge.peak_shut[1]")


def test_habit_gives_way_to_what_is_written() -> None:
    """The lining belongs to the tray, but is put in only when the tray has been joined to the base."""
    pieces = [piece(path, mm(60), mm(60)) for path in ("base.floor", "tray.side", "tray.wall", "tray.lining")]
    wall = join("tray.wall_on", [("tray.wall", "", "back")], [("tray.side", "", "face")])
    lining = join("tray.lining_on", [("tray.lining", "", "back")], [("tray.side", "", "face")], after=("tray_on",))
    tray = join("tray_on", [("tray.side", "", "back")], [("base.floor", "", "face")])
    plan = planned(model(pieces, [wall, lining, tray]))
    assert place(plan, "tray.wall_on") < place(plan, "tray_on") < place(plan, "tray.lining_on")
    assert place(plan, "tray.lining", "cut") < place(plan, "tray_on")


def test_within_a_part_things_are_joined_to_what_lies_in_place_already() -> None:
    sheets = [piece(f"tray.{name}", mm(60), mm(60)) for name in ("floor", "wall", "rim")]
    wall = join("tray.z_wall", [("tray.wall", "", "back")], [("tray.floor", "", "face")])
    rim = join("tray.a_rim", [("tray.rim", "", "back")], [("tray.wall", "", "face")])
    plan = planned(model(sheets, [wall, rim]))
    assert place(plan, "tray.z_wall") < place(plan, "tray.a_rim")
    other_way = planned(model(sheets, [evolve(wall, after=("tray.a_rim",)), rim]))
    assert place(other_way, "tray.a_rim") < place(other_way, "tray.z_wall")


def test_steps_that_nothing_holds_back_come_in_the_order_of_their_numbers() -> None:
    steps = [step(f"rest[{number}]", f"Rest for the {word} time.") for number, word in ((10, "last"), (2, "first"))]
    assert [each.refers for each in planned(model(steps=steps)).steps] == [("rest[2]",), ("rest[10]",)]


# --- batches ----------------------------------------------------------------------------------------------------------


def test_work_is_taken_out_of_its_batch_only_where_it_must_be() -> None:
    """Page 2 is looked at between two seams, so that its seam cannot be made with that of page 1."""
    between = step("look", after=("page[1].seam_tail",), before=("page[2].seam_tail",))
    plan = planned(evolve(small_book(4), steps=(between,)))
    seams = [each for each in plan.steps if "seam_tail" in each.refers[0]]
    assert [each.refers for each in seams] == [
        ("page[1].seam_tail", "page[3].seam_tail", "page[4].seam_tail"),
        ("page[2].seam_tail",),
    ]
    assert titles(plan).count("Score page front sheet") == 1


def test_one_after_the_other_is_still_one_batch() -> None:
    design = small_book(4)
    mounts = [
        evolve(each, after=(f"mount[{int(each.path[6:-1]) - 1}]",)) if each.path in ("mount[2]", "mount[4]") else each
        for each in design.joins
    ]
    plan = planned(evolve(design, joins=tuple(mounts)))
    assert place(plan, "mount[1]") < place(plan, "mount[2]")
    assert plan.steps[-1].refers == ("mount[1]", "mount[2]", "mount[3]", "mount[4]")


def test_a_batch_against_the_order_of_numbers_says_so() -> None:
    design = small_book(2)
    mounts = [evolve(each, after=("mount[2]",)) if each.path == "mount[1]" else each for each in design.joins]
    assert planned(evolve(design, joins=tuple(mounts))).steps[-1].refers == ("mount[2]", "mount[1]")


# --- rings ------------------------------------------------------------------------------------------------------------


def test_a_ring_is_an_error_that_names_every_order_in_it() -> None:
    steps = [step("sand", after=("prime",)), step("prime", after=("paint",)), step("sign", after=("paint",))]
    paint = step("paint", after=("sand",))
    plan, faults = plan_from(model(steps=[*steps, paint]))
    (fault,) = faults
    assert fault.id == "order-ring"
    assert {label.words for label in fault.labels} == {
        "sand is to come after prime",
        "prime is to come after paint",
        "paint is to come after sand",
    }
    assert {label.span.text for label in fault.labels} == {"sand", "prime", "paint"}
    assert "sign" not in fault.sentence
    assert len(plan.steps) == 4


def test_a_ring_through_the_nature_of_the_work_names_the_order_that_makes_it() -> None:
    design = small_book(2)
    backwards = step("look", after=("page[1].seam_head",), before=("page[1].front_sheet",))
    _, (fault,) = plan_from(evolve(design, steps=(backwards,)))
    assert {label.words for label in fault.labels} == {
        "look is to come after page[1].seam_head",
        "look is to come before page[1].front_sheet",
    }


def test_what_waits_for_itself_is_a_ring() -> None:
    _, (fault,) = plan_from(model(steps=[step("rest", after=("rest",))]))
    assert fault.sentence == "The order of work runs in a ring: rest waits for itself."


def test_two_rings_are_told_one_by_one() -> None:
    pairs = [("a", "b"), ("b", "a"), ("c", "d"), ("d", "c")]
    _, faults = plan_from(model(steps=[step(name, after=(other,)) for name, other in pairs]))
    assert [fault.sentence.split()[-3] for fault in faults] == ["waits", "waits"]
    assert len({fault.sentence for fault in faults}) == 2


def test_a_long_ring_is_cut_short_and_does_not_run_away() -> None:
    count = 3000
    steps = [step(f"s[{n}]", after=(f"s[{(n + 1) % count}]",)) for n in range(count)]
    _, (fault,) = plan_from(model(steps=steps))
    assert len(fault.sentence) < 400
    assert len(fault.labels) == 8


# --- what holds of every design ---------------------------------------------------------------------------------------

_COUNT = 12
_PAIRS = st.lists(st.tuples(st.integers(0, _COUNT - 1), st.integers(0, _COUNT - 1)), max_size=30)


def tangled(edges: Edges, chance: Random) -> Model:
    """Twelve things to do, of which every fourth is like work, and the orders between them, as afters or befores."""
    paths = [f"tray[{n // 4 + 1}].{'abcd'[n % 4]}" for n in range(_COUNT)]
    sheets = [piece(f"tray[{k}].{name}", mm(60), mm(60)) for k in (1, 2, 3) for name in ("one_sheet", "two_sheet")]
    after: dict[str, list[str]] = {path: [] for path in paths}
    before: dict[str, list[str]] = {path: [] for path in paths}
    for first, then in edges:
        if chance.random() < 0.5:
            after[paths[then]].append(paths[first])
        else:
            before[paths[first]].append(paths[then])
    steps = [step(path, after=tuple(after[path]), before=tuple(before[path])) for path in paths if path[-1] != "d"]
    joins = [
        join(
            path,
            [(f"{path[:-2]}.one_sheet", "", "back")],
            [(f"{path[:-2]}.two_sheet", "", "face")],
            after=tuple(after[path]),
            before=tuple(before[path]),
        )
        for path in paths
        if path[-1] == "d"
    ]
    return model(sheets, joins, steps)


def path_of(number: int) -> str:
    return f"tray[{number // 4 + 1}].{'abcd'[number % 4]}"


def is_ring(edges: Iterable[tuple[object, object]]) -> bool:
    needed: dict[object, set[object]] = {}
    for first, then in edges:
        needed.setdefault(then, set()).add(first)
    try:
        TopologicalSorter(needed).prepare()
    except CycleError:
        return True
    return any(thing in first for thing, first in needed.items())


@given(_PAIRS, st.randoms(use_true_random=False))
def test_the_order_respects_every_after_and_before(pairs: Edges, chance: Random) -> None:
    ranks = chance.sample(range(_COUNT), _COUNT)
    edges = [(one, other) if ranks[one] < ranks[other] else (other, one) for one, other in pairs if one != other]
    plan = planned(tangled(edges, chance))
    for first, then in edges:
        assert place(plan, path_of(first)) < place(plan, path_of(then))
    for tray in (1, 2, 3):
        for sheet in ("one_sheet", "two_sheet"):
            assert place(plan, f"tray[{tray}].{sheet}") < place(plan, f"tray[{tray}].d")
    done = [path for each in plan.steps for path in each.refers]
    assert len(done) == len(set(done)) == _COUNT + 6


@given(_PAIRS, st.randoms(use_true_random=False))
def test_like_work_is_one_step_unless_that_would_make_a_ring(pairs: Edges, chance: Random) -> None:
    ranks = chance.sample(range(_COUNT), _COUNT)
    edges = [(one, other) if ranks[one] < ranks[other] else (other, one) for one, other in pairs if one != other]
    plan = planned(tangled(edges, chance))
    if not is_ring((first % 4, then % 4) for first, then in edges if first % 4 != then % 4):
        assert len(plan.steps) == 2 + 4


@given(_PAIRS, st.randoms(use_true_random=False))
def test_a_ring_is_told_just_when_there_is_one(edges: Edges, chance: Random) -> None:
    plan, faults = plan_from(tangled(edges, chance))
    assert bool(faults) == is_ring(edges)
    assert all(fault.id == "order-ring" and fault.labels for fault in faults)
    assert sum(each.times for each in plan.steps) == _COUNT + 6


@given(_PAIRS, st.randoms(use_true_random=False))
def test_nothing_hangs_on_the_order_of_lines(edges: Edges, chance: Random) -> None:
    design = tangled(edges, Random(0))
    assert plan_from(shuffled(design, chance)) == plan_from(design)


@settings(deadline=None)
@given(st.integers(1, 5), st.randoms(use_true_random=False))
def test_a_whole_book_does_not_hang_on_the_order_of_lines(pages: int, chance: Random) -> None:
    design = small_book(pages)
    assert plan_from(shuffled(design, chance)) == plan_from(design)


Thing = TypeVar("Thing")


def shuffled(design: Model, chance: Random) -> Model:
    """The same design with its lines written in another order, and the orders of each thing too."""

    def mixed(things: tuple[Thing, ...]) -> tuple[Thing, ...]:
        return tuple(chance.sample(things, len(things)))

    def reordered(thing: Ordered) -> Ordered:
        return evolve(thing, after=mixed(thing.after), before=mixed(thing.before))

    return evolve(
        design,
        parts=mixed(design.parts),
        pieces=mixed(design.pieces),
        joins=mixed(tuple(evolve(reordered(each), alignments=mixed(each.alignments)) for each in design.joins)),
        steps=mixed(tuple(reordered(each) for each in design.steps)),
    )
