"""The build steps: numbered, in the order in which they can be done."""

from pastedown.outputs.cutting.done_in_steps import steps_done_by_plan
from pastedown.outputs.in_words import counted, measure, measure_on_ruler, prose
from pastedown.outputs.plain_text import heading, text_file, wrapped
from pastedown.outputs.reading_words import Read, reading_words
from pastedown.plan.plan import BuildStep, Plan, Reading
from pastedown.quantity.ruler import Ruler


def make(plan: Plan) -> dict[str, bytes]:
    """steps.txt"""
    lines = heading(f"Steps: {plan.title}")
    doc = wrapped(prose(plan.doc, plan.ruler))
    if doc:
        lines += ["", *doc]
    by_plan = steps_done_by_plan(plan, "The cutting plan")
    lines += ["", *wrapped(f"{counted(len(plan.steps), 'step')}. {by_plan}".rstrip())]
    for step in plan.steps:
        lines += ["", *_step(step, plan.ruler)]
    return {"steps.txt": text_file(lines)}


def _step(step: BuildStep, ruler: Ruler) -> list[str]:
    number = f"{step.number:>3}. "
    indent = " " * len(number)
    lines = wrapped(prose(step.title, ruler) or step.kind, first=number)
    lines += wrapped(prose(step.text, ruler), first=indent)
    if step.reading is not None:
        lines += wrapped(_reading(step.reading, ruler), first=indent)
    for action in step.actions:
        lines += wrapped(prose(action.text, ruler), first=f"{indent}- ")
        if action.reading is not None:
            lines += wrapped(_reading(action.reading, ruler), first=f"{indent}  ")
    for word, texts in (("Tip", step.tips), ("Caution", step.cautions)):
        for text in texts:
            lines += wrapped(prose(text, ruler), first=f"{indent}{word}: ")
    if step.pieces:
        lines += wrapped(", ".join(step.pieces), first=f"{indent}Pieces: ")
    return lines


def _reading(reading: Reading, ruler: Ruler) -> str:
    told = []
    for part in reading_words(reading):
        if isinstance(part, Read):
            told.append(measure_on_ruler(part.value, ruler))
        else:
            told.append(part if isinstance(part, str) else measure(part, ruler))
    return "".join(told)
