from fractions import Fraction

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from pastedown.geometry.piece import Panel
from pastedown.plan.flat_pattern import bend_lines, fold_lines
from pastedown.plan.score_charts import bend_charts, closes, score_charts
from pastedown.quantity.quantity import NO_LENGTH, Length, inches, mm
from plan.small_models import peaked_strip, piece, run


def test_the_four_peak_strip_has_twelve_marks_from_either_edge() -> None:
    (chart,) = score_charts(peaked_strip())
    expected = [inches(f"{eighths}/4") for eighths in range(11, 34, 2)]
    assert [mark.from_first for mark in chart.marks] == expected
    assert [mark.from_last for mark in chart.marks] == expected[::-1]
    assert [mark.gap for mark in chart.marks] == [inches("11/4"), *[inches("1/2")] * 11]
    assert [mark.kind for mark in chart.marks] == ["valley", "mountain", "valley"] * 4
    assert (chart.side, chart.last_panel) == (inches(11), inches("11/4"))
    assert closes(chart)


def test_names_are_read_as_words() -> None:
    (chart,) = score_charts(peaked_strip())
    assert (chart.first_edge, chart.last_edge) == ("front end", "back end")
    assert [mark.name for mark in chart.marks][:3] == ["front foot 1", "crest 1", "back foot 1"]
    assert [name for name, _ in chart.panels][:3] == ["front wing", "rise 1", "fall 1"]


def test_a_panel_that_bends_is_no_mark() -> None:
    laid = run("width", ("spine", "fore_edge"), [("on_spine", mm(10)), ("gap", mm(3)), ("on_cover", mm(10))])
    bent = evolve(laid, panels=tuple(evolve(panel, bends="yes" if panel.name == "gap" else "") for panel in laid.panels))
    assert score_charts(piece("case.tape", mm(100), mm(23), bent)) == ()


def test_a_fold_beside_a_bend_closes_by_what_is_left() -> None:
    items: list[tuple[str, Length | str]] = [("flap", mm(12)), ("turn", "mountain")]
    items += [("body", mm(40)), ("gap", mm(3)), ("rest", mm(45))]
    (chart,) = score_charts(piece("tray.side", mm(50), mm(100), run("width", ("left", "right"), items)))
    assert chart.last_panel == mm(88)
    assert closes(chart)


def test_a_chart_that_does_not_close_is_found_out() -> None:
    (chart,) = score_charts(peaked_strip())
    wrong_gap = evolve(chart.marks[3], gap=inches("3/8"))
    assert not closes(evolve(chart, marks=(*chart.marks[:3], wrong_gap, *chart.marks[4:])))
    assert not closes(evolve(chart, last_panel=inches("21/8")))
    assert not closes(evolve(chart, panels=chart.panels[:-1]))
    assert not closes(evolve(chart, side=chart.side + mm(1)))


@given(st.lists(st.fractions(min_value=1, max_value=50), min_size=2, max_size=12))
def test_every_ladder_closes(sizes: list[Fraction]) -> None:
    items: list[tuple[str, Length | str]] = []
    for number, size in enumerate(sizes):
        items += [(f"panel_{number}", mm(size)), (f"fold_{number}", "valley")]
    laid = run("height", ("tail", "head"), items[:-1])
    (chart,) = score_charts(piece("tray.side", laid.side, mm(80), laid))
    assert closes(chart)
    assert len(chart.marks) == len(sizes) - 1


def test_a_run_across_the_width_gives_upright_lines_from_the_left() -> None:
    strip = peaked_strip()
    first = fold_lines(strip)[0]
    assert (first.start.x, first.start.y) == (inches("11/4"), NO_LENGTH)
    assert (first.end.x, first.end.y) == (inches("11/4"), strip.height)


def test_a_reversed_run_counts_from_the_right_but_is_drawn_from_the_left() -> None:
    laid = run("width", ("fore_edge", "spine"), [("flap", mm(15)), ("turn", "mountain"), ("body", mm(85))], turned=True)
    sheet = piece("tray.side", mm(60), mm(100), laid)
    assert score_charts(sheet)[0].marks[0].from_first == mm(15)
    (line,) = fold_lines(sheet)
    assert (line.start.x, line.end.x) == (mm(85), mm(85))


def test_a_run_from_tail_to_head_gives_level_lines() -> None:
    laid = run("height", ("head", "tail"), [("flap", mm(15)), ("turn", "mountain"), ("body", mm(85))], turned=True)
    (line,) = fold_lines(piece("tray.side", mm(100), mm(60), laid))
    assert (line.start.x, line.end.x) == (NO_LENGTH, mm(60))
    assert (line.start.y, line.end.y) == (mm(85), mm(85))


def test_two_runs_make_two_charts_whatever_their_order() -> None:
    across = run("width", ("left", "right"), [("a", mm(10)), ("turn", "valley"), ("b", mm(30))])
    along = run("height", ("tail", "head"), [("c", mm(20)), ("bend", "mountain"), ("d", mm(50))])
    charts = score_charts(piece("tray.side", mm(70), mm(40), across, along))
    assert [chart.axis for chart in charts] == ["height", "width"]
    assert charts == score_charts(piece("tray.side", mm(70), mm(40), along, across))


def test_a_run_without_folds_has_no_chart() -> None:
    plain = run("width", ("left", "right"), [("only", mm(40))])
    assert plain.panels == (Panel("only", NO_LENGTH, mm(40)),)
    assert score_charts(piece("tray.side", mm(70), mm(40), plain)) == ()


def test_the_edges_of_a_panel_that_bends_are_lines_to_draw() -> None:
    laid = run("width", ("spine", "fore_edge"), [("on_spine", mm(10)), ("gap", mm(3)), ("on_cover", mm(11))])
    bent = evolve(laid, panels=tuple(evolve(panel, bends="yes" if panel.name == "gap" else "") for panel in laid.panels))
    for turned in (False, True):
        tape = piece("case.tape", mm(100), mm(24), evolve(bent, reversed=turned))
        (chart,) = bend_charts(tape)
        assert closes(chart)
        marks = [(mark.name, mark.kind, mark.from_first, mark.from_last) for mark in chart.marks]
        assert marks == [("gap begins", "mark", mm(10), mm(14)), ("gap ends", "mark", mm(13), mm(11))]
        assert [line.start.x for line in bend_lines(tape)] == ([mm(14), mm(11)] if turned else [mm(10), mm(13)])
        assert fold_lines(tape) == ()


@pytest.mark.parametrize(("way", "side"), [("mountain", "back"), ("valley", "face"), ("yes", "back")])
def test_lines_beside_a_bend_are_drawn_on_the_side_that_comes_to_lie_inside_it(way: str, side: str) -> None:
    laid = run("width", ("spine", "fore_edge"), [("on_spine", mm(10)), ("gap", mm(3)), ("on_cover", mm(11))])
    bent = evolve(laid, panels=tuple(evolve(panel, bends=way if panel.name == "gap" else "") for panel in laid.panels))
    (chart,) = bend_charts(piece("case.tape", mm(100), mm(24), bent))
    assert [mark.drawn_on for mark in chart.marks] == [side, side]


def test_an_edge_that_is_scored_or_ends_the_paper_is_not_drawn_again() -> None:
    laid = run("width", ("spine", "fore_edge"), [("gap", mm(3)), ("crease", "valley"), ("on_cover", mm(11))])
    bent = evolve(laid, panels=tuple(evolve(panel, bends="yes" if panel.name == "gap" else "") for panel in laid.panels))
    assert bend_charts(piece("case.tape", mm(100), mm(14), bent)) == ()
