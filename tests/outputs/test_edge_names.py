"""The names of the edges of a flat piece, and its grain, on the pictures of cutting and scoring."""

import numpy
import pytest

from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.plan.plan import CutPiece, Plan
from test_examples import plan_of


def cut_piece(plan: Plan, title: str) -> tuple[int, CutPiece]:
    (step,) = (step for step in plan.steps if step.title == (title,))
    return step.number, next(piece for piece in plan.pieces if piece.id == step.pieces[0])


def place(plan: Plan, number: int, text: str) -> tuple[float, float]:
    sheet = step_pictures(plan).of(number)
    assert sheet is not None
    (words,) = (words for words in sheet.words if words.text == text)
    return words.x, words.y


@pytest.mark.parametrize(
    ("title", "around"),
    [
        ("Cut page rear sheet (page 2)", ("head", "spine", "tail", "fore edge")),
        ("Score page rear sheet (page 2)", ("fore edge", "head", "spine", "tail")),
    ],
)
def test_each_edge_has_its_name_on_its_side(title: str, around: tuple[str, str, str, str]) -> None:
    """Above, to the right, below, to the left. For scoring its tail is on the left, as the text says."""
    plan = plan_of("seed_diary")
    number, _ = cut_piece(plan, title)
    above, right, below, left = (place(plan, number, text) for text in around)
    assert above[1] < min(right[1], left[1]) <= max(right[1], left[1]) < below[1]
    assert left[0] < min(above[0], below[0]) <= max(above[0], below[0]) < right[0]


@pytest.mark.parametrize("name", ["seed_diary", "orchard_year"])
def test_the_grain_is_drawn_as_it_runs_and_on_the_piece(name: str) -> None:
    plan = plan_of(name)
    scenes = step_pictures(plan).scenes
    drawn = 0
    for step in plan.steps:
        if step.kind not in ("cut", "score") or not step.pieces:
            continue
        piece = next(piece for piece in plan.pieces if piece.id == step.pieces[0])
        scene = scenes[step.number]
        assert bool(scene.grain) == (piece.grain_as_cut != "any"), step.title
        if scene.grain:
            start, end = map(numpy.array, scene.grain)
            way = scene.plates[0].frame
            along = way.y if piece.grain_as_cut == "height" else way.x
            assert abs((end - start) @ numpy.array(along)) == pytest.approx(numpy.linalg.norm(end - start))
            drawn += 1
    assert drawn > 5
