"""Places that are worked on are seen, arrows stand clear of other lines, and the words say which side is up."""

from itertools import pairwise

import numpy
import pytest

from outputs.test_pictures import Rays, spots_of
from pastedown.outputs.pictures.clearance import cleared
from pastedown.outputs.pictures.frame import dot
from pastedown.outputs.pictures.line_art import Chain, distance_to_line
from pastedown.outputs.pictures.sight import view_of
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.pictures.strokes import rounded
from pastedown.outputs.pictures.view import OBLIQUE, OBLIQUE_FROM_LEFT
from test_examples import plan_of


@pytest.mark.parametrize("name", ["harbour_walk", "orchard_year_harvest"])
def test_the_place_of_what_is_joined_is_seen_past_all_that_is_there_already(name: str) -> None:
    """By rays from the middle of each place to the eye, but for places on two sides, over which something slides."""
    plan = plan_of(name)
    scenes = step_pictures(plan).scenes
    seen = {}
    for step in plan.steps:
        scene = scenes.get(step.number)
        if step.kind != "join" or scene is None or not scene.seats:
            continue
        (seat,), (way, *_) = scene.seats, scene.moves
        first, second, _, last = map(numpy.array, seat)
        square = numpy.cross(second - first, last - first)
        along = numpy.array(way[1]) - numpy.array(way[0])
        if abs(square @ along) < 0.5 * numpy.linalg.norm(square) * numpy.linalg.norm(along):
            continue
        old = [plate for number, plate in enumerate(scene.plates) if number not in scene.new]
        rays = Rays(old, scene.view)
        places = [first + (second - first) * a + (last - first) * b for a in (0.2, 0.5, 0.8) for b in (0.2, 0.5, 0.8)]
        above = -along / numpy.linalg.norm(along) * 0.2
        told = [rays.is_hidden(place + above) for place in places]
        seen[step.number] = told.count(False) / len(told)
    assert len(seen) > 7
    assert min(seen.values()) > 0.4, seen


def test_what_stands_in_the_way_is_left_out_and_said_so() -> None:
    plan = plan_of("orchard_year_harvest")
    (step,) = (step for step in plan.steps if step.title == ("Join flap to page long sheet",))
    scene = step_pictures(plan).scenes[step.number]
    assert scene.view is OBLIQUE_FROM_LEFT
    assert scene.notes[:2] == ("Seen from the left.", "3\N{NO-BREAK SPACE}pieces in front of it are left out.")
    drawn = {plate.path for plate in scene.plates}
    assert {"page[1].long_sheet", "page[5].long_sheet", "case.front_cover"} <= drawn
    assert not drawn & {f"page[{k}].long_sheet" for k in (2, 3, 4)}


def test_the_view_is_kept_unless_a_face_looks_away_from_it() -> None:
    for outward in ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)):
        assert view_of(outward) is OBLIQUE
    assert view_of((-1.0, 0.0, 0.0)) is OBLIQUE_FROM_LEFT
    view = OBLIQUE_FROM_LEFT
    assert view.seen(view.towards)[:2] == pytest.approx((0.0, 0.0)), "towards the eye a point stays where it is"
    assert dot(view.towards, view.nearness) > 0


@pytest.mark.parametrize("name", ["harbour_walk"])
def test_no_hatching_runs_along_or_over_an_arrow(name: str) -> None:
    pictures = step_pictures(plan_of(name))
    looked_at = 0
    for number in pictures.scenes:
        sheet = pictures.of(number)
        assert sheet is not None
        shafts = [pair for one in sheet.strokes if one.part == "arrow" for pair in pairwise(spots_of(one).tolist())]
        for stroke in sheet.strokes:
            if stroke.part not in ("hatch", "edge", "new"):
                continue
            least = 0.9 if stroke.part == "hatch" else 0.5
            ends = spots_of(stroke)
            places = numpy.concatenate([numpy.linspace(one, other, 9) for one, other in pairwise(ends)])
            for start, end in shafts:
                box = numpy.add(numpy.sort([start, end], axis=0), [[-1.0, -1.0], [1.0, 1.0]])
                for spot in places[((places > box[0]) & (places < box[1])).all(axis=1)]:
                    looked_at += 1
                    assert distance_to_line(tuple(spot), tuple(start), tuple(end)) > least, (number, stroke.part)
    assert looked_at > 20


def test_a_line_leaves_off_by_the_same_on_both_sides_of_an_arrow() -> None:
    line = Chain("edge", "leaf", ((-10.0, 0.0), (10.0, 0.0)))
    fold = Chain("valley", "leaf", ((-10.0, 0.0), (10.0, 0.0)))
    upright = [[(0.0, -5.0), (0.0, 5.0)]]
    left, right = cleared([line], upright, 1.0)
    assert left.spots == ((-10.0, 0.0), (pytest.approx(-0.6), 0.0))
    assert right.spots == ((pytest.approx(0.6), 0.0), (10.0, 0.0))
    assert list(cleared([fold], upright, 1.0)) == [fold]
    assert list(cleared([line], [[(0.0, 1.0), (0.0, 5.0)]], 1.0)) == [line], "it ends short of the line"
    narrower, _ = cleared([line], upright, 2.0)
    assert narrower.spots[1][0] == pytest.approx(-0.3), "the room is that of the picture, not of the scene"
    beside, further = cleared([line], [[(-2.0, 0.1), (2.0, 0.1)]], 1.0)
    assert beside.spots[1][0] == pytest.approx(-2.0 - (0.36 - 0.01) ** 0.5)
    assert further.spots[0][0] == pytest.approx(2.0 + (0.36 - 0.01) ** 0.5)


def test_a_way_is_drawn_round_through_the_places_it_was_worked_out_at() -> None:
    quarter = [(numpy.cos(at), numpy.sin(at), at) for at in numpy.linspace(0.0, numpy.pi / 2, 7)]
    curve = rounded(quarter)
    assert curve[0] == quarter[0] and curve[-1] == quarter[-1]
    assert all(min(abs(x - a) + abs(y - b) + abs(z - c) for a, b, c in curve) < 1e-9 for x, y, z in quarter)
    assert all(0.985 < numpy.hypot(x, y) < 1.015 for x, y, _ in curve)
    assert rounded(quarter[:2]) == quarter[:2]


@pytest.mark.parametrize("name", ["seed_diary"])
def test_the_side_that_is_said_to_be_up_is_up(name: str) -> None:
    plan = plan_of(name)
    scenes = step_pictures(plan).scenes
    told = {}
    for step in plan.steps:
        note = next((each for each in scenes[step.number].notes if each.endswith(" is up.")), "") if (
            step.kind in ("join", "close") and step.number in scenes
        ) else ""
        if note:
            told[str(step.title[0])] = note
    assert told["Join case back tape to case spine board"] == "The outside of the case spine board is up."
    assert told["Join case back cover to case back tape"] == (
        "The work is turned over, from side to side: the back of the case back tape is up."
    )
    assert told["Join hinge strip to case spine board"] == "The inside of the case spine board is up."
    assert "Join page to hinge strip" not in told, "what stands has no side up"
    scene = scenes[next(step.number for step in plan.steps if step.title == ("Join hinge strip to case spine board",))]
    assert {plate.frame.z[2] for plate in scene.plates if plate.path == "case.spine_board"} == {-1.0}


@pytest.mark.parametrize("name", ["orchard_year", "seed_diary"])
def test_a_fold_is_drawn_once_and_folds_all_round_are_not_left_out(name: str) -> None:
    """Dashes of two lines, one for each plate beside a fold, would make a whole line of it."""
    plan = plan_of(name)
    pictures = step_pictures(plan)
    folded = 0
    for step in plan.steps:
        sheet = pictures.of(step.number) if step.kind == "fold" else None
        if sheet is None:
            continue
        lines = [
            (stroke.part, one, other)
            for stroke in sheet.strokes
            if stroke.part in ("valley", "mountain")
            for one, other in pairwise(map(tuple, spots_of(stroke).tolist()))
            if one != other
        ]
        folded += len(lines)
        for number, (part, one, other) in enumerate(lines):
            for again, start, end in lines[:number]:
                near = all(distance_to_line(spot, start, end) < 0.3 for spot in (one, other))
                assert part != again or not near, (step.number, one, other)
    assert folded > 15


def test_the_four_folds_of_a_wrap_are_all_drawn() -> None:
    plan = plan_of("orchard_year")
    (number,) = (step.number for step in plan.steps if step.title == ("Fold plate wrap",))
    pictures = step_pictures(plan)
    sheet = pictures.of(number)
    assert sheet is not None
    scene = pictures.scenes[number]
    core = next(plate for plate in scene.plates if plate.number == (1, 1))
    corners = [numpy.array(scene.view.seen(core.frame.point(*spot, 0.0))[:2]) for spot in core.rings[0].spots]
    sides = [float(numpy.linalg.norm(one - other)) for one, other in pairwise([*corners, corners[0]])]
    drawn = [
        float(numpy.linalg.norm(numpy.subtract(one, other)))
        for stroke in sheet.strokes
        if stroke.part == "mountain"
        for one, other in pairwise(spots_of(stroke).tolist())
    ]
    scale = max(drawn) / max(sides)
    for side in sides:
        assert any(abs(length - side * scale) < 0.06 * side for length in drawn), (side, drawn)
    assert {plate.number for plate in scene.plates} == {(1, 1), (0, 1), (2, 1), (1, 0), (1, 2)}, "no corner on two folds"
    assert scene.notes[-1] == "The corners between two folds are left out."
    others = [pictures.scenes[step.number] for step in plan.steps if step.kind == "fold" and step.number != number]
    assert others and all("corners" not in note for each in others for note in each.notes)
