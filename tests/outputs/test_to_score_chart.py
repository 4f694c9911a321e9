"""Score charts: the ladder of running example A, nine lines and a closing check."""

from attrs import evolve

from outputs.sample_plan import BOTH_RULER, hinge_strip, ladder, page_sheet, sample_plan, tag
from pastedown.outputs.to_score_chart import make
from pastedown.plan.plan import CutPiece
from pastedown.quantity.quantity import inches


def chart_of(*pieces: CutPiece) -> str:
    return make(evolve(sample_plan(), pieces=pieces))["score-chart.txt"].decode()


def rows_of(shown: str) -> list[list[str]]:
    """The cells of numbered rows; columns are parted by two spaces or more."""
    cells = [[cell.strip() for cell in line.split("  ") if cell.strip()] for line in shown.splitlines()]
    return [row for row in cells if row and row[0].isdigit()]


def test_nine_lines_at_the_places_worked_out_by_hand() -> None:
    rows = rows_of(chart_of(hinge_strip()))
    assert [row[2] for row in rows] == [
        "2 1/8 in", "2 3/4 in", "3 3/8 in", "3 3/4 in", "4 3/8 in", "5 in", "5 3/8 in", "6 in", "6 5/8 in",
    ]  # fmt: skip
    assert [row[3] for row in rows] == [row[2] for row in rows][::-1]
    assert [row[5] for row in rows] == ["V valley", "M mountain", "V valley"] * 3


def test_gaps_are_given_and_the_lines_are_counted() -> None:
    shown = chart_of(hinge_strip())
    assert [row[4] for row in rows_of(shown)] == ["2 1/8 in", *(["5/8 in", "5/8 in", "3/8 in"] * 3)[:-1]]
    assert "Along the width, the front end at the left stop: 9 lines.\n" in shown
    assert "no.  mark  from the front end  from the back end       gap  fold        score from\n" in shown


def test_the_closing_check_is_an_equation() -> None:
    assert "Check: 6 5/8 in + 2 1/8 in = 8 3/4 in: the last mark and the last panel" in chart_of(hinge_strip())
    assert "Check: 1/2 in + 7 in = 7 1/2 in: the last mark and the last panel" in chart_of(page_sheet())


def test_a_check_that_does_not_close_says_so() -> None:
    strip = hinge_strip()
    wrong = evolve(strip.score_charts[0], last_panel=inches(2))
    shown = chart_of(evolve(strip, score_charts=(wrong,)))
    assert "6 5/8 in + 2 in = 8 5/8 in: this should be the whole width, 8 3/4 in, and is not" in shown


def test_folds_are_spelled_in_order() -> None:
    shown = chart_of(hinge_strip())
    assert "Folds: front end |-- V -- M -- V -- V -- M -- V -- V -- M -- V --| back end\n" in shown


def test_a_piece_with_two_runs_has_two_tables() -> None:
    strip = hinge_strip()
    panels = [("lip", inches(1)), ("rest", inches("23/4"))]
    across = ladder("height", ("tail", "left"), panels, [("lip fold", "valley")])
    shown = chart_of(evolve(strip, score_charts=(*strip.score_charts, across)))
    assert shown.count("no.  mark") == 2
    assert shown.count("hinge strip (strip)") == 1
    assert "Along the height, the tail at the left stop: 1 line.\n" in shown
    assert "from the left edge" in shown


def test_pieces_without_scores_are_left_out() -> None:
    assert "page sheet (page-sheet): 6 pieces of kraft card" in chart_of(page_sheet(), tag())
    assert "tag" not in chart_of(page_sheet(), tag()).replace("page-sheet", "")
    assert chart_of(tag()).endswith("\nNo piece is scored.\n")


def test_both_units_stand_one_above_the_other() -> None:
    shown = make(sample_plan(BOTH_RULER))["score-chart.txt"].decode()
    row = next(n for n, line in enumerate(shown.splitlines()) if line.startswith("  2  b 1"))
    above, below = shown.splitlines()[row : row + 2]
    assert above.split() == ["2", "b", "1", "2", "3/4", "in", "6", "in", "5/8", "in", "M", "mountain", "face"]
    assert below.split() == ["(69.85", "mm)", "(152.4", "mm)", "(about", "15.88", "mm)"]


def test_lines_beside_a_bend_are_drawn_and_not_scored() -> None:
    strip = hinge_strip()
    scored = strip.score_charts[0]
    drawn = evolve(scored, marks=tuple(evolve(mark, kind="mark") for mark in scored.marks))
    shown = chart_of(evolve(strip, score_charts=(), bend_charts=(drawn,)))
    assert "9 lines to draw, not to score." in shown
    assert [row[5] for row in rows_of(shown)] == ["not scored"] * 9
    assert "Folds:" not in shown
    assert "Check: 6 5/8 in + 2 1/8 in = 8 3/4 in" in shown
