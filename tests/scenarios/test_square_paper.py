"""Landscape pages when there is nothing but square sheets: the case is wrapped in three, and every sheet is counted."""

from fractions import Fraction

import pytest

from pastedown.outputs.to_materials import make as materials
from scenarios.recipes import compiled, errors, inches, lines, listed, mixed, model_of, piece, plan_of, size

NAME = "square_paper"


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("hinge.wing", "23/8"), ("hinge.flat_width", "41/4"), ("hinge.height", "15/2"), ("fits.tallest", "7.6515"),
        ("hinge.block", "0.834"), ("case.spine", "17/8"), ("room.margin", "0.6455"), ("room.landing", "2.1045"),
        ("hinge.made_up_width", "6.584"), ("case.height", "8"), ("case.width", "43/4"),
        ("borders.border", "1/8"), ("borders.fore_edge_border", "0.154"),
        ("tape_needed", "235.5"), ("page[1].tape_length", "21"), ("hinge.tape_in_peaks", "22.5"),
        ("hinge.tape_on_peaks", "45"), ("hinge.tape_on_back", "105"),
    ],
)  # fmt: skip
def test_every_number(path: str, value: str) -> None:
    assert inches(compiled(NAME), path) == Fraction(value)


def test_the_lines_of_the_strip() -> None:
    found = lines(compiled(NAME), "hinge.strip")
    assert found == mixed("2 7/8", "3 1/2", "4 1/8", "4 1/2", "5 1/8", "5 3/4", "6 1/8", "6 3/4", "7 3/8")
    assert found[-1] + Fraction("2.875") == Fraction("10.25")


def test_the_cut_list() -> None:
    assert listed(plan_of(compiled(NAME))) == sorted(
        (count, *mixed(height, width))
        for count, height, width in [
            (3, "8 3/8", "10 1/2"), (3, "8 3/8", "10 1/2"), (1, "7 1/2", "10 1/4"),
            (1, "8", "10 3/4"), (1, "8", "10 3/4"), (1, "8", "2 1/8"),
            (1, "9 1/2", "11 1/2"), (1, "9 1/2", "11 1/2"), (1, "9 1/2", "4 3/8"), (2, "7 3/4", "10 1/2"),
        ]
    )  # fmt: skip


def test_one_wrap_for_all_three_boards_does_not_come_out_of_the_sheet() -> None:
    # 21 1/2 of covers, two joints, the spine and two turn-ins.
    (refused,) = errors(compiled("square_paper_one_wrap"))
    assert refused.id == "sheet-too-small"
    assert "case.wrap is 9 1/2 in high and 25 3/8 in wide" in refused.sentence
    assert "12 in by 12 in" in refused.sentence
    assert refused.way_out.startswith("Bring its width to 12 in at most")


def test_the_case_goes_together_in_space() -> None:
    model = model_of(compiled(NAME))
    assert {each.path for each in model.joins if each.path.startswith("case.")} >= {
        "case.front_hinge", "case.back_hinge", "case.spine_covering", "case.front_fore_edge_in",
    }  # fmt: skip


def test_turn_ins_stay_clear_of_the_corner() -> None:
    # A board of 0.080: the slanting cut stays 0.120 off its corner, measured square to it. With a turn-in t and a cut c
    # along each edge, that is (2t - c) / sqrt 2; c goes down to a mark.
    corner = inches(compiled(NAME), "case.corner_cut")
    assert corner == Fraction(21, 16)
    off = (2 * 0.75 - float(corner)) / 2**0.5
    assert 0.08 <= off <= 0.16
    assert piece(compiled(NAME), "case.front_wrap").outline != piece(compiled(NAME), "case.back_wrap").outline


def test_twelve_sheets_and_eleven_with_the_spine_wrap_across_the_grain() -> None:
    assert "card: For 12 pieces. 12 sheets, proven fewest." in materials(plan_of(compiled(NAME)))["materials.txt"].decode()
    across = compiled(NAME, add="case.spine_wrap.grain = any")
    assert "card: For 12 pieces. 11 sheets, proven fewest." in materials(plan_of(across))["materials.txt"].decode()


# What is left of a page's sheet beside it, once the page is cut.
PULL_OUTS = """
  part slide_out[k from 1 to 6] = pull_out(paper: card, height: card.sheet_long - page.sheet_height,
      width: 9 3/4 in, pocket_height: page.insert_height, pocket_width: page.insert_width)
"""


def test_six_pull_outs_come_out_of_what_is_left() -> None:
    result = compiled(NAME, add=PULL_OUTS)
    assert inches(result, "page[1].insert_width") == Fraction("9.8125")
    assert [each.id for each in result.diagnostics] == []
    assert size(result, "slide_out[6].card") == (Fraction("3.625"), Fraction("9.75"))


@pytest.mark.parametrize(("width", "passes"), [("10 3/16 in", True), ("10 1/4 in", False)])
def test_a_pull_out_is_no_deeper_than_the_pocket(width: str, passes: bool) -> None:
    result = compiled(NAME, add=PULL_OUTS.replace("9 3/4 in", width))
    assert [each.id for each in errors(result)] == ([] if passes else ["requirement-fails"])


def test_square_paper_has_no_long_side_so_its_arrow_is_drawn_before_the_first_cut() -> None:
    steps = plan_of(compiled(NAME)).steps
    told_at = [step.number for step in steps if any("arrow along the grain" in str(each) for each in step.cautions)]
    of_card = [each.id for each in plan_of(compiled(NAME)).pieces if each.stock == "card"]
    first = min(step.number for step in steps if set(step.pieces) & set(of_card))
    assert told_at == [first]
    unknown = compiled(NAME, take="caliper: 12 pt, grain: marked", put="caliper: 12 pt")
    assert {each.id for each in unknown.diagnostics} == {"grain-unknown"}
