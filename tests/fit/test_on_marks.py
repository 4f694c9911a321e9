"""Lengths go to the marks of the ruler as a system, and the design is judged again; nothing else is moved."""

from fractions import Fraction
from functools import cache
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Diagnostic
from pastedown.fit import on_marks
from pastedown.fit.every_check import WORK_OF_A_FIELD, judge
from pastedown.fit.on_marks import MOST_SYSTEMS
from pastedown.geometry.model import Model
from pastedown.outputs.to_cut_list import make
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import Quantity, inches, mm

# Three pages for a builder whose ruler shows eighths. The strip may not get longer than it was, and a hand needs an
# eighth where a page slides on.
EIGHTHS = """\
edition = 1
use cardstock, board_80_point, double_tape, cloth_tape, glue from stocks
use pocket_page from pages
use concertina_hinge from hinges
use taped_case from covers
use hinge_in_page, spine_takes_hinge from rules
album eighths "Three pages by a ruler of eighths" {
  ruler = inches to 1/8
  kraft = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  grey = board_80_point(sheet: 12 in x 24 in, grain: long)
  sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
  cloth = cloth_tape(roll_width: 1 1/2 in, caliper: 10 pt)
  moving_adhesive = sticky
  static_adhesive = glue
  pages = 3

  part page[k from 1 to pages] = pocket_page(paper: kraft, tape: sticky, height: 7 5/16 in, width: 5 1/2 in)
  part hinge = concertina_hinge(paper: kraft, tape: sticky, peaks: pages,
    peak: 9/16 in, gusset: 7/16 in, wing: 2 3/16 in, height: 7 3/16 in, page_width: page.width)
  part case = taped_case(board: grey, tape: cloth, joint: 1/8 in, height: 7 1/2 in, width: 5 3/4 in, spine: 2 in)
  part room = spine_takes_hinge(spine: case.spine, block: hinge.block, wing: hinge.wing, joint: case.joint,
    least_margin: 3/8 in)
  part fits = hinge_in_page(hinge_height: hinge.height, page_height: page.height,
    stand_thickness: hinge.stand_thickness)
  rim = (case.height - page.height) / 2
  hand_room = page.height - hinge.stand_thickness - hinge.height
  require no_longer: hinge.flat_width <= 8 5/8 in because "the strip may not get longer"
  require slides_by_hand: hand_room >= 1/8 in because "a hand needs an eighth, and here it has {hand_room}"
  require shorter_than_page: hinge.height <= page.height because "else it shows"

  each k from 1 to pages {
    join mount[k]: page[k].mouth to hinge.stand[k], moving: yes {
      align page[k].mouth.spine to hinge.stand[k].spine
      align page[k].mouth.mid_height to hinge.stand[k].mid_height
    }
  }
  join case_in: hinge.strip.back to case.inside_spine, before: mount {
    align hinge.strip.mid_width to case.inside_spine.mid_width
    align hinge.strip.mid_height to case.inside_spine.mid_height
  }
}
"""


@cache
def compiled(text: str, name: str = "probe.album") -> Compiled:
    return compile_design(name, text, lambda _: None)


def model_of(result: Compiled) -> Model:
    model = result.designs[0].model
    assert model is not None
    return model


def fact(model: Model, path: str) -> Quantity:
    (value,) = [each.value for each in model.measurements if each.path == path]
    assert isinstance(value, Quantity)
    return value


def strip_lines(model: Model) -> list[Quantity]:
    (strip,) = [piece for piece in model.pieces if piece.path == "hinge.strip"]
    return [score.at for score in strip.runs[0].scores]


EXPECTED = {
    "hinge.peak": "1/2", "hinge.gusset": "1/2", "hinge.wing": "9/4", "hinge.flat_width": "17/2",
    "hinge.strip.width": "17/2",
    # Two gussets of 1/2 and three peaks of two cards of 0.012 and a tape of 0.004.
    "hinge.block": "1.084", "room.margin": "0.458",
    # Two wings of 2 1/4, and the block.
    "hinge.made_up_width": "5.584",
    "page[1].height": "29/4", "page[1].sheet_height": "31/4", "page[1].front_sheet.height": "31/4", "rim": "1/8",
    # A page of 7 1/4 less two cards, three tapes and 1/16.
    "fits.tallest": "7.1515", "hinge.height": "7",
    "case.height": "15/2", "case.spine": "2",
}  # fmt: skip


@pytest.mark.parametrize(("path", "value"), EXPECTED.items())
def test_numbers_of_the_ruler_of_eighths(path: str, value: str) -> None:
    assert fact(model_of(compiled(EIGHTHS)), path) == inches(value)


def test_all_nine_lines_lie_on_marks_and_every_peak_has_two_like_plies() -> None:
    lines = strip_lines(model_of(compiled(EIGHTHS)))
    assert lines == [inches("9/4") + inches("1/2") * number for number in range(9)]


def test_rounding_line_by_line_would_make_every_peak_lean() -> None:
    sixteenths = EIGHTHS.replace("inches to 1/8", "inches to 1/16").replace("7 3/16 in,", "7 1/8 in,")
    written = [line.inches for line in strip_lines(model_of(compiled(sixteenths)))]
    assert written == [Fraction(each, 16) for each in (35, 44, 53, 60, 69, 78, 85, 94, 103)]
    rounded = [Fraction((line * 8 + Fraction(1, 2)).__floor__(), 8) for line in written]
    plies = [(rounded[at + 1] - rounded[at], rounded[at + 2] - rounded[at + 1]) for at in (0, 3, 6)]
    assert all(rise != fall for rise, fall in plies)
    on_marks = strip_lines(model_of(compiled(EIGHTHS)))
    assert all(on_marks[at + 1] - on_marks[at] == on_marks[at + 2] - on_marks[at + 1] for at in (0, 3, 6))


def test_seven_numbers_changed_and_each_move_is_told_once() -> None:
    result = compiled(EIGHTHS)
    assert [each.id for each in result.diagnostics] == ["moved-to-mark"] * 5
    (page,) = [each.sentence for each in result.diagnostics if each.sentence.startswith("page")]
    assert page.endswith("The same goes for page[2].height and page[3].height.")
    plan = result.designs[0].plan
    assert plan is not None
    assert [each.paths[0] for each in plan.changed] == [
        "hinge.flat_width", "hinge.gusset", "hinge.height", "hinge.peak", "hinge.wing", "page[1].height",
        "page[1].sheet_height",
    ]  # fmt: skip
    text = make(plan)["cut-list.txt"].decode()
    assert "Moved to your ruler's marks" in text
    assert "Seven numbers changed by 1/16 in to 3/16 in" in text
    assert "Moved to" not in make(plan_of(EIGHTHS.replace("inches to 1/8", "inches to 1/16")))["cut-list.txt"].decode()


def plan_of(text: str) -> Plan:
    plan = compiled(text.replace("height: 7 3/16 in,", "height: 7 1/8 in,")).designs[0].plan
    assert plan is not None
    return plan


def test_without_room_for_the_hand_the_strip_goes_to_the_mark_below_and_no_further() -> None:
    text = EIGHTHS.replace("hand_room >= 1/8 in", "hand_room >= 1/32 in").replace("slide >= 1/16", "")
    # 7 3/16 down to 7 1/8, which a page of 7 1/4 still takes: 7.1515 is the limit.
    assert fact(model_of(compiled(text)), "hinge.height") == inches("57/8")


def test_no_system_is_better_by_the_rules_that_are_written_down() -> None:
    """Against trying all eight by hand: those not longer than before, and of them the one nearest to its old length."""
    eighth, old = Fraction(1, 8), Fraction(69, 8)
    best = []
    wings, peaks, gussets = ((eighth * least, eighth * (least + 1)) for least in (17, 4, 3))
    for wing, peak, gusset in product(wings, peaks, gussets):
        long = 2 * wing + 6 * peak + 2 * gusset
        if long <= old:
            best.append((old - long, wing, peak, gusset))
    away, wing, peak, gusset = min(best)
    assert (away, wing, peak, gusset) == (eighth, Fraction(9, 4), eighth * 4, eighth * 4)


LEAF = """\
edition = 1
component leaf "A leaf." {
  takes paper: stock
  takes inner: length(mark: down) from 1/8 in to 11 in = 5 in
  takes outer: length(mark: up) from 1/8 in to 11 in = 5 in
  takes turn: length(mark: nearest) from 1/8 in to 11 in = 1/2 in
  takes other: length(mark: nearest) from 1/8 in to 11 in = 1/2 in
  takes free: length = 1 in
  REQUIRED
  piece sheet from paper, height: inner + turn + other, width: outer, loose: yes
}
component holder "Holds nothing." { takes size: length }
album probe {
  ruler = RULER
  kraft = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  roll = stock(kind: tape, roll_width: 0.3 in, caliper: 4 pt)
  BODY
}
"""


def leaf(body: str, required: str = "", ruler: str = "inches to 1/8") -> Compiled:
    return compiled(LEAF.replace("BODY", body).replace("REQUIRED", required).replace("RULER", ruler))


def moves(result: Compiled) -> dict[str, Fraction]:
    return {move.path: move.mark.inches for move in model_of(result).moves}


@settings(max_examples=25, deadline=None)
@given(st.integers(40, 200), st.integers(1, 5))
def test_each_way_goes_where_it_says(parts: int, finest: int) -> None:
    size, mark = Fraction(parts, 64), Fraction(1, 2**finest)
    body = f"part one = leaf(paper: kraft, inner: {parts}/64 in, outer: {parts}/64 in, turn: {parts}/64 in)"
    model = model_of(leaf(body, ruler=f"inches to 1/{2**finest}"))
    below = size // mark * mark
    above = below if below == size else below + mark
    at = {name: fact(model, f"one.{name}").inches for name in ("inner", "outer", "turn")}
    nearest = above if above - size <= size - below else below
    assert at == {"inner": below, "outer": above, "turn": nearest}


def test_what_lies_on_marks_is_not_moved_and_not_told() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 4 1/8 in, outer: 3 3/8 in)")
    assert result.diagnostics == () and model_of(result).moves == ()


def test_what_has_no_mark_is_not_moved() -> None:
    result = leaf("part one = leaf(paper: kraft, free: 1.03 in)")
    assert moves(result) == {} and fact(model_of(result), "one.free") == inches("1.03")


@pytest.mark.parametrize("measured", ["roll.roll_width", "film", "300 pt", "further"])
def test_a_measure_taken_with_a_mark_stays(measured: str) -> None:
    body = f"film = roll.roll_width  further = film  part one = leaf(paper: kraft, turn: {measured})"
    result = leaf(body)
    assert moves(result) == {}
    assert fact(model_of(result), "one.turn") == inches("0.3")
    assert [each.id for each in result.diagnostics] == ["off-marks"]


def test_what_is_worked_out_from_a_measure_is_moved() -> None:
    assert moves(leaf("part one = leaf(paper: kraft, turn: 2 * roll.roll_width)")) == {"one.turn": Fraction(5, 8)}


def test_fixed_lengths_stay_and_that_is_told_once() -> None:
    result = leaf("part one = leaf(paper: kraft) with { fixed inner = 5 1/16 in }")
    assert moves(result) == {} and fact(model_of(result), "one.inner") == inches("81/16")
    assert [each.id for each in result.diagnostics] == ["fixed-off-marks", "off-marks"]


def test_without_a_ruler_nothing_is_moved() -> None:
    text = LEAF.replace("ruler = RULER", "").replace("REQUIRED", "")
    result = compiled(text.replace("BODY", "part one = leaf(paper: kraft, inner: 130 mm)"))
    assert moves(result) == {} and fact(model_of(result), "one.inner") == mm(130)
    assert [each.id for each in result.diagnostics] == ["ruler-not-stated"]


def test_what_hangs_on_a_moved_length_is_worked_out_from_the_mark() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 5 1/16 in)  part two = leaf(paper: kraft, inner: one.inner)")
    assert moves(result) == {"one.inner": Fraction(5)}
    assert fact(model_of(result), "two.inner") == inches(5)


def test_like_parts_are_moved_alike() -> None:
    body = "part one[k from 1 to 3] = leaf(paper: kraft, turn: 9/16 in)  part last = leaf(paper: kraft, turn: 9/16 in)"
    result = leaf(body, 'require small: turn <= 1/2 in because "so"')
    assert set(moves(result).values()) == {Fraction(1, 2)} and len(moves(result)) == 4
    assert [each.id for each in result.diagnostics] == ["moved-to-mark"]


def test_half_way_goes_up_where_nothing_else_speaks() -> None:
    assert moves(leaf("part one = leaf(paper: kraft, turn: 9/16 in)")) == {"one.turn": Fraction(5, 8)}


def test_two_half_way_go_where_the_piece_keeps_its_size() -> None:
    # 9/16 and 7/16 are an inch together: one goes up and one down, and the first by its path takes the greater mark.
    result = leaf("part one = leaf(paper: kraft, turn: 9/16 in, other: 7/16 in)")
    assert moves(result) == {"one.other": Fraction(1, 2), "one.turn": Fraction(1, 2)}


def test_a_preference_decides_between_what_is_equally_near() -> None:
    prefer = 'prefer wide: turn >= 5/8 in because "so"'
    result = leaf("part one = leaf(paper: kraft, turn: 9/16 in, other: 7/16 in)", prefer)
    assert moves(result) == {"one.other": Fraction(3, 8), "one.turn": Fraction(5, 8)}


def test_a_requirement_outweighs_nearness() -> None:
    # 0.51 in is nearest to 1/2, but only 5/8 will do.
    result = leaf("part one = leaf(paper: kraft, turn: 0.51 in)", 'require wide: turn > 1/2 in because "so"')
    assert moves(result) == {"one.turn": Fraction(5, 8)} and not result.refused


def test_a_move_says_what_would_fail_without_it() -> None:
    # 5 1/16 in goes down to 5 in, and neither will do: what was written is not what is made.
    low = 'require low: inner <= 4 7/8 in because "{inner} does not go in"'
    (told,) = leaf("part one = leaf(paper: kraft, inner: 5 1/16 in)", low).diagnostics
    assert (told.id, told.severity.value) == ("moved-to-mark", "warning")
    assert told.reason == "With 5 in, the mark it would go to by itself, one.low is not met: 5 in does not go in."
    assert told.way_out == "Write 4 7/8 in, if that is meant."
    require = 'require wide: turn > 1/2 in because "a turn of {turn} peels off"'
    # 0.51 in would do, if only the ruler had such a mark.
    (told,) = leaf("part one = leaf(paper: kraft, turn: 0.51 in)", require).diagnostics
    assert told.severity.value == "note"
    assert told.reason.startswith("With 1/2 in, the mark it would go to by itself, one.wide is not met")
    # 0.49 in goes to 1/2 in by itself, which is just enough.
    (told,) = leaf("part one = leaf(paper: kraft, turn: 0.49 in)", require.replace("> 1/2", ">= 1/2")).diagnostics
    assert told.severity.value == "warning"
    assert told.reason == "As written, one.wide is not met: a turn of 0.49 in peels off."


def test_no_system_of_marks_is_an_error_that_says_which() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 5 1/16 in)", 'require tall: inner > 5 in because "so"')
    (fault,) = result.diagnostics
    assert fault.id == "no-system-of-marks" and result.refused
    assert fault.sentence == (
        "one.tall is met by the lengths as written, and by no system of marks of your ruler. All 2 were tried. With the "
        "nearest one, one.tall is not met: inner is 5 in and has to be more than 5 in."
    )
    assert "one.inner from 5 1/16 in" in fault.reason


def test_what_fails_as_written_too_is_an_ordinary_fault() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 5 1/16 in)", 'require tall: inner > 6 in because "so"')
    assert [each.id for each in result.diagnostics] == ["requirement-fails", "moved-to-mark"]


def test_a_requirement_that_hangs_on_nothing_moved_starts_no_search() -> None:
    body = 'part one = leaf(paper: kraft, turn: 0.51 in)  require never: 1 > 2 because "so"'
    assert moves(leaf(body)) == {"one.turn": Fraction(1, 2)}


def test_a_sheet_that_becomes_too_small_is_a_reason_to_go_the_other_way() -> None:
    # 11 1/2 and 0.45 fit a sheet of 12; with 1/2 they do, with 5/8 they would not.
    body = "part one = leaf(paper: kraft, inner: 11 in, turn: 9/16 in, other: 7/16 in)"
    result = leaf(body)
    assert not result.refused and sum(moves(result).values()) == 1


def test_the_search_is_bounded_and_stable() -> None:
    many = " ".join(
        f"part p{n} = leaf(paper: kraft, inner: {2 + n % 3} in, turn: {9 + 2 * (n // 3)}/16 in)" for n in range(12)
    )
    never = 'require never: turn > 5 in because "so"'
    first, second = leaf(many, never), leaf(many, never)
    assert [each.sentence for each in first.diagnostics] == [each.sentence for each in second.diagnostics]
    assert first.designs[0].worked_out.spent <= (MOST_SYSTEMS + 1) * leaf(many).designs[0].worked_out.spent


def test_a_bound_that_leaves_no_mark_is_told() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 0.2 in)", ruler="inches to 3/4")
    assert "no-mark-within-bounds" in {each.id for each in result.diagnostics}


def test_a_ruler_that_hangs_on_what_is_taken_moves_it_not() -> None:
    result = leaf("part one = leaf(paper: kraft, inner: 1.01 in)", ruler="inches to one.inner / 1 in")
    assert "one.inner" not in moves(result)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_unit_of_writing_changes_no_mark(unit: str) -> None:
    written = {"in": "9/16 in", "mm": "14.2875 mm"}[unit]
    assert moves(leaf(f"part one = leaf(paper: kraft, turn: {written})")) == {"one.turn": Fraction(5, 8)}


def test_judging_counts_as_work(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else a design with large pieces would be judged for minutes."""
    lengths = [f"{letter}_1" for letter in "abcdef"]
    taken = "\n".join(f"  takes {name}: length(mark: nearest) = 1 in" for name in lengths)
    given = ", ".join(f"{name}: 1 1/32 in" for name in lengths)
    panels = "each k from 1 to 24 { panel p[k]: 1 mm  fold bend[k]: mountain } panel last: 1 mm"
    rows = "each k from 1 to 24 { panel q[k]: 1 mm  fold turn[k]: valley } panel end: 1 mm"
    recipe = f"""edition = 1
component leaf "Lengths that cannot all be met." {{
  takes paper: stock
{taken}
  piece sheet from paper, height: 2 in, width: {" + ".join(lengths)}, loose: yes
  require never: {" + ".join(lengths)} is 6.1881 in because "no marks add up to it"
}}
album probe {{
  ruler = inches to 1/16
  kraft = stock(kind: card, sheet: 12 in x 12 in, grain: marked)
  part large = leaf(paper: kraft, {given})
  piece grid[k from 1 to 20] from kraft, loose: yes {{ run left to right {{ {panels} }} run tail to head {{ {rows} }} }}
}}
"""
    calls: list[int] = []

    def counted(model: Model, *, in_space: bool = True) -> tuple[tuple[Diagnostic, ...], int]:
        found, work = judge(model, in_space=in_space)
        calls.append(work)
        return found, work

    monkeypatch.setattr(on_marks, "judge", counted)
    monkeypatch.setattr(on_marks, "MOST_WORK", 800_000)
    compiled = compile_design("probe.album", recipe, lambda _: None)
    assert "requirement-fails" in {each.id for each in compiled.diagnostics}
    assert calls[0] == WORK_OF_A_FIELD * (20 * 25 * 25 + 1)
    assert sum(calls) <= 800_000 < compiled.designs[0].worked_out.spent + calls[0]
