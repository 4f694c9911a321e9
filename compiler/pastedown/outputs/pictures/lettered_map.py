"""A map of thickness of a part with so many zones that they are told by letters: a letter for each thickness, in every
zone that is large enough for it, and the letters below the map, the thickest first.

Lines are drawn where the thickness changes. A thickness of which no zone is large enough is told with the place of its
largest zone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from string import ascii_uppercase

from pastedown.outputs.in_words import measure
from pastedown.outputs.pictures.lettering import ROW, SIZE
from pastedown.outputs.pictures.map_outline import outlines, rest
from pastedown.outputs.pictures.map_sheet import (
    KINDS,
    WHOLE,
    MapSheet,
    area_of,
    begun,
    ended,
    notes_below,
)
from pastedown.outputs.pictures.strokes import RIM, straight
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import ASCENT, shortened, width_of
from pastedown.outputs.template.wrap import lines_of
from pastedown.outputs.two_systems import TwoSystems, told_in_two_systems
from pastedown.plan.ledger import ThickPartTold, ThickPlace
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler

# In millimetres on the sheet, around a letter, and the sizes in which letters are tried, the largest first. Choices.
_AROUND = 0.3
_SIZES = (SIZE, 2.8, 2.2)
SMALL_ZONES = "What is smaller than a letter has none; of a thickness without a letter its largest place is told."


def lettered_map(part: ThickPartTold, ruler: Ruler, *, headed: bool = True) -> tuple[Sheet, list[TwoSystems]]:
    """The map of a part with many zones, and what its letters stand for, which a `headed` map tells by itself."""
    zones = [area_of(place) for place in part.zones]
    begin = begun(part, zones, WHOLE, headed)
    at, drawing = begin.at, list[Stroke | Patch | Words](begin.words)
    thicknesses = sorted({place.thickness for place in part.zones}, reverse=True)
    letters = {thickness: _letter(number) for number, thickness in enumerate(thicknesses)}
    drawing += _changes(at, part.zones)
    drawing += outlines(at, zones)
    written = list(_written(at, part.zones, letters))
    drawing += [words for _, words in written]
    seen = {thickness for thickness, _ in written}
    told = [
        told_in_two_systems(partial(_told, letters[thickness], thickness, None if thickness in seen else part), ruler)
        for thickness in thicknesses
    ]
    bottom = at.bottom
    if headed:
        bottom += 2.0
        for row in (row for each in told for row in lines_of(each.text, SIZE, WHOLE)):
            bottom += ROW
            drawing.append(Words(shortened(row, SIZE, WHOLE), RIM, bottom, SIZE))
        bottom += 2.0
    below = f"{notes_below(part, measure(part.blank, ruler), measure(part.loaded, ruler))} {SMALL_ZONES}"
    return ended(begin, drawing, bottom, below, KINDS), told


def _told(letter: str, thickness: Length, part: ThickPartTold | None, ruler: Ruler) -> str:
    """What a letter stands for; with the largest place of this thickness in a part, where none has the letter."""
    where = ""
    if part is not None:
        where = _where(max((each for each in part.zones if each.thickness == thickness), key=_size), ruler)
    return f"{letter}: {measure(thickness, ruler)}{where}"


def _letter(number: int) -> str:
    """A to Z, then A2 to Z2 and so on."""
    turn, place = divmod(number, len(ascii_uppercase))
    return ascii_uppercase[place] + (str(turn + 1) if turn else "")


def _size(place: ThickPlace) -> tuple[float, float, float]:
    left, right, tail, head = (float(one.millimetres) for one in (place.left, place.right, place.tail, place.head))
    return (right - left) * (head - tail), -left, -tail


def _where(place: ThickPlace, ruler: Ruler) -> str:
    left, right, tail, head = (measure(each, ruler) for each in (place.left, place.right, place.tail, place.head))
    return f", from {left} to {right} from the left, {tail} to {head} from the tail"


def _written(
    at: MapSheet, zones: Sequence[ThickPlace], letters: dict[Length, str]
) -> Iterator[tuple[Length, Words]]:
    """A letter in the middle of every zone that has room for it, as large as there is room."""
    for place in zones:
        area = area_of(place)
        letter = letters[place.thickness]
        (left, low), (right, high) = at.spot(area.left, area.tail), at.spot(area.right, area.head)
        for size in _SIZES:
            wide, tall = width_of(letter, size) + 2 * _AROUND, size * ASCENT + 2 * _AROUND
            if right - left >= wide and low - high >= tall:
                yield place.thickness, Words(letter, (left + right) / 2, (low + high) / 2 + size * 0.36, size, "middle")
                break


def _changes(at: MapSheet, zones: Sequence[ThickPlace]) -> Iterator[Stroke]:
    """The sides of zones, but where the next one is as thick."""
    areas = [(area_of(place), place.thickness) for place in zones]
    for area, thickness in areas:
        for upright, place, onward in (
            (True, area.left, False), (True, area.right, True), (False, area.tail, False), (False, area.head, True),
        ):  # fmt: skip
            start, end = (area.tail, area.head) if upright else (area.left, area.right)
            same: list[tuple[float, float]] = []
            other: list[tuple[float, float]] = []
            for beside, thick in areas:
                low, high = (beside.left, beside.right) if upright else (beside.tail, beside.head)
                if (low if onward else high) == place:
                    reach = (beside.tail, beside.head) if upright else (beside.left, beside.right)
                    (same if thick == thickness else other).append(reach)
            # A line between two zones is drawn once, by the one before it.
            for one, two in rest(start, end, same if onward else [*same, *other]):
                spots = ((place, one), (place, two)) if upright else ((one, place), (two, place))
                yield straight("zone", *(at.spot(*spot) for spot in spots))
