"""Names beside pictures: whose they are, and where the lines from them end.

What lies nearest to the eye where a line ends is found by following the ray through every plate.
"""

import numpy

from outputs.test_pictures import inside
from pastedown.outputs.pictures.frame import dot, minus, plus, times
from pastedown.outputs.pictures.leaders import ends_of_leaders
from pastedown.outputs.pictures.line_art import visible_lines
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.scene import STICKY, Scene
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.pictures.view import Spot
from test_examples import plan_of

SCALE, ACROSS = 0.3, (-200.0, 400.0)


def test_a_name_is_that_of_the_one_piece_that_is_drawn() -> None:
    """Of pieces that are cut alike for several uses, and of those for several pages where one is drawn for all."""
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    named = {step.title[0]: [name for _, name in scenes[step.number].names] for step in plan.steps[30:] if step.pieces}
    assert named["Join back liner to case back cover"] == ["back liner", "case back cover"]
    assert named["Join page rear sheet to page front sheet"] == ["page rear sheet", "page front sheet", "sticky"]


def test_a_line_from_a_name_ends_on_what_is_new_of_its_piece() -> None:
    looked_at = on_new = 0
    for scene in step_pictures(plan_of("seed_diary")).scenes.values():
        ends = ends_of_leaders(scene, visible_lines(scene, SCALE), SCALE, ACROSS)
        new = {id(scene.plates[number]) for number in scene.new}
        assert set(ends.spots) == {path for path, _ in scene.names}
        for path, spot in ends.spots.items():
            if path in scene.creased or path == STICKY:
                continue
            top = nearest(scene, spot)
            assert top.path == path
            if any(plate.path == path and id(plate) in new for plate in scene.plates):
                assert id(top) in new
                on_new += 1
            looked_at += 1
    assert looked_at > on_new > 15


def test_names_stand_on_the_side_from_which_they_are_nearer() -> None:
    plan = plan_of("seed_diary")
    sides = {}
    for step in plan.steps:
        sheet = step_pictures(plan).of(step.number)
        names = [words for words in sheet.words if words.text == "hinge strip"] if sheet is not None else []
        for name in names:
            sides[step.title[0]] = name.anchor
    assert sides["Stick hinge strip and case back cover together"] == "start", "to the right of the picture"
    assert sides["Stick hinge strip and case front cover together"] == "end", "to the left of it"


def test_the_crease_that_is_made_is_heavy_and_named_and_lies_over_the_edge_it_is_made_over() -> None:
    """Two creases follow one joint: the one over the spine lies nearer to the peaks than the one over the cover."""
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    places = {}
    for step in plan.steps:
        if step.kind == "crease":
            lines = visible_lines(scenes[step.number], SCALE)
            (crease,) = [chain for chain in lines if chain.kind == "creased"]
            assert crease.path == step.refers[0]
            ends = ends_of_leaders(scenes[step.number], lines, SCALE, ACROSS)
            assert crease.path in ends.spots
            places[crease.path] = min(crease.spots)[0]
    in_order = ["front_cover_crease", "front_crease", "back_crease", "back_cover_crease"]
    assert sorted(places, key=places.__getitem__) == in_order


def nearest(scene: Scene, spot: Spot) -> Plate:
    """The plate that is seen at a spot of a picture that is drawn obliquely."""
    towards = scene.view.towards
    start = (spot[0], 0.0, spot[1])
    hits = []
    for number, plate in enumerate(scene.plates):
        slant = dot(plate.frame.z, towards)
        for height in (0.0, -plate.thickness) if abs(slant) > 1e-9 else ():
            way = (height - dot(plate.frame.z, minus(start, plate.frame.origin))) / slant
            x, y, _ = plate.frame.coordinates(plus(start, times(towards, way)))
            if inside(plate, numpy.array([x]), numpy.array([y]))[0]:
                hits.append((way, number))
    return scene.plates[max(hits)[1]]
