"""How many sheets, rolls or single things of a material are bought, in whole packs; asked for by outputs alone."""

from math import ceil

from attrs import frozen

from pastedown.plan.plan import CutPiece, Material
from pastedown.plan.rolls import rolls_for
from pastedown.plan.sheets import sheet_plan
from pastedown.quantity.dimension import NUMBER


@frozen
class ToBuy:
    """`count` of `noun` ("sheet", "roll", "" for things bought as they are) in packs of `pack`; none can do with fewer
    than `least`. With `is_floor` the count itself is only what the area asks for."""

    count: int
    least: int
    noun: str
    pack: int
    is_floor: bool = False

    @property
    def packs(self) -> int:
        return -(-self.count // self.pack)


def to_buy(material: Material, pieces: tuple[CutPiece, ...]) -> ToBuy | None:
    """None for what is bought by a length or an area alone, where nothing says how much a pack holds."""
    pack = max(material.pack, 1)
    planned = sheet_plan(material, pieces)
    if planned is not None and not planned.misfits:
        return ToBuy(planned.new_sheets, planned.least_sheets or 0, "sheet", pack)
    if material.sheets_at_least is not None:
        return ToBuy(material.sheets_at_least, material.sheets_at_least, "sheet", pack, is_floor=True)
    rolls = rolls_for(material)
    if rolls is not None:
        # How many rows a wide zone takes is estimated.
        return ToBuy(rolls.count, rolls.least, "roll", pack, is_floor=material.zones > 0)
    if material.amount.dimension == NUMBER:
        count = ceil(material.amount.value)
        return ToBuy(count, count, "", pack)
    return None
