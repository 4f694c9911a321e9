"""Where every piece lies in a pose: joins carry pieces onto one another, from a piece that nothing carries outwards.

A join brings two sides of paper face to face, with the adhesive's caliper between them. Its alignments say where along
height and width. A piece lies upright on what carries it, or turned end for end where only so it lies on the paper at
all; with `turned: yes` it lies across.

What a pose does not speak of stays as it is made up, and what is stuck on keeps its place on what carries it. A panel
that is creased in place is stuck down on both sides of what its crease follows: where that turns, what lies beyond goes
with it, and what lies between is slack and has no place (`following.py`).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from attrs import define, field, frozen

from pastedown.geometry.folded_piece import MOST_FIELDS, Angles, Field, FoldedPiece, fold_piece, how_many_fields
from pastedown.geometry.following import followed, like
from pastedown.geometry.frame import Direction, Frame, Vector, along, cosine, moved, scaled, square_to, taken_along
from pastedown.geometry.model import Alignment, Join, Line, Model, Pose
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.pose import EXACT_ANGLES, FLAT

_NOUGHT = Fraction(0)
# What stands on more pieces than so many, one on another, is not placed.
HIGHEST_HEAP = 200
# Lines may lie on pieces that are aligned to lines of other pieces, and so on; so far they are followed.
_DEEPEST_LINES = 50
# So many fields are placed in poses other than made up, all poses together.
MOST_POSED = 10_000


@frozen(eq=False)
class PlacedPiece:
    """A piece and the field by which it is placed; `root` is the piece on which its whole heap stands, and `on` the
    side that carries it. `above` counts the pieces below it, and `thickness` is that of all paper and adhesive on the
    way from its field down to the field of the root, in millimetres."""

    folded: FoldedPiece
    base: Field
    root: str
    on: PlacedSide | None
    above: int
    thickness: Fraction


@frozen(eq=False)
class PlacedSide:
    """One side of a placed field: the plane it lies in and which way it looks."""

    placed: PlacedPiece
    field: Field
    outward: Direction
    level: Fraction


def angles_in(model: Model, pose: Pose | None) -> Angles:
    """The angle of every fold in a pose, or made up without one."""
    if pose is None:
        return model.made_up
    spoken_of = {path for path, _ in pose.angles}
    flat = tuple(f"{part}." if part else "" for part in pose.flat)
    kept = {
        key: angle
        for key, angle in model.made_up.items()
        if key[0] not in spoken_of and not (flat and key[0].startswith(flat))
    }
    return {**kept, **pose.angles}


@define
class InPose:
    """The places of the pieces of one model in one pose, worked out when they are asked for: in `made_up` without
    another. `beside` are the joins whose two sides do not come to lie on one another at all, each with how far they
    lie apart, in millimetres."""

    model: Model
    pose: Pose | None = None
    made_up: InPose | None = None
    beside: dict[str, Fraction] = field(factory=dict)
    angles: Angles = field(factory=dict)
    _pieces: dict[str, FlatPiece] = field(factory=dict)
    _carried: dict[str, Join] = field(factory=dict)
    _placed: dict[str, PlacedPiece | None] = field(factory=dict)
    _turned: frozenset[str] = frozenset()
    _deep: int = 0

    def __attrs_post_init__(self) -> None:
        self.angles = angles_in(self.model, self.pose)
        if self.made_up is not None:
            self._turned = _turned_in(self, self.made_up)
        self._pieces = {piece.path: piece for piece in self.model.pieces}
        for join in self.model.joins:
            if not join.closes:
                self._carried.setdefault(join.what.faces[0][0], join)

    def is_about(self, part: str) -> bool:
        """Whether a part lies within the one whose pose this is. What is around it stays made up and may not fit."""
        own = self.pose.part if self.pose is not None else ""
        return not own or part == own or part.startswith(f"{own}.")

    def place(self, path: str) -> PlacedPiece | None:
        """Where a piece lies; None where nothing exact can be said of it."""
        waiting: list[str] = []
        at = path
        while at not in self._placed:
            # What hangs on itself, in a ring of joins or by its own lines, has no place; another check tells rings.
            self._placed[at] = None
            waiting.append(at)
            join = self._carried.get(at)
            if join is None:
                break
            at = join.to.faces[0][0]
        for one in reversed(waiting):
            if self.made_up is not None and self._stays(one, self.made_up):
                self._placed[one] = self.made_up.place(one)
                continue
            placed = self._place(one)
            if placed is not None and self.made_up is not None:
                placed = followed(placed, self, self.made_up)
            self._placed[one] = placed
        return self._placed[path]

    def piece(self, path: str) -> FlatPiece:
        """A piece of the model by its path."""
        return self._pieces[path]

    def carried_by(self, path: str) -> Join | None:
        """The join that carries a piece; None for what nothing carries."""
        return self._carried.get(path)

    def stays(self, path: str) -> bool:
        """Whether a piece lies where it lies made up, with all its folds."""
        return self.made_up is not None and self.place(path) is self.made_up.place(path)

    def _stays(self, path: str, made_up: InPose) -> bool:
        if path in self._turned:
            return False
        join = self._carried.get(path)
        if join is None:
            return True
        lines = {line.to_line.piece for line in join.alignments if line.to_line is not None}
        return all(self.place(other) is made_up.place(other) for other in {join.to.faces[0][0], *lines} - {path})

    def _place(self, path: str) -> PlacedPiece | None:
        piece = self._pieces.get(path)
        if piece is None or how_many_fields(piece) > MOST_FIELDS:
            return None
        join = self._carried.get(path)
        if join is None:
            folded, base = fold_piece(piece, self.angles, "")
            return PlacedPiece(folded, base, path, None, 0, _NOUGHT)
        made = self.made_up.place(path) if self.made_up is not None else None
        if made is not None and made.on is not None:
            return self._kept(piece, join, made.base.frame, made.on)
        return self._carry(piece, join)

    def _kept(self, piece: FlatPiece, join: Join, made: Frame, on: PlacedSide) -> PlacedPiece | None:
        """What is stuck on stays where it was stuck, wherever its lines go by being folded."""
        below = self.place(on.placed.folded.piece.path)
        under = like(below.folded.fields, on.field) if below is not None else None
        if below is None or under is None:
            return None
        frame = taken_along(made, on.field.frame, under.frame)
        folded, base = fold_piece(piece, self.angles, join.what.faces[0][1], frame)
        return _on(side_of(below, under, join.to.faces[0][2]), folded, base, adhesive_of(join))

    def _carry(self, piece: FlatPiece, join: Join) -> PlacedPiece | None:
        panel = join.what.faces[0][1]
        target = self.side(join.to.faces[0])
        if target is None or target.placed.above >= HIGHEST_HEAP:
            return None
        folded, base = fold_piece(piece, self.angles, panel)
        self._deep += 1
        placed = self._try(piece, join, folded, base, target)
        self._deep -= 1
        return placed

    def _try(
        self, piece: FlatPiece, join: Join, folded: FoldedPiece, base: Field, target: PlacedSide
    ) -> PlacedPiece | None:
        _, panel, side = join.what.faces[0]
        adhesive = adhesive_of(join)
        tried: list[Fraction] = []
        for frame in self._frames(folded, base, side, target, join, adhesive):
            placed_folded, placed_base = fold_piece(piece, self.angles, panel, frame)
            apart = _apart(_extent(placed_folded, placed_base, panel), target, join.to.faces[0][1])
            if apart < 0:
                return _on(target, placed_folded, placed_base, adhesive)
            tried.append(apart)
        if tried:
            self.beside[join.path] = min(tried)
        return None

    def side(self, face: tuple[str, str, str]) -> PlacedSide | None:
        """One side of a piece or of one of its panels, as it lies; where other panels cross it, of the largest of its
        fields."""
        return next(iter(self.sides(face)), None)

    def sides(self, face: tuple[str, str, str]) -> list[PlacedSide]:
        """The same of all fields of a panel, the largest first."""
        path, panel, side = face
        placed = self.place(path)
        if placed is None:
            return []
        fields = placed.folded.of_panel(panel) if panel else [placed.base]
        return [side_of(placed, one, side) for one in fields]

    def line(self, line: Line, near: PlacedSide) -> Vector | None:
        """A point of a line of a placed piece."""
        placed = self._placed.get(line.piece) if self._deep > _DEEPEST_LINES else self.place(line.piece)
        if placed is None:
            return None
        own = near.field if near.placed is placed else placed.base
        at = line.at.value
        if line.is_middle and near.placed is placed:
            at = placed.folded.middle(line.axis, own)
        elif (found := placed.folded.field_at(line.axis, at, own)) is None:
            return None
        else:
            own = found
        return own.frame.point(at, _NOUGHT, _NOUGHT) if line.axis == "width" else own.frame.point(_NOUGHT, at, _NOUGHT)

    def _frames(
        self, folded: FoldedPiece, base: Field, side: str, target: PlacedSide, join: Join, adhesive: Fraction
    ) -> Iterator[Frame]:
        """The frames in which the field may lie, upright first."""
        z = scaled(target.outward, -1 if side == "face" else 1)
        depth = _NOUGHT if side == "face" else -_caliper(folded.piece)
        crossed = [line for line in join.alignments if _axes(line) == ("width", "height")]
        ups = (target.field.frame.x, scaled(target.field.frame.x, -1)) if crossed else ()
        for up in ups or (target.field.frame.y, scaled(target.field.frame.y, -1)):
            frame = Frame((_NOUGHT, _NOUGHT, _NOUGHT), square_to(up, z), up, z)
            origin = self._origin(frame, folded, base, target, join)
            if origin is None:
                return
            level = target.level + adhesive
            origin = moved(origin, target.outward, level - along(origin, target.outward))
            yield Frame(moved(origin, z, -depth), frame.x, frame.y, frame.z)

    def _origin(
        self, frame: Frame, folded: FoldedPiece, base: Field, target: PlacedSide, join: Join
    ) -> Vector | None:
        """The corner of a frame, so that the lines meet; None where an alignment is missing for one direction."""
        origin: Vector = (_NOUGHT, _NOUGHT, _NOUGHT)
        settled: set[str] = set()
        for alignment in join.alignments:
            what, to = alignment.what_line, alignment.to_line
            if what is None or to is None or what.piece != folded.piece.path or what.axis in settled:
                continue
            point = self.line(to, target)
            if point is None:
                return None
            direction = frame.axis(what.axis)
            at = folded.middle(what.axis, base) if what.is_middle else what.at.value
            wanted = along(point, direction) + _inwards(alignment, to, target, direction)
            origin = moved(origin, direction, wanted - at - along(origin, direction))
            settled.add(what.axis)
        return origin if settled == {"width", "height"} else None


def _turned_in(pose: InPose, made_up: InPose) -> frozenset[str]:
    """The pieces that have a fold or a bend at another angle than made up, or that follow one."""
    keys = {*pose.angles, *made_up.angles}
    turned = {key for key in keys if pose.angles.get(key, FLAT) != made_up.angles.get(key, FLAT)}
    following = {crease.on.faces[0][0] for crease in pose.model.creases if crease.follows in turned}
    return frozenset({path for path, _ in turned} | following)


def in_every_pose(model: Model) -> Iterator[InPose]:
    """The pieces made up, and then in all other poses in which something is turned otherwise and every angle is exact,
    so far as MOST_POSED allows."""
    made_up = InPose(model)
    yield made_up
    fields = {piece.path: how_many_fields(piece) for piece in model.pieces}
    left = MOST_POSED
    for pose in model.poses:
        angles = angles_in(model, pose)
        differs = {key for key in {*angles, *model.made_up} if angles.get(key, FLAT) != model.made_up.get(key, FLAT)}
        left -= sum(fields.values()) if differs else 0
        if differs and left >= 0 and all(angles.get(key, FLAT) in EXACT_ANGLES for key in differs):
            yield InPose(model, pose, made_up)


def side_of(placed: PlacedPiece, one: Field, side: str) -> PlacedSide:
    height = _NOUGHT if side == "face" else -_caliper(placed.folded.piece)
    outward = scaled(one.frame.z, 1 if side == "face" else -1)
    level = along(moved(one.frame.origin, one.frame.z, height), outward)
    return PlacedSide(placed, one, outward, level)


def _on(target: PlacedSide, folded: FoldedPiece, base: Field, adhesive: Fraction) -> PlacedPiece:
    below = target.placed
    thickness = adhesive + _layers(target, below.base) + below.thickness
    return PlacedPiece(folded, base, below.root, target, below.above + 1, thickness)


def _axes(alignment: Alignment) -> tuple[str, str]:
    what, to = alignment.what_line, alignment.to_line
    return (what.axis, to.axis) if what is not None and to is not None else ("", "")


def _inwards(alignment: Alignment, to: Line, target: PlacedSide, direction: Direction) -> Fraction:
    """How far along a direction a line has to lie from the one it is aligned to: `inside` counts towards the middle of
    the field on which it lies."""
    own = target.field
    low, high = (own.left, own.right) if to.axis == "width" else (own.tail, own.head)
    towards_more = 1 if 2 * to.at.value <= low + high else -1
    return alignment.inside.value * towards_more * cosine(own.frame.axis(to.axis), direction)


_Extent = tuple[tuple[Fraction, ...], tuple[Fraction, ...]]


def _extent(folded: FoldedPiece, base: Field, panel: str) -> _Extent:
    """The least and the most along each direction of space, of one field or of a whole piece."""
    corners = [corner for one in ((base,) if panel else folded.fields) for corner in one.corners()]
    return tuple(map(min, zip(*corners, strict=True))), tuple(map(max, zip(*corners, strict=True)))


def _apart(extent: _Extent, target: PlacedSide, panel: str) -> Fraction:
    """How far two sides lie apart in their plane: less than nought where they lie on one another."""
    other = _extent(target.placed.folded, target.field, panel)
    in_plane = [number for number in range(3) if target.outward[number] == 0]
    return max(max(extent[0][at], other[0][at]) - min(extent[1][at], other[1][at]) for at in in_plane)


def apart_in_plane(one: PlacedSide, one_panel: str, other: PlacedSide, other_panel: str) -> Fraction:
    """How far two sides that face one another lie apart in their plane, in millimetres: less than nought where they
    overlap."""
    return _apart(_extent(one.placed.folded, one.field, one_panel), other, other_panel)


def turned_bends_between(one: PlacedSide, other: PlacedSide, pose: InPose) -> list[str]:
    """The paths of the panels that bend on the way from one side to the other and are turned in the pose."""
    found: list[str] = []
    while True:
        is_last = one.placed is other.placed
        higher = one if is_last or one.placed.above >= other.placed.above else other
        fields = (one.field, other.field) if is_last else (higher.field, higher.placed.base)
        path = higher.placed.folded.piece.path
        for run in higher.placed.folded.piece.runs if fields[0].folds != fields[1].folds else ():
            bending = [panel.name for panel in run.panels if panel.bends and (path, panel.name) in pose.angles]
            found += [f"{path}.{name}" for name in bending if pose.angles[path, name] != FLAT]
        if is_last:
            return found
        if higher is one:
            one = _down(one)
        else:
            other = _down(other)


def paper_between(one: PlacedSide, other: PlacedSide) -> Fraction:
    """The thickness of all paper and adhesive on the way from one side to the other, in millimetres. By so much two
    sides of one heap may lie apart without missing one another: what is trapped in a shut fold opens it, and that is
    not counted in the places."""
    first, second = one, other
    while first.placed is not second.placed:
        if first.placed.above >= second.placed.above:
            first = _down(first)
        else:
            second = _down(second)
    return _thickness(one, first) + _thickness(other, second) + _layers(first, second.field)


def _down(side: PlacedSide) -> PlacedSide:
    """The side of the piece below, by which the way from a side comes in."""
    assert side.placed.on is not None
    return side.placed.on


def _thickness(side: PlacedSide, below: PlacedSide) -> Fraction:
    """What lies between a side and one on the way down from it, in millimetres."""
    if side is below:
        return _NOUGHT
    whole = _layers(side, side.placed.base) + side.placed.thickness
    return whole - _layers(below, below.placed.base) - below.placed.thickness


def _layers(side: PlacedSide, to: Field) -> Fraction:
    """The thickness of a piece itself and of the two leaves of each fold between two of its fields."""
    folds = sum(abs(one - other) for one, other in zip(side.field.folds, to.folds, strict=True))
    return _caliper(side.placed.folded.piece) * (1 + 2 * folds)


def _caliper(piece: FlatPiece) -> Fraction:
    return piece.stock.caliper.value if piece.stock.caliper is not None else _NOUGHT


def adhesive_of(join: Join) -> Fraction:
    """The caliper of what holds a join, in millimetres; nought where it is not known."""
    return join.by.caliper.value if join.by is not None and join.by.caliper is not None else _NOUGHT
