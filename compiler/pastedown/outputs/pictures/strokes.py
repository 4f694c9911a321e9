"""Strokes, arrows, measured lines and the legend of pictures, in millimetres of the sheet, y downwards."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from pastedown.outputs.pictures.kinds import KINDS
from pastedown.outputs.pictures.lettering import ROW, SIZE
from pastedown.outputs.pictures.view import Seen, Spot
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import shortened
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.shape import Straight
from pastedown.quantity.quantity import mm

RIM = 2.0
ARROW_LENGTH, ARROW_HALF = 2.6, 1.0
_SAMPLE = 14.0
# In line widths: whole periods of the pattern, ended by a dash.
_PERIODS = {"valley": 57, "crease": 42, "creased": 27, "mountain": 58, "mark": 76}
_SAMPLES = {kind: float(KINDS[kind].width * widths) for kind, widths in _PERIODS.items()}
_WORDS_FROM = 17.5
_SHORTEST_WAY = 1e-6
# A way of fewer spots is straight; between two neighbours of others so many straight parts are drawn.
_LEAST_ROUND, _PARTS = 4, 4


def exact(spot: Spot) -> tuple[Fraction, Fraction]:
    return Fraction(round(spot[0] * 1000), 1000), Fraction(round(spot[1] * 1000), 1000)


def length_of(one: Spot, other: Spot) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def straight(kind: str, *spots: Spot) -> Stroke:
    places = [exact(spot) for spot in spots]
    return Stroke(kind, KINDS[kind], tuple(Straight(one, other) for one, other in pairwise(places)))


def arrow_head(kind: str, tip: Spot, back: Spot) -> Patch | None:
    length = length_of(tip, back)
    if length < _SHORTEST_WAY:
        return None
    long, half = (size * min(1.0, length / ARROW_LENGTH) for size in (ARROW_LENGTH, ARROW_HALF))
    x, y = (back[0] - tip[0]) / length, (back[1] - tip[1]) / length
    foot = (tip[0] + x * long, tip[1] + y * long)
    return Patch(kind, (tip, (foot[0] - y * half, foot[1] + x * half), (foot[0] + y * half, foot[1] - x * half)))


def leader_dot(spot: Spot) -> Patch:
    """What ends a leader where it points."""
    x, y = spot
    return Patch("leader", tuple((x + a, y + b) for a, b in ((-0.4, 0.0), (0.0, 0.4), (0.4, 0.0), (0.0, -0.4))))


def towards(start: Spot, end: Spot, by: float) -> Spot:
    length = max(length_of(start, end), _SHORTEST_WAY)
    return start[0] + (end[0] - start[0]) * by / length, start[1] + (end[1] - start[1]) * by / length


def rounded(places: Sequence[Seen]) -> list[Seen]:
    """A way through the same places without corners: the curve of E. Catmull and R. Rom, 1974, in straight parts."""
    if len(places) < _LEAST_ROUND:
        return list(places)
    found = [places[0]]
    ends = zip((places[0], *places), places, places[1:], (*places[2:], places[-1]), strict=False)
    for before, one, other, after in ends:
        found += [_on_curve(before, one, other, after, part / _PARTS) for part in range(1, _PARTS + 1)]
    return found


def _on_curve(before: Seen, one: Seen, other: Seen, after: Seen, part: float) -> Seen:
    def at(p: float, q: float, r: float, s: float) -> float:
        third, second = 3 * (q - r) + s - p, 2 * p - 5 * q + 4 * r - s
        return q + part * (r - p + part * (second + part * third)) / 2

    x, y, near = map(at, before, one, other, after)
    return (x, y, near) if part < 1 else other


def measured(start: Spot, end: Spot, kind: str = "size") -> Iterator[Stroke | Patch]:
    yield straight(kind, start, end)
    for head in (arrow_head(kind, start, end), arrow_head(kind, end, start)):
        if head is not None and length_of(start, end) > (2 if kind == "grain" else 3) * ARROW_LENGTH:
            yield head


def legend_of_kinds(
    kinds: Sequence[str], top: float, room: float, told: Mapping[str, str] | None = None
) -> tuple[list[Stroke | Patch | Words], float]:
    """A sample of each kind of line and its words, or those it is `told` by, one below the other, and how high all of
    it is."""
    drawn: list[Stroke | Patch | Words] = []
    for number, name in enumerate(kinds):
        kind, x, y = KINDS[name], RIM, top + (number + 0.5) * ROW
        # Whole periods of a pattern, ended by a dash.
        length = _SAMPLES.get(name, _SAMPLE)
        ends = [exact((x, y)), exact((x + length, y))]
        dashes = tuple(element * kind.width for element in kind.pattern)
        drawn.append(Stroke("legend", kind, (Straight(ends[0], ends[1]),), dashes=dashes))
        tips = [(x + length, y)] if name in ("arrow", "grain") else []
        tips += [(x, y)] if name == "grain" else []
        heads = [arrow_head("legend", tip, (x + length / 2, y)) for tip in tips]
        drawn += [head for head in heads if head is not None]
        words = shortened((told or {}).get(name, kind.words), SIZE, room - _WORDS_FROM)
        drawn.append(Words(words, x + _WORDS_FROM, y + SIZE * 0.33, SIZE))
    return drawn, len(kinds) * ROW


def sheet_of(title: str, width: float, height: float, drawing: Sequence[Stroke | Patch | Words]) -> Sheet:
    paper = Paper("picture", mm(Fraction(round(width * 10), 10)), mm(Fraction(round(height * 10), 10)))
    return Sheet(
        title=title,
        paper=paper,
        strokes=tuple(each for each in drawing if isinstance(each, Stroke)),
        patches=tuple(each for each in drawing if isinstance(each, Patch)),
        words=tuple(each for each in drawing if isinstance(each, Words)),
    )
