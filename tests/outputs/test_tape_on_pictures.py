"""Where tape is laid before a joint is made, as the pictures show it."""

import numpy
import pytest

from pastedown.outputs.pictures.line_art import visible_lines
from pastedown.outputs.pictures.scene import STICKY
from pastedown.outputs.pictures.step_pictures import step_pictures
from test_examples import plan_of


@pytest.mark.parametrize("name", ["seed_diary", "orchard_year"])
def test_wherever_strips_are_laid_the_picture_shows_the_place_or_says_that_it_is_turned_away(name: str) -> None:
    plan = plan_of(name)
    pictures = step_pictures(plan)
    shown = away = 0
    for step in plan.steps:
        if step.kind not in ("join", "close") or step.number not in pictures.scenes:
            continue
        scene = pictures.scenes[step.number]
        laid = " of sticky" in "".join(str(part) for part in step.text)
        told = "The sticky lies on a side that is not seen here." in scene.notes
        assert (bool(scene.sticky) or told) is laid, step.title
        assert ((STICKY, "sticky") in scene.names) is bool(scene.sticky)
        if scene.sticky:
            sheet = pictures.of(step.number)
            assert sheet is not None
            assert any(stroke.part == "sticky" for stroke in sheet.strokes), step.title
            assert any(words.text == "sticky" for words in sheet.words)
        shown, away = shown + bool(scene.sticky), away + told
    assert shown and away


def test_the_place_is_as_large_as_the_strip_is_long_and_hatched_all_over() -> None:
    """The tail flap of a page, 5 1/2 in by 1/2 in, of which the strip has the length."""
    plan = plan_of("seed_diary")
    (number,) = (step.number for step in plan.steps if step.title == ("Join page rear sheet to page front sheet",))
    scene = step_pictures(plan).scenes[number]
    (outline,) = scene.sticky
    corners = numpy.array(outline)
    sides = sorted(numpy.linalg.norm(corners[:2] - corners[1:3], axis=1))
    assert sides == pytest.approx([12.7, 139.7])
    seen = numpy.array([scene.view.seen(corner)[:2] for corner in outline])
    chains = [chain for chain in visible_lines(scene, 0.5) if chain.kind == "sticky"]
    spots = numpy.array([spot for chain in chains for spot in chain.spots])
    assert len(chains) > 20
    for at in (0, 1):
        low, high = seen[:, at].min(), seen[:, at].max()
        assert spots[:, at].min() >= low - 0.01 and spots[:, at].max() <= high + 0.01
        assert spots[:, at].max() - spots[:, at].min() > 0.9 * (high - low)
