"""Every field of every piece as a frame in space, in one state of the work.

Takes the pieces, which contacts are made and the angle of each fold; gives a frame for each field. Derived: a plate of
the stock's caliper turns about its score on the valley side; what is trapped in a shut fold opens it; what comes later
on a face lies on what lies there already.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from heapq import heappop, heappush

from attrs import field, frozen

from pastedown.outputs.pictures.frame import AT_THE_ORIGIN, Frame, Vector, dot, floats, folded, minus, times
from pastedown.outputs.pictures.trapped import Trapped
from pastedown.plan.space import FieldNumber, Seat, Space, SpatialPiece, Strips, Turning

_SHUT = 179.0
# A thing is not lifted further than this over what it is joined to, in thicknesses as drawn; a choice, no source.
_MOST_LIFT = 12.0
_TOUCHING = 1e-6
_SQUARE = 90.0

Frames = dict[FieldNumber, Frame]


@frozen
class State:
    """How far the work has come: the paths of the contacts that are made, each with the number of its step, and the
    angle of every fold that is turned, in degrees. `thicker` is how many times its thickness paper is drawn."""

    made: Mapping[str, int]
    angles: Mapping[Turning, float]
    thicker: float = 1.0


@frozen
class Posed:
    """The frames of all fields by piece, and the piece on which each stands in the end: what has one root holds
    together."""

    frames: dict[str, Frames]
    roots: dict[str, str]
    children: dict[str, list[str]] = field(factory=dict)

    def together(self, path: str) -> list[str]:
        """The pieces that hold together with one, in the order in which they came."""
        return [other for other, root in self.roots.items() if root == self.roots[path]]


def pose(space: Space, state: State, laid: Mapping[str, Frame] | None = None) -> Posed:
    """All pieces in a state. What nothing carries lies with its base at the origin, or as `laid` says."""
    angles = {key: float(angle) for key, angle in space.made_up.angles.items()}
    follows = {one.follows for piece in space.pieces for one in piece.followers}
    made_up = None
    if any(state.angles.get(key, 0.0) != angles.get(key, 0.0) for key in follows):
        held = {**state.angles, **{key: angles.get(key, 0.0) for key in follows}}
        made_up = _Posing(space, State(state.made, held, state.thicker), laid or {}, None).done()
    return _Posing(space, state, laid or {}, made_up).done()


class _Posing:
    def __init__(self, space: Space, state: State, laid: Mapping[str, Frame], made_up: Posed | None) -> None:
        self._space, self._state, self._laid, self._made_up = space, state, laid, made_up
        self._pieces = {piece.path: piece for piece in space.pieces}
        contacts = [contact for contact in space.contacts if contact.path in state.made]
        self._trapped = Trapped(self._pieces, contacts, state.thicker)
        self._adhesive = {contact.path: float(contact.thickness) * state.thicker for contact in contacts}
        self._posed = Posed({}, {})
        # Of pieces that are put already; nothing moves them until all are put.
        self._boxes: dict[tuple[str, FieldNumber], _Box] = {}

    def done(self) -> Posed:
        waiting: dict[str, list[SpatialPiece]] = {}
        ready: list[tuple[int, int, SpatialPiece]] = []
        numbers = {piece.path: number for number, piece in enumerate(self._space.pieces)}

        def make_ready(piece: SpatialPiece, seat: Seat | None) -> None:
            step = self._state.made[seat.join] if seat is not None else -1
            heappush(ready, (step, numbers[piece.path], piece))

        for piece in self._space.pieces:
            seat = self._seat(piece)
            if seat is None:
                make_ready(piece, None)
            else:
                waiting.setdefault(seat.on.piece, []).append(piece)
        while ready:
            _, _, piece = heappop(ready)
            self._put(piece, self._seat(piece))
            for other in waiting.get(piece.path, ()):
                make_ready(other, self._seat(other))
        for piece in self._space.pieces:
            seat = self._seat(piece)
            if seat is not None and piece.path in self._posed.children and piece.path in self._posed.frames:
                self._rest_on_what_is_below(piece, seat)
        return self._posed

    def _seat(self, piece: SpatialPiece) -> Seat | None:
        seat = piece.seat
        return seat if seat is not None and seat.join in self._state.made else None

    def _put(self, piece: SpatialPiece, seat: Seat | None) -> None:
        if seat is None:
            base = self._laid.get(piece.path, AT_THE_ORIGIN)
            self._posed.roots[piece.path] = piece.path
            self._posed.frames[piece.path] = self._fields(piece, base)
            return
        on = self._posed.frames[seat.on.piece][seat.on.field]
        base = on.of(self._seated(piece, seat))
        fields = self._fields(piece, base)
        outward = times(on.z, 1.0 if seat.on.side == "face" else -1.0)
        lift = self._lift(piece, seat, fields, base, outward)
        if lift:
            fields = self._fields(piece, base.moved(times(outward, lift)))
        self._posed.roots[piece.path] = self._posed.roots[seat.on.piece]
        self._posed.children.setdefault(seat.on.piece, []).append(piece.path)
        self._posed.frames[piece.path] = fields

    def _seated(self, piece: SpatialPiece, seat: Seat) -> Frame:
        """The frame of the base on its carrier, with the thickness of both as it is drawn."""
        frame = Frame(floats(seat.origin), floats(seat.x), floats(seat.y), floats(seat.z))
        if self._state.thicker == 1.0:
            return frame
        # Only where it lies in the paper's plane is kept.
        own = float(piece.caliper) * self._state.thicker
        carrier = float(self._pieces[seat.on.piece].caliper) * self._state.thicker
        adhesive = self._adhesive.get(seat.join, 0.0)
        up = 1.0 if seat.on.side == "face" else -1.0
        level = adhesive if up > 0 else -carrier - adhesive
        # The back lies below the face: where that side is joined, the face lies one thickness further out.
        level += up * own if frame.z[2] * up > 0 else 0.0
        return Frame((frame.origin[0], frame.origin[1], level), frame.x, frame.y, frame.z)

    def _fields(self, piece: SpatialPiece, base: Frame) -> Frames:
        column, row = piece.base
        caliper = float(piece.caliper) * self._state.thicker
        found: Frames = {}
        for number, frame in self._walk(piece, piece.columns, column, base, "width", caliper):
            for other, inner in self._walk(piece, piece.rows, row, frame, "height", caliper):
                found[number, other] = inner
        if self._made_up is not None:
            self._follow(piece, found)
        return found

    def _follow(self, piece: SpatialPiece, found: Frames) -> None:
        """What is held beyond a joint goes with what lies there, as it lies made up; what is slack has no place."""
        assert self._made_up is not None
        for one in piece.followers:
            path, number = one.anchor
            turned = self._state.angles.get(one.follows, 0.0)
            anchor = self._posed.frames.get(path, {}).get(number)
            held = self._made_up.frames.get(path, {}).get(number)
            if turned == float(self._space.made_up.angles.get(one.follows, 0)) or anchor is None or held is None:
                continue
            if self._made_up.roots.get(piece.path) != self._made_up.roots.get(path):
                continue
            where = 0 if one.axis == "width" else 1
            for each in list(found):
                if each[where] == one.slack:
                    del found[each]
                elif one.first <= each[where] <= one.last:
                    found[each] = anchor.of(self._made_up.frames[piece.path][each].inside(held))

    def _walk(
        self, piece: SpatialPiece, along: Strips, start: int, frame: Frame, axis: str, caliper: float
    ) -> Iterator[tuple[int, Frame]]:
        yield start, frame
        for onward in (1, -1):
            here, number = frame, start
            while 0 <= number + onward < len(along.strips):
                here = self._crossed(piece, along, (start, number, onward), here, axis, caliper)
                number += onward
                yield number, here

    def _crossed(
        self, piece: SpatialPiece, along: Strips, way: tuple[int, int, int], frame: Frame, axis: str, caliper: float
    ) -> Frame:
        """The frame of the next strip."""
        start, number, onward = way
        near, far = along.strips[number], along.strips[number + onward]
        at = float(near.end if onward == 1 else near.start)
        line = along.lines[number if onward == 1 else number - 1]
        angles = self._state.angles
        if near.bends and near.panel != far.panel:
            rise, angle = _rise(near.bends), min(angles.get((piece.path, near.panel), 0.0), _SQUARE)
            if number == start and onward == -1 and angle == angles.get((piece.path, near.panel), 0.0):
                # A piece that is placed by a panel that bends turns it at one edge, as any other does.
                angle = 0.0
        elif far.bends and near.panel != far.panel:
            rise, angle = _rise(far.bends), max(angles.get((piece.path, far.panel), 0.0) - _SQUARE, 0.0)
        else:
            rise, angle = _rise(line.kind), angles.get((piece.path, line.name), 0.0)
        if not angle:
            return frame
        turned = folded(frame, axis, at, 0.0 if rise == 1 else -caliper, onward, rise, angle)
        if angle < _SHUT:
            return turned
        gap = self._gap(piece, axis, number, number + onward, "face" if rise == 1 else "back")
        return turned.moved(times(frame.z, rise * gap))

    def _gap(self, piece: SpatialPiece, axis: str, near: int, far: int, side: str) -> float:
        others = range(len((piece.rows if axis == "width" else piece.columns).strips))

        def leaf(number: int) -> list[FieldNumber]:
            return [(number, other) if axis == "width" else (other, number) for other in others]

        return self._trapped.between(piece.path, leaf(near), leaf(far), side)

    def _lift(self, piece: SpatialPiece, seat: Seat, fields: Frames, base: Frame, outward: Vector) -> float:
        """How far a piece has to rise to lie on what is there already, of all that lies where it is joined."""
        thickness = float(piece.caliper) * self._state.thicker
        own = [number for number, frame in fields.items() if abs(dot(frame.z, outward)) > 1 - _TOUCHING]
        level = min(dot(base.origin, outward), dot(base.point(0.0, 0.0, -thickness), outward))
        flat = [_Box.of(self._pieces[piece.path], number, fields[number], thickness) for number in own]
        flat = [box for box in flat if abs(box.span(outward)[0] - level) < _TOUCHING]
        lift = 0.0
        for low, high in sorted(self._lying_at(seat, level, outward, flat)):
            if low < level + lift + thickness - _TOUCHING and high > level + lift + _TOUCHING:
                lift = high - level
        return lift if lift <= _MOST_LIFT * self._state.thicker else 0.0

    def _rest_on_what_is_below(self, piece: SpatialPiece, seat: Seat) -> None:
        """What a piece carries on the side by which it is joined lies between it and its carrier: turned-in rims lift
        a board off what it is stuck to."""
        on = self._posed.frames[seat.on.piece][seat.on.field]
        outward = times(on.z, 1.0 if seat.on.side == "face" else -1.0)
        base = self._posed.frames[piece.path][piece.base]
        thickness = float(piece.caliper) * self._state.thicker
        level = min(dot(base.origin, outward), dot(base.point(0.0, 0.0, -thickness), outward))
        carried = self._carried(piece.path)
        below = _Box.of(self._pieces[seat.on.piece], seat.on.field, on, self._thickness(seat.on.piece))
        floor, surface = below.span(outward)
        lift = 0.0
        for path in sorted(carried):
            for number, frame in self._posed.frames[path].items():
                if abs(dot(frame.z, outward)) <= 1 - _TOUCHING:
                    continue
                box = _Box.of(self._pieces[path], number, frame, self._thickness(path))
                low, high = box.span(outward)
                is_between = low < surface - _TOUCHING and floor + _TOUCHING < high <= level + _TOUCHING
                if is_between and box.overlaps(below, outward):
                    lift = max(lift, surface - low)
        if 0 < lift <= _MOST_LIFT * self._state.thicker:
            for path in (piece.path, *carried):
                frames = self._posed.frames[path]
                for number, frame in frames.items():
                    frames[number] = frame.moved(times(outward, lift))

    def _thickness(self, path: str) -> float:
        return float(self._pieces[path].caliper) * self._state.thicker

    def _carried(self, path: str) -> set[str]:
        """All that stands on a piece."""
        found: set[str] = set()
        waiting = [path]
        while waiting:
            for other in self._posed.children.get(waiting.pop(), ()):
                found.add(other)
                waiting.append(other)
        return found

    def _lying_at(
        self, seat: Seat, level: float, outward: Vector, over: list[_Box]
    ) -> Iterator[tuple[float, float]]:
        """From where to where along a direction the fields reach that lie parallel above a level, where others lie."""
        root = self._posed.roots[seat.on.piece]
        for path, frames in self._posed.frames.items():
            if self._posed.roots[path] != root:
                continue
            piece = self._pieces[path]
            for number, frame in frames.items():
                if abs(dot(frame.z, outward)) <= 1 - _TOUCHING or (path, number) == (seat.on.piece, seat.on.field):
                    continue
                box = self._boxes.get((path, number))
                if box is None:
                    box = self._boxes[path, number] = _Box.of(piece, number, frame, self._thickness(path))
                span = box.span(outward)
                if span[1] > level + _TOUCHING and any(box.overlaps(each, outward) for each in over):
                    yield span


@frozen
class _Box:
    """The corners of a field with its thickness; for fields that lie square to the directions of space or of one
    another it is exact."""

    corners: tuple[Vector, ...]

    @classmethod
    def of(cls, piece: SpatialPiece, number: FieldNumber, frame: Frame, thickness: float) -> _Box:
        column, row = piece.columns.strips[number[0]], piece.rows.strips[number[1]]
        return cls(
            tuple(
                frame.point(float(x), float(y), z)
                for x in (column.start, column.end)
                for y in (row.start, row.end)
                for z in (0.0, -thickness)
            )
        )

    def span(self, direction: Vector) -> tuple[float, float]:
        places = [dot(corner, direction) for corner in self.corners]
        return min(places), max(places)

    def overlaps(self, other: _Box, outward: Vector) -> bool:
        """Whether two boxes share some room as seen along a direction: told by the sides of the other one."""
        first, *_ = other.corners
        sides = (minus(other.corners[4], first), minus(other.corners[2], first))
        for side in sides:
            if abs(dot(side, outward)) > _TOUCHING:
                return False
            length = dot(side, side) ** 0.5
            if not length:
                return False
            (low, high), (start, end) = self.span(times(side, 1 / length)), other.span(times(side, 1 / length))
            if min(high, end) - max(low, start) < _TOUCHING:
                return False
        return True


def _rise(kind: str) -> int:
    return -1 if kind == "mountain" else 1
