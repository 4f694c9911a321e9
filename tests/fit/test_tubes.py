"""Tubes over what stands in them, against the girth of the tube."""

from fractions import Fraction

import pytest

from pastedown.compile import compile_design

RECIPE = """edition = 1
use cardstock, double_tape from stocks
use square_12 from sheets
use pocket_page from pages
use concertina_hinge from hinges
album probe {{
  card = cardstock(sheet: square_12, caliper: 12 pt, grain: marked)
  sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
  part page[k from 1 to 2] = pocket_page(paper: card, tape: sticky, height: 5 3/4 in, width: 5 in)
  part hinge = concertina_hinge(paper: card, tape: sticky, peaks: 2, wing: 2 in, height: {height} in)
  each k from 1 to 2 {{
    join mount[k]: page[k].mouth to hinge.stand[k], by: sticky, moving: yes {{
      align page[k].mouth.spine to hinge.stand[k].spine
      align page[k].mouth.mid_height to hinge.stand[k].mid_height
    }}
  }}
  {more}
}}
"""


def told(height: str, more: str = "") -> list[str]:
    compiled = compile_design("probe.album", RECIPE.format(height=height, more=more), lambda _: None)
    # These heights are on no ruler, which is not what is looked at here.
    return [each.id for each in compiled.diagnostics if each.id != "ruler-not-stated"]


# Round two leaves of card and three of tape. The walls are sheets of 5 3/4 in between their folds, so the girth is twice
# that: height and thickness of what is inside have to share it.
INSIDE = 2 * Fraction("0.012") + 3 * Fraction("0.004")
TALLEST = (2 * Fraction("5.75") - 2 * INSIDE) / 2


@pytest.mark.parametrize(
    "height, found",
    [("5 5/8", []), (str(float(TALLEST)), []), (str(float(TALLEST) + 0.0001), ["too-tight"]), ("5 3/4", ["too-tight"])],
)
def test_a_strip_as_high_as_the_empty_page_does_not_go_in(height: str, found: list[str]) -> None:
    assert told(height) == found


def test_a_requirement_that_fails_says_more() -> None:
    assert told("5 3/4", 'require low: hinge.height <= 5 in because "it has to go in"') == ["requirement-fails"]
