"""How pieces lie on the sheets of their stock: along the grain, kept upright with a pattern, or across.

Takes a material and the pieces of the plan. Cut list, steps and cutting plan are told by it, and
alike, how a piece comes out.
"""

from collections.abc import Sequence

from attrs import evolve

from pastedown.geometry.grain_on_sheets import Sides, Wanted, lie_of_sheets, wanted_sides
from pastedown.plan.material import Material
from pastedown.plan.plan import CutPiece
from pastedown.plan.sheet_sizes import SheetSize, sheet_sizes
from pastedown.quantity.quantity import NO_LENGTH


def told_across(pieces: tuple[CutPiece, ...], materials: tuple[Material, ...]) -> tuple[CutPiece, ...]:
    """The pieces, with those marked that come out of their sheets only across the grain they want."""
    across: set[str] = set()
    for material in materials:
        if material.sheet is None or material.zones or min(material.sheet) <= NO_LENGTH:
            continue
        own = cut_from(material, pieces)
        lie = list(zip(sheet_sizes(material), ways_to_lie(material, own), strict=True))
        across |= {
            piece.id for piece in own if wants_grain(material, piece) and comes_out_turned(material, piece, lie)
        }
    return tuple(evolve(piece, lies_across=piece.id in across) for piece in pieces)


def cut_from(material: Material, pieces: tuple[CutPiece, ...]) -> list[CutPiece]:
    """The pieces that are cut from a stock."""
    return [piece for piece in pieces if (piece.stock, piece.stock_kind) == (material.stock, material.kind)]


def ways_to_lie(material: Material, pieces: list[CutPiece]) -> tuple[Sides, ...]:
    """How each of the sheet sizes lies: the side that stands upright, and the other one. Whole sheets on hand are like
    those of the stock that are bought."""
    sizes = sheet_sizes(material)
    wanted = [
        Wanted(sides, piece.count, by_pattern=not wants_grain(material, piece))
        for piece in pieces
        if (sides := laid(material, piece)) is not None
    ]
    ways = lie_of_sheets([size.offered for size in sizes if size.on_hand is None], wanted)
    there = [size.offered for size in sizes if size.on_hand is not None]
    return (*ways, *(ways[0] if each.is_open else each.ways()[0] for each in there))


def laid(material: Material, piece: CutPiece) -> Sides | None:
    """The piece's side along the sheet's grain and the one beside it; None where it may lie either way."""
    return wanted_sides(material.grain, material.decorated, piece.height, piece.width, piece.grain)


def wants_grain(material: Material, piece: CutPiece) -> bool:
    """Whether the piece has to lie with its grain one way, on paper that has a grain."""
    return piece.grain != "any" and material.grain != "none"


def comes_out_turned(material: Material, piece: CutPiece, lie: Sequence[tuple[SheetSize, Sides]]) -> bool:
    """Whether a piece that has to lie one way comes out of what is bought only the other way; whether that will do is
    judged before. `lie` has the sizes, each as it lies. Offcuts count for nothing as long as there is a sheet, since
    there are only so many of them."""
    sides = laid(material, piece)
    if sides is None:
        return False
    along, beside = sides
    bought = [(size, way) for size, way in lie if size.on_hand is None]
    turned = [
        one for some in (bought, lie) for one in (False, True)
        if any(size.offered.holds((beside, along) if one else (along, beside), way) for size, way in some)
    ]  # fmt: skip
    return bool(turned) and turned[0]
