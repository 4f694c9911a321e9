"""Settles where the pieces lie in space. This is the one place of the plan that asks geometry for placements.

Takes the model, gives the pieces with their fields, what carries each and where, and the angles of every pose.
Afterwards every piece has an entry; one that nothing exact can be said of has no seat.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Protocol, TypeVar

from attrs import evolve

from pastedown.geometry.folded_piece import Field
from pastedown.geometry.frame import Direction, Frame, along, cosine
from pastedown.geometry.in_pose import InPose, PlacedPiece, adhesive_of, angles_in
from pastedown.geometry.model import Crease, Join, Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece, Score
from pastedown.plan.names import plain_name
from pastedown.plan.plan import CutPiece
from pastedown.plan.space import (
    Contact,
    Face,
    FieldNumber,
    Follower,
    LineBetween,
    Posture,
    Seat,
    Space,
    SpatialPiece,
    Strip,
    Strips,
    Turning,
    Vector,
)

_NOUGHT = Fraction(0)
_DEGREES = {"flat": Fraction(0), "square": Fraction(90), "shut": Fraction(180)}
_WHOLE_TURN = 360
# A line that cuts a field in two leaves so much on both sides at least, in millimetres.
_LEAST_STRIP = Fraction(1, 100)


def settle_space(model: Model, cut: tuple[CutPiece, ...]) -> Space:
    """Where all pieces lie."""
    in_order = evolve(
        model,
        pieces=_by_path(model.pieces),
        joins=_by_path(model.joins),
        creases=_by_path(model.creases),
        poses=_by_path(model.poses),
    )
    return _Settling(in_order, cut).space()


class _HasPath(Protocol):
    @property
    def path(self) -> str: ...


_WithPath = TypeVar("_WithPath", bound=_HasPath)


def _by_path(things: Iterable[_WithPath]) -> tuple[_WithPath, ...]:
    """Nothing may hang on the order of lines."""
    return tuple(sorted(things, key=lambda thing: (natural_key(thing.path), thing.path)))


class _Settling:
    """The work on one model."""

    def __init__(self, model: Model, cut: tuple[CutPiece, ...]) -> None:
        self._model = model
        self._placed = InPose(model)
        self._handles = {path: piece.id for piece in cut for path in piece.paths}
        self._pieces = {piece.path: piece for piece in model.pieces}
        self._carried: dict[str, Join] = {}
        for join in model.joins:
            if not join.closes:
                self._carried.setdefault(join.what.faces[0][0], join)
        self._strips = {piece.path: (_strips(piece, "width"), _strips(piece, "height")) for piece in model.pieces}
        self._largest_of: dict[str, FieldNumber] = {}
        self._followers: dict[str, list[Follower]] = {}
        over_joints: dict[object, list[Crease]] = {}
        for crease in model.creases:
            over_joints.setdefault((crease.on.faces[0][:2], crease.follows), []).append(crease)
        for creases in over_joints.values():
            self._split(creases)

    def space(self) -> Space:
        made_up = Posture("", "", _angles(self._model.made_up))
        postures = (Posture(pose.path, pose.part, _angles(angles_in(self._model, pose))) for pose in self._model.poses)
        return Space(
            pieces=tuple(self._piece(piece) for piece in self._model.pieces),
            contacts=tuple(self._contact(join) for join in self._model.joins),
            made_up=made_up,
            postures=tuple(postures),
            creases=tuple((crease.path, self._face(crease.on.faces[0])) for crease in self._model.creases),
        )

    def _piece(self, piece: FlatPiece) -> SpatialPiece:
        columns, rows = self._strips[piece.path]
        placed = self._placed.place(piece.path)
        base = self._base(piece.path, placed) if placed is not None else self._largest(piece.path)
        return SpatialPiece(
            path=piece.path,
            part=piece.part,
            name=plain_name([piece]),
            handle=self._handles[piece.path],
            caliper=piece.stock.caliper.value if piece.stock.caliper is not None else _NOUGHT,
            stock_kind=piece.stock.kind,
            columns=columns,
            rows=rows,
            base=base,
            seat=self._seat(piece, placed),
            followers=tuple(self._followers.get(piece.path, ())),
            loose=piece.loose,
        )

    def _base(self, path: str, placed: PlacedPiece) -> FieldNumber:
        """The field by which a piece is placed. What goes with another piece does not place it."""
        held: dict[str, set[int]] = {"width": set(), "height": set()}
        for one in self._followers.get(path, ()):
            held[one.axis].update((*range(one.first, one.last + 1), one.slack))
        columns, rows = self._strips[path]
        base = placed.base
        return (
            _widest_within(columns, base.left, base.right, held["width"]),
            _widest_within(rows, base.tail, base.head, held["height"]),
        )

    def _seat(self, piece: FlatPiece, placed: PlacedPiece | None) -> Seat | None:
        if placed is None or placed.on is None:
            return None
        on, own = placed.on.field.frame, placed.base.frame
        join = self._carried[piece.path]
        carrier = placed.on.placed.folded.piece.path
        side = join.to.faces[0][2]
        return Seat(
            on=Face(carrier, self._number(carrier, placed.on.field), side),
            join=join.path,
            origin=_in(on, own),
            x=_turned(on, own.x),
            y=_turned(on, own.y),
            z=_turned(on, own.z),
        )

    def _contact(self, join: Join) -> Contact:
        pairs = zip(join.what.faces, join.to.faces, strict=False)
        return Contact(
            path=join.path,
            closes=join.closes,
            pairs=tuple((self._face(what), self._face(to)) for what, to in pairs),
            thickness=adhesive_of(join),
        )

    def _face(self, face: tuple[str, str, str]) -> Face:
        path, panel, side = face
        placed = self._placed.place(path)
        if placed is None:
            return Face(path, self._largest(path), side)
        fields = placed.folded.of_panel(panel) if panel else []
        return Face(path, self._number(path, fields[0]) if fields else self._base(path, placed), side)

    def _number(self, path: str, one: Field) -> FieldNumber:
        """The field of strips; where a crease has cut one in two, its largest part."""
        columns, rows = self._strips[path]
        return _widest_within(columns, one.left, one.right), _widest_within(rows, one.tail, one.head)

    def _largest(self, path: str) -> FieldNumber:
        """Asked once strips are cut no more, and for each of many joins of a piece that could not be placed."""
        if path not in self._largest_of:
            columns, rows = self._strips[path]
            width, height = columns.strips[-1].end, rows.strips[-1].end
            self._largest_of[path] = _widest_within(columns, _NOUGHT, width), _widest_within(rows, _NOUGHT, height)
        return self._largest_of[path]

    def _split(self, creases: Sequence[Crease]) -> None:
        """Cut the strip that creases lie on at both ends of the joint that they follow, and name the cuts by them."""
        crease = creases[0]
        if crease.follows is None:
            return
        path = crease.on.faces[0][0]
        placed, other = self._placed.place(path), self._placed.place(crease.follows[0])
        if placed is None or other is None:
            return
        joint = _joint(other, crease.follows[1])
        lying = placed.folded.of_panel(crease.on.faces[0][1])[:1]
        if joint is None or not lying:
            return
        direction, begins, ends, anchor = joint
        own = lying[0].frame
        axis = next((axis for axis in ("width", "height") if cosine(own.axis(axis), direction)), "")
        if not axis:
            return
        way = cosine(own.axis(axis), direction)
        origin = along(own.origin, direction)
        near, far = (begins - origin) * way, (ends - origin) * way
        where = 0 if axis == "width" else 1
        beyond = [one for one in creases if self._is_over_what_lies_beyond(one, anchor)]
        before = [one for one in creases if one not in beyond]
        names = [one[0].path if one else "" for one in (before, beyond)]
        divided = _divided(self._strips[path][where], near, far, (names[0], names[1]))
        if divided is None:
            return
        strips, slack = divided
        both = list(self._strips[path])
        both[where] = strips
        self._strips[path] = (both[0], both[1])
        self._followers[path] = [_moved_on(one, axis, slack) for one in self._followers.get(path, [])]
        last = len(strips.strips) - 1
        first, last = (slack + 1, last) if way == 1 else (0, slack - 1)
        anchored = (crease.follows[0], self._number(crease.follows[0], anchor))
        self._followers[path].append(Follower(axis, first, last, slack, anchored, crease.follows, crease.path))

    def _is_over_what_lies_beyond(self, crease: Crease, beyond: Field) -> bool:
        """Whether the edge that a crease goes over is carried by what lies beyond the joint, and not before it."""
        made = self._placed.place(crease.over.rpartition(".")[0])
        while made is not None and made.on is not None:
            carrier = made.on.placed.folded.piece.path
            if crease.follows is not None and carrier == crease.follows[0]:
                return self._number(carrier, made.on.field) == self._number(carrier, beyond)
            made = made.on.placed
        return False


def _angles(angles: Mapping[Turning, str]) -> dict[Turning, Fraction]:
    return {key: _degrees(angle) for key, angle in angles.items()}


def _degrees(angle: str) -> Fraction:
    return _DEGREES[angle] if angle in _DEGREES else Fraction(angle) % _WHOLE_TURN


def _strips(piece: FlatPiece, axis: str) -> Strips:
    run = next((run for run in piece.runs if run.axis == axis), None)
    side = (piece.width if axis == "width" else piece.height).value
    if run is None:
        return Strips((Strip(_NOUGHT, side, ""),), ())
    panels = [Strip(panel.start.value, panel.end.value, panel.name, panel.bends) for panel in run.panels]
    scores = {score.at.value: score for score in run.scores}
    lines = [_line(scores.get(one.end), one, other) for one, other in pairwise(panels)]
    if run.reversed:
        panels = [Strip(side - each.end, side - each.start, each.panel, each.bends) for each in reversed(panels)]
        lines.reverse()
    return Strips(tuple(panels), tuple(lines))


def _line(score: Score | None, one: Strip, other: Strip) -> LineBetween:
    if score is not None:
        return LineBetween(score.name, score.kind)
    return LineBetween("", "mark" if one.bends or other.bends else "")


def _widest_within(strips: Strips, low: Fraction, high: Fraction, held: set[int] | None = None) -> int:
    """The widest of the strips that lie between two places, of those that are not held if there is one. Strips lie in
    a row, and this is asked for each of as many joins as there may be strips."""
    first = bisect_left(strips.strips, low, key=lambda strip: strip.start)
    last = bisect_right(strips.strips, high, key=lambda strip: strip.end)
    within = range(first, last)
    free = [number for number in within if not held or number not in held] or within
    return max(free, key=lambda number: (strips.strips[number].end - strips.strips[number].start, -number), default=0)


def _in(frame: Frame, other: Frame) -> Vector:
    """The origin of another frame in the coordinates of this one."""
    x, y, z = (along(other.origin, axis) - along(frame.origin, axis) for axis in (frame.x, frame.y, frame.z))
    return x, y, z


def _turned(frame: Frame, direction: Direction) -> Vector:
    x, y, z = (Fraction(cosine(direction, axis)) for axis in (frame.x, frame.y, frame.z))
    return x, y, z


def _joint(placed: PlacedPiece, name: str) -> tuple[Direction, Fraction, Fraction, Field] | None:
    """A fold or a panel that bends, made up: the direction in which the paper beyond it lies, where along that it
    begins and ends, and the field beyond."""
    for run in placed.folded.piece.runs:
        side = run.side.value
        spans = [(panel.start.value, panel.end.value) for panel in run.panels if panel.name == name]
        spans += [(score.at.value, score.at.value) for score in run.scores if score.name == name]
        for low, high in spans[:1]:
            if run.reversed:
                low, high = side - high, side - low
            return _beyond(placed, run.axis, low, high)
    return None


def _beyond(
    placed: PlacedPiece, axis: str, low: Fraction, high: Fraction
) -> tuple[Direction, Fraction, Fraction, Field] | None:
    base = placed.base
    middle = (base.left + base.right) / 2 if axis == "width" else (base.tail + base.head) / 2
    onward = 1 if middle < low else -1
    at = high if onward == 1 else low
    fields = [one for one in placed.folded.fields if _begins(one, axis, onward) == at]
    if not fields:
        return None
    one = max(fields, key=lambda each: each.area)
    own = one.frame.axis(axis)
    direction = (own[0] * onward, own[1] * onward, own[2] * onward)
    origin = along(one.frame.origin, direction)
    ends = sorted((origin + low * onward, origin + high * onward))
    return direction, ends[0], ends[1], one


def _begins(one: Field, axis: str, onward: int) -> Fraction:
    low, high = (one.left, one.right) if axis == "width" else (one.tail, one.head)
    return low if onward == 1 else high


def _divided(strips: Strips, near: Fraction, far: Fraction, names: tuple[str, str]) -> tuple[Strips, int] | None:
    """The strips with the one that holds both places cut there, and the number of the strip between; None where no
    strip holds both with room beside them. `names` are those of the creases at the two places; "" for no crease."""
    low, high = sorted((near, far))
    for number, strip in enumerate(strips.strips):
        if strip.start + _LEAST_STRIP <= low and high <= strip.end - _LEAST_STRIP and low < high:
            parts = (
                Strip(strip.start, low, strip.panel, strip.bends),
                Strip(low, high, strip.panel, strip.bends),
                Strip(high, strip.end, strip.panel, strip.bends),
            )
            told = tuple(LineBetween(name, "crease" if name else "") for name in names)
            lines = told if near == low else told[::-1]
            return Strips(
                (*strips.strips[:number], *parts, *strips.strips[number + 1 :]),
                (*strips.lines[:number], *lines, *strips.lines[number:]),
            ), number + 1
    return None


def _moved_on(one: Follower, axis: str, slack: int) -> Follower:
    """A follower of the same piece after one of its strips was cut into three, of which `slack` is the second."""
    if one.axis != axis:
        return one
    cut = slack - 1
    return evolve(
        one,
        first=one.first + 2 if one.first > cut else one.first,
        last=one.last + 2 if one.last >= cut else one.last,
        slack=one.slack + 2 if one.slack > cut else one.slack,
    )
