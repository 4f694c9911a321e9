"""Designs as plates in space: against matrices that know nothing of the compiler, and against the exact places."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.drawn_pose import Plate, angles_between, degrees_of, plates_at, plates_in
from geometry.rigid_oracle import Numbers, Strip, moved, places
from pastedown.compile import compile_design
from pastedown.geometry.in_pose import InPose, angles_in
from pastedown.geometry.model import Model
from reference.through_the_compiler import made

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
FILES = {path.name: path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.album"))}
CALIPER = 0.5
# The panel that stays, wider than any other.
WIDE = 100.0
kinds = st.sampled_from(["mountain", "valley"])


def model_of(body: str) -> Model:
    model = made(body).model
    assert model is not None
    return model


@st.composite
def runs(draw: st.DrawFn, degrees: st.SearchStrategy[float]) -> tuple[list[Strip], int]:
    """A run of panels, some of which bend, and the number of the widest."""
    count = draw(st.integers(1, 5))
    base = draw(st.integers(0, count - 1))
    found: list[Strip] = []
    for number in range(count):
        last = found[-1].turns if found else True
        bends = number not in (0, base, count - 1) and not last and draw(st.booleans())
        wide = WIDE if number == base else float(draw(st.integers(3, 40)))
        found.append(Strip(wide, bends, draw(kinds), draw(degrees)))
    return found, base


def written(edges: str, letter: str, strips: list[Strip]) -> tuple[str, str]:
    """A run, and what a pose says of it."""
    lines, angles = [], []
    for number, strip in enumerate(strips):
        bends = f", bends: {strip.kind}" if strip.turns else ""
        lines.append(f"panel {letter}{number}: {strip.wide:.0f} mm{bends}")
        if strip.turns:
            angles.append(f"sheet.{letter}{number} = {strip.degrees:.0f} deg")
        elif number + 1 < len(strips) and not strips[number + 1].turns:
            lines.append(f"fold {letter}{number}_fold: {strip.kind}")
            angles.append(f"sheet.{letter}{number}_fold = {strip.degrees:.0f} deg")
    return f"run {edges} {{ {' '.join(lines)} }}", " ".join(angles)


def sheet_of(across: list[Strip], upward: list[Strip]) -> str:
    run, angles = written("left to right", "c", across)
    other, more = written("tail to head", "r", upward)
    return (
        f"card = stock(kind: card, sheet: 900 mm x 900 mm, caliper: {CALIPER} mm, grain: none)\n"
        f"piece sheet from card, loose: yes {{\n  {run}\n  {other}\n}}\n"
        f"pose drawn {{ {angles} {more} }}"
    )


def same(found: tuple[tuple[float, float, float], ...], wanted: Numbers) -> bool:
    """Whether two outlines have the same corners, wherever they begin."""
    apart = np.linalg.norm(np.array(found)[:, None, :] - wanted[None, :, :], axis=2)
    return len(found) == len(wanted) and bool((apart.min(axis=0) < 1e-6).all() and (apart.min(axis=1) < 1e-6).all())


@given(st.data())
@settings(deadline=None)
def test_panels_lie_where_matrices_put_them(data: st.DataObject) -> None:
    angles = st.one_of(st.sampled_from([0.0, 90.0, 180.0]), st.integers(0, 180).map(float))
    (across, column), (upward, row) = data.draw(runs(angles)), data.draw(runs(angles))
    model = model_of(sheet_of(across, upward))
    found = {plate.panels: plate for plate in plates_in(model, model.poses[0] if model.poses else None)}
    assert len(found) == len(across) * len(upward)
    x, y = (np.cumsum([0.0, *(strip.wide for strip in strips)]) for strips in (across, upward))
    for i, place in enumerate(places(across, column, CALIPER, "width")):
        for j, inner in enumerate(places(upward, row, CALIPER, "height")):
            plate = found[f"c{i}", f"r{j}"]
            flat = np.array([[x[i], y[j], 0], [x[i + 1], y[j], 0], [x[i + 1], y[j + 1], 0], [x[i], y[j + 1], 0]])
            assert same(plate.outline, moved(place @ inner, flat))
            assert same(plate.back, moved(place @ inner, flat - [0, 0, CALIPER]))
            assert anticlockwise(plate)


def anticlockwise(plate: Plate) -> bool:
    """Whether the outline goes round what looks out of the face, and that is one long."""
    corners = np.array(plate.outline)
    area = np.cross(corners - corners[0], np.roll(corners, -1, axis=0) - corners[0]).sum(axis=0)
    normal = np.array(plate.out_of_face)
    return bool(np.isclose(np.linalg.norm(normal), 1) and np.isclose(area @ normal, np.linalg.norm(area)))


JOINED = """
  card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.5 mm, grain: none)
  film = stock(kind: tape, roll_width: 5 mm, caliper: 0.25 mm)
  piece under from card, height: 90 mm, left: west, right: east {{
    run west to east {{ panel near: 60 mm   fold rise: {kind}   panel far: 40 mm }}
  }}
  piece over from card, height: 20 mm, left: west, right: east {{
    run east to west {{ panel foot: 10 mm   fold hinge: {other}   panel flag: 25 mm }}
  }}
  join on: over.foot.back to under.far.{side}, by: film {{
    align over.{edge} to under.rise, inside: 5 mm   align over.tail to under.tail, inside: 30 mm
  }}
  pose made_up {{ under.rise = square }}
  pose drawn {{ under.rise = {degrees} deg   over.hinge = {more} deg }}
"""


@given(kinds, kinds, st.sampled_from(["face", "back"]), st.integers(0, 180), st.integers(0, 180))
@settings(deadline=None)
def test_what_is_stuck_on_goes_along(kind: str, other: str, side: str, degrees: int, more: int) -> None:
    """The flag stands on the far panel, 5 mm beyond its fold, and keeps its place there at every angle."""
    edge = "east" if side == "back" else "hinge"
    model = model_of(JOINED.format(kind=kind, other=other, side=side, edge=edge, degrees=degrees, more=more))
    found = {(plate.piece, plate.panels[0]): plate for plate in plates_in(model, model.poses[0])}
    far = places([Strip(60, False, kind, degrees), Strip(40, False, kind, 0)], 0, 0.5, "width")[1]
    if side == "face":
        # Its back on their face: upright, from 65 mm on, raised by the film and its own caliper.
        foot = far @ shifted(65 - 25, 30, 0.25 + 0.5)
    else:
        # On their back it looks the other way: left is right, and the face lies below by both calipers and the film.
        foot = far @ shifted(65 + 35, 30, -(0.5 + 0.25 + 0.5)) @ np.diag([-1.0, 1.0, -1.0, 1.0])
    strips = [Strip(25, False, other, more), Strip(10, False, other, 0)]
    flag = places(strips, 1, 0.5, "width")[0]
    assert same(found["over", "foot"].outline, moved(foot, corners(25, 35)))
    assert same(found["over", "flag"].outline, moved(foot @ flag, corners(0, 25)))
    assert {plate.root for plate in found.values()} == {"under"}


def shifted(x: float, y: float, z: float) -> Numbers:
    matrix = np.eye(4)
    matrix[:3, 3] = (x, y, z)
    return matrix


def corners(left: float, right: float) -> Numbers:
    return np.array([[left, 0, 0], [right, 0, 0], [right, 20, 0], [left, 20, 0]], dtype=float)


@cache
def models(name: str) -> list[Model]:
    designs = compile_design(name, FILES[name], FILES.get).designs
    return [design.model for design in designs if design.model is not None]


@pytest.mark.parametrize("name", FILES)
def test_drawn_places_are_those_that_are_judged(name: str) -> None:
    """In floating point, of every piece of the shipped albums in every pose."""
    for model in models(name):
        made_up = InPose(model)
        for pose in (None, *model.poses):
            drawn: dict[tuple[str, tuple[str, str]], list[Plate]] = {}
            for plate in plates_in(model, pose):
                drawn.setdefault((plate.piece, plate.panels), []).append(plate)
            judged = made_up if pose is None else InPose(model, pose, made_up)
            for piece in model.pieces:
                placed = judged.place(piece.path) if judged.is_about(piece.part) else None
                for one in placed.folded.fields if placed is not None else ():
                    low, high = (np.array([float(part) for part in corner]) for corner in one.corners())
                    low, high = np.minimum(low, high), np.maximum(low, high)
                    # Corners that are cut off leave less of a field.
                    assert any(
                        (np.array(plate.outline) >= low - 1e-6).all() and (np.array(plate.outline) <= high + 1e-6).all()
                        for plate in drawn[piece.path, one.panels]
                    )
                assert placed is not None or not any(path == piece.path for path, _ in drawn)


@pytest.mark.parametrize("name", ["harbour_walk.album", "first_snow.album", "market_day.album"])
def test_nothing_stretches_on_the_way_between_two_poses(name: str) -> None:
    (model,) = models(name)
    flat = {(plate.piece, plate.panels): plate for plate in plates_in(model)}
    closed = next(pose for pose in model.poses if pose.path == "closed")
    # A joint under them divides these.
    divided = {crease.on.faces[0][0] for crease in model.creases if crease.follows is not None}
    swung = set()
    for share in (Fraction(1, 7), Fraction(1, 2), Fraction(9, 10)):
        for plate in plates_at(model, angles_between(model, None, closed, share)):
            before = flat[plate.piece, plate.panels]
            if plate.piece in divided:
                assert area(plate.outline) <= area(before.outline) + 1e-6
            else:
                assert np.allclose(sides(before), sides(plate), atol=1e-6)
            assert anticlockwise(plate)
            if max(map(abs, plate.out_of_face)) < 0.99:
                swung.add(plate.piece.split(".")[-1])
    assert {"front_cover", "back_cover", "strip"} <= swung


def sides(plate: Plate) -> Numbers:
    around = np.array(plate.outline)
    lengths: Numbers = np.sort(np.linalg.norm(around - np.roll(around, -1, axis=0), axis=1))
    return lengths


def test_both_ends_of_the_way_are_the_poses_themselves() -> None:
    (model,) = models("harbour_walk.album")
    closed = next(pose for pose in model.poses if pose.path == "closed")
    assert list(plates_at(model, angles_between(model, None, closed, Fraction(0)))) == list(plates_in(model))
    assert list(plates_at(model, angles_between(model, None, closed, Fraction(1)))) == list(plates_in(model, closed))
    half = angles_between(model, None, closed, Fraction(1, 2))
    turned = {key for key in half if angles_in(model, closed).get(key) != model.made_up.get(key)}
    assert turned and all(degrees_of(half[key]) == 45 for key in turned)


def test_the_pose_of_a_part_shows_that_part() -> None:
    (model,) = models("harbour_walk.album")
    pose = next(pose for pose in model.poses if pose.path == "case.closed")
    shown = {plate.piece for plate in plates_in(model, pose)}
    assert shown and all(path.startswith("case.") for path in shown)


def test_windows_and_corners_are_cut_off_at_the_folds() -> None:
    model = model_of(
        """
        card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.5 mm, grain: none)
        piece mat from card, height: 60 mm, left: west, right: east, loose: yes {
          run west to east { panel near: 50 mm   fold turn: valley   panel far: 30 mm }
          opening = window(height: 20 mm, width: 40 mm, from_left: 20 mm, from_tail: 10 mm)
          head_west = mitre(10 mm)
        }
        pose shut_over { mat.turn = shut }
        """
    )
    near, far = plates_in(model, model.poses[0])
    assert [area(plate.outline) for plate in (near, far)] == pytest.approx([50 * 60 - 50, 30 * 60])
    assert [[area(window) for window in plate.windows] for plate in (near, far)] == [[600], [200]]


def area(outline: tuple[tuple[float, float, float], ...]) -> float:
    around = np.array(outline)
    return float(np.linalg.norm(np.cross(around - around[0], np.roll(around, -1, axis=0) - around[0]).sum(axis=0)) / 2)
