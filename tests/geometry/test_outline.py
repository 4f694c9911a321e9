"""Outlines of pieces: what is cut away, by the shoelace formula and by plain areas of corners and notches."""

from fractions import Fraction
from math import isclose, pi

import pytest

from pastedown.geometry.piece import ArcTo, CutPath, Point
from reference.through_the_compiler import piece


def area(path: CutPath) -> float:
    """The area inside a closed path in square millimetres: straight stretches by the shoelace formula, and for each arc
    the piece of circle between it and its chord."""
    at, total = path.start, 0.0
    for move in path.moves:
        total += float(at.x.value * move.end.y.value - move.end.x.value * at.y.value) / 2
        if isinstance(move, ArcTo):
            total += (-1 if move.clockwise else 1) * segment(move, at)
        at = move.end
    assert at == path.start
    return abs(total)


def segment(arc: ArcTo, start: Point) -> float:
    from math import atan2

    def angle(point: Point) -> float:
        return atan2(float(point.y.value - arc.centre.y.value), float(point.x.value - arc.centre.x.value))

    swept = (angle(arc.end) - angle(start)) % (2 * pi)
    if arc.clockwise:
        swept = 2 * pi - swept
    radius = float(arc.radius.value)
    from math import sin

    return radius * radius / 2 * (swept - sin(swept))


def outline(cuts: str) -> CutPath:
    return leaf(cuts)[0]


def leaf(cuts: str) -> tuple[CutPath, tuple[CutPath, ...]]:
    body = "card = stock(kind: card, sheet: 300 mm x 300 mm, grain: marked)\n"
    found = piece(body + f"piece leaf from card, height: 100 mm, width: 60 mm, right: fore_edge {{ {cuts} }}", "leaf")
    return found.outline, found.inner_cuts


@pytest.mark.parametrize(
    ("cuts", "cut_away"),
    [
        ("", 0.0),
        ("head_left = mitre(10 mm)", 10 * 10 / 2),
        ("head_left = mitre(10 mm, along_height: 20 mm)", 10 * 20 / 2),
        ("tail_fore_edge = round(10 mm)", 10 * 10 - pi * 10 * 10 / 4),
        ("head_left = round(30 mm)  head_fore_edge = round(30 mm)", 2 * (30 * 30 - pi * 30 * 30 / 4)),
        ("head = notch(width: 20 mm, depth: 5 mm)", 20 * 5),
        ("left = notch(width: 20 mm, depth: 5 mm, at: 15 mm)", 20 * 5),
        ("fore_edge = thumb_notch(width: 20 mm)", pi * 10 * 10 / 2),
        ("fore_edge = thumb_notch(width: 20 mm, depth: 15 mm)", 20 * 5 + pi * 10 * 10 / 2),
        ("fore_edge = taper(10 mm)", 2 * 10 * 60 / 2),
        ("head = taper(5 mm)", 2 * 5 * 100 / 2),
    ],
)
def test_a_cut_takes_away_what_it_should(cuts: str, cut_away: float) -> None:
    assert isclose(area(outline(cuts)), 100 * 60 - cut_away, abs_tol=1e-6)


@pytest.mark.parametrize(
    "cuts", ["head_left = round(10 mm)", "tail = thumb_notch(width: 20 mm)", "left = thumb_notch(8 mm)"]
)
def test_the_ends_of_an_arc_lie_on_its_circle(cuts: str) -> None:
    path = outline(cuts)
    at = path.start
    arcs = 0
    for move in path.moves:
        if isinstance(move, ArcTo):
            arcs += 1
            for end in (at, move.end):
                x, y = end.x.value - move.centre.x.value, end.y.value - move.centre.y.value
                assert x * x + y * y == move.radius.value**2
        at = move.end
    assert arcs


def test_the_outline_stays_on_the_paper() -> None:
    path = outline(
        "head_left = round(10 mm)  fore_edge = thumb_notch(width: 20 mm)  tail = notch(width: 10 mm, depth: 5 mm)"
    )
    for point in (path.start, *(move.end for move in path.moves)):
        assert 0 <= point.x.value <= 60
        assert 0 <= point.y.value <= 100


def test_a_notch_is_placed_by_its_middle_from_the_left_edge_or_the_tail() -> None:
    path = outline("head = notch(width: 10 mm, depth: 5 mm, at: 12 mm)")
    at_the_bottom = [move.end.x.value for move in path.moves if move.end.y.value == 95]
    assert sorted(at_the_bottom) == [7, 17]
    path = outline("fore_edge = notch(width: 10 mm, depth: 5 mm, at: 12 mm)")
    assert sorted(move.end.y.value for move in path.moves if move.end.x.value == 55) == [7, 17]


def test_a_window_and_a_slit_lie_where_they_are_said_to() -> None:
    _, inner = leaf(
        "opening = window(height: 20 mm, width: 30 mm, from_left: 10 mm, from_tail: 40 mm)"
        "  tongue = slit(12 mm, along: height, from_left: 5 mm, from_tail: 8 mm)"
    )
    slit, window = sorted(inner, key=lambda cut: cut.closed)
    assert isclose(area(window), 20 * 30)
    corners = {(move.end.x.value, move.end.y.value) for move in window.moves}
    assert corners == {(10, 40), (40, 40), (40, 60), (10, 60)}
    assert (slit.start.x.value, slit.start.y.value) == (5, 8)
    assert [(move.end.x.value, move.end.y.value) for move in slit.moves] == [(5, Fraction(20))]


def test_a_window_without_a_place_lies_in_the_middle() -> None:
    _, (window,) = leaf("opening = window(height: 20 mm, width: 30 mm, radius: 2 mm)")
    xs = [move.end.x.value for move in window.moves]
    ys = [move.end.y.value for move in window.moves]
    assert (min(xs), max(xs), min(ys), max(ys)) == (15, 45, 40, 60)
    assert isclose(area(window), 20 * 30 - (4 - pi) * 2 * 2)
