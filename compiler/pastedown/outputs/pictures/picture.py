"""A scene drawn on a sheet just large enough, with its title, names, sizes, notes and the legend of its lines.

Takes a scene, gives a sheet. Afterwards everything lies on the sheet and no word lies over a line or another word:
names stand in a column of their own, on the side from which they are nearer, sizes below and to the left of all lines,
notes and legend under it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from pastedown.outputs.pictures.arrows import Arrow, along, arrows_of, shafts_of, ways_on
from pastedown.outputs.pictures.clearance import cleared
from pastedown.outputs.pictures.edge_names import ends_right, written_beside
from pastedown.outputs.pictures.inset import Window, clipped, window_of
from pastedown.outputs.pictures.kinds import IN_LEGEND, KINDS
from pastedown.outputs.pictures.leaders import Ends, ends_of_leaders
from pastedown.outputs.pictures.lettering import MOST_WIDTH, ROW, SIZE, TITLE_ROW, TITLE_SIZE
from pastedown.outputs.pictures.line_art import Chain, visible_lines
from pastedown.outputs.pictures.scene import Dimension, Scene
from pastedown.outputs.pictures.strokes import (
    RIM,
    arrow_head,
    exact,
    leader_dot,
    legend_of_kinds,
    measured,
    sheet_of,
    straight,
)
from pastedown.outputs.pictures.view import Spot
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, shortened, width_of
from pastedown.outputs.template.shape import Straight
from pastedown.outputs.template.wrap import lines_of, title_lines

# In millimetres: the room for the drawing itself. A choice, so that text and picture of a step stand on one page.
HIGHEST = 92.0
# Beside names and sizes the drawing is no narrower than this.
_LEAST_DRAWING = 30.0
# Beside a name on the right it is at least so wide, or the name is left out.
_LEAST_NAMED = 34.0
# No picture is drawn larger than life.
_LARGEST_SCALE = 1.0
# A smaller scale makes what is as long on every picture reach further: after so many rounds that is next to nothing.
_FITTED = 12
_NAMES = 31.0
_MOST_ROWS = 4
_NAMES_APART = 3.0
_OVER = 2.0
# What has a title is so wide that it has room.
_LEAST_WIDTH = MOST_WIDTH - 2 * RIM
# An arrow shorter than this is told by the inset alone.
_SHOWN_LARGER = 9.5


@frozen
class _Placed:
    """The scale, and where the scene's own origin comes to lie."""

    scale: float
    left: float
    top: float

    def spot(self, at: Spot) -> Spot:
        return self.left + at[0] * self.scale, self.top - at[1] * self.scale


def picture_of(scene: Scene, *, legend: bool = True, highest: float = HIGHEST) -> Sheet:
    """The picture of a scene, its drawing `highest` millimetres high at most; without its `legend` for outputs that
    tell the kinds of lines in their own words."""
    spots = [scene.view.seen(corner)[:2] for corner in _all_points(scene)]
    low = (min((x for x, _ in spots), default=0.0), min((y for _, y in spots), default=0.0))
    high = (max((x for x, _ in spots), default=1.0), max((y for _, y in spots), default=1.0))
    wide, tall = max(high[0] - low[0], 1e-3), max(high[1] - low[1], 1e-3)
    upright = [each for each in scene.dimensions if not each.level]
    level = [each for each in scene.dimensions if each.level]
    beside = max((_room(each) + 3 * _OVER for each in upright), default=0.0)
    column_of_names = 2 * _NAMES_APART + _NAMES if scene.names else 0.0
    widest = max(MOST_WIDTH - 2 * RIM - beside - column_of_names, _LEAST_DRAWING)
    scale = min(widest / wide, highest / tall, _LARGEST_SCALE)
    bare = low, high
    least = max(map(_room, level), default=0.0)
    for _ in range(_FITTED):
        # The ways of what moves may reach further than what is drawn, the more so where they begin further off; names
        # on the right are as wide on every scale.
        low, high = _with_ways(scene, scale, *bare)
        wide = (high[0] - low[0]) * scale
        to_names = max(least - wide, 0.0) / 2 + ends_right(scene, scale) - low[0] * scale if scene.edges else 0.0
        reach = max(wide, to_names)
        scale *= min(widest / reach, 1.0) if reach > 0 else 1.0
    low, high = _with_ways(scene, scale, *bare)
    if (high[0] - low[0]) * scale < _LEAST_NAMED and any(not each.above for each in scene.edges):
        # Long sizes leave no room for a name on the right; it is opposite to the one on the left.
        fewer = tuple(each for each in scene.edges if each.above)
        return picture_of(evolve(scene, edges=fewer), legend=legend, highest=highest)
    wide, tall = max(high[0] - low[0], 1e-3), max(high[1] - low[1], 1e-3)
    title = title_lines(scene.title.removesuffix(scene.ending), scene.ending, TITLE_SIZE, _LEAST_WIDTH)
    title = [row for row in title if row]
    head = RIM + (TITLE_ROW * len(title) + 2.0 if title else 0.0)
    head += ROW if any(each.above for each in scene.edges) else 0.0
    drawn_wide = max(wide * scale, least)
    chains = visible_lines(scene, scale)
    ends = ends_of_leaders(scene, chains, scale, (low[0], high[0]))
    if ends.to_the_left:
        beside += _NAMES + _NAMES_APART
    at = _Placed(scale, RIM + beside + (drawn_wide - wide * scale) / 2 - low[0] * scale, head + high[1] * scale)
    window = window_of(scene, scale, (low, high))
    arrows = arrows_of(scene, scale, _SHOWN_LARGER if window is not None else 0.0)
    grain = tuple(scene.view.seen(end)[:2] for end in scene.grain)
    shafts = [*shafts_of(arrows), *((grain,) if grain else ())]
    drawing: list[Stroke | Patch | Words] = [_stroke(each, at) for each in cleared(chains, shafts, scale)]
    drawing += _drawn(arrows, at)
    if grain:
        drawing += measured(at.spot(grain[0]), at.spot(grain[1]), "grain")
    drawing += (written_beside(each, at.spot(scene.view.seen(each.at)[:2])) for each in scene.edges)
    right, bottom = RIM + beside + drawn_wide, head + tall * scale
    if scene.edges:
        right = max(right, at.left + ends_right(scene, scale))
    if window is not None:
        right = max(right, RIM + (window.right - window.left) * window.scale)
    for each in level:
        drawing += _level(each, at, scene, bottom + 2 * _OVER + 2 * ROW * each.row)
    bottom += 2 * _OVER + 2 * ROW * (1 + max(each.row for each in level)) if level else 0.0
    for each in upright:
        drawing += _upright(each, at, scene)
    column = RIM + beside - _NAMES_APART if ends.to_the_left else right + _NAMES_APART
    named = list(_names(scene, ends, at, column, head))
    drawing += named
    if named:
        right += _NAMES_APART if ends.to_the_left else _NAMES_APART + _NAMES + _NAMES_APART
        bottom = max(bottom, *(words.y + 1.0 for words in named if isinstance(words, Words)))
    if title:
        right = max(right, RIM + _LEAST_WIDTH)
    drawing += [Words(row, RIM, RIM + TITLE_SIZE + number * TITLE_ROW, TITLE_SIZE) for number, row in enumerate(title)]
    larger: tuple[str, ...] = ()
    if window is not None:
        drawing.append(_framed(window, at))
        bottom = max(bottom, at.spot((window.left, window.low))[1]) + 3.0
        drawing += _inset(scene, window, bottom)
        bottom += (window.high - window.low) * window.scale
        larger = (_LARGER,)
    bottom += 2.0
    for note in (*larger, *scene.notes):
        for row in lines_of(note, SIZE, right - RIM):
            bottom += ROW
            drawing.append(Words(shortened(row, SIZE, right - RIM), RIM, bottom, SIZE))
    used = {chain.kind for chain in chains} | ({"arrow"} if scene.moves else set())
    used |= {each.part for each in drawing if isinstance(each, Stroke)} & {"behind", "grain"}
    told = [kind for kind in IN_LEGEND if kind in used and legend]
    samples, height = legend_of_kinds(told, bottom + 2.0, right - RIM)
    drawing += samples
    return sheet_of(scene.title, right + RIM, bottom + 2.0 + height + RIM, drawing)


_LARGER = "What is in the small frame is drawn larger in the large one."


def _with_ways(scene: Scene, scale: float, low: Spot, high: Spot) -> tuple[Spot, Spot]:
    """The lowest and highest spots, the ways of what moves among them."""
    ways = [spot[:2] for way in ways_on(scene, scale) for spot in way]
    return (
        (min([low[0], *(x for x, _ in ways)]), min([low[1], *(y for _, y in ways)])),
        (max([high[0], *(x for x, _ in ways)]), max([high[1], *(y for _, y in ways)])),
    )


def _framed(window: Window, at: _Placed) -> Stroke:
    corners = [at.spot(corner) for corner in window.corners]
    return straight("frame", *corners, corners[0])


def _inset(scene: Scene, window: Window, top: float) -> Iterator[Stroke | Patch]:
    """What lies in the window, larger, from the left rim."""
    at = _Placed(window.scale, RIM - window.left * window.scale, top + window.high * window.scale)
    arrows = arrows_of(scene, window.scale)
    chains = cleared(visible_lines(scene, window.scale), shafts_of(arrows), window.scale)
    yield from (_stroke(chain, at) for chain in clipped(chains, window))
    yield from _drawn(arrows, at)
    yield _framed(window, at)


def _all_points(scene: Scene) -> Iterator[tuple[float, float, float]]:
    for plate in scene.plates:
        yield from plate.corners()
    for way in (*scene.guides, *scene.seats, *scene.sticky, *scene.inside, *scene.moves):
        yield from way
    for each in scene.dimensions:
        yield from (each.start, each.end)


def _stroke(chain: Chain, at: _Placed) -> Stroke:
    kind = KINDS[chain.kind]
    spots = [exact(at.spot(spot)) for spot in chain.spots]
    moves = tuple(Straight(one, other) for one, other in pairwise(spots) if one != other)
    if not moves:
        moves = (Straight(spots[0], spots[-1]),)
    length = along(chain.spots) * at.scale
    return Stroke(kind.name, kind, moves, dashes=kind.dashes(Fraction(round(length * 1000), 1000)))


def _drawn(arrows: Iterable[Arrow], at: _Placed) -> Iterator[Stroke | Patch]:
    for arrow in arrows:
        head = arrow_head("arrow", at.spot(arrow.tip), at.spot(arrow.before))
        if head is None:
            continue
        for stretch in arrow.stretches:
            yield _stroke(Chain("behind" if stretch.behind else "arrow", "", stretch.spots), at)
        if arrow.is_behind:
            yield straight("head", *head.corners, head.corners[0])
        else:
            yield head


def _level(each: Dimension, at: _Placed, scene: Scene, y: float) -> Iterator[Stroke | Patch | Words]:
    ends = sorted(at.spot(scene.view.seen(point)[:2]) for point in (each.start, each.end))
    for x, bottom in ends:
        yield straight("size", (x, bottom + 1.0), (x, y + 1.0))
    (left, _), (right, _) = ends
    yield from measured((left, y), (right, y))
    yield _written(each, (left + right) / 2, y + ROW, "middle")
    if each.edge:
        yield Words(each.edge, (left + right) / 2, y + 2 * ROW, SIZE, "middle")


def _upright(each: Dimension, at: _Placed, scene: Scene) -> Iterator[Stroke | Patch | Words]:
    """Beside the left rim of all lines of the picture, in the direction of what is measured."""
    ends = (at.spot(scene.view.seen(point)[:2]) for point in (each.start, each.end))
    start, end = sorted(ends, key=lambda spot: -spot[1])
    beside = ((start[0] - 2 * _OVER, start[1]), (end[0] - 2 * _OVER, end[1]))
    for spot in (start, end):
        yield straight("size", (spot[0] - 1.0, spot[1]), (spot[0] - 2 * _OVER - 1.0, spot[1]))
    yield from measured(*beside)
    middle = (beside[0][1] + beside[1][1]) / 2
    rows = ROW / 2 if each.edge else 0.0
    reach = SIZE + rows
    leftmost = min((beside[0][0] + beside[1][0]) / 2, _at(beside, middle - reach), _at(beside, middle + reach))
    yield _written(each, leftmost - _OVER, middle + SIZE * 0.35 + rows, "end")
    if each.edge:
        yield Words(each.edge, leftmost - _OVER, middle + SIZE * 0.35 - rows, SIZE, "end")


def _room(each: Dimension) -> float:
    """The width of what is written, whichever system it is read in."""
    text = each.text
    texts = (each.edge, text) if isinstance(text, str) else (each.edge, text.text, text.inches, text.metric)
    return max(width_of(one, SIZE) for one in texts)


def _written(each: Dimension, x: float, y: float, anchor: str) -> Words:
    text = each.text
    if isinstance(text, str):
        return Words(text, x, y, SIZE, anchor)
    inches, metric = (text.inches, text.metric) if text.differ else ("", "")
    return Words(text.text, x, y, SIZE, anchor, inches=inches, metric=metric)


def _at(line: tuple[Spot, Spot], y: float) -> float:
    (x1, y1), (x2, y2) = line
    return x1 if y1 == y2 else x1 + (x2 - x1) * (min(max(y, min(y1, y2)), max(y1, y2)) - y1) / (y2 - y1)


def _names(scene: Scene, ends: Ends, at: _Placed, column: float, top: float) -> Iterator[Stroke | Patch | Words]:
    """The names in a column, in the order in which their pieces lie from top to bottom, each with a line to its piece.
    The column begins at its side that is nearer to the picture."""
    way, anchor = (-1.0, "end") if ends.to_the_left else (1.0, "start")
    wanted: list[tuple[float, float, list[str]]] = []
    for path, name in scene.names:
        if path in ends.spots:
            rows = [shortened(row, SIZE, _NAMES) for row in lines_of(name, SIZE, _NAMES)[:_MOST_ROWS]]
            x, y = at.spot(ends.spots[path])
            wanted.append((y, x, rows))
    y = top
    for goal, x, rows in sorted(wanted):
        y = max(y, goal - len(rows) * ROW / 2)
        middle = y + len(rows) * ROW / 2
        yield straight("leader", (column - 0.8 * way, middle), (x, goal))
        yield leader_dot((x, goal))
        for number, row in enumerate(rows):
            yield Words(row, column, y + number * ROW + ROW / 2 + SIZE * (ASCENT - DESCENT) / 2, SIZE, anchor)
        y += len(rows) * ROW + 1.5
