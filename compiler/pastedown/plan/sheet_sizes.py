"""The sizes that sheets of a stock are cut in: those on offer, what is on hand, and offcuts."""

from collections import Counter
from collections.abc import Iterator

from attrs import frozen

from pastedown.geometry.grain_on_sheets import OfferedSize, Sides
from pastedown.plan.material import Material
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity


@frozen
class SheetSize:
    """One size of sheet, bought in packs, or with `on_hand` so many that are there already. Two sizes may be alike in
    all that is said here but their packs and prices."""

    name: str
    sheet: Sides
    grain: str
    trim: Length
    cut_at_once: int
    price: Quantity | None = None
    pack: int = 1
    on_hand: int | None = None
    is_offcut: bool = False

    @property
    def offered(self) -> OfferedSize:
        return OfferedSize(self.sheet, self.grain, self.trim)

    def inside(self, way: Sides) -> Sides:
        """What is left of the sheet within its raw edges, lying so."""
        return way[0] - self.trim * 2, way[1] - self.trim * 2


def sheet_sizes(material: Material) -> tuple[SheetSize, ...]:
    """In the order in which a cutting plan has them; a sheet of that plan is called by its place here. Empty for what
    comes in no sheets."""
    return () if material.sheet is None else tuple(_sizes(material, material.sheet))


def _sizes(material: Material, sheet: Sides) -> Iterator[SheetSize]:
    name, at_once = material.stock, material.cut_at_once
    yield SheetSize(name, sheet, material.grain, material.trim, at_once, material.price, max(material.pack, 1))
    for each in material.also:
        yield SheetSize(each.name, each.sheet, each.grain, each.trim, each.cut_at_once, each.price, each.pack)
    if material.on_hand:
        yield SheetSize(name, sheet, material.grain, material.trim, at_once, material.price, on_hand=material.on_hand)
    for number, (offcut, count) in enumerate(Counter(material.offcuts).items(), 1):
        grain = "long" if offcut[0] >= offcut[1] else "short"
        yield SheetSize(
            f"offcut {number} of {name}", offcut, grain, NO_LENGTH, at_once, material.price, on_hand=count,
            is_offcut=True,
        )  # fmt: skip
