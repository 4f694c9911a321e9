"""A plate: one field of a piece as it lies in space, with its thickness."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from pastedown.outputs.pictures.field_shape import HEAD, LEFT, RIGHT, TAIL, FieldShapes, Ring
from pastedown.outputs.pictures.frame import Frame, Vector, dot
from pastedown.outputs.pictures.posed import Posed
from pastedown.plan.space import FieldNumber, LineBetween, Space, SpatialPiece

_PARALLEL = 1 - 1e-9
_STEPS = {LEFT: (-1, 0), RIGHT: (1, 0), TAIL: (0, -1), HEAD: (0, 1)}


@frozen(eq=False)
class Plate:
    """A flat plate between its face, at z = 0 of its frame, and its back, at z = -thickness. `rings` are the corners
    on the plane, the outer ring first. `beside` says of each side with a line what line it is and whether the plate
    beyond it lies in the same plane."""

    piece: SpatialPiece
    number: FieldNumber
    frame: Frame
    rings: tuple[Ring, ...]
    thickness: float
    beside: dict[str, tuple[LineBetween, bool]]

    @property
    def path(self) -> str:
        return self.piece.path

    def corners(self) -> Iterator[Vector]:
        """All corners, of the face and of the back."""
        for ring in self.rings:
            for x, y in ring.spots:
                yield self.frame.point(x, y, 0.0)
                yield self.frame.point(x, y, -self.thickness)


def plates_of(
    posed: Posed, space: Space, shapes: FieldShapes, paths: Iterable[str], thicker: float = 1.0
) -> list[Plate]:
    """The plates of some pieces, in the order of the pieces and their fields."""
    wanted = set(paths)
    return [
        plate
        for piece in space.pieces
        if piece.path in wanted
        for plate in _plates(piece, posed.frames[piece.path], shapes, thicker)
    ]


def _plates(
    piece: SpatialPiece, frames: dict[FieldNumber, Frame], shapes: FieldShapes, thicker: float
) -> Iterator[Plate]:
    for number in sorted(frames):
        rings = shapes.of(piece, number).rings
        if rings:
            beside = {side: _line(piece, frames, number, side) for side in _STEPS if _has_line(piece, number, side)}
            yield Plate(piece, number, frames[number], rings, float(piece.caliper) * thicker, beside)


def _has_line(piece: SpatialPiece, number: FieldNumber, side: str) -> bool:
    other = _next(number, side)
    return 0 <= other[0] < len(piece.columns.strips) and 0 <= other[1] < len(piece.rows.strips)


def _line(
    piece: SpatialPiece, frames: dict[FieldNumber, Frame], number: FieldNumber, side: str
) -> tuple[LineBetween, bool]:
    other = _next(number, side)
    along = piece.columns if other[0] != number[0] else piece.rows
    line = along.lines[min(other[0], number[0]) if other[0] != number[0] else min(other[1], number[1])]
    own, beyond = frames[number], frames.get(other)
    return line, beyond is not None and dot(own.z, beyond.z) > _PARALLEL


def _next(number: FieldNumber, side: str) -> FieldNumber:
    step = _STEPS[side]
    return number[0] + step[0], number[1] + step[1]
