"""The running example through the formulas of the craft, F1 to F27, each by its number.

Three portrait pages, 7 in by 5 1/2 in; card t = 0.012 in, film of tape a = 0.004, patterned paper d = 0.008, board T =
0.080, a sixteenth to slide. Derived, and worked out by hand with exact rationals; where a figure has a source it stands
beside it.
"""

from fractions import Fraction
from itertools import pairwise

import pytest

from geometry.drawn_pose import plates_in
from pastedown.diagnostic import Severity
from pastedown.outputs.to_materials import make as materials
from reference.through_the_compiler import fact, refused
from reference.through_the_compiler import plan as plan_of_body
from reference.through_the_compiler import told as told_of
from scenarios.recipes import (
    compiled,
    cut,
    errors,
    inches,
    lines,
    mixed,
    model_of,
    piece,
    plan_of,
    size,
    steps_about,
    told,
)  # fmt: skip

NAME = "running_example"
INCH = Fraction(127, 5)


def faults(**changed: str) -> list[str]:
    """The reasons why the example is refused with changes to its text or additions to it."""
    return [each.reason for each in errors(compiled(NAME, **changed))]


def test_f1_the_strip_laid_flat() -> None:
    assert size(compiled(NAME), "hinge.strip") == (Fraction("6.75"), Fraction("8.75"))
    found = lines(compiled(NAME), "hinge.strip")
    assert found == mixed("2 1/8", "2 3/4", "3 3/8", "3 3/4", "4 3/8", "5", "5 3/8", "6", "6 5/8")
    assert found[-1] + Fraction("2.125") == Fraction("8.75")
    (run,) = piece(compiled(NAME), "hinge.strip").runs
    assert [score.kind for score in run.scores] == ["valley", "mountain", "valley"] * 3
    # The same ladder is listed from the other edge.
    (chart,) = cut(plan_of(compiled(NAME)), "hinge.strip").score_charts
    assert [mark.from_last.inches for mark in chart.marks] == [Fraction("8.75") - at for at in found]


def test_f2_the_strip_made_up() -> None:
    for path, value in {"made_up_width": "5.084", "nominal_width": "5", "block": "0.834", "pitch": "0.403"}.items():
        assert inches(compiled(NAME), f"hinge.{path}") == Fraction(value)
    (read,) = [step.reading for step in plan_of(compiled(NAME)).steps if "hinge.read_width" in step.refers]
    assert read is not None and read.least is not None and read.most is not None
    # Nominal, to nominal and a caliper more for each springy peak: n(3t + a).
    assert (read.least.inches, read.most.inches) == (5, 5 + 3 * (3 * Fraction("0.012") + Fraction("0.004")))


def test_f3_the_spine() -> None:
    assert inches(compiled(NAME), "case.spine") == Fraction("1.875")
    assert inches(compiled(NAME), "room.margin") == Fraction("0.5205")
    # S >= K + 2 m_min = 1.834: a mark less is refused, and the number that passes is told.
    (fault,) = errors(compiled(NAME, add="case.spine = 1 13/16 in"))
    assert "0.834" in fault.reason and "1 7/8" in fault.way_out


@pytest.mark.parametrize(("sheet", "most"), [("12 in x 12 in", 5), ("8 1/2 in x 8 1/2 in", 2)])
def test_f4_how_many_peaks_come_out_of_a_sheet(sheet: str, most: int) -> None:
    # floor((X - 2u + g) / (2p + g))
    body = """
      card = stock(kind: card, sheet: {sheet}, caliper: 12 pt, grain: marked)
      tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
      part hinge = concertina_hinge(paper: card, tape: tape, peaks: {peaks}, peak: 5/8 in, gusset: 3/8 in,
        wing: 2 1/8 in, height: 6 3/4 in)
    """
    uses = "use concertina_hinge from hinges"
    assert refused(body.format(sheet=sheet, peaks=most), uses) == []
    assert refused(body.format(sheet=sheet, peaks=most + 1), uses) == ["sheet-too-small"]


def test_f4_a_strip_beyond_its_sheet_is_spliced_over_a_whole_gusset() -> None:
    # The pieces are u + 2kp + kg and the rest + g, and no end lies on a fold; made up they read what one strip would.
    apart = compiled(
        NAME,
        take="sheet: square_12, caliper: 12 pt, weight: 80 lb cover, grain: marked",
        put="sheet: 8 in x 8 in, caliper: 12 pt, weight: 80 lb cover, grain: marked",
    )
    assert "sheet-too-small" in [each.id for each in errors(apart)]
    body = """
      ruler = inches to 1/16
      card = stock(kind: card, sheet: 8 in x 8 in, caliper: 12 pt, grain: marked)
      tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
      static_adhesive = glue
      part hinge = spliced_hinge(paper: card, tape: tape, peaks: 3, peak: 5/8 in, gusset: 3/8 in, wing: 2 1/8 in,
        height: 6 3/4 in, page_width: 5 1/2 in)
    """
    uses = "use spliced_hinge from hinges\nuse glue from stocks"
    lengths = [fact(body, f"hinge.{each}", uses) / INCH for each in ("front_length", "back_length")]
    assert lengths == mixed("3 3/4", "5 3/8")
    assert sum(lengths) == Fraction("8.75") + Fraction("0.375")
    for path, value in {"made_up_width": "5.084", "block": "0.834", "pitch": "0.403"}.items():
        assert fact(body, f"hinge.{path}", uses) == Fraction(value) * INCH
    whole = fact(body, "hinge.tape_length", uses) / INCH
    assert whole == Fraction("20.25") + Fraction("40.5") + 81
    assert refused(body.replace("gusset: 3/8 in", "gusset: 5/16 in"), uses) == ["requirement-fails"]


def test_f5_a_crest_that_is_off_makes_a_step_of_twice_as_much() -> None:
    # Plies of p + e and p - e: the step is 2e, and the gussets are untouched. Nothing else moves.
    off = compiled(NAME, add="hinge.strip.rise[2] = 3/4 in  hinge.strip.fall[2] = 1/2 in")
    before, after = lines(compiled(NAME), "hinge.strip"), lines(off, "hinge.strip")
    assert [there - here for here, there in zip(before, after, strict=True)] == [0, 0, 0, 0, Fraction(1, 8), 0, 0, 0, 0]
    assert after[4] - after[3] - (after[5] - after[4]) == Fraction(1, 4)
    # The peak does not close, and that is told with what it misses by.
    fault = next(each for each in errors(off) if each.id == "close-misses")
    assert "hinge.peak_shut[2]" in fault.sentence and "1/4 in" in fault.sentence + fault.reason


def test_f6_the_page() -> None:
    for sheet in ("front_sheet", "rear_sheet"):
        assert size(compiled(NAME), f"page[1].{sheet}") == (Fraction("7.5"), Fraction("5.5"))
    assert lines(compiled(NAME), "page[1].front_sheet") == mixed("1/2")
    assert lines(compiled(NAME), "page[1].rear_sheet") == mixed("7")


def test_f7_thickness_of_the_page_and_of_the_peak_in_it() -> None:
    assert inches(compiled(NAME), "page[1].body_thickness") == Fraction("0.024")
    assert inches(compiled(NAME), "page[1].seam_thickness") == Fraction("0.040")
    # A page over its peak: two cards of its own, and what the peak takes, 2t + 3a.
    both = inches(compiled(NAME), "page[1].body_thickness") + inches(compiled(NAME), "hinge.stand_thickness")
    assert both == Fraction("0.060")
    assert both + Fraction("0.012") + Fraction("0.004") == Fraction("0.076")


def test_f8_what_goes_into_a_full_pocket() -> None:
    full = compiled(NAME, take="seam: 1/2 in,", put="seam: 1/2 in, contents: 0.05 in,")
    assert inches(full, "page[1].insert_height") == Fraction("6.8875")
    assert inches(full, "page[1].insert_width") == Fraction("4.8125")
    largest = "fits_in = page[1].insert_height rounded down to 1/8 in"
    assert inches(compiled(NAME, take="  pages = 3", put=f"  pages = 3\n  page.contents = 0.05 in\n  {largest}"),
                  "fits_in") == Fraction("6.875")  # fmt: skip


@pytest.mark.parametrize(("ruler", "bow"), [("1/16", "0.286"), ("1/32", "0.203")])
def test_f9_how_far_a_page_bows(ruler: str, bow: str) -> None:
    # s = sqrt(3He/8) with e half a mark, 1/32 or 1/64: halving the error cuts the bow by thirty parts in a hundred.
    result = compiled(NAME, take="inches to 1/16", put=f"inches to {ruler}")
    assert float(inches(result, "page[1].bow")) == pytest.approx(float(bow), abs=5e-4)
    square = inches(result, "page[1].bow") ** 2
    assert abs(square - Fraction(3, 8) * 7 * inches(result, "page[1].slip")) < Fraction(1, 10**9)
    (seam, *_) = steps_about(plan_of(result), "page[1].seam_head")
    assert any("bow by" in str(caution) for caution in seam.cautions)


def test_f9_against_the_length_of_the_arc() -> None:
    # Laid out anew: a parabola of that rise over a chord of 7 in is longer than it by the surplus, to a part in a
    # hundred. Its length is summed from chords.
    rise, chord, parts = float(inches(compiled(NAME), "page[1].bow")), 7.0, 20_000
    heights = [4 * rise * at / parts * (1 - at / parts) for at in range(parts + 1)]
    length = sum(((chord / parts) ** 2 + (b - a) ** 2) ** 0.5 for a, b in pairwise(heights))
    assert length - chord == pytest.approx(1 / 32, rel=0.01)


def test_f10_a_page_of_one_sheet() -> None:
    # Sheet 2H + f - e, scores at H and 2H - e; e = 2t to the mark, nought on a ruler coarser than 4t.
    body = """
      ruler = inches to {ruler}
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
      tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
      part page = folded_pocket_page(paper: card, tape: tape, height: 5 in, width: 4 in, seam: 1/2 in)
    """
    uses = "use folded_pocket_page from pages"
    assert fact(body.format(ruler="1/32"), "page.relief", uses) == INCH / 32
    assert fact(body.format(ruler="1/32"), "page.sheet_height", uses) == mixed("10 15/32")[0] * INCH
    assert fact(body.format(ruler="1/16"), "page.relief", uses) == 0
    small = body.format(ruler="1/32").replace("12 in x 12 in", "9 in x 9 in")
    assert refused(small, uses) == ["sheet-too-small"]


@pytest.mark.parametrize(("height", "passes"), [("6 7/8 in", True), ("6 15/16 in", False)])
def test_f11_the_strip_in_its_page(height: str, passes: bool) -> None:
    assert inches(compiled(NAME), "fits.tallest") == Fraction("6.9015")
    result = compiled(NAME, add=f"hinge.height = {height}")
    assert bool(errors(result)) is not passes
    if not passes:
        assert "6 7/8" in errors(result)[0].way_out


def test_f11_a_strip_too_low_lets_the_corners_flap() -> None:
    # G >= 0.9 H
    warnings = told(compiled(NAME, add="hinge.height = 6 1/4 in"), Severity.WARNING)
    assert any("corners of a page" in each.reason for each in warnings)
    assert inches(compiled(NAME, add="hinge.height = 6 1/4 in"), "hinge.height") < Fraction("0.9") * 7


def test_f12_borders_closed_and_open_on_all_sides() -> None:
    assert inches(compiled(NAME), "borders.border") == Fraction("0.125")
    assert inches(compiled(NAME), "borders.fore_edge_border") == Fraction("0.154")
    assert inches(compiled(NAME), "borders.open_border") == Fraction("0.8955")
    # Closed governs: open there is the joint, the margin, the board and what lifts the page more.
    more = inches(compiled(NAME), "borders.open_border") - inches(compiled(NAME), "borders.fore_edge_border")
    assert more == Fraction("0.5205") + Fraction("0.125") + Fraction("0.080") + Fraction("0.016")
    assert size(compiled(NAME), "case.front_cover") == (Fraction("7.25"), Fraction("5.75"))
    # W_b >= 5.5 + 0.096 + 0.125 = 5.721: a mark less than 5 3/4 is refused, closed before open.
    assert any("5 3/4 in" in fault.way_out for fault in errors(compiled(NAME, add="case.width = 5 11/16 in")))
    assert any("7 1/4 in" in fault.way_out for fault in errors(compiled(NAME, add="case.height = 7 3/16 in")))


def test_f12_and_f22_with_skew() -> None:
    # What two ends differ by over G turns a page by its width over G, half of it where the page is centred.
    differ, climb = inches(compiled(NAME), "hinge.ends_may_differ"), inches(compiled(NAME), "hinge.climb")
    assert differ == Fraction(1, 8)
    assert climb == Fraction("5.5") * differ / Fraction("6.75") / 2
    assert climb < inches(compiled(NAME), "borders.border")


@pytest.mark.parametrize(("border", "differ", "drift"), [("1/16 in", "1/16", "0.051"), ("1/8 in", "1/8", "0.102")])
def test_f22_drift_of_a_page(border: str, differ: str, drift: str) -> None:
    # E D / G of a page held by one edge; a page centred on its strip climbs by half of that.
    result = compiled(NAME, add=f"hinge.border = {border}")
    assert inches(result, "hinge.ends_may_differ") == Fraction(differ)
    assert 2 * inches(result, "hinge.climb") == Fraction("5.5") * Fraction(differ) / Fraction("6.75")
    assert float(2 * inches(result, "hinge.climb")) == pytest.approx(float(drift), abs=5e-4)


@pytest.mark.parametrize("name", ["new_size_shortened", NAME])
def test_f12_against_where_the_folds_put_page_and_covers(name: str) -> None:
    """The borders of the shut book, read off its pieces as they lie in space instead of from a formula."""
    result = compiled(name)
    model = model_of(result)
    (closed,) = [pose for pose in model.poses if pose.path == "closed"]
    pages = max(int(each.path[5]) for each in model.pieces if each.path.startswith("page["))
    reach = {}
    for path in ("case.front_cover", "case.back_cover", "page[1].front_sheet", f"page[{pages}].rear_sheet"):
        corners = [corner for plate in plates_in(model, closed) if plate.piece == path
                   for corner in (*plate.outline, *plate.back)]  # fmt: skip
        reach[path] = [(min(each), max(each)) for each in zip(*corners, strict=True)]
    # Head to tail lies along the second axis, spine to fore edge against the third.
    border, fore_edge = (float(inches(result, f"borders.{each}")) * 25.4 for each in ("border", "fore_edge_border"))
    # A strip that is glued in lies without the film of tape that the border allows for.
    film = 0.0 if name == "new_size_shortened" else 0.004 * 25.4
    for cover in ("case.front_cover", "case.back_cover"):
        for page in ("page[1].front_sheet", f"page[{pages}].rear_sheet"):
            assert reach[page][1][0] - reach[cover][1][0] == pytest.approx(border, abs=1e-6)
            assert reach[cover][1][1] - reach[page][1][1] == pytest.approx(border, abs=1e-6)
            assert reach[page][2][0] - reach[cover][2][0] == pytest.approx(fore_edge + film, abs=1e-6)


# Two ornaments of 0.290 make a page of 0.620: sheets 0.024, two mats 0.008. Their near edges lie 3 1/2 in from the spine.
THICK = """
  ornament = stock(kind: print, height: 1 in, width: 1 in, caliper: 0.29 in)
  each k from 1 to pages {
    piece front_ornament[k] from ornament, height: 1 in, width: 1 in
    piece rear_ornament[k] from ornament, height: 1 in, width: 1 in
    join front_ornament_on[k]: front_ornament[k].back to mat[k].face {
      align front_ornament[k].left to page[k].front_face.spine, inside: 3 1/2 in
      align front_ornament[k].mid_height to mat[k].mid_height
    }
    join rear_ornament_on[k]: rear_ornament[k].back to mat[pages + k].face {
      align rear_ornament[k].right to page[k].rear_face.spine, inside: 3 1/2 in
      align rear_ornament[k].mid_height to mat[pages + k].mid_height
    }
  }
  part shut = pages_shut(pages: pages, stack: thickness(page, hinge, pose: closed), spine: case.spine, board: grey,
    page: thickness(page[1]), pitch: hinge.pitch, cover_width: case.width,
    slope: steepest(page, hinge, above: case.room, from: page[1].mouth.spine, pose: closed))
"""


def test_f13_and_f14_three_thick_pages_do_not_shut_and_gape() -> None:
    # Covers that stand on the spine leave 1.715; three pages of 0.62 fail by 0.145. 2 atan(0.145 / 7) is 2.37 degrees, and
    # the fore edge stands 1.715 + 0.145 x 5.75 / 3.5 apart, 1.953.
    result = compiled(NAME, add=THICK, take="wing_over_joint from rules", put="wing_over_joint, pages_shut from rules")
    numbers = {"page": "0.62", "stack": "1.86", "between": "1.715", "slack": "-0.145"}
    assert {each: inches(result, f"shut.{each}") for each in numbers} == {
        each: Fraction(number) for each, number in numbers.items()
    }
    assert inches(result, "shut.fore_edge_opening") == Fraction("1.715") + Fraction("0.145") * Fraction("5.75") / Fraction("3.5")
    assert round(float(inches(result, "shut.fore_edge_opening")), 3) == 1.953
    (fault,) = errors(result)
    assert "gape by 2.37 degrees" in fault.reason and "2 1/8 in" in fault.way_out
    # Above its pitch of 0.403 a page splays; that is told, and refuses nothing.
    assert any("0.62 in thick stand 0.403 in apart" in each.reason for each in told(result, Severity.WARNING))


def test_f15_gussets_narrower_than_the_peaks_are_told() -> None:
    text = "hinge.bands_side_by_side = nothing"
    (warned,) = told(compiled(NAME, take=f"  {text}\n", put=""), Severity.WARNING)
    assert warned.id == "preference-fails" and "make the gusset 5/8 in" in warned.way_out


TAPED = """
  ruler = inches to 1/64
  grey = stock(kind: board, sheet: 24 in x 24 in, caliper: 80 pt, grain: marked)
  cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
  part case = taped_case(board: grey, tape: cloth, height: 7 1/4 in, width: 5 3/4 in, spine: 1 7/8 in, joint: {joint})
"""


@pytest.mark.parametrize(
    ("joint", "ids"),
    [
        # A right angle takes a board's thickness, 0.080.
        ("5/64 in", ["requirement-fails"]), ("3/32 in", []),
        # Right round takes twice that.
        ("5/32 in, swing: right_round", ["requirement-fails"]), ("11/64 in, swing: right_round", []),
        # A sixteenth is made up for by tape that stretches, and told; more is not.
        ("1/32 in, stretchy: yes", ["preference-fails"]), ("1/32 in", ["requirement-fails"]),
        ("3/32 in, swing: right_round, stretchy: yes", ["requirement-fails"]),
        ("7/64 in, swing: right_round, stretchy: yes", ["preference-fails"]),
    ],
)  # fmt: skip
def test_f16_the_joint(joint: str, ids: list[str]) -> None:
    assert told_of(TAPED.format(joint=joint), "use taped_case from covers") == ids


def test_f16_a_gap_just_as_wide_as_the_board_is_thick() -> None:
    # On paper it closes, and half the gaps that hands set are narrower.
    metric = TAPED.replace("inches to 1/64", "millimetres to 1").replace("80 pt", "2 mm")
    assert "margin-thin" in told_of(metric.format(joint="2 mm"), "use taped_case from covers")
    assert "margin-thin" not in told_of(metric.format(joint="3 mm"), "use taped_case from covers")


def test_f16_boards_that_touch_cannot_close() -> None:
    # Common practice, no source: boards laid touching with stiff tape outside do not close to a right angle. The least
    # joint that can be written is far below their thickness.
    compiled_text = TAPED.format(joint="1/32 in")
    assert refused(compiled_text, "use taped_case from covers") == ["requirement-fails"]


@pytest.mark.parametrize(("wrapped", "needed"), [("no", "0.096"), ("yes", "0.112")])
def test_f16_with_facings(wrapped: str, needed: str) -> None:
    # T + 2d, and 2d more where the edges that face each other are wrapped.
    assert inches(compiled(NAME, add=f"case.edges_wrapped = {wrapped}"), "case.joint_needed") == Fraction(needed)
    assert errors(compiled(NAME, add=f"case.edges_wrapped = {wrapped}")) == []
    assert any("0.096" in reason for reason in faults(add="case.joint = 1/16 in"))


def test_f17_creases_made_where_the_wing_lies() -> None:
    assert inches(compiled(NAME), "creased.spine_crease") == Fraction("1.6045")
    assert inches(compiled(NAME), "creased.cover_crease") == Fraction("1.4795")
    assert inches(compiled(NAME), "creased.landing") == inches(compiled(NAME), "room.landing") == Fraction("1.4795")
    plan = plan_of(compiled(NAME))
    number = {path: steps_about(plan, path)[0].number for path in ("front_wing", "front_spine_crease", "front_lined")}
    assert number["front_wing"] < number["front_spine_crease"] < number["front_lined"]
    # They are on no score chart: the ladder has nine lines.
    assert len(lines(compiled(NAME), "hinge.strip")) == 9


@pytest.mark.parametrize(
    ("change", "words"),
    [
        # T + t = 0.092
        ("creased.joint = 5/64 in", "pulls at boards"),
        ("creased.least_landing = 1 1/2 in", "is left for the cover"),
        ("creased.liner_width = 1 1/4 in", "its end stays in sight"),
    ],
)
def test_f17_what_the_wing_needs(change: str, words: str) -> None:
    assert any(words in reason.replace("\n", " ") for reason in faults(add=change))


def test_f18_wraps_turn_ins_and_liner() -> None:
    # Source of the turn-in of 3/4 in: Vaughn, Printing and Bookbinding for Schools.
    body = """
      card = stock(kind: card, sheet: 24 in x 24 in, caliper: 8 pt, grain: marked)
      board = stock(kind: board, sheet: 24 in x 24 in, caliper: 80 pt, grain: marked)
      part cover = wrapped_board(board: board, paper: card, height: 7 1/4 in, width: 5 3/4 in)
      wrap_height = cover.wrap.height
      wrap_width = cover.wrap.width
    """
    uses = "use wrapped_board from covers"
    assert fact(body, "wrap_height", uses) == mixed("8 3/4")[0] * INCH
    assert fact(body, "wrap_width", uses) == mixed("7 1/4")[0] * INCH
    # On three sides one turn-in less across.
    assert size(compiled(NAME), "case.front_wrap") == (Fraction("8.75"), Fraction("6.5"))
    assert size(compiled(NAME), "front_liner.liner") == (7, Fraction("5.5"))
    assert inches(compiled(NAME), "front_liner.overlap") == Fraction("0.545")
    assert any("over the turn-in" in reason for reason in faults(add="front_liner.border = 5/8 in"))


EDGED = """
  ruler = inches to 1/16
  grey = stock(kind: board, sheet: 24 in x 24 in, caliper: 80 pt, grain: marked)
  cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
  part case = edged_case(board: grey, tape: cloth, height: 7 1/4 in, width: 5 3/4 in, spine: 1 7/8 in, joint: 1/8 in{more})
"""
EDGED_USES = "use edged_case from edging"


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("on_face", "0.71"), ("edge_tape", "37.5"), ("joint_tape", "18.5"), ("end_tape", "5.75"),
        ("tape_length", "61.75"), ("bare_spine", "0.5"),
    ],
)  # fmt: skip
def test_f19_tape_round_every_edge(path: str, value: str) -> None:
    assert fact(EDGED.format(more=""), f"case.{path}", EDGED_USES) == Fraction(value) * INCH


def test_f19_no_edge_is_left_bare() -> None:
    # Every edge of every board under some piece of tape: the lengths of what is cut come to the sum of the formula.
    from reference.through_the_compiler import made

    model = made(EDGED.format(more=""), EDGED_USES).model
    assert model is not None
    tapes = [each for each in model.pieces if each.stock.kind == "tape" and "strip" not in each.path]
    assert sum(max(each.height.inches, each.width.inches) for each in tapes) == Fraction("61.75")
    assert len(tapes) == 6 + 2 + 2
    assert refused(EDGED.format(more=", spine_end: 1/4 in"), EDGED_USES) == []
    assert refused(EDGED.format(more=", spine_end: 1/4 in").replace("joint: 1/8 in", "joint: 3/16 in"), EDGED_USES) == [
        "requirement-fails"
    ]


def test_f19_in_what_order() -> None:
    from reference.through_the_compiler import plan

    steps = plan(EDGED.format(more=""), EDGED_USES).steps
    at = {path: step.number for step in steps for path in step.refers}
    order = ["case.front_head_round", "case.case.front_hinge", "case.case.front_head_in", "case.spine_head_on", "case.strip_on"]
    assert [at[path] for path in order] == sorted(at[path] for path in order)


def test_f20_tape_by_rows() -> None:
    expected = {
        "page[1].tape_length": "11", "hinge.tape_in_peaks": "20.25", "hinge.tape_on_peaks": "40.5",
        "hinge.tape_on_back": "81", "tape_needed": "174.75",
    }  # fmt: skip
    for path, value in expected.items():
        assert inches(compiled(NAME), path) == Fraction(value)
    # 4.85 yards, and 5.34 with a tenth more.
    assert round(float(inches(compiled(NAME), "tape_needed")) / 36, 2) == 4.85
    assert round(float(inches(compiled(NAME), "tape_to_order")) / 36, 2) == 5.34


@pytest.mark.parametrize(("width", "reasons"), [("3/8 in", 0), ("1/2 in", 2)])
def test_f20_tape_is_narrower_than_its_zone(width: str, reasons: int) -> None:
    # A zone less two sixteenths: seams of 1/2 in take 3/8, peaks of 5/8 take 1/2; both are told.
    result = compiled(NAME, take="roll_width: 1/4 in", put=f"roll_width: {width}")
    seams = [each for each in errors(result) if "seam" in each.reason]
    assert bool(seams) is bool(reasons)
    assert all("3/8 in" in each.way_out for each in seams)


def test_f23_grain_runs_with_the_spine() -> None:
    plan = plan_of(compiled(NAME))
    for path in ("hinge.strip", "page[1].front_sheet", "case.front_cover", "case.front_wrap", "case.spine_wrap"):
        assert cut(plan, path).grain == "height"
    # Sheets whose grain runs the short way turn a strip that is longer than they are wide.
    short = compiled(NAME, take="sheet: square_12, caliper: 12 pt, weight: 80 lb cover, grain: marked",
                     put="sheet: 8 1/2 in x 11 in, caliper: 12 pt, weight: 80 lb cover, grain: long")  # fmt: skip
    (strip,) = [each for each in told(short, Severity.WARNING) if each.id == "against-grain" and "hinge" in each.sentence]
    assert "All 9 folds" in strip.reason


@pytest.mark.parametrize(("sheet", "ids"), [("6 in x 24 in", ["against-grain"]), ("12 in x 24 in", [])])
def test_f23_boards_across_the_grain_are_refused(sheet: str, ids: list[str]) -> None:
    result = compiled(NAME, take="sheet: 12 in x 24 in, grain: long", put=f"sheet: {sheet}, grain: short")
    assert [each.id for each in errors(result)] == ids * 3  # both covers and the spine


def test_f25_the_system_goes_to_marks_and_is_judged_again() -> None:
    # A ruler of eighths leaves this example where it is: every number lies on its marks.
    eighths = compiled(NAME, take="inches to 1/16", put="inches to 1/8")
    assert lines(eighths, "hinge.strip") == lines(compiled(NAME), "hinge.strip")


def test_f26_what_comes_out_of_a_sheet_and_what_it_weighs() -> None:
    # floor(12 / 7 1/2) floor(12 / 5 1/2) = 2 of the page's sheets: three squares for six.
    body = """
      ruler = inches to 1/16
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
      tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
      part page[k from 1 to 3] = pocket_page(paper: card, tape: tape, height: 7 in, width: 5 1/2 in)
    """
    bought = materials(plan_of_body(body, "use pocket_page from pages"))["materials.txt"].decode()
    assert "For 6 pieces. 3 sheets, proven fewest" in bought
    # 80 lb cover: 500 sheets of 20 x 26 in, from a print glossary: 216 grams to the square metre.
    (card,) = [each for each in plan_of(compiled(NAME)).materials if each.stock == "card"]
    assert card.weight is not None
    assert round(card.weight.value * 1_000_000) == 216
    # Grey board, trade conversion table: 1.55 millimetres for a thousand grams, so 1290 is 2 mm.
    body = "use grey_board_heavy from stocks"
    assert fact("thick = grey_board_heavy.caliper", "thick", body) == 2
    assert round(Fraction("1.55") * 1290 / 1000, 1) == 2


@pytest.mark.parametrize(("trapped", "scores", "width"), [("0.024 in", 1, "4.5"), ("0.025 in", 2, "4.5625"), ("1/8 in", 2, "4.625")])
def test_f27_a_flap(trapped: str, scores: int, width: str) -> None:
    # One score over up to twice the card, otherwise two as far apart as what is trapped, up to a mark: tab, that, panel.
    body = f"""
      ruler = inches to 1/16
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
      part it = side_flap(paper: card, height: 6 in, leaf: 4 in, tab: 1/2 in, trapped: {trapped})
      blank = it.flap.width
    """
    from reference.through_the_compiler import piece as piece_of

    uses = "use side_flap from decorations"
    assert fact(body, "blank", uses) == Fraction(width) * INCH
    assert len(piece_of(body, "it.flap", uses).runs[0].scores) == scores
