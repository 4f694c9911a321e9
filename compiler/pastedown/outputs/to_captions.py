"""Captions for who films or speaks the steps: lines of at most 42 letters, two at a time, with figures and in words."""

import re
from collections.abc import Callable, Iterator

from pastedown.outputs.in_words import measure, sentence
from pastedown.outputs.plain_text import NO_BREAK_SPACE, text_file, wrapped
from pastedown.plan.plan import BuildStep, Plan, PlanText, StepAction
from pastedown.quantity.dimension import ANGLE, LENGTH, NUMBER
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.spoken import spoken

# Common practice of subtitling, no source.
LONGEST_LINE = 42
MOST_LINES = 2

_BETWEEN_SENTENCES = re.compile(r"(?<=[.!?]) +(?=[^a-z])")
_SAID = (LENGTH, ANGLE, NUMBER)

Write = Callable[[Quantity, Ruler], str]


def make(plan: Plan) -> dict[str, bytes]:
    """captions.txt with measures in figures, and captions-spoken.txt with measures in words."""
    return {
        "captions.txt": text_file(_captions(plan, measure)),
        "captions-spoken.txt": text_file(_captions(plan, in_spoken_words)),
    }


def in_spoken_words(value: Quantity, ruler: Ruler) -> str:
    """The value as it is said: "two and one eighth inches". What has no words of its own stays in figures."""
    return spoken(value, ruler) if value.dimension in _SAID else measure(value, ruler)


def _captions(plan: Plan, write: Write) -> Iterator[str]:
    yield from wrapped(plan.title, width=LONGEST_LINE)
    for step in plan.steps:
        yield from ("", f"Step {step.number} of {len(plan.steps)}")
        for text in _sentences(step, plan.ruler, write):
            lines = wrapped(text, width=LONGEST_LINE)
            for first in range(0, len(lines), MOST_LINES):
                yield from ("", *lines[first : first + MOST_LINES])


def _sentences(step: BuildStep, ruler: Ruler, write: Write) -> Iterator[str]:
    done = (text for action in step.actions for text in (action.text, *_reading(action)))
    for text in (step.title, *step.cautions, step.text, *_reading(step), *done):
        told = "".join(write(part, ruler) if isinstance(part, Quantity) else part for part in text)
        # Fixed spaces would make lines of long measures far too short.
        whole = told.replace(NO_BREAK_SPACE, " ").strip()
        yield from filter(None, _BETWEEN_SENTENCES.split(sentence(whole) if whole else ""))


def _reading(step: BuildStep | StepAction) -> tuple[PlanText, ...]:
    return () if step.reading is None else (("The ruler should read ", step.reading.nominal, "."),)
