"""A picture of every build step as SVG."""

from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.plan.plan import Plan

FOLDER = "pictures"


def make(plan: Plan) -> dict[str, bytes]:
    """pictures/step-01.svg and so on; steps with nothing to show are left out."""
    pictures = step_pictures(plan)
    digits = max(2, len(str(len(plan.steps))))
    drawn = ((step.number, pictures.svg(step.number)) for step in plan.steps)
    return {f"{FOLDER}/step-{number:0{digits}}.svg": svg.encode() for number, svg in drawn if svg is not None}
