"""Names on the parts of a sheet: in full where there is room, else a letter and a key."""

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from attrs import frozen

from pastedown.outputs.cutting.words import sides
from pastedown.outputs.in_words import measure
from pastedown.outputs.plain_text import NO_BREAK_SPACE
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, width_of
from pastedown.outputs.template.room import Box, Room
from pastedown.outputs.template.switched_words import words_of
from pastedown.outputs.two_systems import TwoSystems, as_written, told_in_two_systems
from pastedown.plan.sheet_parts import SheetPart
from pastedown.quantity.ruler import Ruler

Corners = tuple[float, float, float, float]

_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)
# Sizes of letters with the angle they are written at: the small ones are tried last.
_LARGE = ((3.2, 0.0), (2.6, 0.0), (3.2, 90.0), (2.6, 90.0))
_SMALL = ((2.1, 0.0), (2.1, 90.0))
_Ways = Sequence[tuple[float, float]]
# A name with its size, and a name alone: where the size is told below anyway, a name alone in large letters is read
# more easily than both in small ones.
_SIZES_TOLD_HERE: Sequence[tuple[bool, _Ways]] = ((True, (*_LARGE, *_SMALL)), (False, (*_LARGE, *_SMALL)))
_SIZES_TOLD_BELOW: Sequence[tuple[bool, _Ways]] = ((True, _LARGE), (False, _LARGE), (True, _SMALL), (False, _SMALL))
# What several pieces of one size are called together is divided here.
_OR = " / "
_STEP = 1.3
# From an edge of the part, which is drawn inside it.
_CLEAR = 0.9
_KEYS = "abcdefghijklmnopqrstuvwxyz"


@frozen
class Labels:
    """The labels, and what the letters among them stand for."""

    words: tuple[Words, ...]
    key: tuple[TwoSystems, ...]


def label_parts(
    parts: Sequence[tuple[SheetPart, Corners]],
    ruler: Ruler,
    room: Room,
    written: Room,
    *,
    switch: bool = False,
    sizes_told: bool = True,
) -> Labels:
    """Takes the room it needs, in `written` too. Raw edges have no name; the key tells of parts too small for a letter.
    To be read with a `switch` of units, labels find room in either system. With `sizes_told` the key tells the sizes
    for which there is no room, else who draws it tells them anyway."""
    words: list[Words] = []
    letters: dict[TwoSystems, str] = {}
    sized: dict[TwoSystems, None] = {}
    bare: dict[str, int] = {}
    for part, corners in parts:
        if part.kind == "trim":
            continue
        name = as_written(part.name)
        size = _size(part, ruler, switch=switch)
        entry = _entry(part, ruler, switch=switch) if sizes_told else name
        names = _divided(name, _OR)
        whole = (name, size), (*names, size), (size.behind(f"{part.name}, "),)
        alone = (name,), names
        attempts = _SIZES_TOLD_HERE if sizes_told else _SIZES_TOLD_BELOW
        found, has_size = None, False
        for has_size, ways in attempts:
            found = _first(whole if has_size else alone, ways, corners, room, written)
            if found is not None:
                break
        # The size of a piece is told in other places; that of an offcut, here or nowhere.
        if part.kind == "offcut" and sizes_told and not (found and has_size):
            sized[entry] = None
        if found is None:
            key = letters.get(entry) or _key(len(letters))
            found = _first(((as_written(key),),), (*_LARGE, *_SMALL), corners, room, written)
            if found is None:
                bare[part.name] = bare.get(part.name, 0) + 1
                continue
            letters[entry] = key
        words += found
    key_rows = [entry.behind(f"{key}: ") for entry, key in letters.items()]
    key_rows += [entry for entry in sized if entry not in letters]
    if bare:
        nameless = ", ".join(f"{count} x {name}" for name, count in bare.items())
        key_rows.append(as_written(f"Without a name, for want of room: {nameless}"))
    return Labels(tuple(words), tuple(key_rows))


def _divided(told: TwoSystems, at: str) -> tuple[TwoSystems, ...]:
    """The words in a line for each that is named, the sign between them at the line's end."""
    lines = [text.replace(at, f"{at.rstrip()}\n").split("\n") for text in told.each]
    return tuple(TwoSystems(*line) for line in zip(*lines, strict=True))


def _size(part: SheetPart, ruler: Ruler, *, switch: bool) -> TwoSystems:
    return _told(lambda one: f"{measure(part.width, one)} x {measure(part.height, one)}", ruler, switch=switch)


def _entry(part: SheetPart, ruler: Ruler, *, switch: bool) -> TwoSystems:
    return _told(lambda one: f"{part.name}: {sides(part.width, part.height, one)}", ruler, switch=switch)


def _told(tell: Callable[[Ruler], str], ruler: Ruler, *, switch: bool) -> TwoSystems:
    def plain(one: Ruler) -> str:
        return tell(one).replace(NO_BREAK_SPACE, " ")

    return told_in_two_systems(plain, ruler) if switch else as_written(plain(ruler))


def _key(number: int) -> str:
    turn, at = divmod(number, len(_KEYS))
    return _KEYS[at] if not turn else f"{_KEYS[at]}{turn + 1}"


def _first(
    texts: Sequence[tuple[TwoSystems, ...]], ways: _Ways, corners: Corners, room: Room, written: Room
) -> list[Words] | None:
    """The first of these texts that finds room in the part, written in the first of the ways in which one does."""
    left, top, right, bottom = corners
    for (size, angle), lines in product(ways, dict.fromkeys(texts)):
        wide = max(width_of(text, size) for told in lines for text in told.each)
        high = size * (ASCENT + DESCENT + _STEP * (len(lines) - 1))
        across, down = (wide, high) if angle == 0 else (high, wide)
        if across > right - left - 2 * _CLEAR or down > bottom - top - 2 * _CLEAR:
            continue
        for x, y in _spots(corners, across, down):
            box = Box(x, y, angle, wide / 2, wide / 2, high / 2, high / 2)
            if room.is_free(box):
                room.take(box)
                written.take(box)
                return list(_lines(lines, x, y, size, high, angle))
    return None


def _spots(corners: Corners, across: float, down: float) -> Iterator[tuple[float, float]]:
    left, top, right, bottom = corners
    for share_y, share_x in product(_SHARES, _SHARES):
        x = left + (right - left) * share_x
        y = top + (bottom - top) * share_y
        x = min(max(x, left + _CLEAR + across / 2), right - _CLEAR - across / 2)
        y = min(max(y, top + _CLEAR + down / 2), bottom - _CLEAR - down / 2)
        yield x, y


def _lines(
    lines: tuple[TwoSystems, ...], x: float, y: float, size: float, high: float, angle: float
) -> Iterator[Words]:
    """Lines one below the other about a middle; upright writing reads upwards."""
    for number, told in enumerate(lines):
        below = -high / 2 + ASCENT * size + number * _STEP * size
        at = (x, y + below) if angle == 0 else (x + below, y)
        yield words_of(told, *at, size, "middle", angle)
