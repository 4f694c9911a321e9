"""What a crease that is made in place does in other poses.

A panel that was stuck down over a joint and creased there is held on both sides of it. Where the joint turns, what lies
beyond moves as the paper beyond the joint does; what lies over the joint itself is slack, and nothing exact can be said
of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from attrs import evolve, frozen

from pastedown.geometry.folded_piece import Field, FoldedPiece
from pastedown.geometry.frame import Direction, along, cosine, moved, scaled, taken_along
from pastedown.geometry.piece import Run

if TYPE_CHECKING:
    from pastedown.geometry.in_pose import InPose, PlacedPiece

_NOUGHT = Fraction(0)


@frozen
class Joint:
    """What a crease follows, as it lies made up: it begins and ends at these places along a direction in which the
    paper beyond it lies. `beyond` is the field that begins where it ends."""

    direction: Direction
    begins: Fraction
    ends: Fraction
    beyond: Field


def followed(placed: PlacedPiece, pose: InPose, made_up: InPose) -> PlacedPiece:
    """The piece with all that lies beyond what its creases follow where that has gone. The field by which it is placed
    stays."""
    path = placed.folded.piece.path
    seen: set[tuple[str, str]] = set()
    for crease in pose.model.creases:
        if crease.on.faces[0][0] != path or crease.follows is None or crease.follows in seen:
            continue
        seen.add(crease.follows)
        if pose.angles.get(crease.follows, "flat") == made_up.angles.get(crease.follows, "flat"):
            continue
        made = made_up.place(path)
        joint = joint_of(crease.follows, made_up)
        after = pose.place(crease.follows[0])
        gone = like(after.folded.fields, joint.beyond) if after is not None and joint is not None else None
        if made is None or joint is None or gone is None:
            continue
        fields: list[Field] = []
        staying: list[Field] = []
        for one, before, is_beyond in parted(placed.folded.fields, made.folded, joint):
            if is_beyond:
                fields.append(evolve(one, frame=taken_along(before.frame, joint.beyond.frame, gone.frame)))
            else:
                fields.append(one)
                staying.append(one)
        base = _base(placed, staying)
        if base is not None:
            placed = evolve(placed, folded=FoldedPiece(placed.folded.piece, tuple(fields)), base=base)
    return placed


def _base(placed: PlacedPiece, staying: list[Field]) -> Field | None:
    """What stays of the field by which the piece was placed; where all of it goes along, what lies level with it."""
    own = placed.base
    left = [one for one in staying if one.panels == own.panels and one.frame == own.frame]
    level = [one for one in staying if _side_by_side(one, own)]
    return max(left or level, key=lambda one: one.area, default=None)


def _side_by_side(one: Field, other: Field) -> bool:
    """Whether two fields lie in one plane, facing the same way."""
    z = other.frame.z
    return one.frame.z == z and along(one.frame.origin, z) == along(other.frame.origin, z)


def joint_of(follows: tuple[str, str], made_up: InPose) -> Joint | None:
    """The fold or bending panel of a piece, as it lies made up; None where that is not known."""
    path, name = follows
    before = made_up.place(path)
    if before is None:
        return None
    run = next((run for run in before.folded.piece.runs if name in _names(run)), None)
    if run is None:
        return None
    panel = next(((one.start.value, one.end.value) for one in run.panels if one.name == name), None)
    score = next((one.at.value for one in run.scores if one.name == name), _NOUGHT)
    low, high = panel or (score, score)
    if run.reversed:
        low, high = run.side.value - high, run.side.value - low
    base = before.base
    middle = (base.left + base.right) / 2 if run.axis == "width" else (base.tail + base.head) / 2
    onward = 1 if middle < low else -1
    beyond = _beyond(before.folded, run.axis, high if onward == 1 else low, onward)
    if beyond is None:
        return None
    direction = scaled(beyond.frame.axis(run.axis), onward)
    near, far = (low, high) if onward == 1 else (high, low)
    ends = [along(moved(beyond.frame.origin, beyond.frame.axis(run.axis), at), direction) for at in (near, far)]
    return Joint(direction, ends[0], ends[1], beyond)


def _names(run: Run) -> set[str]:
    return {panel.name for panel in run.panels} | {score.name for score in run.scores}


def _beyond(folded: FoldedPiece, axis: str, at: Fraction, onward: int) -> Field | None:
    """A field that begins at a line across an axis."""
    found = [one for one in folded.fields if (_span(one, axis)[0] if onward == 1 else _span(one, axis)[1]) == at]
    return max(found, key=lambda one: one.area, default=None)


def like(fields: tuple[Field, ...], one: Field) -> Field | None:
    """The field of another pose of which a field is the whole or a part; the largest part, where one was cut up."""
    return max((each for each in fields if each.panels == one.panels), key=lambda each: each.area, default=None)


def _span(one: Field, axis: str) -> tuple[Fraction, Fraction]:
    return (one.left, one.right) if axis == "width" else (one.tail, one.head)


def parted(fields: tuple[Field, ...], made: FoldedPiece, joint: Joint) -> Iterator[tuple[Field, Field, bool]]:
    """What of the fields of a piece lies before a joint and beyond it: each with the field of the piece `made` up of
    which it is a part, and whether it lies beyond."""
    for one in fields:
        before = like(made.fields, one)
        if before is None:
            continue
        axis = next((axis for axis in ("width", "height") if cosine(before.frame.axis(axis), joint.direction)), "")
        if axis:
            yield from _cut(one, before, axis, joint)
            continue
        # It stands square to the way across the joint: all of it lies on one side.
        at = along(before.frame.origin, joint.direction)
        if at <= joint.begins or at >= joint.ends:
            yield one, before, at > joint.begins


def _cut(one: Field, before: Field, axis: str, joint: Joint) -> Iterator[tuple[Field, Field, bool]]:
    way = cosine(before.frame.axis(axis), joint.direction)
    origin = along(before.frame.origin, joint.direction)
    low, high = _span(one, axis)
    begins, ends = (joint.begins - origin) * way, (joint.ends - origin) * way
    near = (low, min(high, begins)) if way == 1 else (max(low, begins), high)
    far = (max(low, ends), high) if way == 1 else (low, min(high, ends))
    if near[0] < near[1]:
        yield _between(one, axis, near), before, False
    if far[0] < far[1]:
        yield _between(one, axis, far), before, True


def _between(one: Field, axis: str, span: tuple[Fraction, Fraction]) -> Field:
    if axis == "width":
        return evolve(one, left=span[0], right=span[1])
    return evolve(one, tail=span[0], head=span[1])
