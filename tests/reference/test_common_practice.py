"""What makers know and nobody has published, and what follows from the geometry of folds.

The facts marked so are common practice, no source: check values, never demo data. The running example is derived;
FLD-19 and FLD-20 are geometry with a neutral line on the inner surface of the fold.
"""

from fractions import Fraction

import pytest

from reference.through_the_compiler import fact, made, piece, plan, refused, size

INCH = Fraction(127, 5)
USES = """
use concertina_hinge from hinges
use pocket_page, folded_pocket_page from pages
use page_inside_covers, hinge_in_page, spine_takes_hinge from rules
"""
STUFF = """
  ruler = inches to 1/16
  card = stock(kind: card, sheet: {sheet}, caliper: {caliper}, grain: {grain})
  tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  grey = stock(kind: board, sheet: 24 in x 24 in, caliper: 80 pt, grain: marked)
"""


def stuff(caliper: str = "12 pt", sheet: str = "12 in x 12 in", grain: str = "marked") -> str:
    return STUFF.format(caliper=caliper, sheet=sheet, grain=grain)


def inch(text: str) -> Fraction:
    """A length written as makers do, "2 3/4", in millimetres."""
    return sum((Fraction(part) for part in text.split()), Fraction(0)) * INCH


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def marks(body: str, path: str) -> list[Fraction]:
    (run,) = piece(body, path, USES).runs
    return [score.at.value for score in run.scores]


STRIP = """
  part hinge = concertina_hinge(paper: card, tape: tape, peaks: 4, peak: 1/2 in, gusset: 1/2 in, flat_width: 11 in,
    height: 7 1/2 in)
"""


def test_marks_of_the_strip_with_four_peaks() -> None:
    # Common practice, no source: strip 11 in long, four peaks, peak height and gusset 1/2 in.
    (run,) = piece(stuff() + STRIP, "hinge.strip", USES).runs
    assert marks(stuff() + STRIP, "hinge.strip") == inches(
        "2 3/4", "3 1/4", "3 3/4", "4 1/4", "4 3/4", "5 1/4", "5 3/4", "6 1/4", "6 3/4", "7 1/4", "7 3/4", "8 1/4"
    )
    mountains = [score.at.value for score in run.scores if score.kind == "mountain"]
    assert mountains == inches("3 1/4", "4 3/4", "6 1/4", "7 3/4")
    assert run.panels[0].size.value == run.panels[-1].size.value == inch("2 3/4")


def test_the_rhythm_of_the_folds() -> None:
    # Common practice, no source: two panels closed to a peak, one skipped.
    (run,) = piece(stuff() + STRIP, "hinge.strip", USES).runs
    assert "".join(score.kind[0] for score in run.scores) == "vmv" * 4
    inner = [panel.name.partition("[")[0] for panel in run.panels[1:-1]]
    assert inner == (["rise", "fall", "floor"] * 4)[:-1]


@pytest.mark.parametrize("caliper", ["10 pt", "11 pt", "12 pt"])
def test_what_a_ruler_reads_across_the_closed_strip(caliper: str) -> None:
    # Common practice, no source: nominal 7 in, and the ruler reads between 7 1/16 and 7 1/8 in.
    body = stuff(caliper) + STRIP
    assert fact(body, "hinge.nominal_width", USES) == inch("7")
    assert inch("7 1/16") < fact(body, "hinge.made_up_width", USES) < inch("7 1/8")


def test_the_spine_board_for_it() -> None:
    # Common practice, no source: 2 1/2 in wide, nominal distance from the spine's edge to the first page 1/2 in.
    body = stuff() + STRIP
    nominal = body + "nominal = (2 1/2 in - (hinge.peaks - 1) * hinge.gusset) / 2"
    assert fact(nominal, "nominal", USES) == inch("1/2")
    # Really less: half of what four peaks of two cards and a tape take up.
    real = body + "real = (2 1/2 in - hinge.block) / 2"
    assert fact(real, "real", USES) == inch("1/2") - 4 * Fraction("0.028") * INCH / 2


PAGES = """
  part page[k from 1 to 4] = pocket_page(paper: card, tape: tape, sheet_height: 8 1/2 in, seam: 1/2 in, width: 11 in)
"""


def test_four_pages_of_eight_letter_sheets() -> None:
    # Common practice, no source: two 8 1/2 x 11 in sheets, a 1/2 in flange scored on each along the 11 in side: 8 in
    # high and 11 in wide, eight sheets for four pages.
    body = stuff(sheet="8 1/2 in x 11 in", grain="short") + PAGES
    assert fact(body, "page[1].height", USES) == inch("8")
    for sheet in ("front_sheet", "rear_sheet"):
        assert size(body, f"page[1].{sheet}", USES) == (inch("8 1/2"), inch("11"))
        (run,) = piece(body, f"page[1].{sheet}", USES).runs
        assert run.axis == "height"
        (score,) = run.scores
        assert min(score.at.value, run.side.value - score.at.value) == inch("1/2")
    model = made(body, USES).model
    assert model is not None
    assert len(model.pieces) == 8


BOARDS = """
  part borders = page_inside_covers(page_height: {page}, page_width: 11 in, cover_height: 8 1/4 in,
    cover_width: 11 1/4 in, board: grey, least_border: 1/16 in)
"""


def test_boards_leave_an_eighth_at_head_and_tail() -> None:
    # Common practice, no source: boards 8 1/4 in high and 11 1/4 in wide for a page of 8 x 11 in.
    assert fact(stuff() + BOARDS.format(page="8 in"), "borders.border", USES) == inch("1/8")


@pytest.mark.parametrize("page", ["8 1/4 in", "8 1/2 in"])
def test_a_page_may_never_stand_above_the_boards(page: str) -> None:
    # Common practice, no source.
    assert refused(stuff() + BOARDS.format(page=page), USES) == ["requirement-fails"]


def test_moving_parts_get_tape_and_static_ones_glue() -> None:
    # Common practice, no source.
    body = (
        stuff()
        + """
      piece under from card, height: 5 in, width: 5 in
      piece still from card, height: 3 in, width: 3 in
      piece free from card, height: 3 in, width: 3 in
      join glued: still.back to under.face {
        align still.mid_height to under.mid_height   align still.mid_width to under.mid_width
      }
      join taped: free.back to under.back, moving: yes {
        align free.mid_height to under.mid_height    align free.mid_width to under.mid_width
      }
    """
    )
    assert {bond.path: bond.adhesive for bond in plan(body).bonds} == {"glued": "glue", "taped": "tape"}


def test_pages_stay_out_of_the_book_until_they_are_decorated() -> None:
    # Common practice, no source.
    body = (
        stuff()
        + """
      part page[k from 1 to 2] = pocket_page(paper: card, tape: tape, height: 7 in, width: 5 1/2 in)
      part hinge = concertina_hinge(paper: card, tape: tape, peaks: 2, wing: 2 in, height: 6 3/4 in)
      each k from 1 to 2 {
        join mount[k]: page[k].mouth to hinge.stand[k], by: tape, moving: yes {
          align page[k].mouth.spine to hinge.stand[k].spine
          align page[k].mouth.mid_height to hinge.stand[k].mid_height
        }
      }
      step decorate: "Decorate the pages.", after: page, before: mount
    """
    )
    steps = plan(body, USES).steps
    (decorate,) = [step.number for step in steps if "decorate" in step.refers]
    mounting = [step.number for step in steps if any(path.startswith("mount") for path in step.refers)]
    making = [step.number for step in steps if any(path.startswith("page") for path in step.refers)]
    assert mounting and min(mounting) > decorate
    assert making and max(making) < decorate


# The running example: portrait, three pages 7 high and 5 1/2 wide, peaks 5/8, gussets 3/8, wings 2 1/8.
RUNNING = """
  part hinge = concertina_hinge(paper: card, tape: tape, peaks: 3, peak: 5/8 in, gusset: 3/8 in, wing: 2 1/8 in,
    height: {height})
  part page = pocket_page(paper: card, tape: tape, height: 7 in, width: 5 1/2 in, seam: 1/2 in, peak: 5/8 in{more})
  part fits = hinge_in_page(hinge_height: hinge.height, page_height: page.height,
    stand_thickness: hinge.stand_thickness)
  part room = spine_takes_hinge(spine: 1 7/8 in, block: hinge.block, wing: hinge.wing, joint: 1/8 in)
"""


def running(height: str = "6 3/4 in", more: str = "") -> str:
    return stuff() + RUNNING.format(height=height, more=more)


def test_the_flat_strip_of_the_running_example() -> None:
    # L = 2u + 2np + (n - 1)g = 4 1/4 + 3 3/4 + 3/4.
    assert size(running(), "hinge.strip", USES) == (inch("6 3/4"), inch("8 3/4"))
    found = marks(running(), "hinge.strip")
    assert found == inches("2 1/8", "2 3/4", "3 3/8", "3 3/4", "4 3/8", "5", "5 3/8", "6", "6 5/8")
    # The closing check: the last mark and the last wing make the strip.
    (run,) = piece(running(), "hinge.strip", USES).runs
    assert found[-1] + run.panels[-1].size.value == inch("8 3/4")


def test_the_made_up_strip_of_the_running_example() -> None:
    # B = 2u + (n - 1)g + n(2t + a) = 5.084, K = 0.834, pitch 0.403; margin (1.875 - 0.834) / 2, landing u - m - j.
    expected = {
        "hinge.made_up_width": "5.084", "hinge.block": "0.834", "hinge.pitch": "0.403", "room.margin": "0.5205",
        "room.landing": "1.4795",
    }  # fmt: skip
    for path, figure in expected.items():
        assert fact(running(), path, USES) == Fraction(figure) * INCH


@pytest.mark.parametrize(("sheet", "most"), [("12", 5), ("8.5", 2)])
def test_how_many_peaks_fit_a_sheet(sheet: str, most: int) -> None:
    # floor((X - 2u + g) / (2p + g)): exactly 5 for 12 in, 2 for 8.5 in.
    assert fact(f"n = whole(({sheet} in - 2 * 2 1/8 in + 3/8 in) / (2 * 5/8 in + 3/8 in))", "n") == most
    strip = """
      part hinge = concertina_hinge(paper: card, tape: tape, peaks: {peaks}, peak: 5/8 in, gusset: 3/8 in,
        wing: 2 1/8 in, height: 6 3/4 in)
    """
    sheets = stuff(sheet=f"{sheet} in x {sheet} in")
    assert refused(sheets + strip.format(peaks=most), USES) == []
    assert refused(sheets + strip.format(peaks=most + 1), USES) == ["sheet-too-small"]


def test_the_page_of_the_running_example() -> None:
    # Two sheets 7 1/2 x 5 1/2; the insert H - q - c and E - p - c.
    assert size(running(), "page.front_sheet", USES) == (inch("7 1/2"), inch("5 1/2"))
    full = running(more=", contents: 0.05 in")
    assert fact(full, "page.insert_height", USES) == Fraction("6.8875") * INCH
    assert fact(full, "page.insert_width", USES) == Fraction("4.8125") * INCH


@pytest.mark.parametrize(("height", "fits"), [("6 7/8 in", True), ("6.9015 in", True), ("6 15/16 in", False)])
def test_the_strip_goes_into_the_page(height: str, fits: bool) -> None:
    # G <= H - (2t + 3a) - c = 7 - 0.036 - 0.0625 = 6.9015.
    assert refused(running(height), USES) == ([] if fits else ["requirement-fails"])
    if fits:
        assert fact(running(height), "fits.tallest", USES) == Fraction("6.9015") * INCH


def test_a_page_folded_from_one_sheet() -> None:
    # H = 5, f = 1/2, e = 1/32: blank 10 15/32, scores at 5 and 9 31/32.
    page = "part page = folded_pocket_page(paper: card, tape: tape, height: 5 in, width: 4 in, seam: 1/2 in"
    body = stuff().replace("inches to 1/16", "inches to 1/32") + f"{page}, relief: 1/32 in)"
    assert size(body, "page.long_sheet", USES)[0] == inch("10 15/32")
    assert marks(body, "page.long_sheet") == inches("5", "9 31/32")


def test_the_strip_of_the_published_identity() -> None:
    # FLD-19: n = 6, d 15, g 12, F 60: length 360, 18 scores, 19 panels. FLD-20: folded 180 and, with leaves of 0.30 mm
    # held by nothing and a neutral line on the inner surface, 3.600 mm more. The tape's film comes on top: 6 * 0.1.
    body = """
      ruler = millimetres to 1
      card = stock(kind: card, sheet: 400 mm x 400 mm, caliper: 0.30 mm, grain: marked)
      tape = stock(kind: tape, roll_width: 6 mm, caliper: 0.1 mm)
      part hinge = concertina_hinge(paper: card, tape: tape, peaks: 6, peak: 15 mm, gusset: 12 mm, wing: 60 mm,
        height: 200 mm)
      hinge.bands_side_by_side = nothing
    """
    found = piece(body, "hinge.strip", USES)
    assert found.width.value == 360
    assert (len(found.runs[0].scores), len(found.runs[0].panels)) == (18, 19)
    assert fact(body, "hinge.made_up_width", USES) == 180 + Fraction("3.6") + 6 * Fraction("0.1")
