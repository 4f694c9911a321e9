"""Tolerance stacks with published or derived results, each worked out by the compiler from a design.

Sources stand beside each test. Where a published stack has parts of other tolerances than a hand has, the design states
them with `off_by`. "Derived" is arithmetic; it was recomputed with exact rationals.
"""

from fractions import Fraction
from math import sqrt

import numpy as np
import pytest

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity
from pastedown.geometry.hand import USUAL_HAND
from pastedown.geometry.model import Requirement
from pastedown.quantity.quantity import mm
from pastedown.quantity.spread import Spread
from reference.through_the_compiler import made

INCH = Fraction(127, 5)
CARD = "  card = stock(kind: card, sheet: 900 mm x 900 mm, caliper: 0.3 mm, grain: marked)\n"


def requirements(body: str, uses: str = "") -> dict[str, Requirement]:
    model = made(body, uses).model
    assert model is not None
    return {each.path: each for each in model.requirements}


def margin(body: str, path: str = "fits", uses: str = "") -> Spread:
    """The margin of a requirement of the album with `body`."""
    found = requirements(body, uses)[path].margin
    assert found is not None
    return found


def stack(gap: str, *parts: tuple[str, str], unit: str = "in") -> Spread:
    """A gap less a stack of parts: each a size and a half-width, all of one unit."""
    sum_of = " + ".join(f'{size} {unit} + off_by({by} {unit}, what: "part {n}")' for n, (size, by) in enumerate(parts))
    return margin(f'  require fits: {gap} >= {sum_of} because "the stack goes in"')


def test_ten_equal_parts() -> None:
    # TOL-01, several primers of tolerance stacks: ten parts of 0.1 each come to 1.0 at worst, root-sum-square 0.316.
    body = f"""{CARD}  ruler = millimetres to 1
  cut_error = 0.1 mm
  piece strip[k from 1 to 10] from card, height: 20 mm, width: 30 mm, loose: yes
  require fits: sum(strip.height) <= 202 mm because "ten strips lie side by side" """
    found = margin(body)
    assert found.worst == mm(1)
    assert found.rss_squared == Fraction(1, 10)
    assert float(found.rss.value) == pytest.approx(0.316, abs=5e-4)
    assert len(found.terms) == 10


def test_a_gap_over_three_parts() -> None:
    # TOL-02, Ficient Design, "Tolerance stack-up analysis": gap 0.020 in, 0.005 to 0.035 at worst, 0.012 to 0.028 by
    # root-sum-square (0.00794).
    gap = '4.020 in + off_by(0.005 in, what: "housing")'
    found = stack(gap, ("2.000", "0.005"), ("1.500", "0.003"), ("0.500", "0.002"))
    assert found.nominal.inches == Fraction("0.020")
    assert found.worst.inches == Fraction("0.015")
    assert float(found.rss.inches) == pytest.approx(0.00794, abs=5e-6)
    assert found.nominal.inches - found.worst.inches == Fraction("0.005")
    assert float(found.nominal.inches - found.rss.inches) == pytest.approx(0.012, abs=5e-4)
    assert float(found.nominal.inches + found.rss.inches) == pytest.approx(0.028, abs=5e-4)


def drawn(found: Spread, count: int = 200_000) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    """The margin drawn so often, every error anywhere within its limits with the same chance. The same each time."""
    source = np.random.default_rng(20)
    errors = source.uniform(-1, 1, size=(count, len(found.terms)))
    margins = float(found.nominal.value) + errors @ np.array([float(term.value) for _, term in found.terms])
    return np.asarray(margins, dtype=np.float64)


def test_standard_deviation_of_a_half_width() -> None:
    # TOL-03, JCGM 100:2008, 4.3.7: anywhere within a half-width a with the same chance is a standard deviation of
    # a / sqrt(3) = 0.57735 a. The triangle and the arcsine of 4.3.9 are not offered.
    found = stack("10 in", ("9", "1"))
    assert np.std(drawn(found)) / float(found.rss.value) == pytest.approx(0.57735, rel=0.01)


def test_end_gauge() -> None:
    # TOL-04, JCGM 100:2008, H.1: the six components of the end gauge, in nanometres, come to 32 (31.66).
    parts = [("1", by) for by in ("25", "16.599", "6.7", "5.8", "3.9", "2.887")]
    found = stack("100 mm", *parts, unit="mm")
    assert float(found.rss.value) == pytest.approx(31.66, abs=5e-3)


def test_a_quotient() -> None:
    # TOL-05, description of the package GTC: 0.1 V (0.001) by 15 mA (0.5) is 6.67(23) ohm.
    found = margin(
        '  require fits: (100 mm + off_by(1 mm, what: "over")) / (15 mm + off_by(0.5 mm, what: "under")) <= 8\n'
        '    because "so"'
    )
    assert float(8 - found.nominal.value) == pytest.approx(6.67, abs=5e-3)
    assert float(found.rss.value) == pytest.approx(0.23, abs=5e-3)


def test_two_equal_errors_have_the_spread_of_a_triangle() -> None:
    # TOL-06, probability: two equal uniform errors of half-width a, variance 2 a^2 / 3, standard deviation 0.8165 a.
    found = stack("10 in", ("4", "1"), ("4", "1"))
    drawn_in_inches = drawn(found) / float(INCH)
    assert np.std(drawn_in_inches) == pytest.approx(0.8165, rel=0.01)
    assert float(found.rss.inches) / sqrt(3) == pytest.approx(0.8165, abs=5e-5)


@pytest.mark.parametrize(
    ("score", "within"),
    # TOL-07 and TOL-08: a uniform error counts with the factor sqrt(3) (Scholz, "Tolerance Stack Analysis Methods",
    # 1995); normal coverage of 1, 2 and 3 standard deviations and of 95 % (scipy 1.17.1).
    [
        (1 / sqrt(3), 0.682689),
        (2 / sqrt(3), 0.954500),
        (sqrt(3), 0.997300),
        (1.959964 / sqrt(3), 0.95),
    ],
)
def test_normal_coverage(score: float, within: float) -> None:
    # Four equal errors of a quarter each, so that even the largest score lies within the worst case.
    parts = [("1", "0.25")] * 4
    found = stack(f"4 in + {score / 2:.12f} in", *parts)
    assert float(found.rss.inches) == 0.5
    assert 1 - 2 * found.chance == pytest.approx(within, abs=1e-6)


def test_interval_of_a_difference() -> None:
    # TOL-10, definition of interval arithmetic: [a, b] - [c, d] = [a - d, b - c].
    found = stack('7 in + off_by(1/16 in, what: "pocket")', ("6 3/4", "1/32"))
    low, high = found.nominal.inches - found.worst.inches, found.nominal.inches + found.worst.inches
    assert (low, high) == (7 - Fraction(1, 16) - (Fraction(27, 4) + Fraction(1, 32)),
                           7 + Fraction(1, 16) - (Fraction(27, 4) - Fraction(1, 32)))  # fmt: skip


def test_swelling_is_one_error_more() -> None:
    # TOL-12, derived from PAP-29 and PAP-30: 300 mm across the grain that swell by 0.2 % lie 0.3 mm off, either way,
    # about their mean.
    body = f"""{CARD}  ruler = millimetres to 1
  cut_error = 0.4 mm
  piece leaf from card, height: 300 mm, width: 100 mm, loose: yes
  swollen = leaf.height + off_by(300 mm * 0.2 % / 2, what: "swelling")
  require fits: swollen <= 301 mm because "it stays inside" """
    found = margin(body)
    assert found.worst == mm("0.7")
    assert found.rss == mm("0.5")


def test_the_usual_hand_keeps_within_the_standards() -> None:
    # BND-12, CY/T 7.9-91, 4.2.1: case boards and spine pieces are cut to less than 1 mm. BND-10, CY/T 7.6-91, 4.3.2:
    # placed to 1 mm along and 2 mm across. BND-13, CY/T 28-1999: a score lies within 1.0 mm.
    assert USUAL_HAND.cut < mm(1)
    assert USUAL_HAND.place <= mm(1)
    assert USUAL_HAND.score + USUAL_HAND.fold <= mm("1.2") and USUAL_HAND.score <= mm(1)
    # TOL-11, ISO 2768-1 (from memory): lengths of 30 to 120 mm of the coarse class are cut to 0.8 mm.
    assert USUAL_HAND.cut <= mm("0.8")


def test_a_board_has_the_error_of_one_cut() -> None:
    # BND-12 once more: what the compiler takes for a board that nobody said anything about.
    body = """  grey = stock(kind: board, sheet: 12 in x 24 in, caliper: 2 mm, grain: long)
  piece board from grey, height: 7 in, width: 5 in, loose: yes
  require fits: board.height <= 8 in because "so" """
    assert margin(body).worst < mm(1)


def test_the_skew_of_a_usual_hand() -> None:
    # BND-13, CY/T 28-1999: a finished book is skewed by no more than 1.5 mm. A page centred on its strip, 5 1/2 in wide
    # and held along 6 7/8 in, climbs by less at its fore edge.
    found = margin(EXAMPLE_A.format(hinge="6 7/8 in") + '\n  require level: 5 1/2 in * skew(mount[1]) / 2 <= 1.5 mm because "so"',
                   "level", USES)  # fmt: skip
    assert found.worst < mm("1.5")


# The running example: three pages 7 in by 5 1/2 in of card 0.012 in, tape 0.004 in, boards 0.080 in.
USES = """
use concertina_hinge from hinges
use pocket_page from pages
use taped_case from covers
use page_inside_covers, hinge_in_page from rules
"""
EXAMPLE_A = """
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
  grey = stock(kind: board, sheet: 24 in x 24 in, caliper: 80 pt, grain: marked)
  part page[k from 1 to 3] = pocket_page(paper: card, tape: tape, height: 7 in, width: 5 1/2 in, peak: 5/8 in)
  part hinge = concertina_hinge(paper: card, tape: tape, peaks: 3, peak: 5/8 in, gusset: 3/8 in, wing: 2 1/8 in,
    height: {hinge}, page_width: 5 1/2 in)
  hinge.bands_side_by_side = nothing
  part case = taped_case(board: grey, tape: cloth, height: 7 1/4 in, width: 5 3/4 in, spine: 1 7/8 in, joint: 1/8 in)
  part fits = hinge_in_page(hinge_height: hinge.height, page_height: page.height,
    stand_thickness: hinge.stand_thickness,
    made_hinge_height: hinge.strip.height, made_page_height: page.made_height)
  part borders = page_inside_covers(page_height: page.height, page_width: page.width, board: grey,
    cover_height: case.height, cover_width: case.width, hinge_lift: card.caliper + tape.caliper,
    made_page_height: page[1].front_sheet.body.height, made_page_width: page.made_width,
    made_cover_height: case.made_height, made_cover_width: case.made_width,
    off_height: placed(mount[1], case_in, along: height), askew: skew(mount[1]),
    off_width: placed(mount[1], case.front_hinge, along: width))
  each k from 1 to 3 {{
    join mount[k]: page[k].mouth to hinge.stand[k], by: tape, moving: yes {{
      align page[k].mouth.spine to hinge.stand[k].spine
      align page[k].mouth.mid_height to hinge.stand[k].mid_height
    }}
  }}
  join case_in: hinge.strip.back to case.inside_spine, before: mount {{
    align hinge.strip.mid_width to case.inside_spine.mid_width
    align hinge.strip.mid_height to case.inside_spine.mid_height
  }}
"""


def inches_of(found: Spread) -> dict[str, Fraction]:
    return {name: abs(term.inches) for name, term in found.terms}


def test_hinge_in_page_of_the_running_example() -> None:
    # Derived (tolerance stack of the running example): margin 0.089, root-sum-square 0.0563, score 1.58. Sheet, score
    # and hinge are off by 1/32 each, the fold by 1/64.
    found = margin(EXAMPLE_A.format(hinge="6 7/8 in"), "fits.goes_in", USES)
    assert found.nominal.inches == Fraction("0.089")
    assert inches_of(found) == {
        "page[1].front_sheet, cut to its height": Fraction(1, 32),
        "page[1].front_sheet, score tail_fold": Fraction(1, 32),
        "hinge.strip, cut to its height": Fraction(1, 32),
        "page[1].front_sheet, fold tail_fold": Fraction(1, 64),
    }
    assert found.rss_squared / INCH**2 == Fraction(13, 4096)
    assert float(found.rss.inches) == pytest.approx(0.0563, abs=5e-5)
    assert found.score is not None and round(float(found.score), 2) == 1.58


def test_a_shorter_hinge_buys_the_most_safety() -> None:
    # Derived: cut to 6 3/4 in the hinge scores 3.80.
    found = margin(EXAMPLE_A.format(hinge="6 3/4 in"), "fits.goes_in", USES)
    assert found.score is not None and round(float(found.score), 2) == 3.80


def test_that_number_is_found() -> None:
    # The hinge is rounded down to eighths, so the next mark is 6 3/4 in.
    hinge = "page.height - its.stand_thickness - page.slide rounded down to 1/8 in"
    change = requirements(EXAMPLE_A.format(hinge=hinge), USES)["fits.goes_in"].change
    assert change is not None
    assert (change.path, change.before.inches, change.value.inches) == ("hinge.height", Fraction(55, 8), Fraction(27, 4))
    assert round(float(change.score), 2) == 3.80


def test_the_border_is_that_of_the_lower_cover() -> None:
    # Derived: a cover 7 1/8 in high leaves 1/16 in at a page of 7 in, one 7 1/4 in high 1/8 in.
    lower = EXAMPLE_A.format(hinge="6 7/8 in") + "  case.back_cover.height = 7 1/8 in\n"
    compiled = compile_design("probe.album", f"edition = 1\n{USES}\nalbum probe {{\n{lower}\n}}\n", lambda _: None)
    faults = [each.sentence for each in compiled.diagnostics if each.severity is Severity.ERROR]
    assert faults == ["borders.head_and_tail is not met: border is 1/16 in and has to be at least 1/8 in."]
    assert requirements(EXAMPLE_A.format(hinge="6 7/8 in"), USES)["borders.head_and_tail"].holds


def test_border_at_head_and_tail_of_the_running_example() -> None:
    # Derived: margin 0.125, worst 0.134, root-sum-square 0.0575, score 2.17. Board, sheet and score at half weight,
    # strip and page placed to 1/32, skew 5.5 x (1/16) / (2 x 6.875) = 0.025; the fold is left out there.
    found = margin(EXAMPLE_A.format(hinge="6 7/8 in"), "borders.stays_inside", USES)
    assert inches_of(found) == {
        "case.front_cover, cut to its height": Fraction(1, 64),
        "page[1].front_sheet, cut to its height": Fraction(1, 64),
        "page[1].front_sheet, score tail_fold": Fraction(1, 64),
        "case_in, placed along the height": Fraction(1, 32),
        "mount[1], placed along the height": Fraction(1, 32),
        "mount[1], set askew": Fraction("0.025"),
    }
    assert found.nominal.inches == Fraction(1, 8)
    assert found.worst.inches == Fraction("0.134375")
    assert float(found.rss.inches) == pytest.approx(0.0575, abs=5e-5)
    assert found.score is not None and round(float(found.score), 2) == 2.17


def test_border_at_the_fore_edge_of_the_running_example() -> None:
    # Derived: margin 0.154, four errors of 1/32, root-sum-square 0.0625, score 2.46.
    found = margin(EXAMPLE_A.format(hinge="6 7/8 in"), "borders.stays_inside_fore_edge", USES)
    assert found.nominal.inches == Fraction("0.154")
    assert sorted(inches_of(found).values()) == [Fraction(1, 32)] * 4
    assert found.rss.inches == Fraction(1, 16)
    assert found.score is not None and round(float(found.score), 2) == 2.46


def test_what_fails_first() -> None:
    from reference.through_the_compiler import plan

    ranked = [each.path for each in plan(EXAMPLE_A.format(hinge="6 7/8 in"), USES).margins]
    assert ranked[:3] == ["fits.goes_in", "borders.stays_inside", "borders.stays_inside_fore_edge"]


@pytest.mark.parametrize("path", ["fits.goes_in", "borders.stays_inside", "borders.stays_inside_fore_edge"])
def test_margins_against_a_monte_carlo(path: str) -> None:
    found = margin(EXAMPLE_A.format(hinge="6 7/8 in"), path, USES)
    margins = drawn(found)
    assert np.mean(margins) == pytest.approx(float(found.nominal.value), rel=0.01)
    assert np.std(margins) == pytest.approx(float(found.rss.value) / sqrt(3), rel=0.01)
    assert np.max(np.abs(margins - float(found.nominal.value))) <= float(found.worst.value)


def test_how_often_it_fails_against_a_monte_carlo() -> None:
    # A hand that is off by twice as much, so that it happens often enough to be counted.
    body = EXAMPLE_A.format(hinge="6 7/8 in") + "  cut_error = 1/16 in\n  score_error = 1/16 in\n  fold_error = 1/32 in"
    found = margin(body, "fits.goes_in", USES)
    assert np.mean(drawn(found) < 0) == pytest.approx(found.chance, rel=0.1)


def test_the_permitted_difference_of_the_two_ends_of_a_strip() -> None:
    # Common practice, no source: the ends of the closed strip with four peaks may differ by up to 1/8 in and still be
    # pulled true. Derived: a page then climbs by half of what its width makes of that over the strip's height.
    from reference.through_the_compiler import fact

    body = EXAMPLE_A.format(hinge="6 7/8 in")
    assert fact(body, "hinge.ends_may_differ", USES) == INCH / 8
    assert fact(body, "hinge.climb", USES) == Fraction(11, 2) / 8 / Fraction(55, 8) / 2 * INCH


def test_the_made_up_strip_against_a_strip_laid_out_anew() -> None:
    """Every line of the strip is drawn off its place and the made up width added up from the panels that lie flat: an
    account that knows nothing of affine forms."""
    body = EXAMPLE_A.format(hinge="6 7/8 in") + '\n  require wide: hinge.made_up_width <= 6 in because "so"'
    found = margin(body, "wide", USES)
    source = np.random.default_rng(4)
    count, peaks = 200_000, 3
    lines = [17 / 8 + peak * 13 / 8 + ply * 5 / 8 for peak in range(peaks) for ply in range(3)]
    scores = np.array(lines) + source.uniform(-1, 1, (count, len(lines))) / 32
    folds = scores + source.uniform(-1, 1, (count, len(lines))) / 64
    cut = 8.75 + source.uniform(-1, 1, count) / 32
    width = folds[:, 0] + (folds[:, 3] - folds[:, 2]) + (folds[:, 6] - folds[:, 5]) + (cut - folds[:, 8]) + 3 * 0.028
    assert np.mean(6 - width) == pytest.approx(float(found.nominal.inches), rel=0.01)
    assert np.std(width) == pytest.approx(float(found.rss.inches) / sqrt(3), rel=0.01)
    assert np.max(np.abs(width - 5.084)) <= float(found.worst.inches)


def test_the_strip_is_read_at_both_ends_and_the_pages_are_turned() -> None:
    """What to do about two readings that differ, at the step where they can still be trued."""
    from reference.through_the_compiler import plan

    body = EXAMPLE_A.format(hinge="6 7/8 in") + "\n  mount.tip = hinge.turn_test"
    steps = plan(body, USES).steps
    (reading,) = [each for each in steps if "hinge.read_width" in each.refers]
    words = "".join(part if isinstance(part, str) else str(float(part.inches)) for part in reading.text)
    assert "may differ by 0.125 at most; a page 5.5 wide then climbs 0.05 at its fore edge" in words
    assert reading.reading is not None and reading.reading.give is not None
    # Seven lines of 1/32 in and six folds of 1/64 in come to 0.091 in; the next half mark of the ruler is 3/32 in.
    assert reading.reading.give.inches == Fraction(3, 32)
    (mounting,) = [each for each in steps if "mount[1]" in each.refers]
    assert any("the strip is askew" in str(tip) for tip in mounting.tips)


def test_the_width_of_the_page_that_climbs_is_told_where_it_is_taken_for_granted() -> None:
    from reference.through_the_compiler import plan

    body = EXAMPLE_A.format(hinge="6 7/8 in").replace(", page_width: 5 1/2 in)", ")", 1)
    (reading,) = [each for each in plan(body, USES).steps if "hinge.read_width" in each.refers]
    words = "".join(part if isinstance(part, str) else str(float(part.inches)) for part in reading.text)
    assert "a page 5.15625 wide then climbs" in words


@pytest.mark.parametrize(
    ("ruler", "height", "bow"), [("millimetres to 1", "220 mm", 7), ("inches to 1/16", "8 in", Fraction(5, 16) * INCH)]
)
def test_a_bow_is_told_on_the_marks_of_the_ruler_and_never_too_low(ruler: str, height: str, bow: Fraction) -> None:
    """What one face is too long by, half a mark, stands up by the root of three eighths of height times that: 6.42 mm
    for a page of 220 mm, and 0.306 in for one of 8 in."""
    from reference.through_the_compiler import fact, plan

    uses = "use cardstock, double_tape from stocks\nuse pocket_page from pages"
    body = f"""
      ruler = {ruler}
      card = cardstock(sheet: 500 mm x 700 mm, caliper: 0.3 mm, grain: none)
      sticky = double_tape(roll_width: 6 mm, caliper: 0.1 mm)
      part page = pocket_page(paper: card, tape: sticky, height: {height}, width: {height})
    """
    (told,) = [
        part.millimetres
        for step in plan(body, uses).steps
        for caution in step.cautions
        if any(isinstance(part, str) and "whole page bow" in part for part in caution)
        for part in caution[-2:]
        if not isinstance(part, str)
    ]
    assert told == bow
    assert bow - INCH / 16 < fact(body, "page.bow", uses) <= bow
