"""Outlines of pieces: what is cut away, by the shoelace formula and by plain areas of corners and notches."""

from fractions import Fraction
from itertools import pairwise
from math import atan2, isclose, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.geometry.piece import ArcTo, CutPath, Point
from reference.through_the_compiler import piece, refused


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
    """The area between an arc and its chord."""

    def angle(point: Point) -> float:
        return atan2(float(point.y.value - arc.centre.y.value), float(point.x.value - arc.centre.x.value))

    swept = (angle(arc.end) - angle(start)) % (2 * pi)
    if arc.clockwise:
        swept = 2 * pi - swept
    radius = float(arc.radius.value)
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


corners = st.fixed_dictionaries(
    {
        name: st.tuples(st.sampled_from(["", "mitre", "round"]), st.integers(1, 12))
        for name in ("head_left", "head_fore_edge", "tail_left", "tail_right")
    }
)
# What takes the middle of an edge, and how much of the paper it takes away: sides 60 and 100, corners of up to 12.
edge_cuts = st.fixed_dictionaries(
    {
        name: st.tuples(st.sampled_from(["", "notch", "thumb_notch"]), st.integers(2, 30), st.integers(0, 9))
        for name in ("head", "tail", "left", "fore_edge")
    }
)


@settings(max_examples=50, deadline=None)
@given(corners, edge_cuts)
def test_all_cuts_together_take_away_what_each_does(
    corner_cuts: dict[str, tuple[str, int]], edges: dict[str, tuple[str, int, int]]
) -> None:
    said, gone = [], 0.0
    for name, (kind, size) in corner_cuts.items():
        if kind:
            said.append(f"{name} = {kind}({size} mm)")
            gone += size * size / 2 if kind == "mitre" else size * size * (1 - pi / 4)
    for name, (kind, width, more) in edges.items():
        if kind == "notch":
            said.append(f"{name} = notch(width: {width} mm, depth: {more + 1} mm)")
            gone += width * (more + 1)
        elif kind:
            said.append(f"{name} = thumb_notch(width: {width} mm, depth: {width}/2 mm + {more} mm)")
            gone += width * more + pi * width * width / 8
    path = outline("  ".join(said))
    assert isclose(area(path), 100 * 60 - gone, abs_tol=1e-6)
    assert path.closed and path.moves[-1].end == path.start
    stops = [path.start, *(move.end for move in path.moves)]
    assert all(before != after for before, after in pairwise(stops))
    for before, move in zip(stops, path.moves, strict=False):
        if isinstance(move, ArcTo):
            for end in (before, move.end):
                x, y = end.x - move.centre.x, end.y - move.centre.y
                assert x.value**2 + y.value**2 == move.radius.value**2


@pytest.mark.parametrize(
    ("cuts", "fits"),
    [
        ("head_left = mitre(60 mm)", True), ("head_left = mitre(61 mm)", False),
        ("head_left = round(30 mm)  head_fore_edge = round(30 mm)", True),
        ("head_left = round(30 mm)  head_fore_edge = round(31 mm)", False),
        ("head = notch(width: 60 mm, depth: 5 mm)", True), ("head = notch(width: 61 mm, depth: 5 mm)", False),
        ("head = notch(width: 5 mm, depth: 100 mm)", False), ("head = notch(width: 5 mm, depth: 99 mm)", True),
        ("head = notch(width: 10 mm, depth: 5 mm, at: 5 mm)", True),
        ("head = notch(width: 10 mm, depth: 5 mm, at: 4 mm)", False),
        ("fore_edge = thumb_notch(width: 20 mm, depth: 9 mm)", False),
        ("hole = window(height: 99 mm, width: 59 mm)", True), ("hole = window(height: 100 mm, width: 10 mm)", False),
        ("hole = window(height: 10 mm, width: 10 mm, radius: 5 mm)", True),
        ("hole = window(height: 10 mm, width: 10 mm, radius: 6 mm)", False),
        ("cut = slit(60 mm, along: width)", False), ("cut = slit(58 mm, along: width)", True),
        ("head = taper(5 mm)  head_left = round(5 mm)", False), ("head = taper(30 mm)", True), ("head = taper(31 mm)", False),
    ],
)  # fmt: skip
def test_a_cut_that_leaves_the_paper_is_refused(cuts: str, fits: bool) -> None:
    card = "card = stock(kind: card, sheet: 300 mm x 300 mm, grain: marked)\n"
    found = refused(f"{card}piece leaf from card, height: 100 mm, width: 60 mm, right: fore_edge {{ {cuts} }}")
    assert found == ([] if fits else ["cut-outside"])


def corners_of(cuts: str) -> list[tuple[int, int]]:
    path = outline(cuts)
    spots = [(int(point.x.millimetres), int(point.y.millimetres)) for point in (move.end for move in path.moves)]
    first = spots.index(min(spots))
    return spots[first:] + spots[:first]


@pytest.mark.parametrize(
    ("cuts", "corners"),
    [
        ("left = notch(width: 30 mm, depth: 5 mm, at: 15 mm)",
         [(0, 30), (0, 100), (60, 100), (60, 0), (5, 0), (5, 30)]),
        ("left = notch(width: 30 mm, depth: 5 mm, at: 85 mm)",
         [(0, 0), (0, 70), (5, 70), (5, 100), (60, 100), (60, 0)]),
        ("head = notch(width: 60 mm, depth: 5 mm)", [(0, 0), (0, 95), (60, 95), (60, 0)]),
        ("left = notch(width: 100 mm, depth: 5 mm)", [(5, 0), (5, 100), (60, 100), (60, 0)]),
        ("tail = notch(width: 10 mm, depth: 5 mm, at: 5 mm)",
         [(0, 5), (0, 100), (60, 100), (60, 0), (10, 0), (10, 5)]),
        ("left = notch(width: 100 mm, depth: 5 mm)  right = notch(width: 100 mm, depth: 5 mm)",
         [(5, 0), (5, 100), (55, 100), (55, 0)]),
    ],
)  # fmt: skip
def test_a_notch_at_a_corner_takes_the_corner_away(cuts: str, corners: list[tuple[int, int]]) -> None:
    assert corners_of(cuts.replace("right =", "fore_edge =")) == corners


@pytest.mark.parametrize(
    ("cuts", "fault"),
    [
        ("head = thumb_notch(width: 20 mm, at: 10 mm)", "cut-outside"),
        ("head = thumb_notch(width: 20 mm, at: 11 mm)", ""),
        ("head = notch(width: 20 mm, depth: 30 mm, at: 10 mm)  left = notch(width: 20 mm, depth: 5 mm, at: 80 mm)",
         "cuts-meet"),
        ("left = notch(width: 9 mm, depth: 30 mm)  fore_edge = notch(width: 9 mm, depth: 30 mm)", "cuts-meet"),
        ("left = notch(width: 9 mm, depth: 30 mm)  fore_edge = notch(width: 9 mm, depth: 29 mm)", ""),
        ("head_left = mitre(60 mm, along_height: 100 mm)  tail_fore_edge = mitre(60 mm, along_height: 100 mm)", "cuts-meet"),
        ("head_left = mitre(20 mm)  head = notch(width: 20 mm, depth: 9 mm, at: 30 mm)", ""),
        ("head = notch(width: 20 mm, depth: 9 mm)  view = window(height: 80 mm, width: 10 mm, from_tail: 11 mm)",
         "cuts-meet"),
        ("head = notch(width: 20 mm, depth: 9 mm)  view = window(height: 80 mm, width: 10 mm, from_tail: 10 mm)", ""),
        ("a = window(height: 10 mm, width: 10 mm)  b = window(height: 20 mm, width: 5 mm)", "cuts-meet"),
        ("a = window(height: 10 mm, width: 10 mm)  b = window(height: 50 mm, width: 50 mm)", "cuts-meet"),
        ("a = slit(20 mm, along: height)  b = slit(20 mm, along: width)", "cuts-meet"),
        ("a = slit(20 mm, along: height)  b = slit(20 mm, along: height, from_tail: 9 mm)", ""),
        ("a = slit(20 mm, along: height)  b = slit(20 mm, along: height, from_tail: 20 mm)", "cuts-meet"),
        ("a = window(height: 20 mm, width: 20 mm, radius: 10 mm, from_left: 5 mm, from_tail: 5 mm)  "
         "b = window(height: 20 mm, width: 20 mm, radius: 10 mm, from_left: 20 mm, from_tail: 20 mm)", ""),
        ("a = window(height: 20 mm, width: 20 mm, radius: 10 mm, from_left: 5 mm, from_tail: 5 mm)  "
         "b = window(height: 20 mm, width: 20 mm, radius: 10 mm, from_left: 19 mm, from_tail: 19 mm)", "cuts-meet"),
        ("head = thumb_notch(width: 20 mm, depth: 10 mm)  "
         "b = window(height: 5 mm, width: 5 mm, from_left: 12 mm, from_tail: 85 mm)", ""),
        ("head = thumb_notch(width: 20 mm, depth: 10 mm)  "
         "b = window(height: 5 mm, width: 5 mm, from_left: 20 mm, from_tail: 87 mm)", "cuts-meet"),
    ],
)  # fmt: skip
def test_cuts_that_meet_are_refused(cuts: str, fault: str) -> None:
    card = "card = stock(kind: card, sheet: 300 mm x 300 mm, grain: marked)\n"
    found = refused(f"{card}piece leaf from card, height: 100 mm, width: 60 mm, right: fore_edge {{ {cuts} }}")
    assert found == ([fault] if fault else [])
