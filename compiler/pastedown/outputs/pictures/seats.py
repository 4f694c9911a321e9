"""Where things meet, in space: the place that two faces share, the way by which what is new comes off it, and the
fields of a panel."""

from __future__ import annotations

from itertools import pairwise

from pastedown.outputs.pictures.frame import Vector, dot, minus, plus, times
from pastedown.outputs.pictures.places import (
    LEAST_OFF,
    MOVED,
    UPRIGHT,
    field_corners,
    field_middle,
    field_middle_of,
    outward_of,
)
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.space import Contact, Face

# The arrow behind what slides in, in parts of the way that it still has to go.
_BEHIND, _PUSHED = 1.75, 1.05
_JUST_ABOVE = 0.05
_PARALLEL = 1 - 1e-9


def way_off(workshop: Workshop, posed: Posed, contact: Contact, to: Face) -> Vector:
    """The way by which what is new comes off: square to the place it goes to, or along it where it goes over it
    from two sides."""
    outward = outward_of(posed, to)
    others = [outward_of(posed, other) for _, other in contact.pairs[1:]]
    if not any(dot(outward, other) < -UPRIGHT for other in others):
        return outward
    frame = posed.frames[to.piece][to.field]
    own = field_middle_of(workshop, to, posed)
    carrier = workshop.pieces[to.piece].base
    rest = posed.frames[to.piece][carrier]
    base = field_middle(workshop.pieces[to.piece], carrier, rest)
    ways = [times(way, sign) for way in (frame.x, frame.y) for sign in (1.0, -1.0)]
    return max(ways, key=lambda way: round(abs(dot(way, rest.z)) * 1000 + dot(way, minus(own, base)), 6))


def seat_of(
    workshop: Workshop, posed: Posed, what: Face, to: Face, drawn: Posed | None = None
) -> tuple[Vector, ...]:
    """The corners of the place that two fields share when they lie as `posed`; in space as that field lies when it is
    `drawn`, if that is another pose."""
    frame = posed.frames[to.piece][to.field]
    own, other = workshop.pieces[to.piece], workshop.pieces[what.piece]
    moved = posed.frames[what.piece][what.field]
    spots = [frame.coordinates(corner) for corner in field_corners(other, what.field, moved)]
    if what.field == other.base:
        # A whole piece lies there with all that goes on in the plane of its base.
        spots += [
            frame.coordinates(corner)
            for number, each in posed.frames[what.piece].items()
            if dot(each.z, moved.z) > _PARALLEL and abs(moved.coordinates(each.point(0.0, 0.0, 0.0))[2]) < MOVED
            for corner in field_corners(other, number, each)
        ]
    column, row = own.columns.strips[to.field[0]], own.rows.strips[to.field[1]]
    across, up = [spot[0] for spot in spots], [spot[1] for spot in spots]
    left, right = max(float(column.start), min(across)), min(float(column.end), max(across))
    tail, head = max(float(row.start), min(up)), min(float(row.end), max(up))
    if left >= right or tail >= head:
        return ()
    level = _JUST_ABOVE if to.side == "face" else -float(own.caliper) - _JUST_ABOVE
    lies = frame if drawn is None else drawn.frames[to.piece][to.field]
    return tuple(lies.point(x, y, level) for x, y in ((left, tail), (right, tail), (right, head), (left, head)))


def pressed(workshop: Workshop, posed: Posed, what: Face, to: Face) -> tuple[tuple[Vector, ...], ...]:
    """An arrow that presses down on what already lies in its place."""
    middle = field_middle_of(workshop, what, posed)
    outward = outward_of(posed, to)
    return ((plus(middle, times(outward, 1.5 * LEAST_OFF)), plus(middle, times(outward, 1.0))),)


def pushed_in(seat: tuple[Vector, ...], way: Vector) -> tuple[Vector, Vector]:
    """An arrow that pushes what stands half out of a place by `way` all the way in."""
    rim = max(
        (times(plus(one, other), 0.5) for one, other in pairwise((*seat, seat[0]))),
        key=lambda middle: dot(middle, way),
    )
    return plus(rim, times(way, _BEHIND)), plus(rim, times(way, _PUSHED))


def panel_of(workshop: Workshop, face: Face) -> set[tuple[int, int]]:
    """All fields of the panel in which a face lies."""
    piece = workshop.pieces[face.piece]
    column, row = piece.columns.strips[face.field[0]].panel, piece.rows.strips[face.field[1]].panel
    return {
        (a, b)
        for a, one in enumerate(piece.columns.strips)
        for b, other in enumerate(piece.rows.strips)
        if (one.panel, other.panel) == (column, row)
    }
