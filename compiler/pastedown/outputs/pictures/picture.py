"""A scene drawn on a sheet just large enough, with its title, names, sizes, notes and the legend of its lines.

Takes a scene, gives a sheet. Afterwards everything lies on the sheet and no word lies over a line or another word:
names stand in a column of their own to the right, sizes below and to the left of all lines, notes and legend under it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from pastedown.outputs.pictures.kinds import IN_LEGEND, KINDS
from pastedown.outputs.pictures.line_art import Chain, visible_lines
from pastedown.outputs.pictures.scene import Dimension, Scene
from pastedown.outputs.pictures.view import Spot
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, shortened, width_of
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.shape import Straight
from pastedown.outputs.template.wrap import lines_of
from pastedown.quantity.quantity import mm

# In millimetres: the room for the drawing itself, chosen so that a picture with its words fits beside the text of a
# booklet on A4 and on US Letter.
WIDEST, HIGHEST = 108.0, 92.0
# No picture is drawn larger than life.
_LARGEST_SCALE = 1.0
_RIM = 2.0
_SIZE = 2.6
_SMALL = 2.3
_ROW = 3.8
_TITLE = 3.4
_TITLE_ROW = 5.4
_NAMES = 38.0
_NAMES_APART = 4.0
_ARROW_LENGTH, _ARROW_HALF = 2.6, 1.0
_OVER = 2.0
_LEAST_WIDTH = 96.0
_SAMPLE = 14.0
_PERIODS = {"valley": 57, "crease": 57, "mountain": 58, "mark": 76}
_SAMPLES = {kind: float(KINDS[kind].width * widths) for kind, widths in _PERIODS.items()}
_WORDS_FROM = 17.5
_COLUMN = 88.0
_SHORTEST_WAY = 1e-6
_POINTED_AT = 6.0


@frozen
class _Placed:
    """The scale, and where the scene's own origin comes to lie."""

    scale: float
    left: float
    top: float

    def spot(self, at: Spot) -> Spot:
        return self.left + at[0] * self.scale, self.top - at[1] * self.scale


def picture_of(scene: Scene, *, legend: bool = True) -> Sheet:
    """The picture of a scene; without its `legend` for outputs that tell the kinds of lines in their own words."""
    spots = [scene.view.seen(corner)[:2] for corner in _all_points(scene)]
    low = (min((x for x, _ in spots), default=0.0), min((y for _, y in spots), default=0.0))
    high = (max((x for x, _ in spots), default=1.0), max((y for _, y in spots), default=1.0))
    wide, tall = max(high[0] - low[0], 1e-3), max(high[1] - low[1], 1e-3)
    scale = min(WIDEST / wide, HIGHEST / tall, _LARGEST_SCALE)
    upright = [each for each in scene.dimensions if not each.level]
    level = [each for each in scene.dimensions if each.level]
    beside = max((_room(each) + 3 * _OVER for each in upright), default=0.0)
    title = [shortened(row, _TITLE, _LEAST_WIDTH) for row in lines_of(scene.title, _TITLE, _LEAST_WIDTH)[:2]]
    head = _RIM + _TITLE_ROW * len(title) + 1.0
    drawn_wide = max(wide * scale, max(map(_room, level), default=0.0))
    at = _Placed(scale, _RIM + beside + (drawn_wide - wide * scale) / 2 - low[0] * scale, head + high[1] * scale)
    chains = visible_lines(scene, scale)
    drawing: list[Stroke | Patch | Words] = [_stroke(chain, at) for chain in chains]
    drawing += _arrows(scene, at)
    right, bottom = _RIM + beside + drawn_wide, head + tall * scale
    for each in level:
        drawing += _level(each, at, scene, bottom + 2 * _OVER)
    bottom += 2 * _OVER + 2 * _ROW if level else 0.0
    for each in upright:
        drawing += _upright(each, at, scene)
    named = list(_names(scene, chains, at, right + _NAMES_APART, head))
    drawing += named
    if named:
        right += _NAMES_APART + _NAMES + _NAMES_APART
        bottom = max(bottom, *(words.y + 1.0 for words in named if isinstance(words, Words)))
    right = max(right, _RIM + _LEAST_WIDTH)
    drawing += [Words(row, _RIM, _RIM + _TITLE + number * _TITLE_ROW, _TITLE) for number, row in enumerate(title)]
    bottom += 2.0
    for note in scene.notes:
        for row in lines_of(note, _SIZE, right - _RIM):
            bottom += _ROW
            drawing.append(Words(shortened(row, _SIZE, right - _RIM), _RIM, bottom, _SIZE))
    used = {chain.kind for chain in chains} | ({"arrow"} if scene.moves else set())
    told = [kind for kind in IN_LEGEND if kind in used and legend]
    samples, height = _legend(told, bottom + 2.0, right - _RIM)
    drawing += samples
    return _sheet(scene.title, right + _RIM, bottom + 2.0 + height + _RIM, drawing)


def _all_points(scene: Scene) -> Iterator[tuple[float, float, float]]:
    for plate in scene.plates:
        yield from plate.corners()
    for way in (*scene.guides, *scene.seats, *scene.moves):
        yield from way
    for each in scene.dimensions:
        yield from (each.start, each.end)


def _stroke(chain: Chain, at: _Placed) -> Stroke:
    kind = KINDS[chain.kind]
    spots = [_exact(at.spot(spot)) for spot in chain.spots]
    moves = tuple(Straight(one, other) for one, other in pairwise(spots) if one != other)
    if not moves:
        moves = (Straight(spots[0], spots[-1]),)
    length = sum(_length(one, other) for one, other in pairwise(chain.spots)) * at.scale
    return Stroke(kind.name, kind, moves, dashes=kind.dashes(Fraction(round(length * 1000), 1000)))


def _exact(spot: Spot) -> tuple[Fraction, Fraction]:
    return Fraction(round(spot[0] * 1000), 1000), Fraction(round(spot[1] * 1000), 1000)


def _length(one: Spot, other: Spot) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def _straight(kind: str, *spots: Spot) -> Stroke:
    exact = [_exact(spot) for spot in spots]
    return Stroke(kind, KINDS[kind], tuple(Straight(one, other) for one, other in pairwise(exact)))


def _head(kind: str, tip: Spot, back: Spot) -> Patch | None:
    length = _length(tip, back)
    if length < _SHORTEST_WAY:
        return None
    long, half = (size * min(1.0, length / _ARROW_LENGTH) for size in (_ARROW_LENGTH, _ARROW_HALF))
    x, y = (back[0] - tip[0]) / length, (back[1] - tip[1]) / length
    foot = (tip[0] + x * long, tip[1] + y * long)
    return Patch(kind, (tip, (foot[0] - y * half, foot[1] + x * half), (foot[0] + y * half, foot[1] - x * half)))


def _arrows(scene: Scene, at: _Placed) -> Iterator[Stroke | Patch]:
    for way in scene.moves:
        spots = [at.spot(scene.view.seen(point)[:2]) for point in way]
        before = next((spot for spot in reversed(spots[:-1]) if _length(spot, spots[-1]) >= _ARROW_LENGTH), spots[0])
        head = _head("arrow", spots[-1], before)
        if head is None:
            continue
        foot = _towards(spots[-1], before, min(_ARROW_LENGTH, _length(spots[-1], before)) * 0.7)
        # The line ends inside the head, however round its way is.
        kept = [spot for spot in spots[:-1] if _length(spot, spots[-1]) > _ARROW_LENGTH * 0.7]
        yield _straight("arrow", *kept, foot) if kept else _straight("arrow", spots[0], foot)
        yield head


def _towards(start: Spot, end: Spot, by: float) -> Spot:
    length = max(_length(start, end), _SHORTEST_WAY)
    return start[0] + (end[0] - start[0]) * by / length, start[1] + (end[1] - start[1]) * by / length


def _level(each: Dimension, at: _Placed, scene: Scene, y: float) -> Iterator[Stroke | Patch | Words]:
    ends = sorted(at.spot(scene.view.seen(point)[:2]) for point in (each.start, each.end))
    for x, bottom in ends:
        yield _straight("size", (x, bottom + 1.0), (x, y + 1.0))
    (left, _), (right, _) = ends
    yield from _measured((left, y), (right, y))
    yield _written(each, (left + right) / 2, y + _ROW, "middle")


def _upright(each: Dimension, at: _Placed, scene: Scene) -> Iterator[Stroke | Patch | Words]:
    """Beside the left rim of all lines of the picture, in the direction of what is measured."""
    ends = (at.spot(scene.view.seen(point)[:2]) for point in (each.start, each.end))
    start, end = sorted(ends, key=lambda spot: -spot[1])
    beside = ((start[0] - 2 * _OVER, start[1]), (end[0] - 2 * _OVER, end[1]))
    for spot in (start, end):
        yield _straight("size", (spot[0] - 1.0, spot[1]), (spot[0] - 2 * _OVER - 1.0, spot[1]))
    yield from _measured(*beside)
    middle = (beside[0][1] + beside[1][1]) / 2
    leftmost = min((beside[0][0] + beside[1][0]) / 2, _at(beside, middle - _SIZE), _at(beside, middle + _SIZE))
    yield _written(each, leftmost - _OVER, middle + _SIZE * 0.35, "end")


def _room(each: Dimension) -> float:
    """The width of what is written, whichever system it is read in."""
    text = each.text
    texts = (text,) if isinstance(text, str) else (text.text, text.inches, text.metric)
    return max(width_of(one, _SIZE) for one in texts)


def _written(each: Dimension, x: float, y: float, anchor: str) -> Words:
    text = each.text
    if isinstance(text, str):
        return Words(text, x, y, _SIZE, anchor)
    inches, metric = (text.inches, text.metric) if text.differ else ("", "")
    return Words(text.text, x, y, _SIZE, anchor, inches=inches, metric=metric)


def _at(line: tuple[Spot, Spot], y: float) -> float:
    (x1, y1), (x2, y2) = line
    return x1 if y1 == y2 else x1 + (x2 - x1) * (min(max(y, min(y1, y2)), max(y1, y2)) - y1) / (y2 - y1)


def _measured(start: Spot, end: Spot) -> Iterator[Stroke | Patch]:
    yield _straight("size", start, end)
    for head in (_head("size", start, end), _head("size", end, start)):
        if head is not None and _length(start, end) > 3 * _ARROW_LENGTH:
            yield head


def _names(
    scene: Scene, chains: Sequence[Chain], at: _Placed, left: float, top: float
) -> Iterator[Stroke | Patch | Words]:
    """The names in a column, in the order in which their pieces lie from top to bottom, each with a line to its
    piece."""
    wanted: list[tuple[float, float, list[str]]] = []
    for path, name in scene.names:
        anchor = _anchor(path, chains, _POINTED_AT / at.scale)
        if anchor is not None:
            rows = [shortened(row, _SIZE, _NAMES) for row in lines_of(name, _SIZE, _NAMES)[:3]]
            x, y = at.spot(anchor)
            wanted.append((y, x, rows))
    y = top
    for goal, x, rows in sorted(wanted):
        y = max(y, goal - len(rows) * _ROW / 2)
        middle = y + len(rows) * _ROW / 2
        yield _straight("leader", (left - 0.8, middle), (x, goal))
        yield Patch("leader", tuple((x + a, goal + b) for a, b in ((-0.4, 0.0), (0.0, 0.4), (0.4, 0.0), (0.0, -0.4))))
        for number, row in enumerate(rows):
            yield Words(row, left, y + number * _ROW + _ROW / 2 + _SIZE * (ASCENT - DESCENT) / 2, _SIZE)
        y += len(rows) * _ROW + 1.5


def _anchor(path: str, chains: Sequence[Chain], least: float) -> Spot | None:
    """The rightmost place of a piece that is to be seen: the middle of a line that is long enough to be pointed at, or
    else of any."""
    best: tuple[bool, float, Spot] | None = None
    for chain in chains:
        if chain.path != path or chain.kind not in ("edge", "new"):
            continue
        for one, other in pairwise(chain.spots):
            middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
            told = (_length(one, other) >= least, middle[0], middle)
            if best is None or told > best:
                best = told
    return best[2] if best else None


def _legend(kinds: Sequence[str], top: float, room: float) -> tuple[list[Stroke | Patch | Words], float]:
    columns = max(1, int(room // _COLUMN))
    drawn: list[Stroke | Patch | Words] = []
    for number, name in enumerate(kinds):
        row, column = divmod(number, columns)
        kind, x, y = KINDS[name], _RIM + column * _COLUMN, top + (row + 0.5) * _ROW
        # Whole periods of a pattern, ended by a dash.
        length = _SAMPLES.get(name, _SAMPLE)
        ends = [_exact((x, y)), _exact((x + length, y))]
        dashes = tuple(element * kind.width for element in kind.pattern)
        drawn.append(Stroke("legend", kind, (Straight(ends[0], ends[1]),), dashes=dashes))
        head = _head("legend", (x + length, y), (x, y)) if name == "arrow" else None
        drawn += [head] if head is not None else []
        words = shortened(kind.words, _SMALL, min(room, _COLUMN) - _WORDS_FROM)
        drawn.append(Words(words, x + _WORDS_FROM, y + _SMALL * 0.33, _SMALL))
    return drawn, -(-len(kinds) // columns) * _ROW


def _sheet(title: str, width: float, height: float, drawing: Sequence[Stroke | Patch | Words]) -> Sheet:
    paper = Paper("picture", mm(Fraction(round(width * 10), 10)), mm(Fraction(round(height * 10), 10)))
    return Sheet(
        title=title,
        paper=paper,
        strokes=tuple(each for each in drawing if isinstance(each, Stroke)),
        patches=tuple(each for each in drawing if isinstance(each, Patch)),
        words=tuple(each for each in drawing if isinstance(each, Words)),
    )
