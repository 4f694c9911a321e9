"""The smallest change that makes a refused design go together."""

from fractions import Fraction
from pathlib import Path

import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design, mend
from pastedown.mend import state
from pastedown.mend.in_style import in_style_of
from pastedown.mend.report import MendReport
from pastedown.mend.state import asking_about, how_often, state_of
from pastedown.mend.to_text import mend_text
from pastedown.quantity.literal import read_quantity
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show
from test_examples import FILES

BOX = """edition = 1
album box "A box" {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  high = {high} # as high as the shelf allows
  wide = {wide}
  walls = {count}
  piece wall[k from 1 to walls] from card, height: high, width: wide, loose: yes
  require tall: high >= 2 * wide because "it has to stand"
  require not_too_tall: high <= 9 in because "the shelf is low"
  require few: walls <= 6 because "there is room for six"
}}
"""


def mended(text: str) -> MendReport:
    report, told = mend("box.album", text, lambda _: None)
    assert report is not None, told
    return report


def box(high: str = "6 in", wide: str = "3 in", count: str = "4") -> str:
    return BOX.format(high=high, wide=wide, count=count)


def edits(text: str) -> list[tuple[str, str, str]]:
    return [(each.called, each.before, each.after) for each in mended(text).edits]


def test_what_passes_is_left_as_it_is() -> None:
    report = mended(box())
    assert report.edits == () and report.text == box()
    assert mend_text(report) == "box goes together as it is. There is nothing to mend."


def test_one_number_and_as_little_as_passes() -> None:
    # Either the height rises by a half or the width falls by a quarter; the quarter is less.
    assert edits(box(high="5 1/2 in")) == [("wide", "3 in", "2 3/4 in")]


def test_a_count_is_changed_where_nothing_else_helps() -> None:
    assert edits(box(count="8")) == [("walls", "8", "6")]


def test_two_faults_that_one_number_mends_take_one() -> None:
    """A width of 5 in wants 10 in of height, which the shelf has not."""
    assert edits(box(high="8 in", wide="5 in")) == [("wide", "5 in", "4 in")]


def test_two_faults_apart_take_two_numbers() -> None:
    assert edits(box(high="8 in", wide="5 in", count="7")) == [("wide", "5 in", "4 in"), ("walls", "7", "6")]


def test_the_rest_of_the_file_stays_to_the_byte_and_the_new_one_passes() -> None:
    text = box(high="5 1/2 in")
    report = mended(text)
    assert report.text == text.replace("wide = 3 in", "wide = 2 3/4 in")
    assert not compile_design("box.album", report.text, lambda _: None).refused
    assert [each.path for each in report.mended] == ["tall"] and all(each.holds for each in report.mended)


def test_what_is_bought_or_required_is_never_changed() -> None:
    text = """edition = 1
album box {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 6 in x 6 in, caliper: 12 pt, grain: marked)
  piece wall from card, height: min(7 in, 7 in), width: 3 in, loose: yes
  require tall: wall.height >= 7 in because "it has to stand"
}
"""
    report = mended(text)
    assert report.edits == () and report.faults
    assert "Nothing was found that mends it" in mend_text(report)


def test_a_recipe_with_wrong_words_is_not_mended_by_its_numbers() -> None:
    report, told = mend("box.album", box().replace("high >=", "hihg >="), lambda _: None)
    assert report is None and [each.id for each in told] == ["unknown-name"]


def test_a_large_design_is_tried_less_often_and_so_is_one_that_is_nothing_but_requirements(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (made,) = compile_design("box.album", box(high="5 in"), lambda _: None, planned=False).designs
    judged = made.judged
    first = state_of({}, judged)
    whole = asking_about(judged, first).whole
    assert asking_about(judged, first, work=3 * whole).most == how_often(judged, 160, 3 * whole) == 3
    assert asking_about(judged, first).most == 160
    assert first.failing is not None

    def so_often(at_least: int) -> int:
        monkeypatch.setattr(state, "NARROW_WORK", at_least)
        # As if the whole took hardly more than what is asked of it.
        asking = evolve(asking_about(judged, first, most=2), whole=whole // 8)
        while not asking.is_used_up:
            asking.ask_of(first.failing or frozenset(), {})
        return len(asking.narrow)

    assert 2 <= so_often(0) <= 3
    assert so_often(10**9) == 16


def test_the_order_of_lines_and_the_unit_decide_nothing() -> None:
    text = box(high="5 1/2 in")
    lines = text.splitlines()
    turned = "\n".join([*lines[:2], *reversed(lines[2:-1]), lines[-1], ""])
    assert [each.after for each in mended(turned).edits] == ["2 3/4 in"]
    metric = text.replace("wide = 3 in", "wide = 76.2 mm")
    assert [each.after for each in mended(metric).edits] == ["2 3/4 in"]


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(16, 200), st.integers(16, 120), st.integers(1, 9))
def test_what_is_mended_always_passes(high: int, wide: int, count: int) -> None:
    text = box(f"{high}/16 in", f"{wide}/16 in", str(count))
    report = mended(text)
    assert bool(report.faults) is compile_design("box.album", text, lambda _: None).refused
    assert report.edits or not report.faults
    assert not compile_design("box.album", report.text, lambda _: None).refused
    if report.edits:
        again = mended(report.text)
        assert again.edits == () and not again.faults


@pytest.mark.parametrize(
    ("words", "amount", "written"),
    [
        ("5 1/2 in", Fraction(23, 4), "5 3/4 in"),
        ("5.5in", Fraction(23, 4), "5.75in"),
        ("21.5 mm", Fraction(5), "127 mm"),
        ("3 mm", Fraction(1, 8), "1/8 in"),
        ("7 1/2 in", Fraction(1, 3), "1/3 in"),
        ("7.5 in", Fraction(1, 3), "1/3 in"),
        ("7.5 in", Fraction(9, 16), "0.5625 in"),
    ],
)
def test_a_number_is_written_as_the_old_one_was_where_a_rule_shows_it(words: str, amount: Fraction, written: str) -> None:
    value = inches(amount)
    assert in_style_of(words, value, INCH_RULER) == written
    assert read_quantity(written) == value


def test_whole_millimetres_are_not_written_in_inches() -> None:
    assert in_style_of("8 3/16 in", mm(204), Ruler(mm(1), Show.METRIC)) == "204 mm"


@pytest.mark.parametrize(
    ("before", "after", "wanted"),
    [
        ("joint: 1/8 in", "joint: 1/16 in", [("case.joint", "1/16 in", "1/8 in")]),
        ("wing: 2 1/4 in", "wing: 3 in", [("hinge.peak", "5/8 in", "1/2 in")]),
    ],
)
def test_an_example_that_was_spoilt(before: str, after: str, wanted: list[tuple[str, str, str]]) -> None:
    text = FILES["harbour_walk.album"].replace(before, after)
    report, _ = mend("harbour_walk.album", text, FILES.get)
    assert report is not None
    assert [(each.called, each.before, each.after) for each in report.edits] == wanted


SPINE = """edition = 1
component kept "What is compared." {{
  takes spine: length
  takes block: length
  takes least: length from 1/16 in to 2 in = 1/2 in
  margin = (spine - block) / 2
  require enough: margin >= least because "the outer peaks stand over the edge"
}}
album case "A spine" {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  block = card.caliper * 100
  margin = 1/2 in
  mark = 1/8 in
  piece spine from card, height: 7 in, width: {spine}, loose: yes
  part room = kept(spine: {handed}, block: block, least: margin)
}}
"""


@pytest.mark.parametrize(
    ("spine", "wanted"),
    [
        # What is only asked of the spine stays, though 1/8 in less of it would do.
        ("2 in", ("spine.width", "2 in", "2 1/4 in")),
        ("block + 3/4 in", ("spine.width", "3/4 in", "1 in")),
        # A sum of nothing but names is added to, and so is one that is rounded; marks are no measures.
        ("block + card.caliper", ("spine.width", "block + card.caliper", "block + card.caliper + 1 in")),
        ("block rounded up to mark", ("spine.width", "block rounded up to mark", "(block rounded up to mark) + 1 in")),
    ],
)
def test_what_is_made_is_changed_before_what_is_asked(spine: str, wanted: tuple[str, str, str]) -> None:
    text = SPINE.format(spine=spine, handed="spine.width")
    report = mended(text)
    assert [(each.called, each.before, each.after) for each in report.edits] == [wanted]
    assert not any(each.lowers_limit for each in report.edits)
    assert not compile_design("box.album", report.text, lambda _: None).refused


def test_a_limit_is_lowered_last_and_told_as_that() -> None:
    """The spine is bought: nothing that is made can be changed, and only less can be asked."""
    text = SPINE.format(spine="2 in", handed="card.caliper * 180")
    report = mended(text)
    assert [(each.called, each.after, each.lowers_limit) for each in report.edits] == [("margin", "7/16 in", True)]
    assert "That lowers a limit of yours" in mend_text(report)


def test_what_the_reference_says_of_its_example_is_so() -> None:
    text = (Path(__file__).parents[2] / "grammar" / "reference.md").read_text(encoding="utf-8")
    example = text.partition("## Mending\n")[2].partition("# refused: requirement-fails\n")[2].partition("```")[0]
    assert edits(example) == [("depth", "1 1/2 in", "1 3/4 in")]
