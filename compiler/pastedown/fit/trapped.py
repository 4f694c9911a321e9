"""What is trapped in a shut fold opens it, and that is not counted in the places: how far one panel may stand from
where the places show it, and along which directions. A shut fold opens square to its leaves and along no other
direction. Derived: two leaves that lie on one another, with something between them.
"""

from fractions import Fraction
from itertools import pairwise

from attrs import field, frozen

from pastedown.geometry.folded_piece import Field
from pastedown.geometry.in_pose import PlacedPiece, PlacedSide, paper_between

# A shut fold: along width or height, how many shut folds lie before it on its way, and the direction square to its
# leaves.
_ShutFold = tuple[int, int, int]
_NOUGHT = Fraction(0)


@frozen
class Trapped:
    """What is trapped in the shut folds of one pose."""

    _known: dict[PlacedPiece, frozenset[_ShutFold]] = field(factory=dict)

    def play(self, one: PlacedSide, other: PlacedSide) -> tuple[Fraction, Fraction, Fraction]:
        """By how much two panels may stand otherwise to one another than in their places, along each direction of
        space, in millimetres: all that lies between them where a shut fold does, else nothing."""
        first, second = one, other
        opened: set[int] = set()
        while first.placed is not second.placed:
            is_first = first.placed.above >= second.placed.above
            higher = first if is_first else second
            opened |= self._opened(higher.placed, higher.field, higher.placed.base)
            assert higher.placed.on is not None
            if is_first:
                first = higher.placed.on
            else:
                second = higher.placed.on
        opened |= self._opened(first.placed, first.field, second.field)
        between = paper_between(one, other) if opened else _NOUGHT
        x, y, z = (between if at in opened else _NOUGHT for at in range(3))
        return x, y, z

    def _opened(self, placed: PlacedPiece, one: Field, other: Field) -> set[int]:
        """Along which directions the shut folds between two fields of a piece open."""
        if one.shut == other.shut:
            return set()
        if placed not in self._known:
            self._known[placed] = frozenset(_shut_folds(placed.folded.fields))
        spans = [sorted(counts) for counts in zip(one.shut, other.shut, strict=True)]
        return {square for side, before, square in self._known[placed] if spans[side][0] <= before < spans[side][1]}


def _shut_folds(fields: tuple[Field, ...]) -> set[_ShutFold]:
    found: set[_ShutFold] = set()
    for side in (0, 1):
        strips: dict[tuple[Fraction, Fraction], list[Field]] = {}
        for one in fields:
            strips.setdefault((one.left, one.right) if side else (one.tail, one.head), []).append(one)
        for strip in strips.values():
            strip.sort(key=lambda one: one.tail if side else one.left)
            for near, far in pairwise(strip):
                if near.shut[side] != far.shut[side]:
                    square = next(number for number, part in enumerate(near.frame.z) if part)
                    found.add((side, min(near.shut[side], far.shut[side]), square))
    return found
