"""Writing on a drawing that can be read in either system of units."""

from collections.abc import Iterator
from itertools import zip_longest

from pastedown.outputs.plain_text import NO_BREAK_SPACE
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.wrap import lines_of
from pastedown.outputs.two_systems import TwoSystems


def words_of(told: TwoSystems, x: float, y: float, size: float, anchor: str = "start", angle: float = 0.0) -> Words:
    """A line of writing, placed as `Words` are; with its units to switch where there is anything to switch."""
    units = (told.inches, told.metric) if told.differ else ("", "")
    return Words(told.text, x, y, size, anchor, angle, *units)


def lines_in_two_systems(told: TwoSystems, size: float, room: float) -> Iterator[TwoSystems]:
    """The text in lines that fit, each system broken by itself; one that takes fewer lines ends in empty ones."""
    lines = (lines_of(text, size, room) for text in told.each)
    for text, inches, metric in zip_longest(*lines, fillvalue=NO_BREAK_SPACE):
        yield TwoSystems(text, inches, metric)
