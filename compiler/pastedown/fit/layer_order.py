"""Which of two panels lies over the other, where shut folds and joins say so, however thick the paper is.

A shut valley lays a panel on the face of its neighbour, a shut mountain on its back, and a join lays what it carries on
the side that carries it. What is trapped in a shut fold is not counted in the places, so that these may show two panels
in one place or even past one another; the order is known all the same. Flat plates do not cross: one that lies over
another in one spot lies over it wherever both are. Of three that lie on one another by twos there is a spot that all
have in common, since they are rectangles along the same directions; so what lies over the second of two lies over
the first. Derived: from these rules alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from attrs import define, evolve, frozen

from pastedown.geometry.folded_piece import Field, Turns, is_cut_away
from pastedown.geometry.frame import Frame, along
from pastedown.geometry.in_pose import InPose, PlacedPiece, PlacedSide
from pastedown.geometry.piece import FlatPiece

# So many relations are looked at in one pose, and so many of them by where the plates lie; those found until then are
# right without the others. In all poses of a design together it is MOST_POSES times as many.
MOST_FOLLOWED = 500_000
MOST_COMPARED = 50_000
MOST_POSES = 4
# What it costs in steps of work, by the time it takes: so many relations are followed in one.
FOLLOWED_IN_A_STEP = 8
# From least to most along each of the two directions of a plane, in millimetres.
_Rectangle = tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]


@define
class Effort:
    """How many relations were followed and compared for one design, in all its poses together."""

    followed: int = 0
    compared: int = 0

    @property
    def work(self) -> int:
        """In steps of work."""
        return self.followed // FOLLOWED_IN_A_STEP + self.compared

    @property
    def is_used_up(self) -> bool:
        return self.followed >= MOST_POSES * MOST_FOLLOWED or self.compared >= MOST_POSES * MOST_COMPARED


@frozen(eq=False)
class _Plate:
    """All panels of a piece that lie on in one plane, for only flat folds part them."""

    placed: PlacedPiece
    frame: Frame
    fields: tuple[Field, ...]
    area: _Rectangle

    @property
    def axis(self) -> int:
        """Along which direction of space it is as thick as its caliper."""
        return _axis(self.frame)


class LayerOrder:
    """The order of all plates in one pose. What it takes to find it is added to `effort`."""

    def __init__(self, placed: InPose, effort: Effort) -> None:
        self._plates: list[_Plate] = []
        self._number: dict[tuple[str, Frame], int] = {}
        # What lies farther out than each plate along its direction of space, and what lies less far, in order of
        # finding.
        self._over: list[dict[int, None]] = []
        self._under: list[dict[int, None]] = []
        found = [placed.place(piece.path) for piece in placed.model.pieces if placed.is_about(piece.part)]
        pieces = [one for one in found if one is not None]
        for one in pieces:
            self._add(one)
        self._close([*self._known(pieces, placed)], effort)

    def looks_away(self, one: PlacedSide, other: PlacedSide) -> bool:
        """Whether two sides that lie in parallel and look opposite ways are known to turn their backs to each other."""
        ends = self._ends(one, other)
        return ends is not None and ends[0] in self._over[ends[1]]

    def between(self, one: PlacedSide, other: PlacedSide) -> tuple[str, str] | None:
        """The path and the panel of what is known to lie between two sides wherever they are over one another."""
        ends = self._ends(one, other)
        if ends is None:
            return None
        low, high = ends
        place = _shared(_area((one.field,)), _area((other.field,)))
        for number in self._over[low]:
            plate = self._plates[number]
            # What shows through a window may be touched through it.
            if number not in self._under[high] or plate.placed.folded.piece.inner_cuts or place is None:
                continue
            for field in plate.fields:
                if _holds(_area((field,)), place) and not _is_open(plate.placed.folded.piece, field, place):
                    return plate.placed.folded.piece.path, next((name for name in field.panels if name), "")
        return None

    def _ends(self, one: PlacedSide, other: PlacedSide) -> tuple[int, int] | None:
        """The plate that has to lie less far out, and the one that has to lie farther out."""
        numbers = [self._number.get((side.placed.folded.piece.path, side.field.frame)) for side in (one, other)]
        first, second = numbers
        if first is None or second is None or first == second:
            return None
        return (first, second) if sum(one.outward) == 1 else (second, first)

    def _add(self, placed: PlacedPiece) -> None:
        by_frame: dict[Frame, list[Field]] = {}
        for field in placed.folded.fields:
            by_frame.setdefault(field.frame, []).append(field)
        for frame, fields in by_frame.items():
            self._number[placed.folded.piece.path, frame] = len(self._plates)
            self._plates.append(_Plate(placed, frame, tuple(fields), _area(tuple(fields))))
            self._over.append({})
            self._under.append({})

    def _known(self, pieces: list[PlacedPiece], placed: InPose) -> Iterator[tuple[int, int]]:
        """What lies over what by a shut fold or a join: the lower plate and the one farther out."""
        for one in pieces:
            piece = one.folded.piece
            for near, far, rise in _shut(one, placed):
                ends = self._number[piece.path, near.frame], self._number[piece.path, far.frame]
                yield ends if sum(near.frame.z) == rise else ends[::-1]
            on = one.on
            # What goes through a slit lies over the paper in one spot and under it in another.
            if on is None or piece.inner_cuts or on.placed.folded.piece.inner_cuts:
                continue
            below = self._number.get((on.placed.folded.piece.path, on.field.frame))
            above = self._number.get((piece.path, one.base.frame))
            if below is not None and above is not None:
                yield (below, above) if sum(on.outward) == 1 else (above, below)

    def _close(self, known: list[tuple[int, int]], effort: Effort) -> None:
        """All that follows from what is known."""
        waiting = list(dict.fromkeys(known))
        for low, high in waiting:
            self._over[low][high] = None
            self._under[high][low] = None
        most_followed, most_compared = effort.followed + MOST_FOLLOWED, effort.compared + MOST_COMPARED
        for low, high in waiting:
            follows = [(low, over) for over in self._over[high]] + [(under, high) for under in self._under[low]]
            effort.followed += len(follows)
            if effort.followed > most_followed or effort.is_used_up:
                return
            for one, other in follows:
                if one == other or other in self._over[one]:
                    continue
                effort.compared += 1
                if effort.compared > most_compared or effort.is_used_up:
                    return
                if not self._meet(one, other):
                    continue
                self._over[one][other] = None
                self._under[other][one] = None
                waiting.append((one, other))

    def _meet(self, one: int, other: int) -> bool:
        first, second = self._plates[one], self._plates[other]
        return first.axis == second.axis and _shared(first.area, second.area) is not None


def _shut(placed: PlacedPiece, pose: InPose) -> Iterator[tuple[Field, Field, int]]:
    """Each two fields that a shut fold parts: the left or tail one first, and 1 where the other lies on its face, -1
    where it lies on its back."""
    piece = placed.folded.piece
    for run in piece.runs:
        turns = Turns(piece, run.axis, pose.angles)
        side = 0 if run.axis == "width" else 1
        begins = {(_low(one, side), _across(one, side)): one for one in placed.folded.fields}
        for one in placed.folded.fields:
            at = _high(one, side)
            other = begins.get((at, _across(one, side)))
            if other is None:
                continue
            near = (_low(one, side), at, one.panels[side])
            rise, angle = turns.between(near, (at, _high(other, side), other.panels[side]), at)
            if angle == "shut":
                yield one, other, rise


def _low(field: Field, side: int) -> Fraction:
    return field.tail if side else field.left


def _high(field: Field, side: int) -> Fraction:
    return field.head if side else field.right


def _across(field: Field, side: int) -> tuple[Fraction, Fraction]:
    return (field.left, field.right) if side else (field.tail, field.head)


def _axis(frame: Frame) -> int:
    return next(number for number, part in enumerate(frame.z) if part)


def _area(fields: tuple[Field, ...]) -> _Rectangle:
    corners = [corner for field in fields for corner in field.corners()]
    first, second = (number for number in range(3) if number != _axis(fields[0].frame))
    return tuple((min(each[at] for each in corners), max(each[at] for each in corners)) for at in (first, second))  # type: ignore[return-value]


def _shared(one: _Rectangle, other: _Rectangle) -> _Rectangle | None:
    """What two rectangles have in common; None where it has no area."""
    first, second = ((max(a[0], b[0]), min(a[1], b[1])) for a, b in zip(one, other, strict=True))
    return (first, second) if first[0] < first[1] and second[0] < second[1] else None


def _holds(one: _Rectangle, other: _Rectangle) -> bool:
    return all(a[0] <= b[0] and b[1] <= a[1] for a, b in zip(one, other, strict=True))


def _is_open(piece: FlatPiece, field: Field, place: _Rectangle) -> bool:
    """Whether the outline of a piece leaves the middle of a place open."""
    frame = field.frame
    first, second = (number for number in range(3) if number != _axis(frame))
    middle = [Fraction(0)] * 3
    middle[first], middle[second] = sum(place[0]) / 2, sum(place[1]) / 2  # type: ignore[assignment]
    x, y, z = middle
    at = [along((x, y, z), axis) - along(frame.origin, axis) for axis in (frame.x, frame.y)]
    return is_cut_away(piece, evolve(field, left=at[0], right=at[0], tail=at[1], head=at[1]))
