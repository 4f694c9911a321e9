"""How the pieces of one stock are cut from its sheets; worked out only when an output asks for it.

Takes a material and the pieces of the plan, gives a cutting plan in the unit of `Length.value`. Sheets lie with their
grain upright, and pieces keep to it where they want a grain. A size whose grain is not known, or is marked on each
sheet, is taken to run one way on all its sheets: that way in which fewer pieces come to lie across.
"""

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from math import ceil

from attrs import evolve, frozen

from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet, Trim
from pastedown.plan.plan import CutPiece, Material
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity

# Along the grain, and beside it.
_Sides = tuple[Length, Length]


@frozen
class _Size:
    """One size of sheet, bought in packs, or with `on_hand` so many that are there already."""

    name: str
    sheet: _Sides
    grain: str
    trim: Length
    price: Quantity | None = None
    pack: int = 1
    on_hand: int | None = None

    def inside(self, way: _Sides) -> _Sides:
        """What is left of the sheet within its raw edges, lying so."""
        return way[0] - self.trim * 2, way[1] - self.trim * 2


def sheet_plan(material: Material, pieces: tuple[CutPiece, ...]) -> CuttingPlan | None:
    """The cutting plan of one stock, with its spare pieces; they are named by their ids. None for what is not cut from
    sheets, and for sheets that stick faces together, since how these are cut is not known."""
    sheet = material.sheet
    own = cut_from(material, pieces)
    if sheet is None or material.zones or not own or min(sheet) <= NO_LENGTH:
        return None
    sizes = tuple(_sizes(material, sheet))
    ways = [_way(material, size, own) for size in sizes]
    priced = has_prices(material)
    offered = tuple(_sheet(size, way, priced) for size, way in zip(sizes, ways, strict=True))
    room = [size.inside(way) for size, way in zip(sizes, ways, strict=True)]
    problem = Problem(offered, tuple(_piece(material, piece, room) for piece in own))
    return _planned(problem, Effort(material.effort.work, material.effort.libraries), _Teller(material))


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
def _planned(problem: Problem, effort: Effort, teller: "_Teller") -> CuttingPlan:
    """Several outputs ask for the same plan."""
    return make_plan(problem, effort, teller.tell)


@frozen(eq=False)
class _Teller:
    """Says for one stock how far its plan has come, where plans better than the first ones are looked for. All are
    equal: who is told makes no other plan."""

    material: Material

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Teller)

    def __hash__(self) -> int:
        return 0

    def tell(self, what: str, cost: int, bound: int) -> None:
        """Costs are whole sheets where one size is bought, else sums whose unit nobody would know."""
        tell = self.material.effort.tell
        if tell is None or cost <= bound:
            return
        one_size = not self.material.also
        found = f"{cost} sheets found, {bound} are the least there could be" if one_size else "a cheaper mix of sheets"
        tell(f"planning {self.material.stock}: {found}")


def _sizes(material: Material, sheet: _Sides) -> Iterator[_Size]:
    own = _Size(material.stock, sheet, material.grain, material.trim, material.price, max(material.pack, 1))
    yield own
    for each in material.also:
        yield _Size(each.name, each.sheet, each.grain, each.trim, each.price, each.pack)
    if material.on_hand:
        yield _Size(material.stock, sheet, material.grain, material.trim, on_hand=material.on_hand)
    for number, (offcut, count) in enumerate(Counter(material.offcuts).items(), 1):
        grain = "long" if offcut[0] >= offcut[1] else "short"
        yield _Size(f"offcut {number} of {material.stock}", offcut, grain, NO_LENGTH, on_hand=count)


def _way(material: Material, size: _Size, pieces: list[CutPiece]) -> _Sides:
    """How a sheet lies: the side that stands upright, and the other one."""
    long_side, short_side = max(size.sheet), min(size.sheet)
    ways = [(long_side, short_side), (short_side, long_side)]
    if size.grain in ("long", "short"):
        ways = ways[:1] if size.grain == "long" else ways[1:]
    return min(ways, key=lambda way: _across(material, pieces, size.inside(way)))


def _sheet(size: _Size, way: _Sides, priced: bool) -> Sheet:
    """A sheet whose raw edges meet in the middle has none: nothing could be cut from it."""
    edge = size.trim.value if min(size.inside(way)) > NO_LENGTH else 0
    along, beside = way
    price = size.price.value if priced and size.price is not None and size.on_hand is None else None
    trim = Trim(edge, edge, edge, edge)
    return Sheet(size.name, beside.value, along.value, price or None, size.pack, size.on_hand, trim)


def laid(material: Material, piece: CutPiece) -> _Sides | None:
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


def _fits(sides: _Sides, way: _Sides) -> bool:
    return sides[0] <= way[0] and sides[1] <= way[1]


def _across(material: Material, pieces: list[CutPiece], way: _Sides) -> int:
    wanted = [(piece.count, laid(material, piece)) for piece in pieces]
    return sum(count for count, sides in wanted if sides is not None and not _fits(sides, way))


def _piece(material: Material, piece: CutPiece, ways: list[_Sides]) -> Piece:
    """A piece that comes out of the sheets only across their grain lies across: whether that will do is judged
    before."""
    sides = laid(material, piece)
    along, beside = sides or (piece.height, piece.width)
    straight = any(_fits((along, beside), way) for way in ways)
    if sides is not None and not straight and any(_fits((beside, along), way) for way in ways):
        along, beside = beside, along
    count = with_spare(material, piece.count)
    return Piece(piece.id, beside.value, along.value, count, may_turn=sides is None)
