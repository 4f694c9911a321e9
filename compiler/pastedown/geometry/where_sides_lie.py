"""`middles_apart(one.face, to: other.face, along: width)` and `face_to_face(one.face, to: other.face)`: how two sides
of paper lie to one another when the design is shut, wherever each of them was joined.

What cannot be told passes: a design without a pose of that name, and what is joined nowhere, or not to the same heap.
"""

from __future__ import annotations

from fractions import Fraction

from pastedown.design.brackets import word_of
from pastedown.geometry.between_sides import placed_when_shut, side_of
from pastedown.geometry.evaluate import work_of
from pastedown.geometry.frame import Vector, along, cosine, moved
from pastedown.geometry.in_pose import PlacedSide
from pastedown.geometry.layer import Scope
from pastedown.geometry.thickness import pose_named
from pastedown.quantity.quantity import NO_LENGTH, Length, mm
from pastedown.tree.expression import Call, Expression


def middles_apart(call: Call, scope: Scope) -> Length:
    """How far the middles of two sides lie apart along the height or the width of the first, in either direction."""
    values = _values(call)
    sides = _sides(call, scope)
    if sides is None:
        return NO_LENGTH
    first, second = sides
    direction = first.field.frame.axis(word_of(values["along"]))
    return mm(abs(along(_middle(first), direction) - along(_middle(second), direction)))


def face_to_face(call: Call, scope: Scope) -> bool:
    """Whether two sides look towards one another: each lies on the side to which the other looks."""
    sides = _sides(call, scope)
    if sides is None:
        return True
    first, second = sides
    if cosine(first.outward, second.outward) != -1:
        return False
    # What is trapped under a fold opens it, and that is not counted in the places: so where one of the two is folded
    # over the other, it is the folded sheets that lie one above the other.
    one, other = _sheets(first, second)
    if one.field is other.field:
        return first.level < -second.level
    return along(_heart(one), first.outward) < along(_heart(other), first.outward)


def _sheets(one: PlacedSide, other: PlacedSide) -> tuple[PlacedSide, PlacedSide]:
    """What carries each of two sides: the lowest below it that is turned over by a fold of its own, or else their place
    on the piece on which both stand."""
    at = [one, other]
    found: list[PlacedSide | None] = [None, None]
    while at[0].placed is not at[1].placed:
        higher = 0 if at[0].placed.above >= at[1].placed.above else 1
        side = at[higher]
        if side.field.frame.z != side.placed.base.frame.z:
            found[higher] = side
        assert side.placed.on is not None
        at[higher] = side.placed.on
    return found[0] or at[0], found[1] or at[1]


def _heart(side: PlacedSide) -> Vector:
    """A point half way between the face and the back of what a side belongs to."""
    caliper = side.placed.folded.piece.stock.caliper
    thick = caliper.value if caliper is not None else Fraction(0)
    return moved(side.field.frame.origin, side.field.frame.z, -thick / 2)


def _values(call: Call) -> dict[str, Expression]:
    from pastedown.geometry.functions import values_in_brackets

    return values_in_brackets(call)


def _sides(call: Call, scope: Scope) -> tuple[PlacedSide, PlacedSide] | None:
    values = _values(call)
    work_of(scope).measure(call.span)
    first, second = (side_of(values[label], scope) for label in ("from", "to"))
    placed = placed_when_shut(pose_named(values.get("pose"), scope), scope, call.span)
    if placed is None:
        return None
    one, other = placed.side(first), placed.side(second)
    if one is None or other is None or one.placed.root != other.placed.root:
        return None
    return one, other


def _middle(side: PlacedSide) -> Vector:
    own = side.field
    return own.frame.point((own.left + own.right) / 2, (own.tail + own.head) / 2, Fraction(0))
