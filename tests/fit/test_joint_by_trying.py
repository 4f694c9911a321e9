"""The rule of a joint, found by trying: boards of one thickness on tape outside them that neither stretches nor tears.

The rule is derived: a gap of T sin(angle) up to a right angle, of T (1 - cos(angle)) beyond. So 90 degrees need one
thickness and 180 two. Here the tape is a chain that may turn at any two places, tried on a grid, and the boards are
rectangles seen from the tail; nothing of it comes from the compiler.
"""

from itertools import product
from math import cos, radians, sin

import pytest
from shapely import box
from shapely.affinity import rotate, translate
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry.drawn_pose import Plate, plates_at
from pastedown.compile import compile_design
from pastedown.geometry.model import Model

ANGLES = (30, 60, 90, 120, 150, 180)
LONG = 6.0
STEP = 0.02


def rule(degrees: int) -> float:
    turn = radians(degrees)
    return sin(turn) if degrees <= 90 else 1 - cos(turn)


def closes(gap: float, degrees: int) -> bool:
    """Whether boards one thick and with such a gap swing so far without running into one another, the tape turning in
    any way: `part` of the turn at one place of it, the rest at another."""
    still = box(-LONG, 0, 0, 1)
    for first, length, part in product(*([at / 8 for at in range(9)],) * 3):
        near, middle = gap * first, gap * (1 - first) * length
        turns = (0.0, degrees * part, float(degrees))
        at = [0.0, 0.0]
        for size, turn in zip((near, middle, gap - near - middle), turns, strict=True):
            at[0] += size * cos(radians(turn))
            at[1] += size * sin(radians(turn))
        swung = translate(rotate(box(0, 0, LONG, 1), degrees, origin=(0, 0)), *at)
        # To the other side of the tape it could only come by passing through it.
        if swung.bounds[1] > -1e-9 and still.intersection(swung).area < 1e-9:
            return True
    return False


@pytest.mark.parametrize("degrees", ANGLES)
def test_the_rule_is_what_trying_finds(degrees: int) -> None:
    assert closes(rule(degrees) + STEP, degrees)
    assert not closes(rule(degrees) - STEP, degrees)


BOARD, TAPE = 2.0, 0.25
JOINTED = """edition = 1
album probe {{
  ruler = millimetres to 1/8
  grey = stock(kind: board, sheet: 700 mm x 1000 mm, caliper: 2 mm, grain: marked)
  cloth = stock(kind: tape, roll_width: {width} mm, caliper: 0.25 mm)
  static_adhesive = stock(kind: glue)
  piece still from grey, height: 120 mm, width: 50 mm, grain: height
  piece swung from grey, height: 120 mm, width: 45 mm, grain: height
  piece tape from cloth, height: 120 mm, left: inner, right: outer {{
    run inner to outer {{ panel on_still: 12 mm   panel joint: {gap} mm, bends: mountain   panel on_swung: 12 mm }}
  }}
  join tape_on: tape.on_still.back to still.face {{
    align tape.joint.inner to still.right   align tape.tail to still.tail
  }}
  join swung_on: swung.face to tape.on_swung.back {{
    align swung.left to tape.joint.outer   align swung.tail to tape.tail
  }}
  pose closed {{ tape.joint = {angle} }}
}}
"""


def compiled(gap: float, angle: str) -> tuple[Model, set[str]]:
    text = JOINTED.format(gap=f"{gap:.3f}", width=f"{24 + gap:.3f}", angle=angle)
    found = compile_design("probe.album", text, lambda _: None)
    model = found.designs[0].model
    assert model is not None
    return model, {each.id for each in found.diagnostics} - {"off-marks"}


def from_the_tail(plate: Plate) -> BaseGeometry:
    """A plate as it is seen along the height of the boards."""
    return Polygon([(x, z) for x, _, z in (*plate.outline, *plate.back)]).convex_hull


@pytest.mark.parametrize(("degrees", "more"), [(each, more) for each in ANGLES for more in (STEP, -STEP)])
def test_drawn_boards_run_into_one_another_where_the_rule_says(degrees: int, more: float) -> None:
    model, _ = compiled((rule(degrees) + more) * BOARD, f"{degrees} deg")
    plates = {plate.piece: from_the_tail(plate) for plate in plates_at(model, {**model.poses[0].angles})}
    overlap = plates["still"].intersection(plates["swung"]).area
    assert (overlap > 1e-6) is (more < 0)
    assert plates["swung"].area == pytest.approx(45 * BOARD)


@pytest.mark.parametrize(("angle", "needed"), [("square", 1), ("shut", 2)])
def test_the_verdict_is_that_of_trying(angle: str, needed: int) -> None:
    degrees = {"square": 90, "shut": 180}[angle]
    assert needed == pytest.approx(rule(degrees))
    for gap in (needed - STEP, needed, needed + STEP):
        _, told = compiled(gap * BOARD, angle)
        assert told == (set() if gap >= needed else {"runs-through"}), gap
