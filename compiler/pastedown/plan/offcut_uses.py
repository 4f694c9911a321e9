"""What else an offcut holds: pieces of the same design that it could have more of. Proposed, and counted nowhere."""

from collections.abc import Sequence

from pastedown.cutting.most_alike import most_alike
from pastedown.plan.lying import laid
from pastedown.plan.material import Material
from pastedown.plan.plan import CutPiece
from pastedown.plan.sheet_parts import OffcutUse
from pastedown.quantity.quantity import Length

_MOST_USES = 4


def candidates(material: Material, pieces: Sequence[CutPiece]) -> tuple[CutPiece, ...]:
    """Optional pieces that are cut from stock of the same kind: those of the very stock first, then the largest."""
    found = [piece for piece in pieces if piece.optional and piece.stock_kind == material.kind and not piece.bought]

    def in_order(piece: CutPiece) -> tuple[object, ...]:
        return piece.stock != material.stock, -(piece.height * piece.width).value, piece.id

    return tuple(sorted(found, key=in_order))


def uses_of(material: Material, width: Length, height: Length, some: Sequence[CutPiece]) -> tuple[OffcutUse, ...]:
    """How many of each piece an offcut so wide and so high holds, as it lies; each by itself. The grain and the pattern
    of the stock are kept to."""
    uses = [
        OffcutUse(piece.id, count, "" if piece.stock == material.stock else piece.stock)
        for piece in some
        if (count := _count(material, width, height, piece))
    ]
    return tuple(uses[:_MOST_USES])


def _count(material: Material, width: Length, height: Length, piece: CutPiece) -> int:
    sides = laid(material, piece)
    along, beside = sides or (piece.height, piece.width)
    return most_alike(width.value, height.value, beside.value, along.value, may_turn=sides is None)
