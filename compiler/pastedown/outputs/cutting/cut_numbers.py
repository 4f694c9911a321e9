"""The numbers of the cuts, each in a circle beside its line."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from pastedown.outputs.cutting.leaders import Beside, Ends, Spot, about
from pastedown.outputs.template.drawing import Patch, Stroke, Words, line
from pastedown.outputs.template.letter_width import width_of
from pastedown.outputs.template.line_kind import FINE, LineKind
from pastedown.outputs.template.room import Box, Room
from pastedown.outputs.template.shape import Round

_SIZES = (2.4, 1.9)
_SHARES = (0.5, 0.25, 0.75, 0.1, 0.9, 0.4, 0.6)
_GAP = 1.1
# Between a circle and what is written beside it, so that they are not read as one.
_CLEAR = 0.9
# Dotted, and with a dot where it ends, so that nobody cuts along it: a cut is continuous.
_LEADER = LineKind("leader", "", Fraction("0.18"), (Fraction(1), Fraction(5)))
_DOT = 0.5


@frozen
class Marks:
    """Circles, leaders with dots at their ends, and numbers; `bottom` is how far down they reach. `leaders` run from a
    line to the rim, and `crossed` says that one was left out, since it would cross what is written. With `bare` some
    strokes have no number, though each cut has one."""

    strokes: tuple[Stroke, ...]
    dots: tuple[Patch, ...]
    words: tuple[Words, ...]
    bottom: float
    leaders: tuple[Ends, ...]
    crossed: bool
    bare: bool


def numbered(lines: Sequence[tuple[int, Ends]], sheet: tuple[Spot, Spot], room: Room, written: Room) -> Marks:
    """A number beside every line that has room for one, and at least one for each cut: where there is no room within
    the sheet, beside or below it, with a leader. `sheet` is its lower left and its upper right corner on the paper;
    `room` holds lines and words, `written` words alone."""
    (left, foot), corner = sheet
    strokes: list[Stroke] = []
    dots: list[Patch] = []
    words: list[Words] = []
    told: set[int] = set()
    outside: list[tuple[int, Ends]] = []
    for number, ends in lines:
        within = (
            (spot, size)
            for size in _SIZES
            for spot in _spots(ends, _radius(number, size))
            if left < spot[0] < corner[0] and corner[1] < spot[1] < foot
        )
        found = next((each for each in within if _has_room(each[0], _radius(number, each[1]), room, written)), None)
        if found is not None:
            spot, size = found
            radius = _radius(number, size)
            room.take(_box(spot, radius))
            written.take(_box(spot, radius))
            strokes.append(_circle(spot, radius))
            words.append(_number(number, spot, size))
            told.add(number)
        else:
            outside.append((number, ends))
    without = [number for number, _ in outside if number not in told]
    strokes_of = {number: [ends for each, ends in outside if each == number] for number in dict.fromkeys(without)}
    beside = Beside(left, corner[1], corner[0], foot, tuple(ends for _, ends in lines))
    crossed = False
    leaders: list[Ends] = []
    for number, some in sorted(strokes_of.items(), key=lambda each: (_top(each[1]), each[0])):
        size = _SIZES[0]
        radius = _radius(number, size)
        spot, leader = beside.place(some, radius, written)
        leaders.append(leader)
        if written.is_free(about(leader)):
            strokes.append(line("numbers", _LEADER, *leader))
            dots.append(_dot(leader[0]))
        else:
            crossed = True
        written.take(_box(spot, radius))
        strokes.append(_circle(spot, radius))
        words.append(_number(number, spot, size))
    # A number in each circle; leaders have none of their own.
    bare = len(words) < len(lines)
    return Marks(tuple(strokes), tuple(dots), tuple(words), beside.bottom, tuple(leaders), crossed, bare)


def _top(some: Sequence[Ends]) -> float:
    return min(min(start[1], end[1]) for start, end in some)


def _spots(ends: Ends, radius: float) -> Iterator[Spot]:
    """Beside the line on either side, its middle first."""
    (x1, y1), (x2, y2) = ends
    aside = radius + _GAP
    for share in _SHARES:
        x, y = x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
        for way in (1, -1):
            yield (x + way * aside, y) if x1 == x2 else (x, y + way * aside)


def _has_room(spot: Spot, radius: float, room: Room, written: Room) -> bool:
    """Close to its own line, but farther from words."""
    return room.is_free(_box(spot, radius)) and written.is_free(_box(spot, radius + _CLEAR))


def _radius(number: int, size: float) -> float:
    """Of a circle whose quarters, even if they are drawn straight, keep clear of the number."""
    return width_of(str(number), size) / 2 + size * 0.42


def _box(spot: Spot, radius: float) -> Box:
    return Box(*spot, 0.0, radius, radius, radius, radius)


def _number(number: int, spot: Spot, size: float) -> Words:
    return Words(str(number), spot[0], spot[1] + size * 0.36, size, "middle")


def _dot(spot: Spot) -> Patch:
    x, y = spot
    return Patch("numbers", tuple((x + a, y + b) for a, b in ((-_DOT, 0.0), (0.0, _DOT), (_DOT, 0.0), (0.0, -_DOT))))


def _circle(spot: Spot, radius: float) -> Stroke:
    x, y, r = (Fraction(value) for value in (*spot, radius))
    corners = [(x + r, y), (x, y + r), (x - r, y), (x, y - r)]
    moves = tuple(
        Round(start, end, (x, y), r, True) for start, end in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    return Stroke("numbers", FINE, moves, closed=True)
