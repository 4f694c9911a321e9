"""Checks what a component is given against what it takes: type, kind of stock, bounds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.missing_unit import how_to_add_the_unit
from pastedown.design.stock import STOCK_KINDS, Stock
from pastedown.design.takes_type import DIMENSION_OF, TYPE_NAMES
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import quantity, single
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.stated_at import stated_at
from pastedown.geometry.value import SheetValue, TextValue, Word
from pastedown.quantity.dimension import LENGTH, MONEY, NUMBER
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import round_to
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import Takes

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value


def check_taken(instance: Instance, takes: Takes, scope: Scope, setting: Entry, value: Value) -> Value:
    """The value, if it is of the type and within the bounds that `takes` states. Raises Fault otherwise."""
    span = setting.value.span if setting.value is not None else setting.span
    value = single(value, span)
    if setting.value is not None and takes.type.name == "count" and _is_no_count(value):
        span = stated_at(setting.value, setting.scope)
    _check_type(takes, value, span)
    if isinstance(value, Quantity):
        _check_bounds(instance, takes, scope, value, span)
    return value


def _check_type(takes: Takes, value: Value, span: Span) -> None:
    wanted = takes.type.name
    if wanted not in TYPE_NAMES:
        raise Spoilt
    label = (Label(takes.name_span, "taken here"),)
    match wanted:
        case "text":
            fits = isinstance(value, TextValue)
        case "yes_no":
            fits = isinstance(value, bool)
        case "sheet":
            fits = isinstance(value, SheetValue)
        case "stock":
            fits = isinstance(value, Stock)
        case "choice":
            words = [word.head for word in takes.type.words]
            if not isinstance(value, Word) or value.text not in words:
                raise Fault(
                    error(
                        "unknown-choice",
                        span,
                        f"{takes.name} is one of {', '.join(words)}, not {span.text}.",
                        way_out=did_you_mean(span.text, words) or f"Write one of them, such as {words[0]}.",
                        labels=label,
                    )
                )
            return
        case _:
            fits = isinstance(value, Quantity) and _has_dimension(wanted, value)
    if not fits:
        way_out = f"Give it {_wanted(wanted)}."
        if isinstance(value, Quantity) and value.dimension == NUMBER and wanted == "length":
            way_out = how_to_add_the_unit(span.text)
        kind = "wrong-dimension" if isinstance(value, Quantity) else "wrong-kind"
        raise Fault(
            error(
                kind,
                span,
                f"{takes.name} is {_wanted(wanted)}, and this is {describe(value)}.",
                way_out=way_out,
                labels=label,
            )
        )
    if isinstance(value, Stock):
        _check_stock_kind(takes, value, span, label)
    if wanted == "count" and _is_no_count(value):
        sentence = f"{takes.name} counts things: a whole number belongs here."
        raise Fault(error("not-whole", span, sentence, way_out="whole(x) rounds down to one.", labels=label))


def _is_no_count(value: Value) -> bool:
    if not isinstance(value, Quantity) or value.dimension != NUMBER:
        return False
    return value.value.denominator != 1 or value.value < 0


def _has_dimension(wanted: str, value: Quantity) -> bool:
    if wanted == "money":
        return value.dimension.money == MONEY.money
    return wanted in DIMENSION_OF and value.dimension == DIMENSION_OF[wanted]


def _wanted(wanted: str) -> str:
    names = {
        "count": "a count",
        "number": "a plain number",
        "yes_no": "yes or no",
        "weight": "a grammage",
        "money": "an amount of money",
        "area": "an area",
        "angle": "an angle",
    }
    return names.get(wanted, f"a {wanted}")


def _check_stock_kind(takes: Takes, stock: Stock, span: Span, label: tuple[Label, ...]) -> None:
    for setting in takes.type.settings:
        if setting.label == "kind" and isinstance(setting.value, Path):
            kind = setting.value.head
            if kind in STOCK_KINDS and stock.kind != kind:
                raise Fault(
                    error(
                        "wrong-kind",
                        span,
                        f"{takes.name} is a stock of the kind {kind}, and {stock.words} is {stock.kind}.",
                        labels=label,
                        way_out=f"Give a stock of the kind {kind}.",
                    )
                )


def _check_bounds(instance: Instance, takes: Takes, scope: Scope, value: Quantity, span: Span) -> None:
    if takes.least is None or takes.most is None:
        return
    least, most = quantity(takes.least, scope), quantity(takes.most, scope)
    if least.dimension != value.dimension or most.dimension != value.dimension:
        wrong = takes.least if least.dimension != value.dimension else takes.most
        raise Fault(
            error(
                "wrong-dimension",
                wrong.span,
                f"The bounds of {takes.name} are not of its own kind.",
                way_out=f"{takes.name} is {_wanted(takes.type.name)}: write both bounds as one.",
            )
        )
    if least.value <= value.value <= most.value:
        return
    from pastedown.geometry.ruler import ruler_of

    ruler = ruler_of(instance)
    nearest = _nearest_that_passes(value, least, most, ruler)
    raise Fault(
        error(
            "out-of-range",
            span,
            f"{takes.name} of {instance.path or instance.component.name} is {write(value, ruler)}; it "
            f"goes from {write(least, ruler)} to {write(most, ruler)}.",
            way_out=f"The nearest that passes is {write(nearest, ruler)}.",
            labels=(Label(takes.name_span, "its bounds"),),
            missing=abs(value.value - nearest.value),
        )
    )


def _nearest_that_passes(value: Quantity, least: Quantity, most: Quantity, ruler: Ruler) -> Quantity:
    """The bound that was overstepped; of a length the mark of the ruler next to it, if there is one within."""
    nearest, inwards = (least, "up") if value < least else (most, "down")
    if nearest.dimension != LENGTH:
        return nearest
    on_mark = round_to(nearest, inwards, ruler.marks)
    return on_mark if least.value <= on_mark.value <= most.value else nearest
