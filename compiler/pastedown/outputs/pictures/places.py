"""Places of fields in space: their corners and middles, and how far what is new stands off from them."""

from __future__ import annotations

from pastedown.outputs.pictures.frame import Frame, Vector, dot, minus, plus, times
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.space import Face, SpatialPiece

UP: Vector = (0.0, 0.0, 1.0)
# The cosine from which on two directions count as one, for choosing views.
UPRIGHT = 0.5
# What is new stands off by so much of its own depth on the table, which clears it on the picture, and by no less. The
# last is for what slides over something. In millimetres; chosen by looking at all examples.
_STAND_OFF = 0.62
LEAST_OFF = 20.0
_SLIDE = 38.0
_SIDEWAYS = 0.35
# Less is no movement.
MOVED = 1e-3


def outward_of(posed: Posed, face: Face) -> Vector:
    frame = posed.frames[face.piece][face.field]
    return times(frame.z, 1.0 if face.side == "face" else -1.0)


def moved_by(plate: Plate, by: Vector) -> Plate:
    return Plate(plate.piece, plate.number, plate.frame.moved(by), plate.rings, plate.thickness, plate.beside)


def distance(
    plates: list[Plate], away: Vector, carrier: SpatialPiece, to: Face, outward: Vector, posed: Posed
) -> float:
    """How far what is new stands off."""
    corners = [corner for plate in plates for corner in plate.corners()]
    if not corners:
        return LEAST_OFF
    sizes = [max(corner[axis] for corner in corners) - min(corner[axis] for corner in corners) for axis in range(3)]
    if abs(dot(away, outward)) < UPRIGHT:
        frame = posed.frames[to.piece][to.field]
        ends = [dot(corner, away) for corner in field_corners(carrier, to.field, frame)]
        return max(ends) - min(ends) + _SLIDE
    if abs(dot(away, UP)) > UPRIGHT:
        return max(LEAST_OFF, _STAND_OFF * sizes[1])
    return max(LEAST_OFF, _SIDEWAYS * max(sizes))


def field_corners(piece: SpatialPiece, number: tuple[int, int], frame: Frame) -> list[Vector]:
    column, row = piece.columns.strips[number[0]], piece.rows.strips[number[1]]
    xs, ys = (float(column.start), float(column.end)), (float(row.start), float(row.end))
    return [frame.point(xs[a], ys[b], 0.0) for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]


def field_middle(piece: SpatialPiece, number: tuple[int, int], frame: Frame) -> Vector:
    return middle_of(tuple(field_corners(piece, number, frame)))


def field_middle_of(workshop: Workshop, face: Face, posed: Posed) -> Vector:
    return field_middle(workshop.pieces[face.piece], face.field, posed.frames[face.piece][face.field])


def rims(piece: SpatialPiece, number: tuple[int, int]) -> list[tuple[float, float]]:
    """The middles of the four sides of a field."""
    column, row = piece.columns.strips[number[0]], piece.rows.strips[number[1]]
    left, right, tail, head = map(float, (column.start, column.end, row.start, row.end))
    x, y = (left + right) / 2, (tail + head) / 2
    return [(left, y), (right, y), (x, tail), (x, head)]


def area(plate: Plate) -> float:
    column, row = plate.piece.columns.strips[plate.number[0]], plate.piece.rows.strips[plate.number[1]]
    return float((column.end - column.start) * (row.end - row.start))


def middle_of(corners: tuple[Vector, ...]) -> Vector:
    total: Vector = (0.0, 0.0, 0.0)
    for corner in corners:
        total = plus(total, corner)
    return times(total, 1 / len(corners))


def span(way: tuple[Vector, ...]) -> float:
    step = minus(way[-1], way[0])
    return float(dot(step, step) ** 0.5)


def differs(one: Frame, other: Frame | None) -> bool:
    if other is None:
        return False
    return any(
        abs(a - b) > MOVED
        for mine, theirs in ((one.z, other.z), (one.x, other.x))
        for a, b in zip(mine, theirs, strict=True)
    )
