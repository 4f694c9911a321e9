"""Where two faces stick, and how much tape or glue that takes: the one home of both.

Each zone is what two faces have in common as the pieces are made up; where nobody can place them, the largest rectangle
that both could share. Tape lies in rows along the longer side of a zone: one where something moves and the zone is
narrow, such as a seam; on a wider one a row for each half inch, or for each width of the tape where that is more.
The row to half an inch is common practice, no source.
"""

from collections.abc import Iterator
from itertools import product
from math import ceil

from attrs import frozen

from pastedown.geometry.frame import cosine
from pastedown.geometry.in_pose import InPose, PlacedSide, side_of
from pastedown.geometry.lying_there import shadow
from pastedown.geometry.model import Join, Model
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Length, Quantity, inches, mm

ROW = inches("1/2")
# What is narrower and moves takes one row.
NARROW = inches(1)


@frozen
class Zone:
    """A rectangle that sticks. Both sides are lengths; `moves` says that it does so in use."""

    height: Length
    width: Length
    moves: bool = False

    @property
    def long_side(self) -> Length:
        return max(self.height, self.width)

    @property
    def area(self) -> Quantity:
        return self.height * self.width

    def rows(self, tape: Length | None) -> int:
        """How many rows of tape of such a width; one at least."""
        across = min(self.height, self.width)
        if self.moves and across < NARROW:
            return 1
        return max(1, ceil((across / (ROW if tape is None else max(ROW, tape))).value))


class Bonds:
    """The zones of the joins of one model, looked at as it is made up."""

    def __init__(self, model: Model) -> None:
        self._pieces = {piece.path: piece for piece in model.pieces}
        self._placed = InPose(model) if model.can_be_placed else None
        self._found: dict[str, tuple[Zone, ...]] = {}

    def zones(self, join: Join) -> tuple[Zone, ...]:
        """All of a join or a closing, in the order of its faces; a face without a partner has none."""
        if join.path not in self._found:
            self._found[join.path] = self._zones(join)
        return self._found[join.path]

    def _zones(self, join: Join) -> tuple[Zone, ...]:
        found: list[Zone] = []
        for what, to in zip(join.what.faces, join.to.faces, strict=False):
            common = [*self._common(what, to)]
            if not common:
                one, other = _extent(self._pieces[what[0]], what[1]), _extent(self._pieces[to[0]], to[1])
                common = [(min(one[0], other[0]), min(one[1], other[1]))]
            found += (Zone(height, width, join.moving) for height, width in common)
        return tuple(found)

    def _common(self, what: tuple[str, str, str], to: tuple[str, str, str]) -> Iterator[tuple[Length, Length]]:
        for one, other in product(self._sides(what), self._sides(to)):
            frame = other.field.frame
            if one.outward != tuple(-part for part in other.outward):
                continue
            place = shadow(one.field, frame).within(shadow(other.field, frame))
            if not place.is_empty:
                yield mm(place.head - place.tail), mm(place.right - place.left)

    def _sides(self, face: tuple[str, str, str]) -> list[PlacedSide]:
        """One side of a panel, or of all of a piece that lies in one plane."""
        if self._placed is None:
            return []
        _, panel, side = face
        sides = self._placed.sides(face)
        if panel or not sides:
            return sides
        where, first = sides[0].placed, sides[0]
        parallel = (one for one in where.folded.fields if cosine(one.frame.z, first.field.frame.z))
        looking = (side_of(where, one, side) for one in parallel)
        return [one for one in looking if (one.outward, one.level) == (first.outward, first.level)]


def _extent(piece: FlatPiece, panel_name: str) -> tuple[Length, Length]:
    """Height and width of a panel, which reaches right across its piece; without a panel those of the piece."""
    for run in piece.runs:
        for panel in run.panels:
            if panel.name == panel_name:
                return (piece.height, panel.size) if run.axis == "width" else (panel.size, piece.width)
    return piece.height, piece.width
