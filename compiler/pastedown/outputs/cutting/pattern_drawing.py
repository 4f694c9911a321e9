"""One pattern to scale on a sheet of printer paper: pieces and offcuts by name, the cuts by number, and the rows that
tell them. Afterwards no word lies over a line or over another word."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import frozen

from pastedown.outputs.cutting.cut_numbers import Marks, numbered
from pastedown.outputs.cutting.leaders import Ends
from pastedown.outputs.cutting.part_labels import Labels, label_parts
from pastedown.outputs.cutting.words import fence_and_blade, how_often, sides, split, what_is_cut
from pastedown.outputs.in_words import measure
from pastedown.outputs.plain_text import NO_BREAK_SPACE
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words, line
from pastedown.outputs.template.grain_arrow import arrow_at
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.line_kind import THIN, LineKind
from pastedown.outputs.template.paper import MARGIN, Paper, paper_for
from pastedown.outputs.template.room import Room
from pastedown.outputs.template.switched_words import lines_in_two_systems, words_of
from pastedown.outputs.template.wrap import lines_of
from pastedown.outputs.two_systems import TwoSystems, as_written
from pastedown.plan.sheet_parts import SheetCut, SheetPart, SheetPattern, StockCutting
from pastedown.quantity.quantity import Length, mm
from pastedown.quantity.ruler import Ruler

_PIECE = LineKind("piece", "", THIN.width * 2)
_TITLE, _SIZE, _ROW = 4.2, 2.7, 3.9
# Kept free beside the sheet: the arrow on the left, numbers that find no room within on the right, both in millimetres.
_LEFT, _RIGHT = 11.0, 11.0
_BETWEEN = 6.0
# The sheet is drawn no higher than this, and no lower to make room for what is told below it.
_HIGHEST, _LOWEST = 200.0, 60.0
# A picture is no wider, so that a telephone shows its words large enough, and a printed sheet has room for two.
_PICTURE = 120.0
# A kilometre.
_ENDLESS = 1_000_000.0
_INSET = 0.45
_TRIES = 4
_BARE = "Strokes without a number have no room for one: they are cut with the others of their row."
# With more rows than this, they stand in two columns if they are short enough.
_ONE_COLUMN = 8


# left, top, right, bottom on the paper
_Corners = tuple[float, float, float, float]


@frozen
class _Frame:
    """Where the sheet lies on the paper: `left` and `bottom` in millimetres from the paper's upper left corner, and how
    many millimetres of paper a millimetre of the sheet takes."""

    left: float
    bottom: float
    scale: float

    def x(self, along: Length) -> float:
        return self.left + float(along.millimetres) * self.scale

    def y(self, up: Length) -> float:
        return self.bottom - float(up.millimetres) * self.scale


def pattern_drawing(name: str, stock: StockCutting, pattern: SheetPattern, ruler: Ruler) -> Sheet:
    """The drawing of one pattern, `name` as "3-5", upright on the paper that goes with the ruler."""
    paper = paper_for(ruler)
    margin = float(MARGIN.millimetres) + 2
    width, height = (float(side.millimetres) for side in (paper.width, paper.height))
    words = list(_title(name, pattern, ruler, margin, width - 2 * margin))
    top = max(each.y for each in words) + _BETWEEN
    told = list(_rows(pattern, ruler))
    rows = [row for each in told for row in lines_of(each, _SIZE, width - 2 * margin)]
    columns = 2 if all(width_of(each, _SIZE) <= width / 2 - margin - 2 for each in told) else 1
    deep = -(-len(rows) // (columns if len(rows) > _ONE_COLUMN else 1))
    high = min(_HIGHEST, max(_LOWEST, height - margin - top - _ROW * deep - 2 * _BETWEEN))
    wide = width - 2 * margin - _LEFT - _RIGHT
    for _ in range(_TRIES):
        scale = min(wide / float(pattern.width.millimetres), high / float(pattern.height.millimetres))
        bottom = top + float(pattern.height.millimetres) * scale
        drawn = _drawn(stock, pattern, _Frame(margin + _LEFT, bottom, scale), ruler, margin)
        key = len(_key(drawn.labels, drawn.bare, width - 2 * margin))
        lacking = drawn.bottom + _BETWEEN + _ROW * (deep + key + (key > 0)) - (height - margin)
        if lacking <= 0 or high <= _LOWEST:
            break
        high = max(_LOWEST, bottom - top - lacking)
    box = margin, drawn.bottom + _BETWEEN, width - margin, height - margin
    words += [*drawn.words, *_below(drawn.labels, drawn.bare, rows, columns, box)]
    return Sheet(f"{pattern.sheet}, pattern {name}", paper, drawn.strokes, drawn.patches, tuple(words))


def pattern_picture(name: str, stock: StockCutting, pattern: SheetPattern, ruler: Ruler) -> Sheet:
    """The same drawing no larger than it must be, with the key to its letters and nothing else in words: a picture
    above lists that tell the cuts and every size."""
    wide = _PICTURE - _LEFT - _RIGHT
    scale = min(wide / float(pattern.width.millimetres), wide / float(pattern.height.millimetres))
    top = 1.0
    bottom = top + float(pattern.height.millimetres) * scale
    drawn = _drawn(stock, pattern, _Frame(_LEFT, bottom, scale), ruler, 0.0, in_picture=True)
    width = _LEFT + float(pattern.width.millimetres) * scale + _RIGHT
    if len(_key(drawn.labels, drawn.bare, width - 2.0)) > len(drawn.labels.key) + drawn.bare:
        width = _PICTURE
    key = list(_below(drawn.labels, drawn.bare, [], 1, (1.0, drawn.bottom + _BETWEEN, width - 1.0, _ENDLESS)))
    low = max([drawn.bottom, *(each.y for each in key)]) + 1.5
    paper = Paper("picture", _tenths(width), _tenths(low))
    title = f"{pattern.sheet}, pattern {name}"
    return Sheet(title, paper, drawn.strokes, drawn.patches, (*drawn.words, *key))


def _tenths(millimetres: float) -> Length:
    return mm(Fraction(ceil(millimetres * 10), 10))


@frozen
class _Drawn:
    """The sheet as it is cut. `bottom` is how far down the paper it and its numbers reach."""

    strokes: tuple[Stroke, ...]
    patches: tuple[Patch, ...]
    words: tuple[Words, ...]
    labels: Labels
    bare: bool
    bottom: float


def _drawn(
    stock: StockCutting, pattern: SheetPattern, frame: _Frame, ruler: Ruler, left: float, *, in_picture: bool = False
) -> _Drawn:
    """Pieces, offcuts, cuts with their numbers, and at the left which way the grain runs."""
    strokes = [_rectangle("sheet", THIN, frame, *_whole(pattern))]
    strokes += [_rectangle("pieces", _PIECE, frame, *_inner(part)) for part in pattern.parts if part.kind == "piece"]
    lines = _cut_lines(pattern, frame)
    strokes += [line("cuts", THIN, *ends) for _, ends in lines]
    labels, marks = _written(pattern, frame, lines, ruler, in_picture=in_picture)
    patches: list[Patch] = []
    words: list[Words] = []
    upright = stock.upright.split(" and ") if stock.upright else []
    high = (frame.bottom - frame.y(pattern.height)) / max(len(upright), 1)
    for number, what in enumerate(upright):
        way = arrow_at("height", left + 5.5, frame.bottom - high * (number + 0.5), min(30.0, high * 0.8))
        strokes.append(way.stroke)
        patches += way.heads if what == "grain" else way.heads[1:]
        words.append(way.word if what == "grain" else _instead(way.word, what))
    words += [*labels.words, *marks.words]
    strokes += marks.strokes
    patches += marks.dots
    return _Drawn(tuple(strokes), tuple(patches), tuple(words), labels, marks.bare, max(frame.bottom, marks.bottom))


def _written(
    pattern: SheetPattern, frame: _Frame, lines: list[tuple[int, Ends]], ruler: Ruler, *, in_picture: bool
) -> tuple[Labels, Marks]:
    """Names and numbers; tried again with the leaders of the time before kept free of names, if one crossed a name."""
    boxes = [(part, _box(part, frame)) for part in pattern.parts]
    kept_free: tuple[Ends, ...] = ()
    for _ in range(_TRIES):
        room, written = Room(), Room()
        for ends in (*(ends for _, ends in lines), *_edges(pattern, frame), *kept_free):
            room.take_line(*ends)
        labels = label_parts(boxes, ruler, room, written, switch=in_picture, sizes_told=not in_picture)
        corners = (frame.left, frame.bottom), (frame.x(pattern.width), frame.y(pattern.height))
        marks = numbered(lines, corners, room, written)
        if not marks.crossed:
            break
        kept_free = (*kept_free, *marks.leaders)
    return labels, marks


def _instead(words: Words, text: str) -> Words:
    return Words(text, words.x, words.y, words.size, words.anchor, words.angle)


def _title(name: str, pattern: SheetPattern, ruler: Ruler, left: float, room: float) -> Iterator[Words]:
    y = left + _TITLE
    yield Words(shortened(f"{pattern.sheet}, pattern {name}", _TITLE, room), left, y, _TITLE)
    named = "on hand: " if pattern.on_hand else ""
    for said in (f"{named}{how_often(pattern)}", f"Sheet {sides(pattern.width, pattern.height, ruler)}"):
        y += _ROW + 1
        yield Words(shortened(_plain(said[:1].upper() + said[1:]), _SIZE + 0.4, room), left, y, _SIZE + 0.4)


def _plain(text: str) -> str:
    return text.replace(NO_BREAK_SPACE, " ")


def _rows(pattern: SheetPattern, ruler: Ruler) -> Iterator[str]:
    """What each numbered cut does."""
    if not pattern.cuts:
        yield "The sheet is the piece: it is not cut."
    yield from split(pattern)
    for cut in pattern.cuts:
        yield _plain(_row(cut, pattern, ruler))
    if pattern.cuts:
        yield _plain(fence_and_blade(pattern))


def _row(cut: SheetCut, pattern: SheetPattern, ruler: Ruler) -> str:
    way = "upright" if cut.upright else "level"
    left = f"; {cut.rest} is left" if cut.rest else ""
    several = f", {cut.blade} strokes" if cut.blade > 1 else ""
    fence = measure(cut.fence, ruler)
    return f"{cut.number}: {what_is_cut(cut, pattern)}: fence at {fence}, {way}{several}: {cut.taken}{left}"


def _below(labels: Labels, bare: bool, rows: list[str], columns: int, box: _Corners) -> Iterator[Words]:
    """The key to the letters, and the rows; those for which there is no room are in the text."""
    left, top, right, bottom = box
    fits = max(2, int((bottom - top) / _ROW))
    key = _cut_short(_key(labels, bare, right - left), fits)
    for number, row in enumerate(key):
        yield words_of(row, left, top + number * _ROW, _SIZE)
    top += _ROW * (len(key) + 1) if key else 0
    fits -= len(key) + 1 if key else 0
    columns = columns if len(rows) > _ONE_COLUMN else 1
    deep = -(-len(rows) // columns) if columns * fits >= len(rows) else max(fits, 0)
    for number, told in enumerate(_cut_short(list(map(as_written, rows)), columns * deep)):
        column, down = divmod(number, deep)
        yield words_of(told, left + column * (right - left) / 2, top + down * _ROW, _SIZE)


def _key(labels: Labels, bare: bool, room: float) -> list[TwoSystems]:
    said = (*labels.key, *((as_written(_BARE),) if bare else ()))
    return [row for each in said for row in lines_in_two_systems(each, _SIZE, room)]


def _cut_short(rows: list[TwoSystems], fits: int) -> list[TwoSystems]:
    rest = as_written("The rest is in cutting-plan.txt.")
    return rows if len(rows) <= fits else [*rows[: fits - 1], rest][: max(fits, 0)]


def _whole(pattern: SheetPattern) -> tuple[Length, Length, Length, Length, float]:
    zero = pattern.width - pattern.width
    return zero, zero, pattern.width, pattern.height, 0.0


def _inner(part: SheetPart) -> tuple[Length, Length, Length, Length, float]:
    return part.x, part.y, part.x + part.width, part.y + part.height, _INSET


def _rectangle(
    group: str, kind: LineKind, frame: _Frame, x1: Length, y1: Length, x2: Length, y2: Length, inset: float
) -> Stroke:
    left, right, bottom, top = frame.x(x1), frame.x(x2), frame.y(y1), frame.y(y2)
    inset = min(inset, (right - left) / 4, (bottom - top) / 4)
    left, right, bottom, top = left + inset, right - inset, bottom - inset, top + inset
    return line(group, kind, (left, bottom), (right, bottom), (right, top), (left, top), (left, bottom))


def _edges(pattern: SheetPattern, frame: _Frame) -> Iterator[Ends]:
    left, right, bottom, top = frame.left, frame.x(pattern.width), frame.bottom, frame.y(pattern.height)
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    yield from zip(corners, corners[1:] + corners[:1], strict=True)


def _cut_lines(pattern: SheetPattern, frame: _Frame) -> list[tuple[int, Ends]]:
    lines: list[tuple[int, Ends]] = []
    for cut in pattern.cuts:
        for stroke in cut.strokes:
            start = frame.x(stroke.x), frame.y(stroke.y)
            end = (start[0], frame.y(stroke.y + stroke.length)) if stroke.upright else (
                frame.x(stroke.x + stroke.length), start[1]
            )
            lines.append((cut.number, (start, end)))
    return lines


def _box(part: SheetPart, frame: _Frame) -> _Corners:
    """left, top, right, bottom on the paper"""
    return frame.x(part.x), frame.y(part.y + part.height), frame.x(part.x + part.width), frame.y(part.y)
