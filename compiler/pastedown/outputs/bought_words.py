"""What to ask for in the shop, in words that are never empty: sheets, rolls, single things, or else an amount."""

from fractions import Fraction
from math import ceil

from pastedown.outputs.in_words import counted, measure
from pastedown.plan.material import Material
from pastedown.plan.sheet_parts import SheetsBought
from pastedown.plan.to_buy import ToBuy
from pastedown.quantity.dimension import AREA, LENGTH, MASS, NUMBER
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.unit import UNITS

# So finely an amount is told that is bought by feel.
_HALF_A_FOOT, _TENTH_OF_A_METRE = Fraction(12 * 254, 20), Fraction(100)
_SQUARE_INCH, _SQUARE_CENTIMETRE = Fraction(254, 10) ** 2, Fraction(100)


def bought(material: Material, need: ToBuy | None, ruler: Ruler) -> str:
    """For one column: "3 sheets", "at least 2 rolls", "24: 2 packs of 20", "13 ft" off a roll, or what it has to be
    enough for."""
    if need is None:
        return asked_for(material, ruler)
    said = in_packs(need.count, need.noun, need.packs, need.pack)
    return f"at least {said}" if need.is_floor and need.count else said


def in_packs(count: int, noun: str, packs: int, pack: int) -> str:
    """ "7 sheets in 1 pack of 10", "24: 2 packs of 20", or without packs "7 sheets"; "none" where there is nothing to
    buy"""
    if not count:
        return "none"
    if pack == 1:
        return counted(count, noun) if noun else str(count)
    # "24 in 2 packs" would be read as inches.
    return f"{counted(count, noun)} in {counted(packs, 'pack')} of {pack}" if noun else (
        f"{count}: {counted(packs, 'pack')} of {pack}"
    )


def left_over(need: ToBuy, ruler: Ruler) -> str:
    """What remains of the packs, spares taken off; empty where nothing does."""
    sizes = [f"{counted(each.left, 'sheet')} of {each.sheet}" for each in need.sizes if each.left]
    if need.sizes or need.left is None or not need.left.value:
        return " and ".join(sizes)
    most = "at most " if need.is_floor else ""
    if need.left.dimension == NUMBER:
        count = int(need.left.value)
        return most + (counted(count, need.noun) if need.noun else str(count))
    if need.left.dimension == AREA:
        return f"{most}enough for {measure(need.left, ruler)}"
    in_one = need.left_in_one
    longest = f", the longest piece {measure(in_one, ruler)}" if in_one is not None and in_one != need.left else ""
    return f"{most}{measure(need.left, ruler)}{longest}"


def grains_of(material: Material, need: ToBuy | None) -> str:
    """How the grain of what is bought lies; empty where it has none or nobody knows. Sizes of one stock may differ."""
    sizes = need.sizes if need is not None else ()
    grains = {each.sheet: each.grain for each in sizes} or {material.stock: material.grain}
    known = {name: grain for name, grain in grains.items() if grain not in ("", "none", "unknown")}
    if len(set(grains.values())) <= 1:
        return "".join(f"grain {grain}" for grain in dict.fromkeys(known.values()))
    return ", ".join(f"grain {grain} of {name}" for name, grain in known.items())


def size_of(each: SheetsBought, ruler: Ruler) -> str:
    """Of one size of sheet, as it lies on the plan: "18 in x 24 in"."""
    return f"{measure(each.width, ruler)} x {measure(each.height, ruler)}"


def pack_price(each: SheetsBought) -> Quantity | None:
    """Of one pack of a size that is bought."""
    return None if each.cost is None or not each.packs else each.cost / each.packs


def not_in_total(unpriced: tuple[str, ...], uncounted: tuple[str, ...]) -> str:
    """What a sum of costs is without, and why; empty where it has everything."""
    said = [f"Not in it, for want of a price: {', '.join(unpriced)}."] if unpriced else []
    if uncounted:
        why = "since nothing says how much a pack holds or how far it goes"
        said.append(f"Not in it though priced, {why}: {', '.join(uncounted)}.")
    return " ".join(said)


def why_no_count(material: Material, ruler: Ruler) -> str:
    """Why it is told by an amount: what nobody has said of it; and that nothing on hand counts for that."""
    there = "; what is on hand cannot be counted without it" if material.on_hand or material.offcuts else ""
    return f"{_why_no_count(material, ruler)}{there}"


def _why_no_count(material: Material, ruler: Ruler) -> str:
    if material.amount.dimension == LENGTH:
        longest = f", the longest {measure(material.strips[0], ruler)}" if material.strips else ""
        return f"The length of a roll is not given; no strip is to be joined{longest}"
    if material.kind == "glue":
        return "How far a pack of it goes is not given: find that on its label, and write it as its coverage"
    return "How much of it a pack holds is not given"


def asked_for(material: Material, ruler: Ruler) -> str:
    """The amount with what is to spare, up to a length or an area that a shop can measure."""
    amount = material.amount * (1 + material.spare)
    if amount.dimension == LENGTH:
        return in_long_units(amount, ruler)
    if amount.dimension == AREA:
        return f"enough for {_in_system(amount, ruler, (_SQUARE_INCH, 'sq in'), (_SQUARE_CENTIMETRE, 'cm²'))}"
    return str(ceil(amount.value))


def in_long_units(length: Quantity, ruler: Ruler) -> str:
    """Up to the next half foot or tenth of a metre."""
    feet = f"{_half(ceil(length.value / _HALF_A_FOOT))} ft"
    metres = f"{_tenth(ceil(length.value / _TENTH_OF_A_METRE))} m"
    return _both(feet, metres, ruler)


def weighed(mass: Quantity) -> str:
    """A mass as a kitchen scale tells it: whole grams, from a kilogram on to ten. Calipers and grammages are no better
    than that. Raises ValueError for what is no mass."""
    if mass.dimension != MASS:
        raise ValueError(f"{mass.dimension.words} is not weighed")
    step = 10 if mass.value >= UNITS["kg"].value else 1
    grams = max(round(mass.value / step) * step, 1)
    return f"about {grams // 1000}.{grams % 1000 // 10:02} kg" if grams >= 1000 else f"about {grams} g"


def _in_system(amount: Quantity, ruler: Ruler, inch: tuple[Fraction, str], metric: tuple[Fraction, str]) -> str:
    told = [f"{ceil(amount.value / one / 10) * 10} {unit}" for one, unit in (inch, metric)]
    return _both(told[0], told[1], ruler)


def _both(inches: str, metric: str, ruler: Ruler) -> str:
    if ruler.show is Show.INCHES:
        return inches
    if ruler.show is Show.METRIC:
        return metric
    return f"{inches} ({metric})" if ruler.in_inches else f"{metric} ({inches})"


def _half(halves: int) -> str:
    whole, half = divmod(halves, 2)
    return f"{whole or ''}{' ' if whole and half else ''}{'1/2' if half else ''}"


def _tenth(tenths: int) -> str:
    return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else str(tenths // 10)
