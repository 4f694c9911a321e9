"""The materials: what to buy or have at hand, and how much of it the pieces take at least."""

from math import ceil

from pastedown.outputs.csv_text import csv_file, exact_inches, exact_millimetres
from pastedown.outputs.in_words import measure, prose, sentence
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.plan.plan import Material, Plan
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.dimension import AREA, GRAMMAGE, LENGTH, MASS, NUMBER, Dimension
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import csv_decimal, write, write_text

_NOTE = (
    "The amount is what the pieces themselves take. The number of sheets is the least that their area asks for: how "
    "pieces lie on a sheet, offcuts and spares may ask for more."
)
_COLUMNS = (
    Column("stock", 26),
    Column("kind", 8),
    Column("size", 20),
    Column("amount", 20, measures=True),
    Column("sheets", 12, to_the_right=True),
)
_CSV_TITLES = (
    "stock", "kind", "size", "use", "thickness in", "thickness mm", "weight gsm", "grain", "pieces", "amount",
    "amount inch", "unit inch", "amount metric", "unit metric", "sheets at least", "mass g", "price", "currency",
    "pack",
)  # fmt: skip
_CSV_UNITS = {LENGTH: ("in", "mm"), AREA: ("sq in", "sq mm"), NUMBER: ("", "")}


def make(plan: Plan) -> dict[str, bytes]:
    """materials.txt and materials.csv"""
    rows = [_csv_row(material, plan.ruler) for material in plan.materials]
    return {"materials.txt": text_file(_text(plan)), "materials.csv": csv_file(_CSV_TITLES, rows)}


def _text(plan: Plan) -> list[str]:
    lines = [*heading(f"Materials: {plan.title}"), ""]
    if not plan.materials:
        return [*lines, "Nothing is needed."]
    lines += [*wrapped(_NOTE), "", *table(_COLUMNS, [_row(material, plan.ruler) for material in plan.materials])]
    details = [line for material in plan.materials for line in _details(material, plan.ruler)]
    lines += ["", *details] if details else []
    weighed = _mass(plan)
    lines += ["", *wrapped(f"The pieces whose weight can be told weigh {weighed} together.")] if weighed else []
    costs = _costs_at_least(plan)
    lines += ["", *wrapped(f"Priced packs cost at least {costs}.")] if costs else []
    return lines


def _row(material: Material, ruler: Ruler) -> tuple[str, ...]:
    sheets = material.sheets_at_least
    return (
        material.stock,
        material.kind,
        prose(material.size, ruler),
        measure(material.amount, ruler),
        "" if sheets is None else f"at least {sheets}",
    )


def _details(material: Material, ruler: Ruler) -> list[str]:
    """What it is for, and what to ask for in the shop: thickness, weight, grain and price."""
    use = [sentence(f"for {prose(material.use, ruler)}")] if material.use else []
    said = []
    if material.caliper is not None:
        said.append(f"{measure(material.caliper, ruler)} thick")
    if material.weight is not None:
        said.append(measure(material.weight, ruler))
    if material.grain not in ("", "none", "unknown"):
        said.append(f"grain {material.grain}")
    if material.price is not None:
        said.append(f"{measure(material.price, ruler)} for {_pack(material.pack)}")
    sentences = [*use, sentence(", ".join(said))] if said else use
    return wrapped(f"{material.stock}: {' '.join(sentences)}", rest="    ") if sentences else []


def _pack(pack: int) -> str:
    return "one" if pack == 1 else f"a pack of {pack}"


def _mass(plan: Plan) -> str:
    masses = [mass for mass in (material.mass for material in plan.materials) if mass and mass.dimension == MASS]
    return measure(sum(masses[1:], masses[0]), plan.ruler) if masses else ""


def _costs_at_least(plan: Plan) -> str:
    """The price of the fewest packs that hold enough, one sum a currency; what is sold by length is not in it."""
    costs: dict[Dimension, Quantity] = {}
    for material in plan.materials:
        packs = _packs_at_least(material)
        if material.price is not None and packs is not None:
            cost = material.price * packs
            before = costs.get(cost.dimension)
            costs[cost.dimension] = cost if before is None else before + cost
    in_order = sorted(costs.values(), key=lambda cost: cost.dimension.currency)
    return " and ".join(measure(cost, plan.ruler) for cost in in_order)


def _packs_at_least(material: Material) -> int | None:
    count = material.sheets_at_least
    if count is None and material.amount.dimension == NUMBER:
        count = ceil(material.amount.value)
    return None if count is None else -(-count // max(material.pack, 1))


def _csv_row(material: Material, ruler: Ruler) -> tuple[str | int, ...]:
    caliper, weight, mass, price = material.caliper, material.weight, material.mass, material.price
    amount = material.amount
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
    )
