"""The functions of the language: the few that work things out from values alone, `stock`, `span` and what is done to
paper."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from math import floor
from typing import TYPE_CHECKING

from pastedown.design.brackets import TREATMENTS, values_of
from pastedown.design.slips import no_square_root, whole_of_no_number
from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.diagnostic.capital import capital
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, quantity, truth, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of
from pastedown.geometry.layer import Scope
from pastedown.geometry.stock_value import stock_with
from pastedown.geometry.treatment import treatment
from pastedown.geometry.value import FamilyValue, ListValue
from pastedown.geometry.work import WORK_OF_A_SUMMAND, refuse_too_large
from pastedown.quantity.dimension import AREA, LENGTH, NUMBER
from pastedown.quantity.quantity import Quantity, number
from pastedown.quantity.spread import square_root
from pastedown.tree.expression import Call, Expression

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def values_in_brackets(call: Call) -> dict[str, Expression]:
    """The values of a function's call by label, or by number where they go by place. Raises Fault where they are not
    what the function takes."""
    values, fault = values_of(call)
    if fault is not None:
        raise Fault(fault)
    return values


def _quantities(call: Call, scope: Scope) -> list[Quantity]:
    """All values of the arguments, families and lists taken apart, all of one dimension."""
    found: list[Quantity] = []
    for argument in values_in_brackets(call).values():
        value = evaluate(argument, scope)
        items = value.items if isinstance(value, ListValue) else each_of(value)
        work_of(scope).spend(argument.span, WORK_OF_A_SUMMAND * len(items))
        for item in items:
            if not isinstance(item, Quantity):
                raise Fault(
                    error(
                        "wrong-kind",
                        argument.span,
                        f"{call.called.head} takes measurements, and this is {describe(item)}.",
                        way_out="Name a measure of it, or leave it out.",
                    )
                )
            if found and item.dimension != found[0].dimension:
                raise Fault(
                    error(
                        "wrong-dimension",
                        argument.span,
                        f"{capital(found[0].dimension.words)} and {item.dimension.words} do not go together here.",
                        way_out=f"{capital(call.called.head)} takes like things: lengths, or counts, or amounts.",
                    )
                )
            found.append(item)
    if not found:
        sentence = f"There is nothing to take the {call.called.head} of."
        raise Fault(error("empty-family", call.span, sentence, way_out="See to it that there is one at least."))
    return found


def _min(call: Call, scope: Scope) -> Value:
    return min(_quantities(call, scope), key=lambda item: item.value)


def _max(call: Call, scope: Scope) -> Value:
    return max(_quantities(call, scope), key=lambda item: item.value)


def _sum(call: Call, scope: Scope) -> Value:
    total, *others = _quantities(call, scope)
    for other in others:
        total = total + other
        refuse_too_large(total, call.span)
    return total


def _count(call: Call, scope: Scope) -> Value:
    (argument,) = values_in_brackets(call).values()
    value = evaluate(argument, scope)
    if isinstance(value, FamilyValue | ListValue):
        return number(len(value.items))
    return number(1)


def _whole(call: Call, scope: Scope) -> Value:
    (argument,) = values_in_brackets(call).values()
    value = quantity(argument, scope)
    if value.dimension != number(1).dimension:
        raise Fault(whole_of_no_number(argument, value.dimension))
    return number(floor(value.value))


def _square_root(call: Call, scope: Scope) -> Value:
    """The side of a square of so much: exact where it comes out even, otherwise a hair below. Errors of the hand are
    carried to the first order, as those of a product are."""
    (argument,) = values_in_brackets(call).values()
    square = quantity(argument, scope)
    if square.dimension not in (AREA, NUMBER):
        raise Fault(no_square_root(argument, square.dimension))
    if square.value < 0:
        sentence = "There is no square root of less than nought."
        raise Fault(error("out-of-range", argument.span, sentence, way_out="See to it that this is nought or more."))
    side = Quantity(square_root(square.value), LENGTH if square.dimension == AREA else NUMBER)
    refuse_too_large(side, call.span)
    if square.errors is None or not side.value:
        return side
    return side + (square - square.exact) / (side * 2)


def _on_paper(call: Call, scope: Scope) -> Value:
    """The amount as it is asked for: what hands may do to it is left out."""
    (argument,) = values_in_brackets(call).values()
    return quantity(argument, scope).exact


def _choose(call: Call, scope: Scope) -> Value:
    arguments = values_in_brackets(call)
    return evaluate(arguments["yes" if truth(arguments["when"], scope) else "no"], scope)


def _stock(call: Call, scope: Scope) -> Value:
    return stock_with(Stock("", "card"), call.arguments, scope)


def _worked_out_by(module: str, name: str) -> Callable[[Call, Scope], Value]:
    """A function of another module, imported only when it is called: these modules ask for values themselves."""

    def work_out(call: Call, scope: Scope) -> Value:
        value: Value = getattr(import_module(f"pastedown.geometry.{module}"), name)(call, scope)
        return value

    return work_out


FUNCTIONS: dict[str, Callable[[Call, Scope], Value]] = {
    "min": _min,
    "max": _max,
    "sum": _sum,
    "count": _count,
    "whole": _whole,
    "square_root": _square_root,
    "choose": _choose,
    "stock": _stock,
    "span": _worked_out_by("measure", "span"),
    "on_paper": _on_paper,
    "off_by": _worked_out_by("placed", "off_by"),
    "placed": _worked_out_by("placed", "placed"),
    "skew": _worked_out_by("placed", "skew"),
    "thickness": _worked_out_by("thickness", "thickness"),
    "steepest": _worked_out_by("thickness", "steepest"),
    "wedge": _worked_out_by("thickness", "wedge"),
    "middles_apart": _worked_out_by("where_sides_lie", "middles_apart"),
    "face_to_face": _worked_out_by("where_sides_lie", "face_to_face"),
    "lies_under": _worked_out_by("lying_under", "lies_under"),
    "lies_level": _worked_out_by("lying_under", "lies_level"),
    **dict.fromkeys(TREATMENTS, treatment),
}
