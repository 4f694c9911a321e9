"""How the pieces of one stock are cut from its sheets; worked out only when an output asks for it.

Takes a material and the pieces of the plan, gives a cutting plan in the unit of `Length.value`. Sheets lie with their
grain upright, and pieces keep to it where they want a grain. A size whose grain is not known, or is marked on each
sheet, is taken to run one way on all its sheets: that way in which fewer pieces come to lie across.
"""

from functools import lru_cache
from math import ceil

from attrs import evolve

from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet, Trim
from pastedown.plan.plan import CutPiece, Material
from pastedown.plan.sheet_sizes import SheetSize, Sides, sheet_sizes
from pastedown.quantity.quantity import NO_LENGTH


def sheet_plan(material: Material, pieces: tuple[CutPiece, ...]) -> CuttingPlan | None:
    """The cutting plan of one stock, with its spare pieces; they are named by their ids, sheets by their place
    in `sheet_sizes`. None for what is not cut from
    sheets, and for sheets that stick faces together, since how these are cut is not known."""
    sheet = material.sheet
    own = cut_from(material, pieces)
    if sheet is None or material.zones or not own or min(sheet) <= NO_LENGTH:
        return None
    sizes = sheet_sizes(material)
    ways = [_way(material, size, own) for size in sizes]
    priced = has_prices(material)
    offered = tuple(
        _sheet(str(number), size, way, priced) for number, (size, way) in enumerate(zip(sizes, ways, strict=True))
    )
    room = [size.inside(way) for size, way in zip(sizes, ways, strict=True)]
    problem = Problem(offered, tuple(_piece(material, piece, room) for piece in own))
    return _planned(problem, Effort(material.effort.work, material.effort.libraries))


def cut_from(material: Material, pieces: tuple[CutPiece, ...]) -> list[CutPiece]:
    """The pieces that are cut from a stock."""
    return [piece for piece in pieces if (piece.stock, piece.stock_kind) == (material.stock, material.kind)]


def with_spare(material: Material, count: int) -> int:
    """So many and the spare share of them, rounded up for each part."""
    return ceil(count * (1 + material.spare))


def has_prices(material: Material) -> bool:
    """Whether all sizes that are bought have a price in one currency: only then can a cheapest mix be sought."""
    prices = [material.price, *(each.price for each in material.also)]
    known = [price for price in prices if price is not None and price.value > 0]
    return len(known) == len(prices) and len({price.dimension for price in known}) == 1


@lru_cache(maxsize=64)
def _planned(problem: Problem, effort: Effort) -> CuttingPlan:
    """Several outputs ask for the same plan."""
    return make_plan(problem, effort)


def _way(material: Material, size: SheetSize, pieces: list[CutPiece]) -> Sides:
    """How a sheet lies: the side that stands upright, and the other one."""
    long_side, short_side = max(size.sheet), min(size.sheet)
    ways = [(long_side, short_side), (short_side, long_side)]
    if size.grain in ("long", "short"):
        ways = ways[:1] if size.grain == "long" else ways[1:]
    return min(ways, key=lambda way: _across(material, pieces, size.inside(way)))


def _sheet(name: str, size: SheetSize, way: Sides, priced: bool) -> Sheet:
    """A sheet whose raw edges meet in the middle has none: nothing could be cut from it."""
    edge = size.trim.value if min(size.inside(way)) > NO_LENGTH else 0
    along, beside = way
    price = size.price.value if priced and size.price is not None and size.on_hand is None else None
    trim = Trim(edge, edge, edge, edge)
    return Sheet(name, beside.value, along.value, price or None, size.pack, size.on_hand, trim)


def laid(material: Material, piece: CutPiece) -> Sides | None:
    """The piece's side along the sheet's grain and the one beside it; None where it may lie either way. A pattern
    keeps its direction, so pieces of decorated stock that want no grain lie with their heads alike."""
    if piece.grain == "width" and material.grain != "none":
        return piece.width, piece.height
    if material.decorated != "none" or (piece.grain == "height" and material.grain != "none"):
        return piece.height, piece.width
    return None


def kept_by_pattern(material: Material, piece: CutPiece) -> bool:
    """Whether the piece might be turned but for the pattern of its stock."""
    plain = evolve(material, decorated="none")
    return piece.height != piece.width and laid(plain, piece) is None and laid(material, piece) is not None


def _fits(sides: Sides, way: Sides) -> bool:
    return sides[0] <= way[0] and sides[1] <= way[1]


def _across(material: Material, pieces: list[CutPiece], way: Sides) -> int:
    wanted = [(piece.count, laid(material, piece)) for piece in pieces]
    return sum(count for count, sides in wanted if sides is not None and not _fits(sides, way))


def _piece(material: Material, piece: CutPiece, ways: list[Sides]) -> Piece:
    """A piece that comes out of the sheets only across their grain lies across: whether that will do is judged
    before."""
    sides = laid(material, piece)
    along, beside = sides or (piece.height, piece.width)
    straight = any(_fits((along, beside), way) for way in ways)
    if sides is not None and not straight and any(_fits((beside, along), way) for way in ways):
        along, beside = beside, along
    count = with_spare(material, piece.count)
    return Piece(piece.id, beside.value, along.value, count, may_turn=sides is None)
