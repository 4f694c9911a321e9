"""Captions for who films or speaks the steps: lines of at most 42 letters, two at a time, with figures and in words."""

import re
from collections.abc import Callable, Iterator

from pastedown.outputs.in_words import measure, measure_on_ruler, sentence
from pastedown.outputs.plain_text import NO_BREAK_SPACE, text_file, wrapped
from pastedown.outputs.reading_words import Read
from pastedown.plan.plan import BuildStep, Plan, PlanText, StepAction
from pastedown.quantity.dimension import ANGLE, LENGTH, NUMBER
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.spoken import spoken
from pastedown.quantity.write import mark_beside

# Common practice of subtitling, no source.
LONGEST_LINE = 42
MOST_LINES = 2

_BETWEEN_SENTENCES = re.compile(r"(?<=[.!?]) +(?=[^a-z])")
_SAID = (LENGTH, ANGLE, NUMBER)

# What is longer than that as it is said is not held on one line as a whole: a stop or a bracket may follow it.
_LONGEST_HELD = LONGEST_LINE - 4

Write = Callable[[Quantity | Read, Ruler], str]

_Words = PlanText | tuple[str | Read, ...]


def make(plan: Plan) -> dict[str, bytes]:
    """captions.txt with measures in figures, and captions-spoken.txt with measures in words."""
    return {
        "captions.txt": text_file(_captions(plan, in_figures)),
        "captions-spoken.txt": text_file(_captions(plan, in_spoken_words)),
    }


def in_figures(value: Quantity | Read, ruler: Ruler) -> str:
    """The value as it is written; number, fraction and unit stay on one line."""
    return measure_on_ruler(value.value, ruler) if isinstance(value, Read) else measure(value, ruler)


def in_spoken_words(value: Quantity | Read, ruler: Ruler) -> str:
    """The value as it is said: "two and one eighth inches", on one line where that is long enough. What has no words of
    its own stays in figures."""
    if isinstance(value, Read):
        mark = mark_beside(value.value, ruler)
        said_in_its_system = ruler.in_inches == (ruler.show is not Show.METRIC)
        if mark is not None and said_in_its_system:
            return f"a little {'under' if mark > value.value else 'over'} {in_spoken_words(mark, ruler)}"
        return in_spoken_words(value.value, ruler)
    if value.dimension not in _SAID:
        return measure(value, ruler)
    said = spoken(value, ruler)
    if len(said) <= _LONGEST_HELD:
        return said.replace(" ", NO_BREAK_SPACE)
    # The unit never begins a line.
    return NO_BREAK_SPACE.join(said.rsplit(" ", 1))


def _captions(plan: Plan, write: Write) -> Iterator[str]:
    yield from wrapped(plan.title, width=LONGEST_LINE)
    for step in plan.steps:
        yield from ("", f"Step {step.number} of {len(plan.steps)}")
        for text in _sentences(step, plan.ruler, write):
            lines = wrapped(text, width=LONGEST_LINE)
            for first in range(0, len(lines), MOST_LINES):
                yield from ("", *lines[first : first + MOST_LINES])


def _sentences(step: BuildStep, ruler: Ruler, write: Write) -> Iterator[str]:
    done: Iterator[_Words] = (text for action in step.actions for text in (action.text, *_reading(action)))
    texts: tuple[_Words, ...] = (step.title, *step.cautions, step.text, *_reading(step), *done)
    for text in texts:
        whole = "".join(part if isinstance(part, str) else write(part, ruler) for part in text).strip()
        yield from filter(None, _BETWEEN_SENTENCES.split(sentence(whole) if whole else ""))


def _reading(step: BuildStep | StepAction) -> tuple[_Words, ...]:
    return () if step.reading is None else (("The ruler should read ", Read(step.reading.nominal), "."),)
