"""A folded strip seen from its end, as its section: in its true thickness, and with paper drawn thicker so that every
layer can be told. The second says so.

The section of a strip is one outline, along its face and back along its back. A shut fold keeps the thickness of the
paper round its inside.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from pastedown.outputs.in_words import measure
from pastedown.outputs.pictures.frame import Frame, Vector, dot
from pastedown.outputs.pictures.lettering import MOST_WIDTH, ROW, SIZE, TITLE_ROW, TITLE_SIZE
from pastedown.outputs.pictures.posed import State
from pastedown.outputs.pictures.strokes import RIM, exact, measured, sheet_of, straight
from pastedown.outputs.pictures.view import Spot
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.line_kind import THIN
from pastedown.outputs.template.shape import Straight
from pastedown.outputs.template.wrap import lines_of, title_lines
from pastedown.plan.space import SpatialPiece, Strips
from pastedown.quantity.quantity import mm

# A strip is one of so many folds that are turned, and of one direction.
_LEAST_FOLDS = 3
_WIDEST, _HIGHEST = MOST_WIDTH - 2 * RIM, 60.0
# So thick is paper drawn, in millimetres on the picture.
_DRAWN = 0.9
_MOST_THICKER = 12
_SHUT_COSINE = -0.999
_EXACT = 10**6

_Chain = list[Spot]


def end_views(workshop: Workshop) -> Iterator[tuple[str, Sheet]]:
    """A view of each folded strip, one of those cut alike, with the name of its file."""
    seen: set[str] = set()
    for piece in workshop.plan.space.pieces:
        if piece.handle not in seen and _is_strip(workshop, piece):
            seen.add(piece.handle)
            yield f"end-{piece.handle}", _view(workshop, piece)


def _is_strip(workshop: Workshop, piece: SpatialPiece) -> bool:
    along = _along(piece)
    turned = [line for line in along.lines if workshop.plan.space.made_up.angles.get((piece.path, line.name))]
    return min(len(piece.columns.strips), len(piece.rows.strips)) == 1 and len(turned) >= _LEAST_FOLDS


def _along(piece: SpatialPiece) -> Strips:
    return piece.columns if len(piece.columns.strips) > 1 else piece.rows


def _view(workshop: Workshop, piece: SpatialPiece) -> Sheet:
    true, _ = _section(workshop, piece, 1.0)
    low, high = _bounds(true)
    scale = min(_WIDEST / (high[0] - low[0]), _HIGHEST / max(high[1] - low[1], 1e-3), 1.0)
    caliper = max(float(piece.caliper) * scale, 1e-3)
    thicker = min(max(round(_DRAWN / caliper), 1), _MOST_THICKER)
    thick, held = _section(workshop, piece, float(thicker))
    name, ruler = workshop.name(piece.path), workshop.plan.ruler
    width = _WIDEST + 2 * RIM
    drawing: list[Stroke | Patch | Words] = []
    y = RIM
    for row in title_lines(name, ", seen from its end", TITLE_SIZE, _WIDEST):
        y += TITLE_ROW
        drawing.append(Words(row, RIM, y, TITLE_SIZE))
    first = f"Paper is drawn {thicker} times as thick as it is, to tell the layers; what sticks is black."
    for words, outline, between in ((first, thick, held), ("True thickness.", true, [])):
        for row in lines_of(words, SIZE, _WIDEST):
            y += ROW
            drawing.append(Words(row, RIM, y, SIZE))
        y += 3.0
        start, end = _bounds(outline)
        fit = min(scale, _WIDEST / (end[0] - start[0]))
        left = RIM + (_WIDEST - (end[0] - start[0]) * fit) / 2
        at = [(left + (x - start[0]) * fit, y + (end[1] - up) * fit) for x, up in outline]
        spots = [exact(spot) for spot in at]
        moves = tuple(Straight(a, b) for a, b in pairwise([*spots, spots[0]]) if a != b)
        drawing.append(Stroke("section", THIN, moves))
        for quad in between:
            drawing.append(
                Patch("held", tuple((left + (x - start[0]) * fit, y + (end[1] - up) * fit) for x, up in quad))
            )
        y += (end[1] - start[1]) * fit + 2.0
    drawing += _overall(true, scale, y, measure(mm(Fraction(round((high[0] - low[0]) * _EXACT), _EXACT)), ruler))
    return sheet_of(f"{name}, seen from its end", width, y + 3.0 + ROW + RIM, drawing)


def _overall(outline: Sequence[Spot], scale: float, y: float, text: str) -> Iterator[Stroke | Patch | Words]:
    low, high = _bounds(outline)
    left = RIM + (_WIDEST - (high[0] - low[0]) * scale) / 2
    right = left + (high[0] - low[0]) * scale
    for x in (left, right):
        yield straight("size", (x, y - 1.0), (x, y + 1.0))
    yield from measured((left, y), (right, y))
    yield Words(text, (left + right) / 2, y + ROW, SIZE, "middle")


def _section(workshop: Workshop, piece: SpatialPiece, thicker: float) -> tuple[_Chain, list[_Chain]]:
    """The outline of the section, and what sticks between the leaves of its shut folds."""
    made = {
        path: number
        for path, number in workshop.progress.made_at.items()
        if all(face.piece == piece.path for pair in workshop.contacts[path].pairs for face in pair)
    }
    angles = {key: float(angle) for key, angle in workshop.plan.space.made_up.angles.items()}
    posed = workshop.posed(State(made, angles, thicker))
    frames = posed.frames[piece.path]
    is_wide = len(piece.columns.strips) > 1
    strips = _along(piece).strips
    leaves = [(frames[(n, 0) if is_wide else (0, n)], float(s.start), float(s.end)) for n, s in enumerate(strips)]
    thickness = float(piece.caliper) * thicker
    face: list[list[Vector]] = [[_at(frame, place, 0.0, is_wide) for place in (a, b)] for frame, a, b in leaves]
    back: list[list[Vector]] = [[_at(frame, place, -thickness, is_wide) for place in (a, b)] for frame, a, b in leaves]
    held: list[_Chain] = []
    for number, ((one, _, _), (other, _, _)) in enumerate(pairwise(leaves)):
        if dot(one.z, other.z) > _SHUT_COSINE:
            continue
        gaps = [_length(side[number][1], side[number + 1][0]) for side in (face, back)]
        inner = face if gaps[0] < gaps[1] else back
        for place, end in ((number, 1), (number + 1, 0)):
            far = inner[place][1 - end]
            inner[place][end] = _towards(inner[place][end], far, thickness)
        corners = [inner[number][1], inner[number + 1][0], inner[number + 1][1], inner[number][0]]
        held.append([_flat(corner, is_wide) for corner in corners])
    way = [point for pair in face for point in pair] + [point for pair in reversed(back) for point in reversed(pair)]
    return [_flat(point, is_wide) for point in way], held


def _at(frame: Frame, place: float, height: float, is_wide: bool) -> Vector:
    return frame.point(place, 0.0, height) if is_wide else frame.point(0.0, place, height)


def _flat(point: Vector, is_wide: bool) -> Spot:
    return (point[0] if is_wide else point[1]), point[2]


def _length(one: Vector, other: Vector) -> float:
    return float(sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5)


def _towards(start: Vector, end: Vector, by: float) -> Vector:
    part = by / max(_length(start, end), by)
    return (
        start[0] + (end[0] - start[0]) * part,
        start[1] + (end[1] - start[1]) * part,
        start[2] + (end[2] - start[2]) * part,
    )


def _bounds(outline: Sequence[Spot]) -> tuple[Spot, Spot]:
    xs, ys = [spot[0] for spot in outline], [spot[1] for spot in outline]
    return (min(xs), min(ys)), (max(xs), max(ys))
