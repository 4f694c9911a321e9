"""How the pieces of one stock are cut from its sheets; worked out only when an output asks for it.

Takes a material and the pieces of the plan, gives a cutting plan in the unit of `Length.value`. Sheets lie with their
grain upright, and pieces keep to it where they want a grain.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import ceil

from attrs import frozen

from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet, Trim
from pastedown.geometry.grain_on_sheets import Sides
from pastedown.plan.lying import comes_out_turned, cut_from, laid, wants_grain, ways_to_lie
from pastedown.plan.material import Material
from pastedown.plan.plan import CutPiece
from pastedown.plan.sheet_sizes import SheetSize, sheet_sizes
from pastedown.quantity.quantity import NO_LENGTH


def sheet_plan(material: Material, pieces: tuple[CutPiece, ...]) -> CuttingPlan | None:
    """The cutting plan of one stock, with its spare pieces; they are named by their ids, sheets by their place
    in `sheet_sizes`. None for what is not cut from sheets, and for sheets that stick faces together, since how these
    are cut is not known."""
    sheet = material.sheet
    own = cut_from(material, pieces)
    if sheet is None or material.zones or not own or min(sheet) <= NO_LENGTH:
        return None
    sizes = sheet_sizes(material)
    ways = ways_to_lie(material, own)
    priced = has_prices(material)
    offered = tuple(
        _sheet(str(number), size, way, priced) for number, (size, way) in enumerate(zip(sizes, ways, strict=True))
    )
    lie = list(zip(sizes, ways, strict=True))
    problem = Problem(offered, tuple(_piece(material, piece, lie) for piece in own))
    return _planned(problem, Effort(material.effort.work, material.effort.libraries), _Teller(material))


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
    equal, so that the plan is remembered whoever is told: telling makes no other plan."""

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
        found = f"{cost} sheets found, {bound} are the least there could be" if one_size else "looking for a better mix"
        tell(f"planning {self.material.stock}: {found}")


def _sheet(name: str, size: SheetSize, way: Sides, priced: bool) -> Sheet:
    """A sheet whose raw edges meet in the middle has none: nothing could be cut from it."""
    edge = size.trim.value if min(size.inside(way)) > NO_LENGTH else 0
    along, beside = way
    price = size.price.value if priced and size.price is not None and size.on_hand is None else None
    trim = Trim(edge, edge, edge, edge)
    return Sheet(name, beside.value, along.value, price or None, size.pack, size.on_hand, trim)


def kept_by_pattern(material: Material, piece: CutPiece) -> bool:
    """Whether the piece might be turned but for the pattern of its stock."""
    return piece.height != piece.width and not wants_grain(material, piece) and laid(material, piece) is not None


def _piece(material: Material, piece: CutPiece, lie: Sequence[tuple[SheetSize, Sides]]) -> Piece:
    sides = laid(material, piece)
    along, beside = sides or (piece.height, piece.width)
    if comes_out_turned(material, piece, lie):
        along, beside = beside, along
    count = with_spare(material, piece.count)
    return Piece(piece.id, beside.value, along.value, count, may_turn=sides is None)
