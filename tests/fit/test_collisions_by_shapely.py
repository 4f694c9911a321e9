"""What runs through what, against shapely: every pair of plates compared, by the shadows that they throw on three walls."""

from __future__ import annotations

from itertools import combinations, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint

from geometry.drawn_pose import Plate, plates_in
from pastedown.compile import compile_design
from pastedown.diagnostic import Diagnostic
from pastedown.geometry.model import Model

# Angle stands of card or board: the foot is stuck to a base, the wall rises from it.
HEAD = """edition = 1
album probe {
  ruler = millimetres to 1
  grey = stock(kind: board, sheet: 700 mm x 1000 mm, caliper: 2 mm, grain: none)
  card = stock(kind: card, sheet: 700 mm x 1000 mm, caliper: 1/2 mm, grain: none)
  moving_adhesive = stock(kind: glue)
  static_adhesive = stock(kind: glue)
  piece base from grey, height: 200 mm, width: 200 mm
"""
STAND = """
  piece stand{n} from {stock}, {other}: {across} mm, loose: yes {{
    run {edges} {{ panel foot: {foot} mm   fold rise: valley   panel wall: {wall} mm }}
  }}
  join stand{n}_on: stand{n}.foot.back to base.face {{
    align stand{n}.left to base.left, inside: {x} mm
    align stand{n}.tail to base.tail, inside: {y} mm
  }}
"""


@st.composite
def stands(draw: st.DrawFn) -> str:
    body, angles = "", {"made_up": "", "closed": ""}
    angles_drawn = ["square", "square", "flat", *(["shut"] if draw(st.booleans()) else [])]
    for n in range(draw(st.integers(2, 4))):
        across = draw(st.booleans())
        size = st.integers(5, 60)
        body += STAND.format(
            n=n,
            stock=draw(st.sampled_from(["card", "grey"])),
            other="height" if across else "width",
            edges="left to right" if across else "tail to head",
            across=draw(size), foot=draw(size), wall=draw(size), x=draw(st.integers(0, 90)), y=draw(st.integers(0, 90)),
        )  # fmt: skip
        for pose in angles:
            angles[pose] += f" stand{n}.rise = {draw(st.sampled_from(angles_drawn))}"
    return HEAD + body + "".join(f"  pose {pose} {{{said} }}\n" for pose, said in angles.items()) + "}\n"


def shadows(plate: Plate) -> list[MultiPoint]:
    """The plate seen along each direction of space."""
    corners = np.array([*plate.outline, *plate.back])
    return [MultiPoint(np.delete(corners, axis, axis=1)).convex_hull for axis in range(3)]


def depth(one: Plate, other: Plate) -> float:
    """How far two upright boxes run into one another: nought unless all their shadows overlap, and then the shortest way
    by which one of them comes free."""
    pairs = list(zip(shadows(one), shadows(other), strict=True))
    if any(mine.intersection(its).area < 1e-6 for mine, its in pairs):
        return 0.0
    ways = []
    for mine, its in pairs:
        (left, low, right, high), (its_left, its_low, its_right, its_high) = mine.bounds, its.bounds
        ways += [right - its_left, its_right - left, high - its_low, its_high - low]
    return float(min(ways))


def is_looked_at(one: Plate, other: Plate, boards: set[str]) -> bool:
    """Sheets that lie on one another give way; boards do not, and nothing does that stands across."""
    parallel = abs(np.dot(one.out_of_face, other.out_of_face)) > 0.5
    return not parallel or {one.piece, other.piece} <= boards


def expected(model: Model, pose_name: str) -> dict[frozenset[str], float]:
    """The deepest place of each two stands in a pose that are in one place. What is stuck to the base directly is a
    matter of its join, and what lies in a shut fold opens it: with one between them they have play."""
    pose = next((each for each in model.poses if each.path == pose_name), None)
    boards = {piece.path for piece in model.pieces if piece.stock.kind == "board"}
    found: dict[frozenset[str], float] = {}
    by_piece: dict[str, list[Plate]] = {}
    for plate in plates_in(model, pose):
        by_piece.setdefault(plate.piece, []).append(plate)
    for a, b in combinations(sorted(set(by_piece) - {"base"}), 2):
        for one, other in product(by_piece[a], by_piece[b]):
            deep = depth(one, other)
            if is_looked_at(one, other, boards) and deep > found.get(frozenset((a, b)), 1e-6):
                found[frozenset((a, b))] = deep
    return found


def told(text: str) -> tuple[Model, list[Diagnostic]]:
    compiled = compile_design("probe.album", text, lambda _: None)
    model = compiled.designs[0].model
    assert model is not None
    return model, [each for each in compiled.diagnostics if each.id == "runs-through"]


# Between stands with a shut fold each, so much paper at most is on the way: it may lie trapped there.
MOST_PLAY = 20


@given(stands())
@settings(max_examples=100, deadline=None)
def test_what_is_told_is_what_shapely_finds(text: str) -> None:
    model, found = told(text)
    in_poses = [expected(model, pose) for pose in ("made_up", "closed")]
    pairs = {named(each): float(each.missing or 0) for each in found}
    assert len(pairs) == len(found)
    assert pairs.keys() <= in_poses[0].keys() | in_poses[1].keys()
    for pair in in_poses[0].keys() | in_poses[1].keys():
        depths = [deep[pair] for deep in in_poses if pair in deep]
        if "shut" not in text or max(depths) > MOST_PLAY:
            assert pair in pairs
        # What was told of them made up is not told again. Of plates with a shut fold between them a deeper place may be
        # taken up by its paper.
        assert pair not in pairs or pairs[pair] <= max(depths) + 1e-6
        assert pair not in pairs or "shut" in text or any(abs(pairs[pair] - deep) < 1e-6 for deep in depths)


def named(fault: Diagnostic) -> frozenset[str]:
    words = fault.sentence.replace(",", "").split()
    return frozenset(word for word in words if word.startswith("stand"))


@pytest.mark.parametrize(("y", "found"), [(10, [1.5]), (19, [1.0]), (20, []), (60, [])])
def test_a_wall_in_a_board_and_one_that_only_touches_it(y: int, found: list[float]) -> None:
    """A wall of card, half a millimetre thick, stands in the foot of board, or beside it."""
    lines = [
        STAND.format(n=0, stock="card", other="height", edges="left to right", across=20, foot=10, wall=30, x=0, y=0),
        STAND.format(n=1, stock="grey", other="height", edges="left to right", across=20, foot=50, wall=30, x=0, y=y),
    ]
    angles = "pose made_up { stand0.rise = square stand1.rise = square }"
    _, faults = told(HEAD + "".join(lines) + angles + "}\n")
    assert [float(each.missing or 0) for each in faults] == found
