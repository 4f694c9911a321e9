"""The kits at a glance: price and weight of one, what is in none, and cautions; as lines and as JSON."""

from collections.abc import Iterator

from pastedown.outputs.bought_words import not_in_total, weighed
from pastedown.outputs.cutting.json_cutting import sheets_bought
from pastedown.outputs.in_words import counted, measure, prose, sentence
from pastedown.outputs.json_value import (
    FORMAT_VERSION,
    Json,
    json_length_or_null,
    json_ruler,
    json_text,
    json_value,
    json_value_or_null,
)
from pastedown.outputs.plain_text import heading, wrapped
from pastedown.plan.kits import KitItem, Kits
from pastedown.plan.stock_cutting import stock_cuttings
from pastedown.quantity.ruler import Ruler

KITS_FORMAT = "pastedown-kits"


def kit_sheet(kits: Kits) -> list[str]:
    ruler = kits.one.ruler
    lines = [*heading(f"{counted(kits.copies, 'kit')}: {kits.one.title}".replace("\u00a0", " ")), ""]
    lines += wrapped(
        "purchase-list.txt says what to buy for all of them, cutting-plan.txt how to cut it, and pick-list.txt what "
        "goes into each. Spares are counted over all kits and rounded up for each part."
    )
    lines += ["", *wrapped(_price(kits), rest="    "), *wrapped(_weight(kits), rest="    "), ""]
    for text in kits.uncovered:
        lines += wrapped(f"Not covered: {prose(text, ruler)}", rest="    ")
    if not kits.uncovered:
        lines += wrapped("Every part of the design is in the kits; tools are not.")
    for caution in kits.cautions:
        lines += ["", *wrapped(f"Caution: {caution} Say so on the outside of each kit.", rest="    ")]
    return lines


def _price(kits: Kits) -> str:
    without = not_in_total(kits.unpriced, kits.uncounted)
    if not kits.costs and not kits.uncounted:
        return "No stock has a price, so a kit has none."
    if not kits.costs:
        return f"The price of a kit cannot be told. {without}"
    ruler = kits.one.ruler
    floor = "at least " if kits.cost_is_floor else ""
    each = " and ".join(measure(cost / kits.copies, ruler) for cost in kits.costs)
    whole = " and ".join(measure(cost, ruler) for cost in kits.costs)
    said = f"A kit costs {floor}{each} in stock: {whole} for all, whole packs."
    return f"{said} {without}".rstrip()


def _weight(kits: Kits) -> str:
    if kits.mass is None:
        return "No stock has a weight, so a kit has none."
    said = f"A kit weighs {weighed(kits.mass)}."
    rest = ", ".join(kits.unweighed)
    return f"{said} Not weighed, for no weight of it is given: {rest}." if rest else said


def kits_json(kits: Kits) -> Json:
    """The shape `kits` of the schema."""
    ruler = kits.one.ruler
    return {
        "format": KITS_FORMAT,
        "format_version": FORMAT_VERSION,
        "name": kits.one.name,
        "title": kits.one.title,
        "ruler": json_ruler(ruler),
        "copies": kits.copies,
        "items": [_item(item, ruler) for item in kits.items],
        "bought": [
            {"stock": stock.stock, "sheets": sheets_bought(stock, ruler)} for stock in stock_cuttings(kits.all)
        ],
        "cost_of_all": [json_value(cost, ruler) for cost in kits.costs],
        "cost_of_one": [json_value(cost / kits.copies, ruler) for cost in kits.costs],
        "cost_is_floor": kits.cost_is_floor,
        "unpriced": list(kits.unpriced),
        "uncounted": list(kits.uncounted),
        "mass_of_one": json_value_or_null(kits.mass, ruler),
        "unweighed": list(kits.unweighed),
        "uncovered": [json_text(text, ruler) for text in kits.uncovered],
        "cautions": list(kits.cautions),
    }


def _item(item: KitItem, ruler: Ruler) -> Json:
    return {
        "id": item.id,
        "name": item.name,
        "count": item.count,
        "stock": item.stock,
        "height": json_length_or_null(item.height, ruler),
        "width": json_length_or_null(item.width, ruler),
        "bought_whole": item.bought_whole,
        "amount": json_value_or_null(item.amount, ruler),
        "in_one": json_length_or_null(item.in_one, ruler),
    }


def item_words(item: KitItem, ruler: Ruler) -> Iterator[str]:
    """What to look for, in words."""
    if item.height is not None and item.width is not None:
        yield f"{measure(item.height, ruler)} high, {measure(item.width, ruler)} wide"
    if item.bought_whole:
        yield "cut from what is bought" if item.trimmed else "as it is bought"
    if item.in_one is not None:
        yield f"one length of {measure(item.in_one, ruler)}, uncut"
    elif item.amount is not None:
        yield sentence(f"for {measure(item.amount, ruler)}").rstrip(".").lower()
