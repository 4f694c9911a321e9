"""What lies in a shut fold holds it open by its own thickness: paper and adhesive between the two leaves."""

from collections.abc import Iterable, Mapping, Set

from pastedown.plan.space import Contact, Face, FieldNumber, SpatialPiece

# What is bonded to what, and so on: so many faces are followed for one fold.
_MOST_FOLLOWED = 500
_Node = tuple[str, FieldNumber]
_OTHER = {"face": "back", "back": "face"}


class Trapped:
    """The contacts that are made so far, looked up by their faces. Thickness is in millimetres; `by` is how many times
    it is drawn."""

    def __init__(self, pieces: Mapping[str, SpatialPiece], contacts: Iterable[Contact], by: float = 1.0) -> None:
        self._thickness = {path: float(piece.caliper) * by for path, piece in pieces.items()}
        self._touching: dict[Face, list[tuple[Face, float]]] = {}
        for contact in contacts:
            for one, other in contact.pairs:
                if one.piece in pieces and other.piece in pieces:
                    thickness = float(contact.thickness) * by
                    self._touching.setdefault(one, []).append((other, thickness))
                    self._touching.setdefault(other, []).append((one, thickness))

    def between(self, path: str, near: Iterable[FieldNumber], far: Iterable[FieldNumber], side: str) -> float:
        """How far apart the leaves `near` and `far` of a fold of a piece are held, the paper turned with its `side`
        inside."""
        first = {(path, number) for number in near}
        second = {(path, number) for number in far}
        left = [_MOST_FOLLOWED]
        across, one = self._followed(first, side, second, side, first | second, left)
        _, other = self._followed(second, side, first, side, first | second, left)
        return across if across is not None else one + other

    def _followed(
        self, nodes: Iterable[_Node], side: str, goal: Set[_Node], goal_side: str, seen: Set[_Node], left: list[int]
    ) -> tuple[float | None, float]:
        """The greatest thickness from a side of some fields to the goal, if it is reached, and to the end of the
        heap."""
        across: float | None = None
        highest = 0.0
        for node in sorted(nodes):
            for face, adhesive in self._touching.get(Face(*node, side), ()):
                other = (face.piece, face.field)
                if other in goal and face.side == goal_side:
                    across = max(across or 0.0, adhesive)
                    continue
                if other in seen or left[0] <= 0:
                    continue
                left[0] -= 1
                through = adhesive + self._thickness[face.piece]
                further, height = self._followed(
                    [other], _OTHER[face.side], goal, goal_side, {*seen, other}, left
                )
                if further is not None:
                    across = max(across or 0.0, through + further)
                highest = max(highest, through + height)
        return across, highest
