"""The build steps: numbered, in the order in which they can be done."""

from pastedown.outputs.in_words import counted, measure, measure_on_ruler, prose
from pastedown.outputs.plain_text import heading, text_file, wrapped
from pastedown.plan.plan import BuildStep, Plan, Reading
from pastedown.quantity.ruler import Ruler


def make(plan: Plan) -> dict[str, bytes]:
    """steps.txt"""
    lines = heading(f"Steps: {plan.title}")
    doc = wrapped(prose(plan.doc, plan.ruler))
    if doc:
        lines += ["", *doc]
    lines += ["", *wrapped(f"{counted(len(plan.steps), 'step')}.")]
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
    """The nominal reading, between which marks of the ruler it falls, and the band: as stated, and by the errors of the
    hand."""
    on_ruler = measure_on_ruler(reading.nominal, ruler)
    least, most = reading.least, reading.most
    band = ""
    if least is not None and most is not None:
        band = f" It may read from {measure(least, ruler)} to {measure(most, ruler)}."
    elif least is not None:
        band = f" It may not read less than {measure(least, ruler)}."
    elif most is not None:
        band = f" It may not read more than {measure(most, ruler)}."
    give = reading.give
    if give is not None and band:
        band += f" The errors of the hand come to {measure(give, ruler)} either way."
    elif give is not None:
        low, high = measure(reading.nominal - give, ruler), measure(reading.nominal + give, ruler)
        band = f" By the errors of the hand it may read from {low} to {high}."
    return f"The ruler should read {on_ruler}.{band}"
