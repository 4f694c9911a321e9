"""Folds, flat and made up, against handbooks, mills and geometry, through the compiler.

FLD-19 and FLD-20 stand in test_common_practice.py; folds in every pose are tested elsewhere. Of FLD-14 the height of a
creasing rule is left out: it is set in a press beside a knife, and a hand has neither.
"""

from fractions import Fraction
from itertools import product
from math import atan, degrees, pi

import pytest

from reference.through_the_compiler import fact, made, piece, plan, refused, told
from scenarios.recipes import compiled, plan_of

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


def test_the_ridge_of_a_score_lies_inside_its_fold() -> None:
    # FLD-15, Holmen paper academy: fold towards the ridge. The face is outside a mountain and inside a valley, so a
    # mountain is pressed into the face and a valley into the back; the piece is turned over once, for all of them.
    found = plan(HINGE.format(sheet="12 in x 12 in", grain="marked"), USES)
    (strip,) = found.pieces
    assert [mark.scored_from for mark in strip.score_charts[0].marks] == ["back", "face", "back"] * 4
    assert [line.scored_from for line in strip.folds] == ["back", "face", "back"] * 4
    (score,) = [step for step in found.steps if step.kind == "score"]
    told = "".join(str(part) for part in score.text if isinstance(part, str))
    assert told.count("Turn it over") == 1
    assert told.index("right across it, from its face") < told.index("right across it, from its back")


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


BEND_USES = "use round_bend from rules"
BEND = """
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: {caliper}, grain: marked)
  part it = round_bend(paper: card, radius: {radius}, turn: {turn} deg, neutral: {neutral})
"""


def bend(caliper: str, radius: str, turn: int, neutral: str) -> float:
    """What a bend takes, in millimetres."""
    return float(fact(BEND.format(caliper=caliper, radius=radius, turn=turn, neutral=neutral), "it.bend", BEND_USES))


@pytest.mark.parametrize(("folds", "times"), [(1, 1), (2, 4), (3, 14), (4, 50), (5, 186)])
def test_paper_used_up_by_folding_in_half_again_and_again(folds: int, times: int) -> None:
    # FLD-01, B. Gallivan (2002): pi t / 6 (2^n + 4)(2^n - 1). Every layer of every fold goes round the ones inside it, by
    # its outer face.
    parts = "\n".join(
        f"part bend_{i}[j from 1 to {2 ** (i - 1)}] = round_bend(paper: card, radius: (j - 1) * card.caliper, neutral: 1)"
        for i in range(1, folds + 1)
    )
    total = " + ".join(f"sum(bend_{i}.bend)" for i in range(1, folds + 1))
    body = f"card = stock(kind: card, sheet: 12 in x 12 in, caliper: 0.1 mm, grain: marked)\n{parts}\nused = {total}"
    assert float(fact(body, "used", BEND_USES)) == pytest.approx(times * pi * 0.1, rel=1e-6)


@pytest.mark.parametrize(("neutral", "length"), [("0", 0), ("1/2", 0.471), ("1", 0.942)])
def test_a_fold_without_a_score(neutral: str, length: float) -> None:
    # FLD-02 and FLD-03: 180 degrees about nothing, 0.30 mm: the outer face takes pi t, the middle half of that.
    assert bend("0.30 mm", "0 in", 180, neutral) == pytest.approx(length, abs=5e-4)


@pytest.mark.parametrize(
    ("caliper", "radius", "neutral", "length"),
    # FLD-04, a table credited to Machinery's Handbook, 26th edition.
    [("0.032 in", "0.030 in", "0.398", 0.06713), ("0.125 in", "0.060 in", "0.407", 0.17416)],
)  # fmt: skip
def test_allowance_of_a_bend(caliper: str, radius: str, neutral: str, length: float) -> None:
    assert bend(caliper, radius, 90, neutral) / 25.4 == pytest.approx(length, abs=1e-5)


@pytest.mark.parametrize(("share", "neutral"), [("0.55", "0.350"), ("0.64", "0.407"), ("0.71", "0.452")])
def test_right_angles_of_a_handbook(share: str, neutral: str) -> None:
    # FLD-05, Machinery's Handbook, from memory: L = c T + 1.57 R. A bend of an inch about an inch and a half.
    expected = (float(share) + 1.57 * 1.5) * 25.4
    assert bend("1 in", "1.5 in", 90, neutral) == pytest.approx(expected, abs=0.05)


def test_a_bend_without_a_score_is_warned_of() -> None:
    assert told(BEND.format(caliper="12 pt", radius="0.011 in", turn=180, neutral="1/2"), BEND_USES) == ["preference-fails"]
    assert told(BEND.format(caliper="12 pt", radius="0.012 in", turn=180, neutral="1/2"), BEND_USES) == []


@pytest.mark.parametrize("folds", [1, 2, 3])
def test_layers_double_with_each_fold(folds: int) -> None:
    # FLD-06, definition: 2, 4 and 8 leaves of folio, quarto and octavo. Folded to and fro along one side, and across.
    fro = "".join(f" fold over_{k}: {('valley', 'mountain')[k % 2]} panel leaf_{k}: 40 mm" for k in range((1, 1, 3)[folds - 1]))
    across = " run tail to head { panel low: 50 mm fold across: valley panel high: 50 mm }" if folds > 1 else ""
    turned = [f"sheet.over_{k} = shut" for k in range((1, 1, 3)[folds - 1])] + ["sheet.across = shut"] * (folds > 1)
    height = "" if folds > 1 else ", height: 100 mm"
    body = f"""
      card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.3 mm, grain: marked)
      piece sheet from card{height}, loose: yes {{ run left to right {{ panel leaf: 40 mm{fro} }}{across} }}
      pose folded {{ {" ".join(turned)} }}
      layers = thickness(sheet, pose: folded) / card.caliper
    """
    assert fact(body, "layers") == 2**folds


def test_nested_sheets_creep() -> None:
    # FLD-07, geometry: each further sheet stands out between t, folded sharp, and pi t / 2, left round.
    body = """
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: 0.3 mm, grain: marked)
      part it = section_in_covers(sheets: 5, paper: card, spine: 10 mm)
    """
    uses = "use section_in_covers from rules"
    assert fact(body, "it.creep", uses) == 4 * Fraction(3, 10)
    assert float(fact(body, "it.round_creep", uses)) == pytest.approx(4 * 0.3 * pi / 2, rel=1e-6)


def test_leaves_that_roll_in() -> None:
    # FLD-08, Whitley, Printing 101: each about 1/16 in wider from inside to outside. What is tucked in is narrower than
    # what covers it, by twice the card at least.
    body = """
      ruler = inches to 1/32
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: {caliper}, grain: marked)
      part it = roll_fold(paper: card, height: 4 in, width: 3 in, leaves: 4)
    """
    uses = "use roll_fold from decorations"
    (run,) = piece(body.format(caliper="12 pt"), "it.card", uses).runs
    assert [panel.size.inches for panel in run.panels] == [3 - Fraction(k, 16) for k in range(4)]
    assert [score.kind for score in run.scores] == ["valley"] * 3
    assert refused(body.format(caliper="32 pt"), uses) == ["requirement-fails"]


GROOVE_USES = "use groove_for_score from rules"
GROOVE = """
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: {caliper}, grain: marked)
  part it = groove_for_score(paper: card{more})
"""


def test_the_groove_under_a_score() -> None:
    # FLD-12, Condat: two calipers and the point broad, a caliper deep: 1.306 mm for 0.30 mm. FLD-13, Haoyu: 1.3 to 1.5
    # calipers and the point: 1.291 to 1.381 mm for 0.45 mm. FLD-14, Shreiner: a point of two printer's points, 0.7056 mm,
    # up to 0.020 in, three above.
    thin, thick = (GROOVE.format(caliper=caliper, more="") for caliper in ("0.30 mm", "0.45 mm"))
    assert fact(thin, "it.tip", GROOVE_USES) == Fraction(2, 72) * Fraction(127, 5)
    assert float(fact(thin, "it.widest", GROOVE_USES)) == pytest.approx(1.306, abs=5e-4)
    assert float(fact(thick, "it.narrowest", GROOVE_USES)) == pytest.approx(1.291, abs=5e-4)
    assert float(fact(thick, "it.narrowest_across", GROOVE_USES)) == pytest.approx(1.381, abs=5e-4)
    assert fact(GROOVE.format(caliper="21 pt", more=""), "it.tip", GROOVE_USES) == Fraction(3, 72) * Fraction(127, 5)


@pytest.mark.parametrize(
    ("more", "ids"),
    [
        ("groove: 1.09 mm", ["requirement-fails"]), ("groove: 1.10 mm", []), ("groove: 1.30 mm", []),
        ("groove: 1.31 mm", ["preference-fails"]), ("depth: 0.29 mm", ["requirement-fails"]),
    ],
)  # fmt: skip
def test_a_groove_too_narrow_or_too_shallow_is_refused(more: str, ids: list[str]) -> None:
    assert told(GROOVE.format(caliper="0.30 mm", more=f", {more}"), GROOVE_USES) == ids


def test_wherever_folds_meet_in_a_point_it_could_be_folded_flat() -> None:
    # FLD-17, Maekawa: an even number of folds meets in it. FLD-18, Kawasaki: every other angle adds up to 180 degrees.
    # Folds run right across their piece, so what the language can say keeps both; counted on the lines of all wraps.
    met = 0
    for cut in plan_of(compiled("running_example")).pieces:
        for one, other in product(cut.folds, cut.folds):
            upright, level = one.start.x == one.end.x, other.start.y == other.end.y
            if not (upright and level):
                continue
            met += 1
            rays = [
                (end.x - one.start.x, end.y - other.start.y)
                for line in (one, other) for end in (line.start, line.end)
            ]  # fmt: skip
            turns = sorted(
                {(0, 1): 90, (0, -1): 270, (1, 0): 0, (-1, 0): 180}[(x.value > 0) - (x.value < 0), (y.value > 0) - (y.value < 0)]
                for x, y in rays
            )
            angles = [(after - before) % 360 for before, after in zip(turns, turns[1:] + turns[:1], strict=True)]
            assert len(angles) % 2 == 0 and sum(angles[::2]) == sum(angles[1::2]) == 180
    assert met == 4
