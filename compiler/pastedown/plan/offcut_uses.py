"""What else an offcut holds: pieces of the same design that it could have more of. Proposed, and counted nowhere."""

from collections.abc import Iterator, Sequence

from pastedown.plan.plan import CutPiece, Material
from pastedown.plan.sheet_parts import OffcutUse
from pastedown.plan.sheets import laid
from pastedown.quantity.quantity import Length

_MOST_USES = 4


def candidates(material: Material, pieces: Sequence[CutPiece]) -> tuple[CutPiece, ...]:
    """Optional pieces that are cut from stock of the same kind, the largest first."""
    found = [piece for piece in pieces if piece.optional and piece.stock_kind == material.kind and not piece.bought]
    return tuple(sorted(found, key=lambda piece: (-(piece.height * piece.width).value, piece.id)))


def uses_of(material: Material, width: Length, height: Length, some: Sequence[CutPiece]) -> tuple[OffcutUse, ...]:
    """How many of each piece an offcut so wide and so high holds, in rows, as it lies; each by itself. The grain and
    the pattern of the stock are kept to."""
    uses = [OffcutUse(piece.id, count) for piece in some if (count := _count(material, width, height, piece))]
    return tuple(uses[:_MOST_USES])


def _count(material: Material, width: Length, height: Length, piece: CutPiece) -> int:
    return max((_rows(height, along) * _rows(width, beside) for along, beside in _ways(material, piece)), default=0)


def _ways(material: Material, piece: CutPiece) -> Iterator[tuple[Length, Length]]:
    sides = laid(material, piece)
    if sides is not None:
        yield sides
        return
    yield piece.height, piece.width
    yield piece.width, piece.height


def _rows(room: Length, side: Length) -> int:
    return int((room / side).value)
