"""What the library's requirements tell: the reason at the table, and a way out in numbers that then passes."""

import pytest

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Severity

ALBUM = """\
edition = 1
use {component} from {file}
album it {{
  ruler = inches to 1/16
  grey = stock(kind: board, sheet: 24 in x 24 in, caliper: {board}, grain: marked)
  paper = stock(kind: paper, sheet: 30 in x 30 in, caliper: {paper}, grain: marked)
  card = stock(kind: card, sheet: 24 in x 24 in, caliper: 12 pt, grain: marked)
  cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
  sticky = stock(kind: tape, roll_width: {sticky}, caliper: 4 pt)
  static_adhesive = stock(kind: glue)
  part it = {component}({given})
}}
"""
CASE = "board: grey, height: 7 in, width: 5 in, spine: 2 in"
THICK = "board: grey(caliper: 1/4 in), height: 7 in, width: 5 in, spine: 2 in"
WING = "wing: 2 in, spine_margin: 1/2 in, board: grey, paper: card, liner_border: 1/8 in"
HINGE = "paper: card, tape: sticky, peaks: 3, height: 6 in, wing: 2 in, page_width: 5 in"
# component, its file, what it is given that fails, the requirement, words of the reason, of the way out, what then passes
TOLD = [
    ("split_wrap_case", "wraps", f"{CASE}, paper: paper, joint: 1/16 in", "turns", "needs a gap of 0.096 in",
     "make the joint 1/8 in or more", f"{CASE}, paper: paper, joint: 1/8 in"),
    ("split_wrap_case", "wraps", f"{CASE}, paper: paper, joint: 1/8 in, lap: 1/4 in", "laps_hold", "tears away",
     "let it lap 7/16 in or more", f"{CASE}, paper: paper, joint: 1/8 in, lap: 7/16 in"),
    ("split_wrap_case", "wraps", f"{THICK}, paper: paper, joint: 5/16 in, turn_in: 3/8 in", "turn_in_holds",
     "loses 1/4 in", "make the turn-in 1/2 in or more", f"{THICK}, paper: paper, joint: 5/16 in, turn_in: 1/2 in"),
    ("split_wrap_case", "wraps", f"{CASE}, paper: paper, joint: 1/8 in, clear_of_corner: 0.07 in", "corner_covered",
     "shows bare at the corner", "stay 0.12 in clear", f"{CASE}, paper: paper, joint: 1/8 in, clear_of_corner: 0.12 in"),
    ("split_wrap_case", "wraps", f"{CASE}, paper: paper, joint: 1/8 in, clear_of_corner: 0.17 in", "corner_flat",
     "pile up there", "stay 0.12 in clear", f"{CASE}, paper: paper, joint: 1/8 in, clear_of_corner: 0.12 in"),
    ("one_wrap_case", "wraps", f"{CASE}, paper: paper, joint: 1/16 in", "turns", "needs a gap of 0.096 in",
     "make the joint 1/8 in or more", f"{CASE}, paper: paper, joint: 1/8 in"),
    ("edged_case", "edging", f"{CASE}, tape: cloth, joint: 3/16 in, spine_end: 1/4 in", "ends_reach_covers",
     "stops in the joint of 3/16 in", "5/16 in or more", f"{CASE}, tape: cloth, joint: 3/16 in, spine_end: 5/16 in"),
    ("taped_case", "covers", f"{CASE}, tape: cloth, joint: 1/16 in", "turns", "tears or peels the tape",
     "make the joint 1/8 in or more", f"{CASE}, tape: cloth, joint: 1/8 in"),
    ("taped_case", "covers", f"{CASE}, tape: cloth, joint: 1/8 in, swing: right_round", "turns", "0.035 in is missing",
     "make the joint 3/16 in or more", f"{CASE}, tape: cloth, joint: 3/16 in, swing: right_round"),
    ("taped_case", "covers", f"{CASE}, tape: cloth, joint: 1/16 in, stretchy: yes", "turns_freely",
     "stretch by about 0.018 in", "make the joint 1/8 in", f"{CASE}, tape: cloth, joint: 1/8 in, stretchy: yes"),
    ("pull_out", "decorations", "paper: card, height: 4 in, width: 5 in, pocket_height: 4 1/8 in, pocket_width: 5 in",
     "bar_holds", "slips through an opening of 4 1/16 in", "make the card 3 13/16 in high",
     "paper: card, height: 3 13/16 in, width: 5 in, pocket_height: 4 1/8 in, pocket_width: 5 in"),
    ("wing_over_joint", "rules", f"{WING}, joint: 1/16 in, liner_width: 5 in", "slack", "pulls at boards",
     "make the joint 1/8 in or more", f"{WING}, joint: 1/8 in, liner_width: 5 in"),
    ("wing_over_joint", "rules", f"{WING}, joint: 1/8 in, liner_width: 1 1/4 in", "lined_over", "stays in sight",
     "make the liner 1 3/8 in wide", f"{WING}, joint: 1/8 in, liner_width: 1 3/8 in"),
    ("wing_over_joint", "rules", f"{WING}, joint: 1/8 in, liner_width: 5 in, least_landing: 1 1/2 in", "lands",
     "is left for the cover", "make the wing 2 1/8 in", f"{WING.replace('wing: 2 in', 'wing: 2 1/8 in')}, "
     "joint: 1/8 in, liner_width: 5 in, least_landing: 1 1/2 in"),
    ("concertina_hinge", "hinges", f"{HINGE}, peak: 5/16 in", "tape_in_peak", "shows beside a peak of 5/16 in",
     "make the peak 3/8 in or more", f"{HINGE}, peak: 3/8 in"),
]  # fmt: skip


def made(component: str, file: str, given: str) -> Compiled:
    text = ALBUM.format(component=component, file=file, given=given, board="80 pt", paper="8 pt", sticky="1/4 in")
    return compile_design("it.album", text, lambda _: None)


@pytest.mark.parametrize(
    ("component", "file", "fails", "name", "reason", "way_out", "passes"), TOLD, ids=lambda value: str(value)[:24]
)
def test_a_requirement_says_why_and_its_way_out_passes(
    component: str, file: str, fails: str, name: str, reason: str, way_out: str, passes: str
) -> None:
    (told,) = made(component, file, fails).diagnostics
    assert told.id in ("requirement-fails", "preference-fails") and f"it.{name} " in told.sentence
    assert reason in " ".join(told.reason.split())
    assert way_out in " ".join(told.way_out.split())
    left = [each.sentence for each in made(component, file, passes).diagnostics if each.severity is not Severity.NOTE]
    assert left == []
