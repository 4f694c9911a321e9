"""Folds, flat and made up, against handbooks, mills and geometry, through the compiler.

FLD-19 and FLD-20 stand in test_common_practice.py; folds in every pose are tested elsewhere. Not tested, because nothing
that the language offers yields them: FLD-01 to FLD-05 and FLD-07 (paper used up in a round bend: here paper folds sharply
about its score, the case K = 0), FLD-06 (sheets folded in half again and again), FLD-08 (roll folds), FLD-12 to FLD-14
(creasing machines), FLD-17 and FLD-18 (folds that meet in a point).
"""

from fractions import Fraction
from math import atan, degrees

import pytest

from reference.through_the_compiler import fact, made, piece, plan, told

USES = "use concertina_hinge from hinges"
HINGE = """
  ruler = inches to 1/16
  card = stock(kind: card, sheet: {sheet}, caliper: 12 pt, weight: 80 lb cover, grain: {grain})
  tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  part hinge = concertina_hinge(paper: card, tape: tape, peaks: 4, flat_width: 11 in, height: 7 1/2 in, page_width: 11 in)
"""


def test_a_fold_uses_up_no_paper_on_its_inner_side() -> None:
    # FLD-02: one fold of 180 degrees, inner radius nought: inner face 0. The strip's panels add up to its length flat,
    # and made up it is wider than the flat sum by what lies beside itself, not by what is bent.
    body = HINGE.format(sheet="12 in x 12 in", grain="marked")
    (run,) = piece(body, "hinge.strip", USES).runs
    assert sum(panel.size.value for panel in run.panels) == run.side.value == 11 * Fraction(127, 5)


def test_card_as_heavy_as_this_is_scored_before_it_is_folded() -> None:
    # FLD-09, Whitley Co., Printing 101: above 0.005 in or 80 lb text. FLD-10, Condat: from 150 grams. FLD-11, CY/T
    # 28-1999: above 200 grams. 80 lb cover is 0.012 in here and 216 grams.
    body = HINGE.format(sheet="12 in x 12 in", grain="marked")
    found = plan(body, USES)
    (strip,) = found.pieces
    (card,) = [each for each in found.materials if each.kind == "card"]
    assert card.weight is not None and card.weight.value * 1_000_000 > 200
    assert len(strip.folds) == sum(len(chart.marks) for chart in strip.score_charts) == 12
    kinds = [step.kind for step in found.steps if strip.id in step.pieces]
    assert kinds.index("score") < kinds.index("fold")


@pytest.mark.parametrize(
    ("sheet", "grain", "ids"),
    [("8 1/2 in x 11 in", "long", ["against-grain"]), ("8 1/2 in x 11 in", "short", []), ("12 in x 12 in", "marked", [])],
)  # fmt: skip
def test_a_score_across_the_grain_is_warned_of(sheet: str, grain: str, ids: list[str]) -> None:
    # FLD-16, Roberts and Etherington, "against the grain": score and fold with the grain. A warning, since one mill's
    # guide says otherwise.
    assert told(HINGE.format(sheet=sheet, grain=grain), USES) == ids
    if ids:
        made(HINGE.format(sheet=sheet, grain=grain), USES)


def test_mountains_and_valleys_take_turns() -> None:
    # FLD-21, definition: along a zigzag they alternate; a double tab is valley, mountain, valley from the front.
    body = """
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
      piece zigzag from card, height: 5 in, loose: yes {
        run left to right {
          each k from 1 to 5 {
            panel leaf[k]: 2 in
            if k < 5 {
              if k - 2 * whole(k / 2) is 1 { fold bend[k]: mountain }
              if k - 2 * whole(k / 2) is 0 { fold bend[k]: valley }
            }
          }
        }
      }
    """
    kinds = [score.kind for score in piece(body, "zigzag").runs[0].scores]
    assert kinds == ["mountain", "valley"] * 2
    strip = piece(HINGE.format(sheet="12 in x 12 in", grain="marked"), "hinge.strip", USES)
    assert "".join(score.kind[0] for score in strip.runs[0].scores) == "vmv" * 4


def test_skew_of_a_strip() -> None:
    # FLD-22, trigonometry: 1.5 mm over 200 mm is 0.430 degrees. Both ends of the line are off by half of that.
    body = """
      ruler = millimetres to 1
      place_error = 0.75 mm
      card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.3 mm, grain: marked)
      tape = stock(kind: tape, roll_width: 6 mm, caliper: 0.1 mm)
      piece under from card, height: 200 mm, width: 100 mm
      piece over from card, height: 200 mm, width: 50 mm
      join on: over.back to under.face, by: tape {
        align over.mid_width to under.mid_width   align over.mid_height to under.mid_height
      }
      require straight: skew(on) <= 1 because "so"
    """
    model = made(body).model
    assert model is not None
    (required,) = [each for each in model.requirements if each.path == "straight"]
    assert required.margin is not None
    ((_, turned),) = required.margin.terms
    assert abs(turned.value) == Fraction(3, 400)
    assert round(degrees(atan(abs(turned.value))), 3) == 0.430


def test_the_ends_of_the_strip_with_four_peaks_may_differ_by_an_eighth() -> None:
    # Common practice, no source: pulled true up to 1/8 in. It reads between 7 1/16 and 7 1/8 in.
    body = HINGE.format(sheet="12 in x 12 in", grain="marked").replace("page_width: 11 in", "page_width: 7 1/2 in")
    inch = Fraction(127, 5)
    assert fact(body, "hinge.ends_may_differ", USES) == inch / 8
    assert Fraction(113, 16) < fact(body, "hinge.made_up_width", USES) / inch < Fraction(57, 8)
