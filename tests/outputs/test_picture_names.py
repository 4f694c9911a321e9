"""Names beside pictures: whose they are, and where the lines from them end."""

from pastedown.outputs.pictures.step_pictures import step_pictures
from test_examples import plan_of


def test_a_name_is_that_of_the_one_piece_that_is_drawn() -> None:
    """Of pieces that are cut alike for several uses, and of those for several pages where one is drawn for all."""
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    named = {step.title[0]: [name for _, name in scenes[step.number].names] for step in plan.steps[30:] if step.pieces}
    assert named["Join back liner to case back cover"] == ["back liner", "case back cover"]
    assert named["Join page rear sheet to page front sheet"] == ["page rear sheet", "page front sheet"]
