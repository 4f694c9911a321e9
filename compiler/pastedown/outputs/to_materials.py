"""The materials: what to buy or have at hand, and how much of it the pieces take at least."""

from collections.abc import Iterator

from pastedown.outputs.bought_words import (
    asked_for,
    bought,
    grains_of,
    in_packs,
    left_over,
    not_in_total,
    pack_price,
    size_of,
    weighed,
    why_no_count,
)
from pastedown.outputs.csv_text import csv_file, exact_inches, exact_millimetres
from pastedown.outputs.cutting.words import KEPT
from pastedown.outputs.in_words import counted, measure, prose, sentence
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.plan.costs import costs
from pastedown.plan.material import Material
from pastedown.plan.plan import Plan
from pastedown.plan.sheet_parts import SheetsBought
from pastedown.plan.to_buy import ToBuy, to_buy
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.dimension import AREA, GRAMMAGE, LENGTH, MASS, NUMBER
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import csv_decimal, write, write_text

_NOTE = (
    "The amount is what the pieces take, and of lengths that a kit gets in one, what these have to spare. Sheets are "
    "counted by a plan of how the pieces lie on them, with cuts from edge to edge and the spares asked for; rolls so "
    "that no strip is joined. Where only the area is known it says at least; where nobody says how long a roll is, or "
    "how far a bottle goes, it says how much of it."
)
_COLUMNS = (
    Column("stock", 26),
    Column("kind", 8),
    Column("size", 20),
    Column("amount", 24, measures=True),
    Column("to buy", 20, to_the_right=True),
)
_SIDE_BY_SIDE = "Pieces narrower than the roll are cut side by side, the longest first."
# So that words of a recipe that end up first in a line never look like a line of their own.
_HANGING = "    "
_CSV_TITLES = (
    "stock", "kind", "size", "use", "thickness in", "thickness mm", "weight gsm", "grain", "pieces", "amount",
    "amount inch", "unit inch", "amount metric", "unit metric", "sheets at least", "mass g", "price", "currency",
    "pack", "to buy", "fewest possible", "packs", "cost", "left over",
)  # fmt: skip
_CSV_UNITS = {LENGTH: ("in", "mm"), AREA: ("sq in", "sq mm"), NUMBER: ("", "")}


def make(plan: Plan) -> dict[str, bytes]:
    """materials.txt and materials.csv"""
    rows = [
        row
        for material in plan.materials
        for row in _csv_rows(material, to_buy(material, plan.pieces), plan.ruler)
    ]
    return {"materials.txt": text_file(_text(plan)), "materials.csv": csv_file(_CSV_TITLES, rows)}


def _text(plan: Plan) -> list[str]:
    lines = [*heading(f"Materials: {plan.title}"), ""]
    if not plan.materials:
        return [*lines, "Nothing is needed."]
    needs = [(material, to_buy(material, plan.pieces)) for material in plan.materials]
    rows = [row for material, need in needs for row in _rows(material, need, plan.ruler)]
    lines += [*wrapped(_NOTE), "", *table(_COLUMNS, rows)]
    details = [line for material, need in needs for line in _details(material, need, plan.ruler)]
    lines += ["", *details] if details else []
    return [*lines, "", *wrapped(_mass(plan), rest=_HANGING), *_costs(needs, plan.ruler)]


def _rows(material: Material, need: ToBuy | None, ruler: Ruler) -> Iterator[tuple[str, ...]]:
    """One row; of a stock on offer in several sizes one for each that is bought, with the amount in the first."""
    if need is None or not need.sizes:
        yield _row(material, need, ruler)
        return
    amount = measure(material.amount, ruler)
    for each in need.sizes:
        some = in_packs(each.used, "sheet", each.packs, each.pack)
        yield each.sheet, material.kind, size_of(each, ruler), amount, some
        amount = ""


def _row(material: Material, need: ToBuy | None, ruler: Ruler) -> tuple[str, ...]:
    return (
        material.stock,
        material.kind,
        prose(material.size, ruler),
        measure(material.amount, ruler),
        bought(material, need, ruler),
    )


def _details(material: Material, need: ToBuy | None, ruler: Ruler) -> list[str]:
    """What it is for, and what to ask for in the shop: thickness, weight, grain and price."""
    use = [sentence(f"for {prose(material.use, ruler)}")] if material.use else []
    said = []
    if material.caliper is not None:
        said.append(f"{measure(material.caliper, ruler)} thick")
    if material.weight is not None:
        said.append(measure(material.weight, ruler))
    if grains := grains_of(material, need):
        said.append(grains)
    if need is not None and need.sizes:
        said += [
            f"{measure(price, ruler)} for {_pack(each.pack)} of {each.sheet}"
            for each in need.sizes
            if (price := pack_price(each)) is not None
        ]
    elif material.price is not None:
        said.append(f"{measure(material.price, ruler)} for {_pack(material.pack)}")
    if material.coverage is not None:
        said.append(f"a pack is enough for {measure(material.coverage, ruler)}")
    counted_out = need is not None and need.noun not in ("", "pack") and not need.is_floor
    proof = [] if need is None else [_proof(need)] if counted_out else list(_there(need, "used first"))
    if need is not None and (left := left_over(need, ruler)):
        proof.append(f"Left over: {left}.")
    if material.least_length is not None and need is not None and need.noun == "roll":
        proof.append(_SIDE_BY_SIDE)
    if need is None:
        proof = [f"To buy: {asked_for(material, ruler)}. {why_no_count(material, ruler)}."]
    sentences = [*use, *proof, sentence(", ".join(said))] if said else [*use, *proof]
    return wrapped(f"{material.stock}: {' '.join(sentences)}", rest=_HANGING) if sentences else []


def _pack(pack: int) -> str:
    return "one" if pack == 1 else f"a pack of {pack}"


def _mass(plan: Plan) -> str:
    masses = [mass for mass in (material.mass for material in plan.materials) if mass and mass.dimension == MASS]
    unknown = [each.stock for each in plan.materials if each.mass is None or each.mass.dimension != MASS]
    if not masses:
        return "What it weighs cannot be told: no stock says how heavy it is."
    rest = f", without what no weight is given for: {', '.join(unknown)}" if unknown else ""
    return f"Together that weighs {weighed(sum(masses[1:], masses[0]))}{rest}."


def _proof(need: ToBuy) -> str:
    if not need.count:
        return " ".join((*_there(need, "cut"), "Nothing has to be bought."))
    return " ".join((_bought(need), *_there(need, "cut first")))


def _there(need: ToBuy, how: str) -> Iterator[str]:
    """What is used of what is there already: "2 sheets and 1 offcut on hand are cut first." """
    whole = counted(need.on_hand, need.noun) if need.noun else str(need.on_hand)
    said = [whole] if need.on_hand else []
    said += [counted(need.offcuts, "offcut")] if need.offcuts else []
    if said:
        verb = "is" if need.on_hand + need.offcuts == 1 else "are"
        yield f"{' and '.join(said)} on hand {verb} {how}."


def _bought(need: ToBuy) -> str:
    kept = KEPT if need.kept_upright else ""
    if need.sizes:
        sizes = " and ".join(_size(each) for each in need.sizes)
        least = "cheapest" if need.whole_cost is not None else "least paper"
        said = f"proven {least}{kept}" if need.proven else f"a {least} mix as far as it was sought"
        return f"{sizes}; {said}."
    some = in_packs(need.count, need.noun, need.packs, need.pack)
    if need.count == need.least:
        return f"{some}, proven fewest{kept}."
    return f"{some}; no plan can do with fewer than {need.least}."


def _size(each: SheetsBought) -> str:
    packs = f" in {counted(each.packs, 'pack')} of {each.pack}" if each.pack > 1 else ""
    return f"{counted(each.used, 'sheet')} of {each.sheet}{packs}"


def _costs(needs: list[tuple[Material, ToBuy | None]], ruler: Ruler) -> list[str]:
    """What whole packs cost, one sum a currency, and the names of all that is not in it."""
    paid = costs(needs)
    if not paid.sums and all(material.price is None for material, _ in needs):
        return ["", "What it costs cannot be told: no stock has a price."]
    total = " and ".join(measure(cost, ruler) for cost in paid.sums)
    said = f"Priced packs cost {'at least ' if paid.is_floor else ''}{total}." if total else "The cost cannot be told."
    return ["", *wrapped(f"{said} {not_in_total(paid.unpriced, paid.uncounted)}".rstrip(), rest=_HANGING)]


def _csv_rows(material: Material, need: ToBuy | None, ruler: Ruler) -> Iterator[tuple[str | int, ...]]:
    """As `_rows`; what holds of all sizes together stands in the first."""
    row = _csv_row(material, need, ruler)
    if need is None or not need.sizes:
        yield row
        return
    at = {title: number for number, title in enumerate(_CSV_TITLES)}
    whole = range(at["pieces"], at["mass g"] + 1)
    for number, each in enumerate(need.sizes):
        price = pack_price(each)
        own = list(row)
        for place in whole if number else ():
            own[place] = ""
        # By its area a stock is measured in sheets of its own size.
        own[at["sheets at least"]] = ""
        for title, value in (
            ("stock", each.sheet),
            ("size", size_of(each, ruler)),
            ("grain", each.grain),
            ("price", "" if price is None else rounded_decimal(price.value, 4)),
            ("currency", "" if price is None else price.dimension.currency),
            ("pack", each.pack),
            ("to buy", each.used),
            ("packs", each.packs),
            ("cost", "" if each.cost is None else rounded_decimal(each.cost.value, 4)),
            ("left over", each.left or ""),
        ):
            own[at[title]] = value
        yield tuple(own)


def _csv_row(material: Material, need: ToBuy | None, ruler: Ruler) -> tuple[str | int, ...]:
    caliper, weight, mass, price = material.caliper, material.weight, material.mass, material.price
    amount = material.amount
    cost = None if need is None else need.cost(price)
    inch_unit, metric_unit = _CSV_UNITS.get(amount.dimension, ("", ""))
    known = amount.dimension in _CSV_UNITS
    return (
        material.stock,
        material.kind,
        write_text(material.size, ruler),
        write_text(material.use, ruler),
        "" if caliper is None else exact_inches(caliper),
        "" if caliper is None else exact_millimetres(caliper),
        csv_decimal(weight, "gsm") if weight is not None and weight.dimension == GRAMMAGE else "",
        material.grain,
        material.pieces,
        write(amount, ruler),
        csv_decimal(amount, inch_unit) if known else "",
        inch_unit,
        csv_decimal(amount, metric_unit) if known else "",
        metric_unit,
        "" if material.sheets_at_least is None else material.sheets_at_least,
        csv_decimal(mass, "g") if mass is not None and mass.dimension == MASS else "",
        "" if price is None else rounded_decimal(price.value, 4),
        "" if price is None else price.dimension.currency,
        material.pack,
        "" if need is None else need.count,
        "" if need is None or need.is_floor or need.sizes else need.least,
        "" if need is None else need.packs,
        "" if cost is None else rounded_decimal(cost.value, 4),
        "" if need is None or need.left is None or not need.left.value else write(need.left, ruler),
    )
