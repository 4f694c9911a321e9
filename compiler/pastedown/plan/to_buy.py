"""How many sheets, rolls or single things of a material are bought, in whole packs; asked for by outputs alone."""

from math import ceil

from attrs import frozen

from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.plan.material import Material
from pastedown.plan.plan import CutPiece
from pastedown.plan.rolls import left_of_rolls, longest_left, rolls_for
from pastedown.plan.sheet_parts import SheetsBought
from pastedown.plan.sheets import sheet_plan
from pastedown.plan.stock_cutting import told
from pastedown.quantity.dimension import AREA, NUMBER
from pastedown.quantity.quantity import Quantity, number


@frozen
class ToBuy:
    """`count` of `noun` ("sheet", "roll", "pack" of what goes so far, "" for things bought as they are) in packs of
    `pack`; none can do with fewer than `least`. With `is_floor` the count itself is only what the area asks for. Where
    several sizes are on offer, `sizes` says how many of each, `whole_packs` counts them all, `whole_cost` is what they
    cost, and `proven` says that no mix costs less, or without prices takes less paper, which holds for pieces
    `kept_upright` because of a pattern if that is so. `on_hand` whole ones and `offcuts` that are there already are
    used besides.

    `left` is what remains of the packs beyond the pieces and their spares, with `is_floor` at most: a number of what is
    counted, a length of rolls, an area that glue is enough for. None where that is not known, or told in `sizes`.
    `left_in_one` is the longest piece among it."""

    count: int
    least: int
    noun: str
    pack: int
    is_floor: bool = False
    sizes: tuple[SheetsBought, ...] = ()
    whole_packs: int | None = None
    whole_cost: Quantity | None = None
    proven: bool = False
    on_hand: int = 0
    offcuts: int = 0
    kept_upright: bool = False
    left: Quantity | None = None
    left_in_one: Quantity | None = None

    @property
    def packs(self) -> int:
        return -(-self.count // self.pack) if self.whole_packs is None else self.whole_packs

    def cost(self, price: Quantity | None) -> Quantity | None:
        """What whole packs cost at this price a pack; None where no price is known."""
        if self.sizes:
            return self.whole_cost
        return None if price is None else price * self.packs


def to_buy(material: Material, pieces: tuple[CutPiece, ...]) -> ToBuy | None:
    """None for what is bought by a length or an area alone, where nothing says how far a pack of it goes."""
    pack = max(material.pack, 1)
    planned = sheet_plan(material, pieces)
    if planned is not None and not planned.misfits:
        return _sheets(material, planned, pieces, pack)
    if material.sheets_at_least is not None:
        used = min(material.sheets_at_least, material.on_hand)
        count = material.sheets_at_least - used
        return ToBuy(count, count, "sheet", pack, is_floor=True, on_hand=used)
    rolls = rolls_for(material)
    if rolls is not None:
        whole = -(-rolls.count // pack) * pack
        # How many rows a wide zone takes is estimated.
        return ToBuy(
            rolls.count, rolls.least, "roll", pack, is_floor=material.zones > 0,
            left=left_of_rolls(material, whole), left_in_one=longest_left(material, whole),
            on_hand=rolls.on_hand, offcuts=rolls.offcuts,
        )  # fmt: skip
    if material.amount.dimension == NUMBER:
        needed = ceil(material.amount.value * (1 + material.spare))
        used = min(needed, material.on_hand)
        count = needed - used
        return ToBuy(count, count, "", pack, left=number(-count % pack), on_hand=used)
    if material.coverage is not None and material.amount.dimension == AREA:
        spread = material.amount * (1 + material.spare)
        packs = ceil((spread / material.coverage).value)
        used = min(packs, material.on_hand)
        return ToBuy(
            packs - used, packs - used, "pack", 1, left=material.coverage * packs - spread, on_hand=used
        )  # fmt: skip
    return None


def _sheets(material: Material, planned: CuttingPlan, pieces: tuple[CutPiece, ...], pack: int) -> ToBuy:
    stock = told(material, planned, pieces)
    used = sum(each.used for each in stock.bought if each.on_hand)
    offcuts = sum(each.used for each in stock.bought if each.is_offcut)
    if not material.also:
        return ToBuy(
            stock.sheets, stock.least or 0, "sheet", pack, proven=stock.proven, on_hand=used - offcuts, offcuts=offcuts,
            kept_upright=stock.kept_upright, left=number(-stock.sheets % pack),
        )
    sizes = tuple(each for each in stock.bought if not each.on_hand and each.used)
    packs = sum(each.packs for each in sizes)
    return ToBuy(
        stock.sheets, stock.sheets if stock.proven else 0, "sheet", pack, sizes=sizes, whole_packs=packs,
        whole_cost=stock.cost, proven=stock.proven, on_hand=used - offcuts, offcuts=offcuts,
        kept_upright=stock.kept_upright,
    )
