"""The running example as a lesson: its pieces, its lines, its order of work, and what a misprint changes."""

import json
from fractions import Fraction

import pytest

from pastedown.outputs import to_captions, to_json, to_pictures, to_steps
from pastedown.plan.plan import Plan
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.spoken import spoken
from scenarios.recipes import compiled, errors, inches, lines, listed, mixed, plan_of, size, steps_about

LESSON, CORRECTED = "running_example", "corrected"


def first(plan: Plan, path: str, kind: str = "") -> int:
    return min(step.number for step in steps_about(plan, path, kind))


def last(plan: Plan, path: str, kind: str = "") -> int:
    return max(step.number for step in steps_about(plan, path, kind))


def test_twenty_four_pieces() -> None:
    plan = plan_of(compiled(LESSON))
    assert listed(plan) == sorted(
        (count, *mixed(height, width))
        for count, height, width in [
            (3, "7 1/2", "5 1/2"), (3, "7 1/2", "5 1/2"), (1, "6 3/4", "8 3/4"),
            (1, "7 1/4", "5 3/4"), (1, "7 1/4", "5 3/4"), (1, "7 1/4", "1 7/8"),
            (1, "8 3/4", "6 1/2"), (1, "8 3/4", "6 1/2"), (1, "8 3/4", "3 5/8"),
            (2, "7", "5 1/2"), (6, "6 3/4", "5 1/4"), (3, "6 1/2", "4 3/4"),
        ]
    )  # fmt: skip
    assert sum(each.count for each in plan.pieces) == 24


def test_every_piece_is_cut_and_used() -> None:
    plan = plan_of(compiled(LESSON))
    cut_in = {piece: step.number for step in plan.steps if step.kind == "cut" for piece in step.pieces}
    assert set(cut_in) == {each.id for each in plan.pieces}
    for piece in cut_in:
        used = [step.number for step in plan.steps if piece in step.pieces]
        assert min(used) == cut_in[piece], f"{piece} is used before it is cut"
        # A tag is tucked in; everything else is joined to something.
        assert len(used) > 1 or piece == "note-card"


def test_fifteen_lines_and_fifteen_folds_on_strip_and_pages() -> None:
    result = compiled(LESSON)
    pages = [f"page[{k}].{sheet}" for k in (1, 2, 3) for sheet in ("front_sheet", "rear_sheet")]
    assert len(lines(result, "hinge.strip")) == 9
    assert sum(len(lines(result, sheet)) for sheet in pages) == 6
    # The turn-ins of the wraps are lines as well: two at head and tail of each, and one at the fore edge of the covers'.
    model = result.designs[0].model
    assert model is not None
    wraps = [run for piece in model.pieces if piece.path.startswith("case.") for run in piece.runs]
    assert sum(len(run.scores) for run in wraps) == 8


def test_the_order_of_work() -> None:
    plan = plan_of(compiled(LESSON))
    cuts = [step.number for step in plan.steps if step.kind == "cut"]
    assert cuts == list(range(1, len(cuts) + 1))
    # The strip is closed and read, the pages made and checked, the case made and tried, and only then brought together.
    assert last(plan, "hinge.peak_shut") < first(plan, "hinge.read_width") < first(plan, "case_in")
    assert last(plan, "page[1].seam_tail") < first(plan, "page[1].seam_head") < first(plan, "page[1].read_height")
    assert last(plan, "case.front_fore_edge_in") < first(plan, "case.front_hinge") < first(plan, "case.spine_head_in")
    assert last(plan, "case.spine_tail_in") < first(plan, "case.close_case") < first(plan, "case_in")
    # Creases, then liners; pages are decorated apart, slid on after that, and the book is closed full.
    assert last(plan, "front_cover_crease") < first(plan, "front_lined")
    assert last(plan, "front_mat") < first(plan, "mount") and last(plan, "rear_mat") < first(plan, "mount")
    assert last(plan, "mount") < first(plan, "close_loaded") == max(step.number for step in plan.steps)


def test_pages_cannot_be_slid_on_before_they_are_decorated() -> None:
    result = compiled(LESSON, add="mount.before = front_mat")
    assert [each.id for each in errors(result)] == ["order-ring"]
    assert result.designs[0].plan is None


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("hinge.made_up_width", "5.084"), ("case.flat_width", "13.625"), ("room.margin", "0.5205"),
        ("borders.border", "0.125"), ("tape_needed", "174.75"),
    ],
)  # fmt: skip
def test_numbers_of_the_lesson(path: str, value: str) -> None:
    assert inches(compiled(LESSON), path) == Fraction(value)


def test_a_length_is_spoken() -> None:
    plan = plan_of(compiled(LESSON))
    wing = next(fact.value for fact in plan.facts if fact.path == "hinge.wing")
    assert spoken(wing, plan.ruler) == "two and one eighth inches"  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("hinge.flat_width", "9"), ("hinge.block", "1.084"), ("case.spine", "2.125"), ("room.margin", "0.5205"),
        ("hinge.made_up_width", "5.334"), ("case.flat_width", "13.875"), ("tape_needed", "174.75"),
    ],
)  # fmt: skip
def test_numbers_of_the_erratum(path: str, value: str) -> None:
    assert inches(compiled(CORRECTED), path) == Fraction(value)


def test_lines_of_the_erratum() -> None:
    before, after = lines(compiled(LESSON), "hinge.strip"), lines(compiled(CORRECTED), "hinge.strip")
    assert after[:3] == before[:3]
    assert after[3:] == mixed("3 7/8", "4 1/2", "5 1/8", "5 5/8", "6 1/4", "6 7/8")
    assert size(compiled(CORRECTED), "case.spine_wrap") == tuple(mixed("8 3/4", "3 7/8"))


def test_pieces_and_steps_that_the_erratum_changes() -> None:
    old, new = plan_of(compiled(LESSON)), plan_of(compiled(CORRECTED))
    sizes = [{each.id: (each.height, each.width) for each in plan.pieces} for plan in (old, new)]
    assert {piece for piece in sizes[0] if sizes[0][piece] != sizes[1][piece]} == {
        "hinge-strip", "case-spine-board", "case-spine-wrap",
    }  # fmt: skip
    assert [step.refers for step in old.steps] == [step.refers for step in new.steps]
    changed = [
        one for one, other in zip(old.steps, new.steps, strict=True)
        if (one.text, one.reading) != (other.text, other.reading)
    ]  # fmt: skip
    # Cutting, scoring and folding the strip, reading it; cutting the spine board, cutting the spine wrap, on which its
    # lines are drawn; reading the case.
    assert {(step.kind, step.refers) for step in changed} == {
        ("cut", ("hinge.strip",)), ("score", ("hinge.strip",)), ("fold", ("hinge.strip",)),
        ("check", ("hinge.read_width",)), ("cut", ("case.spine_board",)), ("cut", ("case.spine_wrap",)),
        ("check", ("case.read_case",)),
    }  # fmt: skip


def test_an_old_strip_in_a_new_spine() -> None:
    rescue = compiled(LESSON, add="case.spine = 2 1/8 in")
    assert errors(rescue) == []
    assert inches(rescue, "room.margin") == Fraction("0.6455")
    assert inches(rescue, "room.landing") == Fraction("1.3545")


def test_a_new_strip_in_an_old_spine_is_refused() -> None:
    (fault,) = errors(compiled(CORRECTED, add="case.spine = 1 7/8 in"))
    assert fault.id == "requirement-fails" and "2 1/8" in fault.way_out


TEACHER, TEACHER_CORRECTED = "lesson", "lesson_corrected"


def test_thirty_steps_as_a_teacher_tells_them() -> None:
    steps = plan_of(compiled(TEACHER)).steps
    assert [step.number for step in steps] == list(range(1, 31))
    assert ["".join(map(str, step.title)) for step in steps] == [
        "Cut pages", "Cut strip", "Cut covers", "Cut spine", "Cut wraps", "Cut liners", "Cut mats", "Cut tags",
        "Score first peak", "Score second peak", "Score third peak", "Fold strip", "Close peaks", "Read strip",
        "Score pages", "First seams", "Second seams", "Check pages",
        "Wrap covers", "Lay boards", "Rub spine", "Turn in", "Close case", "Hang strip",
        "Crease", "Line", "Decorate", "Tape peaks", "Slide on", "Close loaded",
    ]  # fmt: skip


def test_no_work_is_lost_under_headings() -> None:
    plain, told = plan_of(compiled(LESSON)), plan_of(compiled(TEACHER))
    assert told.pieces == plain.pieces and told.bonds == plain.bonds
    done = [{path for step in plan.steps for path in step.refers} for plan in (plain, told)]
    assert done[0] <= done[1]
    assert {path for path in done[1] - done[0] if "." in path} == set()
    readings = [reading for plan in (plain, told) for step in plan.steps for reading in step.readings]
    assert len(readings) == 2 * 3 and set(readings[:3]) == set(readings[3:])
    # Both sheets of all pages are scored, then folded: four actions, not twelve.
    assert [len(step.actions) for step in told.steps if step.number == 15] == [4]


def test_the_scores_of_the_strip_are_told_by_threes() -> None:
    told = [
        [part.inches for action in step.actions for part in action.text if isinstance(part, Quantity) and part.dimension == LENGTH]
        for step in plan_of(compiled(TEACHER)).steps[8:11]
    ]
    assert [sorted(found[:3]) for found in told] == [
        mixed("2 1/8", "2 3/4", "3 3/8"), mixed("3 3/4", "4 3/8", "5"), mixed("5 3/8", "6", "6 5/8"),
    ]  # fmt: skip
    # Only the last of them counts what is left.
    assert [len(found) for found in told] == [3, 3, 4] and told[2][3] == mixed("2 1/8")[0]


def test_steps_that_the_erratum_changes() -> None:
    old, new = (plan_of(compiled(name)).steps for name in (TEACHER, TEACHER_CORRECTED))
    changed = [
        one.number
        for one, other in zip(old, new, strict=True)
        if (one.text, one.actions) != (other.text, other.actions)
    ]
    # Step 12 tells where each fold lies, so it changes with 10 and 11.
    assert changed == [2, 4, 5, 10, 11, 12, 14, 20]


def test_a_heading_that_cannot_be_done_in_one_go_is_refused() -> None:
    # The pages cannot be slid on before they are decorated, nor under one heading with what comes before the case.
    apart = compiled(TEACHER, take="gathers: mount,", put="gathers: [mount, case.close_case],")
    (fault,) = errors(apart)
    assert fault.id == "heading-parted" and "What slide_on gathers" in fault.sentence
    assert apart.designs[0].plan is None
    twice = compiled(TEACHER, take="gathers: mount,", put="gathers: [mount, case_in],")
    assert [each.id for each in errors(twice)] == ["gathered-twice"]


def test_every_output_tells_what_stands_under_a_heading() -> None:
    plan = plan_of(compiled(TEACHER))
    steps = to_steps.make(plan)["steps.txt"].decode()
    assert "30 steps." in steps and "  - Cut 3 pieces for page front sheet" in steps
    # Rubbing down, creasing and taping before all is together are about no one thing that could be shown.
    drawn = {int(name[-6:-4]) for name in to_pictures.make(plan)}
    assert set(range(1, 31)) - drawn == {21, 25, 28}
    captions = to_captions.make(plan)["captions.txt"].decode()
    assert "Step 30 of 30" in captions and "Cut 3 pieces for page front sheet" in " ".join(captions.split())
    assert max(map(len, captions.splitlines())) <= 42
    (found,) = [step for step in json.loads(to_json.make(plan)["album.json"])["steps"] if step["number"] == 18]
    assert found["actions"][0]["reading"]["nominal"] is not None
