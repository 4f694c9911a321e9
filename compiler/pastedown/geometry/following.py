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
from pastedown.geometry.frame import Direction, Frame, along, cosine, moved, scaled
from pastedown.geometry.piece import Run

if TYPE_CHECKING:
    from pastedown.geometry.in_pose import InPose, PlacedPiece

_NOUGHT = Fraction(0)


@frozen
class _Turning:
    """A joint that a crease follows, as it lies made up: it begins and ends at these places along a direction in which
    the paper beyond it lies. `before` and `after` are the frames of that paper, made up and in the pose."""

    direction: Direction
    begins: Fraction
    ends: Fraction
    before: Frame
    after: Frame


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
        turning = _turning(crease.follows, pose, made_up)
        if made is None or turning is None:
            continue
        fields = tuple(_parted(placed.folded, made.folded, turning))
        base = _base(placed, fields)
        if base is not None:
            placed = evolve(placed, folded=FoldedPiece(placed.folded.piece, fields), base=base)
    return placed


def _base(placed: PlacedPiece, fields: tuple[Field, ...]) -> Field | None:
    """What is left of the field by which the piece was placed."""
    own = placed.base
    left = [one for one in fields if one.panels == own.panels and one.frame == own.frame]
    return max(left, key=lambda one: one.area, default=None)


def _turning(follows: tuple[str, str], pose: InPose, made_up: InPose) -> _Turning | None:
    path, name = follows
    before, after = made_up.place(path), pose.place(path)
    if before is None or after is None:
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
    gone = None if beyond is None else _like(after.folded, beyond)
    if beyond is None or gone is None:
        return None
    direction = scaled(beyond.frame.axis(run.axis), onward)
    near, far = (low, high) if onward == 1 else (high, low)
    ends = [along(moved(beyond.frame.origin, beyond.frame.axis(run.axis), at), direction) for at in (near, far)]
    return _Turning(direction, ends[0], ends[1], beyond.frame, gone.frame)


def _names(run: Run) -> set[str]:
    return {panel.name for panel in run.panels} | {score.name for score in run.scores}


def _beyond(folded: FoldedPiece, axis: str, at: Fraction, onward: int) -> Field | None:
    """A field that begins at a line across an axis."""
    found = [one for one in folded.fields if (_span(one, axis)[0] if onward == 1 else _span(one, axis)[1]) == at]
    return max(found, key=lambda one: one.area, default=None)


def _like(folded: FoldedPiece, one: Field) -> Field | None:
    """The field of another pose of which a field is the whole or a part."""
    return next((each for each in folded.fields if each.panels == one.panels), None)


def _span(one: Field, axis: str) -> tuple[Fraction, Fraction]:
    return (one.left, one.right) if axis == "width" else (one.tail, one.head)


def _parted(folded: FoldedPiece, made: FoldedPiece, turning: _Turning) -> Iterator[Field]:
    """The fields before the joint as they lie, and those beyond it moved as it moves."""
    for one in folded.fields:
        before = _like(made, one)
        if before is None:
            continue
        axis = next((axis for axis in ("width", "height") if cosine(before.frame.axis(axis), turning.direction)), "")
        if not axis:
            # It stands square to the way across the joint: all of it lies on one side.
            at = along(before.frame.origin, turning.direction)
            if at <= turning.begins:
                yield one
            elif at >= turning.ends:
                yield evolve(one, frame=_gone(before.frame, turning))
            continue
        yield from _cut(one, before, axis, turning)


def _cut(one: Field, before: Field, axis: str, turning: _Turning) -> Iterator[Field]:
    way = cosine(before.frame.axis(axis), turning.direction)
    origin = along(before.frame.origin, turning.direction)
    low, high = _span(one, axis)
    begins, ends = (turning.begins - origin) * way, (turning.ends - origin) * way
    near = (low, min(high, begins)) if way == 1 else (max(low, begins), high)
    far = (max(low, ends), high) if way == 1 else (low, min(high, ends))
    if near[0] < near[1]:
        yield _between(one, axis, near)
    if far[0] < far[1]:
        yield evolve(_between(one, axis, far), frame=_gone(before.frame, turning))


def _between(one: Field, axis: str, span: tuple[Fraction, Fraction]) -> Field:
    if axis == "width":
        return evolve(one, left=span[0], right=span[1])
    return evolve(one, tail=span[0], head=span[1])


def _gone(frame: Frame, turning: _Turning) -> Frame:
    """Where a frame has gone that keeps its place by the paper beyond the joint."""
    before, after = turning.before, turning.after
    axes = ((before.x, after.x), (before.y, after.y), (before.z, after.z))

    def turned(direction: Direction) -> Direction:
        return next(scaled(to, sign) for own, to in axes if (sign := cosine(direction, own)))

    origin = after.origin
    for own, to in axes:
        origin = moved(origin, to, along(frame.origin, own) - along(before.origin, own))
    return Frame(origin, turned(frame.x), turned(frame.y), turned(frame.z))
