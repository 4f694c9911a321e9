"""A new size from a method: five portrait pages of nine by six, with card of 8 1/2 by 11 in at hand.

Refused at first, because the strip does not come out of the sheet; with shorter wings it does. All numbers were worked
out by hand with exact rationals.
"""

from fractions import Fraction

import pytest

from pastedown.diagnostic import Severity
from pastedown.outputs.to_materials import make as materials
from scenarios.recipes import (
    amount,
    compiled,
    errors,
    inches,
    lines,
    listed,
    mixed,
    piece,
    plan_of,
    size,
    steps_about,
    told,
)  # fmt: skip

ASKED, MADE = "new_size", "new_size_shortened"


def test_as_asked_it_is_refused_with_the_sheet_and_the_width_that_passes() -> None:
    result = compiled(ASKED)
    (refused,) = errors(result)
    assert refused.id == "sheet-too-small"
    # 2 5/8 on each side, five peaks of 1/2 in and four gussets of 3/8.
    assert "hinge.strip is 8 1/2 in high and 11 3/4 in wide" in refused.sentence
    assert "11 in by 8 1/2 in" in refused.sentence
    assert refused.way_out.startswith("Bring its width to 11 in at most")
    assert any("wing 2 5/8 in" in label.words for label in refused.labels)
    assert result.designs[0].plan is None


def test_card_of_twelve_inches_would_keep_the_wing() -> None:
    assert errors(compiled(ASKED, take="sheet: letter", put="sheet: 12 in x 12 in")) == []


@pytest.mark.parametrize(
    ("path", "value"),
    [
        # The longest wing that the sheet has room for, and its landing: 2 in become 1 5/8.
        ("hinge.wing", "9/4"), ("landing", "13/8"), ("hinge.flat_width", "11"),
        # Four gussets and five times two cards and a tape.
        ("hinge.block", "1.64"), ("case.spine", "11/4"), ("room.margin", "0.555"), ("room.landing", "1.57"),
        ("hinge.made_up_width", "6.14"), ("hinge.nominal_width", "6"),
        # Nine inches less two cards, three tapes and a sixteenth; the card is no higher than 8 1/2.
        ("fits.tallest", "8.9015"), ("tallest_hinge", "71/8"), ("hinge.height", "17/2"),
        ("case.height", "37/4"), ("case.width", "25/4"),
        ("borders.border", "1/8"), ("borders.fore_edge_border", "0.154"), ("borders.open_border", "0.93"),
        ("tape_needed", "306.5"), ("tape_to_order", "337.15"),
        ("hinge.tape_in_peaks", "42.5"), ("hinge.tape_on_peaks", "85"), ("hinge.tape_on_back", "119"),
    ],
)  # fmt: skip
def test_every_number(path: str, value: str) -> None:
    assert inches(compiled(MADE), path) == Fraction(value)


def test_the_tape_in_yards() -> None:
    assert amount(compiled(MADE), "tape_in_yards").value == Fraction("337.15") / 36
    assert round(float(amount(compiled(MADE), "tape_in_yards").value), 2) == 9.37


def test_the_lines_of_the_strip_add_up_to_the_sheet() -> None:
    found = lines(compiled(MADE), "hinge.strip")
    assert found == mixed(
        "2 1/4", "2 3/4", "3 1/4", "3 5/8", "4 1/8", "4 5/8", "5", "5 1/2", "6", "6 3/8", "6 7/8", "7 3/8", "7 3/4",
        "8 1/4", "8 3/4",
    )  # fmt: skip
    assert found[-1] + inches(compiled(MADE), "hinge.wing") == 11


def test_what_a_ruler_reads_is_a_hair_over_six_and_an_eighth() -> None:
    (reading,) = [step.reading for step in plan_of(compiled(MADE)).steps if step.reading and "hinge.read_width" in step.refers]
    assert reading.nominal.inches == Fraction("6.14")
    assert Fraction("6.125") < reading.nominal.inches < Fraction("6.1875")


def test_the_cut_list() -> None:
    result = compiled(MADE)
    assert listed(plan_of(result)) == sorted(
        [
            (5, Fraction("9.375"), Fraction(6)), (5, Fraction("9.375"), Fraction(6)),
            (1, Fraction("8.5"), Fraction(11)),
            (1, Fraction("9.25"), Fraction("6.25")), (1, Fraction("9.25"), Fraction("6.25")),
            (1, Fraction("9.25"), Fraction("2.75")),
            (1, Fraction("11.25"), Fraction("1.5")), (1, Fraction("11.25"), Fraction("1.5")),
        ]
    )  # fmt: skip
    assert size(result, "page[5].rear_sheet") == (Fraction("9.375"), 6)
    # One score each, a seam's width from an edge of six inches.
    assert lines(result, "page[1].front_sheet") == mixed("3/8")
    assert lines(result, "page[1].rear_sheet") == [Fraction("9.375") - Fraction("0.375")]


def test_ten_sheets_for_the_pages_and_one_for_the_strip() -> None:
    text = materials(plan_of(compiled(MADE)))["materials.txt"].decode()
    assert "11 sheets, proven fewest" in text


def test_the_folds_of_the_strip_lie_across_the_grain_and_those_of_the_pages_do_no_harm() -> None:
    result = compiled(MADE)
    (grain,) = [each for each in told(result, Severity.WARNING) if each.id == "against-grain"]
    assert "hinge.strip" in grain.sentence and "along its width" in grain.sentence
    assert "All 15 folds" in grain.reason
    # The grain of the pages runs with the spine; their ten seams lie across it, and never move.
    assert {piece(result, f"page[{k}].front_sheet").grain for k in range(1, 6)} == {"height"}
    (seam, *_) = steps_about(plan_of(result), "page[1].seam_tail")
    assert any("never opens again" in str(tip) for tip in seam.tips)


def test_the_hinge_could_be_higher_if_the_sheet_were() -> None:
    result = compiled(ASKED, take="sheet: letter", put="sheet: 12 in x 12 in")
    assert inches(result, "hinge.height") == Fraction("8.875")
    assert inches(compiled(MADE), "hinge.height") / 9 == Fraction(17, 18)


def test_a_still_shorter_wing_is_refused_by_its_landing() -> None:
    result = compiled(MADE, add="hinge.wing = 2 1/8 in")
    assert [each.id for each in errors(result)] == ["requirement-fails"]
    assert "1.445" in errors(result)[0].reason
