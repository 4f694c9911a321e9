"""What lies between two sides of a design that is shut, with numbers worked out by hand."""

from fractions import Fraction

import pytest

from pastedown.compile import compile_design
from pastedown.plan.plan import Plan

# A case of two boards of 0.080 on one band of cloth, half an inch between them: shut, they stand half an inch less two
# boards apart. On the base lies a sheet on a film of tape; a slip lies loose in a part with a sheet of its own.
BODY = """
kraft = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
grey = stock(kind: board, sheet: 12 in x 24 in, caliper: 80 pt, grain: long)
cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
piece base from grey, height: 6 in, width: 4 in, grain: height, left: l, right: r
piece lid from grey, height: 6 in, width: 4 in, grain: height, left: l, right: r
piece band from cloth, height: 6 in, grain: any, left: l, right: r {{
  run l to r {{
    panel one: 1/2 in
    panel gap: 1/2 in, bends: mountain
    panel two: 1/2 in
  }}
}}
join band_on: band.one.back to base.face {{ align band.gap.l to base.r  align band.tail to base.tail }}
join lid_on: lid.face to band.two.back {{ align lid.l to band.gap.r  align lid.tail to band.tail }}
part folder = pocket(paper: kraft)
join folder_on: folder.sheet.back to base.back, by: sticky, moving: yes {{
  align folder.sheet.mid_width to base.mid_width  align folder.sheet.mid_height to base.mid_height
}}
piece note from kraft, height: 2 in, width: 2 in, grain: any, loose: yes
{pose}
loaded = thickness(lid.back, to: base.back)
blank = thickness(lid.back, to: base.back, state: blank)
outside = thickness(lid.face, to: base.face)
{more}
"""
POCKET = """
component pocket "A sheet with a slip." {
  takes paper: stock
  piece sheet from paper, height: 5 in, width: 3 in, grain: height
  piece slip from paper, height: 2 in, width: 2 in, grain: any, loose: yes
}
"""


def design(pose: str = "pose closed { band.gap = shut }", more: str = "") -> str:
    return f"edition = 1\n{POCKET}\nalbum probe {{\n{BODY.format(pose=pose, more=more)}\n}}\n"


def plan_of(text: str) -> Plan:
    made = compile_design("probe.album", text, lambda _: None).designs[0]
    assert made.plan is not None
    return made.plan


def lengths(plan: Plan) -> list[Fraction]:
    values = {each.path: each.value for each in plan.facts}
    return [values[name].inches for name in ("loaded", "blank", "outside")]  # type: ignore[union-attr]


def test_what_lies_between_counts_and_what_lies_loose_in_it_too() -> None:
    plan = plan_of(design())
    # A sheet and its film; the slip of its part lies on it somewhere. The note is in nothing.
    assert lengths(plan) == [Fraction("0.028"), Fraction("0.016"), 0]
    (shut,) = plan.bulk.shut
    assert (shut.loose, shut.unplaced) == (("folder.slip",), ("note",))
    # The gap is a back of its own: shut, it does not give way.
    assert shut.least.inches == shut.apart.inches == Fraction("0.5") - 2 * Fraction("0.08")
    assert (shut.loaded.inches, shut.filled) == (Fraction("0.028"), shut.loaded)


def test_a_design_that_is_never_shut_has_nothing_between() -> None:
    plan = plan_of(design(pose="pose half { band.gap = square }"))
    assert (lengths(plan), plan.bulk.shut) == ([0, 0, 0], ())


@pytest.mark.parametrize(
    ("call", "words"),
    [
        ("thickness(lid, to: base.back)", "One side of paper or board belongs here"),
        ("thickness(lid.back, note.back, to: base.back)", "told of these two alone"),
        ("thickness(lid.back, to: base.back, over: note.face)", "told of these two alone"),
        ("thickness(lid.back, to: 3 in)", "Thickness is of parts, pieces and places"),
    ],
)
def test_it_is_told_of_two_sides(call: str, words: str) -> None:
    told = compile_design("probe.album", design(more=f"wrong = {call}"), lambda _: None).diagnostics
    assert [each.sentence for each in told if words in each.sentence], [each.sentence for each in told]
