"""Pictures of scoring and folding: how the piece lies, and which way each fold goes."""

import numpy
import pytest

from pastedown.outputs.pictures.arrows import arrows_of
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.pictures.view import OBLIQUE, TAIL_TO_THE_LEFT
from test_examples import plan_of


def scene_of(name: str, title: str) -> Scene:
    plan = plan_of(name)
    (number,) = (step.number for step in plan.steps if step.title == (title,))
    return step_pictures(plan).scenes[number]


def test_the_edge_at_the_left_stop_lies_on_the_left() -> None:
    """What is scored from tail to head alone has its tail there; what the text says and what is drawn are one."""
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    told = 0
    for step in plan.steps:
        if step.kind == "score":
            view = scenes[step.number].view
            is_tail = "its tail against the left stop" in "".join(map(str, step.text))
            assert view is (TAIL_TO_THE_LEFT if is_tail else OBLIQUE), step.title
            assert ("its tail to the left" in scenes[step.number].notes[0]) is is_tail
            told += is_tail
    assert told == 5
    for corner, x in (((0.0, 0.0, 0.0), 0.0), ((0.0, 9.0, 0.0), 9.0)):
        assert TAIL_TO_THE_LEFT.seen(corner)[0] == x
    towards = numpy.array(TAIL_TO_THE_LEFT.towards)
    assert TAIL_TO_THE_LEFT.seen(tuple(towards))[:2] == pytest.approx((0.0, 0.0)), "what goes to the eye stays"
    assert TAIL_TO_THE_LEFT.seen(tuple(towards))[2] > 0


@pytest.mark.parametrize(("title", "arrows"), [("Fold case back tape", 2), ("Fold page rear sheet (page 2)", 1)])
def test_each_fold_has_an_arrow_of_its_own_that_goes_down_beside_the_sheet(title: str, arrows: int) -> None:
    scene = scene_of("seed_diary", title)
    assert len(scene.moves) == arrows
    for way, arrow in zip(scene.moves, arrows_of(scene, 0.4), strict=True):
        assert way[-1][2] < way[0][2] - 10, "a mountain goes down"
        assert not any(stretch.behind for stretch in arrow.stretches)
        assert arrow.tip[1] < arrow.stretches[0].spots[0][1], "and is drawn so"


def test_of_a_wrap_the_far_flap_goes_down_behind_it() -> None:
    """Its arrow begins in sight beyond the far edge, and ends dashed below the sheet; the other three are seen."""
    scene = scene_of("orchard_year", "Fold plate wrap")
    arrows = arrows_of(scene, 0.9)
    assert [arrow.is_behind for arrow in arrows] == [False, False, False, True]
    seen, behind = arrows[3].stretches
    assert (seen.behind, behind.behind) == (False, True)
    assert seen.spots[-1] == behind.spots[0]
    (core,) = (plate for plate in scene.plates if plate.number == (1, 1))
    far = max(scene.view.seen(corner)[1] for corner in core.corners())
    assert behind.spots[0][1] == pytest.approx(far, abs=2.0), "where it passes the edge"


def test_of_two_folds_one_after_the_other_each_is_shown() -> None:
    """The long sheet of a page and the flap at its end: the flap's arrow is as short as the flap."""
    scene = scene_of("orchard_year", "Fold page long sheet")
    lengths = sorted(float(numpy.linalg.norm(numpy.subtract(way[0], way[-1]))) for way in scene.moves)
    assert len(lengths) == 2
    assert lengths[0] < 25 < lengths[1]
