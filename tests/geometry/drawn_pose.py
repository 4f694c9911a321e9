"""The whole design as thick plates in space, at any angles: what drawings show of a pose.

Everything is joined as it was made up and then turned, so each piece keeps its place on the one that carries it. Where
all angles are exact this gives the places by which designs are judged (`in_pose.py`), in floating point; at others
nothing is ever judged.

Coordinates are in millimetres. A heap of pieces, one on another, stands on its `root`, and the root lies with its
largest panel as that panel is cut: x along its width to the right, y towards its head, z out of its face, which lies at
z = 0. Heaps that no join brings together know nothing of one another, and each has these coordinates for itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve, frozen

from geometry.plate_shape import shapes_of
from geometry.swung_frame import Spot, SwungFrame, swung, taken_along
from pastedown.geometry.folded_piece import (
    LEAVING,
    MOST_FIELDS,
    REACHING,
    UNKNOWN,
    Angles,
    Field,
    Turns,
    how_many_fields,
    strips_of,
)
from pastedown.geometry.following import joint_of, parted
from pastedown.geometry.in_pose import InPose, PlacedPiece, angles_in
from pastedown.geometry.model import Model, Pose
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.pose import EXACT_ANGLES, FLAT

_DEGREES = {"flat": Fraction(0), "square": Fraction(90), "shut": Fraction(180)}
_SQUARE = 90


@frozen
class Plate:
    """One field of one piece as a plate.

    `piece` is its path and `panels` are the names of the panels that cross in it, along width and height ("" where
    there is no run). `outline` are the corners of its face, anticlockwise seen from the face, and `windows` those of
    each hole in it, likewise. `out_of_face` is one long and looks out of the face; the plate goes `thickness`
    millimetres the other way, and is flat where the caliper of its stock is not known. `root` is the path of the piece
    on which its heap stands.
    """

    piece: str
    panels: tuple[str, str]
    outline: tuple[Spot, ...]
    windows: tuple[tuple[Spot, ...], ...]
    out_of_face: Spot
    thickness: float
    root: str

    @property
    def back(self) -> tuple[Spot, ...]:
        """The corners of its back, in the order of those of the face."""
        x, y, z = (part * self.thickness for part in self.out_of_face)
        return tuple((spot[0] - x, spot[1] - y, spot[2] - z) for spot in self.outline)


def degrees_of(angle: str) -> Fraction:
    """An angle as poses have it, in degrees: nought is flat, 90 square, 180 shut."""
    return _DEGREES[angle] if angle in _DEGREES else Fraction(angle)


def angles_between(model: Model, one: Pose | None, other: Pose | None, share: Fraction) -> Angles:
    """The angles on the way from one pose to another, None being made up: nought is the first, 1 the second."""
    first, second = angles_in(model, one), angles_in(model, other)
    found = {}
    for key in sorted({*first, *second}):
        start, end = (degrees_of(angles.get(key, FLAT)) for angles in (first, second))
        found[key] = _written(start + share * (end - start))
    return found


def _written(degrees: Fraction) -> str:
    return next((angle for angle, exact in _DEGREES.items() if exact == degrees), str(degrees))


def plates_in(model: Model, pose: Pose | None = None) -> Iterator[Plate]:
    """The plates of all pieces in a pose, or made up without one, by the path of the piece. The pose of a part shows
    that part alone, as it is judged."""
    yield from plates_at(model, angles_in(model, pose), pose.part if pose is not None else "")


def plates_at(model: Model, angles: Angles, part: str = "") -> Iterator[Plate]:
    """The same at any angles, of one part or, with "", of the whole design. A piece that nothing can be said of has no
    plates: one that lies beside what should carry it, or over a joint that turns under it, or beyond a panel that turns
    to a side nobody said."""
    drawn = _Drawn(model, angles)
    for piece in model.pieces:
        if not part or piece.part == part or piece.part.startswith(f"{part}."):
            for one, frame in drawn.fields(piece.path):
                yield from _plate(piece, one, frame, drawn.root(piece.path))


def _plate(piece: FlatPiece, one: Field, frame: SwungFrame, root: str) -> Iterator[Plate]:
    outline, windows = shapes_of(piece, one)
    if outline:
        thickness = piece.stock.caliper.value if piece.stock.caliper is not None else 0
        holes = tuple(tuple(frame.point(x, y, 0.0) for x, y in window) for window in windows)
        corners = tuple(frame.point(x, y, 0.0) for x, y in outline)
        yield Plate(piece.path, one.panels, corners, holes, frame.z, float(thickness), root)


def _exact(model: Model) -> Angles:
    """The angles at which a piece is put on another one: as made up, and flat where those have no exact place. Where it
    lies there does not hang on them."""
    unsaid = {
        (piece.path, panel.name)
        for piece in model.pieces
        for run in piece.runs
        for panel in run.panels
        if panel.bends == "yes"
    }
    return {key: angle for key, angle in model.made_up.items() if angle in EXACT_ANGLES and key not in unsaid}


# A field as it lies when all is joined, and where it lies in the drawing.
_Swung = tuple[Field, SwungFrame]


class _Drawn:
    """The places of the pieces of one model at some angles, worked out when they are asked for."""

    def __init__(self, model: Model, angles: Angles) -> None:
        self._angles = angles
        self._joined = InPose(evolve(model, made_up=_exact(model)))
        self._creases = [crease for crease in model.creases if crease.follows is not None]
        self._fields: dict[str, list[_Swung]] = {}

    def root(self, path: str) -> str:
        made = self._joined.place(path)
        return made.root if made is not None else path

    def fields(self, path: str) -> list[_Swung]:
        """The fields of a piece; none where nothing can be said of it."""
        made = self._joined.place(path)
        waiting: list[PlacedPiece] = []
        while made is not None and made.folded.piece.path not in self._fields:
            # What follows what it carries itself has no place.
            self._fields[made.folded.piece.path] = []
            waiting.append(made)
            made = made.on.placed if made.on is not None else None
        for one in reversed(waiting):
            self._fields[one.folded.piece.path] = self._gone_along(one, self._put(one))
        return self._fields.get(path, [])

    def _put(self, made: PlacedPiece) -> list[_Swung]:
        if made.on is None:
            return _swing(made, self._angles, swung(made.base.frame))
        below = self._like(made.on.placed.folded.piece.path, made.on.field)
        if below is None:
            return []
        return _swing(made, self._angles, taken_along(made.base.frame, made.on.field.frame, below))

    def _like(self, path: str, one: Field) -> SwungFrame | None:
        """Where the largest part of a field has gone, of which a joint may have cut off another."""
        parts = [(part.area, frame) for part, frame in self.fields(path) if part.panels == one.panels]
        return max(parts, key=lambda part: part[0])[1] if parts else None

    def _gone_along(self, made: PlacedPiece, fields: list[_Swung]) -> list[_Swung]:
        """The fields with all that lies beyond what the piece's creases follow where that has gone."""
        followed = {crease.follows: None for crease in self._creases if crease.on.faces[0][0] == made.folded.piece.path}
        for follows in followed:
            if follows is None or self._is_as_joined(follows):
                continue
            joint = joint_of(follows, self._joined)
            after = self._like(follows[0], joint.beyond) if joint is not None else None
            if joint is None or after is None:
                continue
            frames = {id(one): frame for one, frame in fields}
            fields = [
                (part, taken_along(before.frame, joint.beyond.frame, after) if is_beyond else frames[id(one)])
                for one, _ in fields
                for part, before, is_beyond in parted((one,), made.folded, joint)
            ]
        return fields

    def _is_as_joined(self, key: tuple[str, str]) -> bool:
        return degrees_of(self._angles.get(key, FLAT)) == degrees_of(self._joined.angles.get(key, FLAT))


def _swing(made: PlacedPiece, angles: Angles, start: SwungFrame) -> list[_Swung]:
    """The fields of a piece turned from the one that it is placed by."""
    piece = made.folded.piece
    if how_many_fields(piece) > MOST_FIELDS:
        return []
    caliper = float(piece.stock.caliper.value) if piece.stock.caliper is not None else 0.0
    across, upward = _Way(piece, "width", angles, caliper), _Way(piece, "height", angles, caliper)
    known = {(one.left, one.tail): one for one in made.folded.fields}
    return [
        (known[left, tail], frame)
        for left, column in across.walked(made.base.left, start)
        for tail, frame in upward.walked(made.base.tail, column)
    ]


class _Way:
    """One axis of a piece with all that turns on it."""

    def __init__(self, piece: FlatPiece, axis: str, angles: Angles, caliper: float) -> None:
        self._axis, self._caliper = axis, caliper
        self._strips, self._turns = strips_of(piece, axis), Turns(piece, axis, angles)

    def walked(self, begins: Fraction, start: SwungFrame) -> Iterator[tuple[Fraction, SwungFrame]]:
        """Where each strip begins and its frame, from the one that begins there to both sides, so far as it is known to
        which side the paper turns."""
        first = next(number for number, strip in enumerate(self._strips) if strip[0] == begins)
        yield begins, start
        for onward in (1, -1):
            frame, number = start, first
            while 0 <= number + onward < len(self._strips):
                near, far = self._strips[number], self._strips[number + onward]
                at = near[1] if onward == 1 else near[0]
                rise, angle, where = self._turns.over(near, far, at)
                if angle == UNKNOWN:
                    break
                if where == LEAVING and number == first and onward == -1:
                    # A piece that is placed by a panel that bends turns it at one edge first, as any other does.
                    where = REACHING
                height = 0.0 if rise == 1 else -self._caliper
                degrees = float(_share(degrees_of(angle), where))
                frame = frame.turned(self._axis, float(at), height, onward, rise, degrees)
                number += onward
                yield far[0], frame


def _share(degrees: Fraction, where: str) -> Fraction:
    """How far a panel that bends turns at one of its edges: up to a square at the one by which it is left, and what is
    more than that at the one by which it is reached. A fold turns as a whole."""
    leaving = max(min(degrees, Fraction(_SQUARE)), Fraction(-_SQUARE))
    return {LEAVING: leaving, REACHING: degrees - leaving}.get(where, degrees)
