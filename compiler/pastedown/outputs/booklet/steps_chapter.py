"""The steps, each with its cautions first, what to do, what the ruler should read, and its pictures."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Paragraph, StepSection
from pastedown.outputs.booklet.say import said
from pastedown.outputs.booklet.step_picture import StepPictures
from pastedown.outputs.cutting.done_in_steps import steps_done_by_plan
from pastedown.outputs.reading_words import Read, reading_words
from pastedown.outputs.two_systems import TwoSystems, in_two_systems, on_ruler_in_two_systems
from pastedown.plan.plan import BuildStep, Plan, Reading
from pastedown.quantity.ruler import Ruler

_PLAN = 'The chapter "Cutting the sheets"'
_IF_NOT = (
    "If your ruler reads more or less than is told here, stop and measure once more at the other end. Then look the "
    "pieces over against their sizes and score charts and put right what differs; do not cut other pieces to suit. "
    "Where the reading itself says what to do then, do that."
)


def steps_chapter(plan: Plan) -> tuple[Block, ...]:
    """One section a step, and before them what is done already by who has cut the sheets."""
    pictures = StepPictures(plan)
    by_plan = steps_done_by_plan(plan, _PLAN)
    return (
        *((Paragraph((by_plan,)),) if by_plan else ()),
        *(
            StepSection(
                step.number, said(step.title, plan.ruler) or (step.kind,), tuple(_blocks(step, plan, pictures))
            )
            for step in plan.steps
        ),
    )


def _blocks(step: BuildStep, plan: Plan, pictures: StepPictures) -> Iterator[Block]:
    for text in step.cautions:
        yield Paragraph(said(text, plan.ruler), "Caution")
    yield Paragraph(said(step.text, plan.ruler))
    if step.reading is not None:
        yield _reading(step.reading, plan.ruler)
    for action in step.actions:
        yield Paragraph(said(action.text, plan.ruler))
        if action.reading is not None:
            yield _reading(action.reading, plan.ruler)
    for text in step.tips:
        yield Paragraph(said(text, plan.ruler), "Tip")
    if step.readings:
        yield Paragraph((_IF_NOT,), "If it differs")
    drawn = pictures.of(step)
    if drawn is not None:
        yield drawn


def _reading(reading: Reading, ruler: Ruler) -> Paragraph:
    told: list[str | TwoSystems] = []
    for part in reading_words(reading):
        if isinstance(part, Read):
            told.append(on_ruler_in_two_systems(part.value, ruler))
        else:
            told.append(part if isinstance(part, str) else in_two_systems(part, ruler))
    return Paragraph(tuple(told), "Reading")
