"""The pictures of a plan's build steps, by the number of the step."""

from __future__ import annotations

from collections.abc import Callable

from attrs import define, evolve, field

from pastedown.outputs.in_words import prose
from pastedown.outputs.pictures.joint_scenes import JointScenes
from pastedown.outputs.pictures.latest import kept_for_the_latest
from pastedown.outputs.pictures.loose_scenes import loose_scene
from pastedown.outputs.pictures.picture import picture_of
from pastedown.outputs.pictures.piece_scenes import flat_scene, folded_scene
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.workshop import Workshop, workshop_of
from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import BuildStep, Plan


@define
class StepPictures:
    """All step pictures of one plan. The scenes are worked out together, in order, because each keeps the view of the
    one before it; each is drawn when it is asked for, once."""

    workshop: Workshop
    scenes: dict[int, Scene]
    _drawn: dict[int, Sheet] = field(factory=dict)

    def of(self, number: int) -> Sheet | None:
        """The picture of a step; None where there is nothing to show."""
        if number not in self.scenes:
            return None
        if number not in self._drawn:
            self._drawn[number] = picture_of(self.scenes[number])
        return self._drawn[number]

    def words(self, number: int) -> str:
        """The same in words, for who cannot see it; "" where there is no picture."""
        return self.scenes[number].words if number in self.scenes else ""

    def svg(self, number: int) -> str | None:
        """The picture of a step as one SVG document; None where there is nothing to show."""
        sheet = self.of(number)
        return None if sheet is None else svg_of(sheet)


@kept_for_the_latest
def step_pictures(plan: Plan) -> StepPictures:
    """The pictures of all steps."""
    workshop = workshop_of(plan)
    joints = JointScenes(workshop)

    def flat(step: BuildStep, title: str) -> Scene | None:
        return flat_scene(workshop, step, title)

    def folded(step: BuildStep, title: str) -> Scene | None:
        return folded_scene(workshop, step, title)

    def loose(step: BuildStep, title: str) -> Scene | None:
        return loose_scene(workshop, step, title, joints.turned_over)

    drawers: dict[str, Callable[[BuildStep, str], Scene | None]] = {
        "cut": flat, "score": flat, "fold": folded, "lay": loose, "join": joints.joined, "close": joints.closed,
        "crease": joints.creased, "check": joints.as_it_is, "do": joints.as_it_is,
    }  # fmt: skip
    scenes: dict[int, Scene] = {}
    kinds = {bond.path: bond.kind for bond in plan.bonds}
    for step in plan.steps:
        title = f"Step {step.number}: {prose(step.title, plan.ruler)}"
        scene = drawers[step.kind](step, title) if step.kind in drawers and plan.space.pieces else None
        if scene is None and step.actions:
            # Of work under one heading the first joint is shown, or else the first piece.
            shown = next((path for path in step.refers if path in kinds), "")
            first = evolve(step, refers=(shown,), times=1) if shown else step
            scene = drawers[kinds.get(shown, "cut")](first, title)
        if scene is not None:
            scenes[step.number] = scene
    return StepPictures(workshop, scenes)
