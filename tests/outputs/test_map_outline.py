"""The outline of a map runs where paper ends and nowhere else."""

from itertools import pairwise

import pytest

from pastedown.outputs.pictures.map_outline import outlines
from pastedown.outputs.pictures.map_sheet import Area, MapSheet

AT = MapSheet(1.0, 0.0, 10.0)


def area(left: float, right: float, tail: float, head: float) -> Area:
    return Area(left, right, tail, head, "")


def rings(*areas: Area) -> list[list[tuple[float, float]]]:
    """The corners of each outline, upwards from the tail."""
    found = []
    for stroke in outlines(AT, areas):
        assert stroke.moves[0].start == stroke.moves[-1].end
        assert all(one.end == other.start for one, other in pairwise(stroke.moves))
        found.append([(float(move.start[0]), 10.0 - float(move.start[1])) for move in stroke.moves])
    return found


def area_within(ring: list[tuple[float, float]]) -> float:
    """By the corners, less than nought round a hole: known as the shoelace formula."""
    return sum(a * d - c * b for (a, b), (c, d) in pairwise([*ring, ring[0]])) / 2


def test_a_flap_at_a_page_leaves_its_two_corners_empty() -> None:
    """By hand: a page 5 wide and 6 high in three zones, and at its right a flap 3 wide from 1 to 5 up."""
    (ring,) = rings(area(0, 5, 0, 1), area(0, 5, 1, 5), area(0, 5, 5, 6), area(5, 8, 1, 5))
    assert sorted(ring) == [(0, 0), (0, 6), (5, 0), (5, 1), (5, 5), (5, 6), (8, 1), (8, 5)]
    assert area_within(ring) == 5 * 6 + 3 * 4


@pytest.mark.parametrize(
    ("areas", "sizes"),
    [
        ([area(0, 2, 0, 3), area(3, 5, 0, 3)], [6, 6]),
        ([area(0, 3, 0, 1), area(0, 1, 1, 2), area(2, 3, 1, 2), area(0, 3, 2, 3)], [-1, 9]),
        ([area(0, 1, 0, 1), area(1, 2, 1, 2)], [2]),
        ([area(0, 1, 0, 2), area(1, 2, 0, 1), area(1, 2, 1, 2)], [4]),
    ],
    ids=["gap", "hole", "corner to corner", "split side"],
)
def test_gaps_and_holes_have_an_outline(areas: list[Area], sizes: list[float]) -> None:
    assert sum(sizes) == sum((each.right - each.left) * (each.head - each.tail) for each in areas)
    found = [area_within(ring) for ring in rings(*areas)]
    assert sorted(found) == sizes
