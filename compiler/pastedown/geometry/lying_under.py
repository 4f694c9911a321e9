"""`lies_under(card.leaf.face)`: how thick it is what a leaf lies on that is folded over when the design is shut.

Counted is all that is joined to the side itself, and to that side of the paper to which its piece is joined, so far as
it lies over the leaf; not the piece itself. It is no matter how high the leaf is drawn: what is trapped opens a fold.
A stock without a caliper counts as nothing, and so does a leaf that is not folded over what carries it. Derived.
"""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.geometry.between_sides import placed_when_shut, side_of
from pastedown.geometry.evaluate import work_of
from pastedown.geometry.frame import cosine
from pastedown.geometry.in_pose import InPose, PlacedPiece, PlacedSide
from pastedown.geometry.layer import Scope
from pastedown.geometry.layer_stack import Layer, how_many_cells, stack_of
from pastedown.geometry.lying_there import adhesive_layers, is_parallel, paper_layers, shadow
from pastedown.geometry.model import Join
from pastedown.geometry.thickness import WORK_OF_A_CELL, pose_named
from pastedown.quantity.quantity import NO_LENGTH, Length, mm
from pastedown.tree.expression import Call


def lies_under(call: Call, scope: Scope) -> Length:
    """The thickest place of what lies between a side and the paper over which it is folded."""
    from pastedown.geometry.functions import values_in_brackets

    values, work = values_in_brackets(call), work_of(scope)
    work.measure(call.span)
    face = side_of(values["from"], scope)
    placed = placed_when_shut(pose_named(values.get("pose"), scope), scope, call.span)
    leaf = placed.side(face) if placed is not None else None
    if placed is None or leaf is None or leaf.placed.on is None:
        return NO_LENGTH
    if cosine(leaf.outward, leaf.placed.on.outward) != -1:
        return NO_LENGTH
    layers = [*_layers(placed, leaf, leaf.placed.on)]
    work.spend(call.span, len(placed.model.pieces) + WORK_OF_A_CELL * how_many_cells(layers))
    return mm(stack_of(layers, (shadow(leaf.field, leaf.field.frame),)).highest)


def lies_level(call: Call, scope: Scope) -> bool:
    """Whether a piece lies on no step: nothing of the part that carries it is stuck to the same side of the paper and
    lies under some of it only."""
    from pastedown.geometry.functions import values_in_brackets

    values, work = values_in_brackets(call), work_of(scope)
    work.measure(call.span)
    face = side_of(values["from"], scope)
    placed = placed_when_shut(pose_named(values.get("pose"), scope), scope, call.span)
    own = placed.carried_by(face[0]) if placed is not None else None
    side = placed.side(face) if placed is not None else None
    if placed is None or own is None or side is None:
        return True
    work.spend(call.span, len(placed.model.joins))
    return not any(_is_step(join, own, side, placed) for join in placed.model.joins if join is not own)


def _is_step(join: Join, own: Join, side: PlacedSide, placed: InPose) -> bool:
    to = own.to.faces[0]
    place = shadow(side.field, side.field.frame)
    pairs = [*zip(join.what.faces, join.to.faces, strict=False)]
    for what, other in (*pairs, *((other, what) for what, other in pairs)):
        if other != to or placed.piece(what[0]).part != placed.piece(to[0]).part:
            continue
        for one in placed.sides(what):
            if is_parallel(one.field, side.field.frame):
                common = place.within(shadow(one.field, side.field.frame))
                if not common.is_empty and common != place:
                    return True
    return False


def _layers(placed: InPose, leaf: PlacedSide, under: PlacedSide) -> Iterator[Layer]:
    frame = leaf.field.frame
    for piece in placed.model.pieces:
        where, join = placed.place(piece.path), placed.carried_by(piece.path)
        if where is None or join is None or not _stands_on(where, leaf, under):
            continue
        yield from paper_layers(where, frame)
        yield from adhesive_layers(join, placed, frame, lambda face: True)


def _stands_on(where: PlacedPiece, leaf: PlacedSide, under: PlacedSide) -> bool:
    """Whether a piece is carried, through however many others, by one of the two sides; the leaf's own piece is not."""
    at = where
    while at is not leaf.placed and at.on is not None:
        if any(_is_same(at.on, side) for side in (leaf, under)):
            return True
        at = at.on.placed
    return False


def _is_same(one: PlacedSide, other: PlacedSide) -> bool:
    return one.placed is other.placed and one.field is other.field and one.outward == other.outward
