"""The fields of a stock that say how its sheets are cut and what is there already."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, length, quantity, whole_number
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import ListValue, SheetValue
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.quantity import Quantity, number
from pastedown.tree.expression import Expression

if TYPE_CHECKING:
    from pastedown.geometry.value import Value

CUTTING_FIELDS = ("trim", "cut_at_once", "spare", "on_hand", "offcuts", "also")
# More sheets than these are not counted one by one by anybody, and more sizes are not compared.
_MOST_SHEETS, _MOST_SIZES = 100_000, 50


def cutting_field(name: str, expression: Expression, scope: Scope) -> object:
    """The value of such a field. Raises Fault where it makes no sense."""
    match name:
        case "trim":
            return _not_negative(length(expression, scope), "trim", expression)
        case "spare":
            return _share(quantity(expression, scope), expression)
        case "offcuts":
            return tuple(sides_of_sheet(value, expression) for value in _listed(name, expression, scope))
        case "also":
            return tuple(_other_size(value, expression) for value in _listed(name, expression, scope))
    least = 1 if name == "cut_at_once" else 0
    count = whole_number(expression, scope)
    if not least <= count <= _MOST_SHEETS:
        said = "At least one sheet is cut at once." if name == "cut_at_once" and count < 1 else (
            f"The {name.replace('_', ' ')} of a stock is a count of sheets from {least} to {_MOST_SHEETS}."
        )
        raise Fault(error("out-of-range", expression.span, said, way_out=f"Write how many, as in {name}: 4."))
    return count


def read_cutting_field(value: object) -> Value:
    """Such a field as a value of the language."""
    if isinstance(value, Quantity):
        return value
    if isinstance(value, tuple):
        return ListValue(tuple(each if isinstance(each, Stock) else SheetValue(*each) for each in value))
    assert isinstance(value, int | Fraction)
    return number(value)


def sides_of_sheet(value: Value, expression: Expression) -> tuple[Quantity, Quantity]:
    """The two sides of a sheet in the order written. Raises Fault for anything else."""
    if not isinstance(value, SheetValue) or value.first.dimension != LENGTH or value.second.dimension != LENGTH:
        raise Fault(
            error(
                "wrong-kind",
                expression.span,
                f"A sheet has two sides, and this is {describe(value)}.",
                way_out="Write 12 in x 12 in, or use a named sheet such as a4 from sheets.",
            )
        )
    return positive(value.first, "sheet", expression), positive(value.second, "sheet", expression)


def positive(value: Quantity, name: str, expression: Expression) -> Quantity:
    """The value of a field that is more than nought. Raises Fault for another one."""
    if value.value <= 0:
        raise Fault(
            error(
                "out-of-range",
                expression.span,
                f"The {name.replace('_', ' ')} of a stock has to be more than nought.",
                way_out="Write what the ruler or the label says.",
            )
        )
    return value


def _not_negative(value: Quantity, name: str, expression: Expression) -> Quantity:
    if value.value < 0:
        raise Fault(
            error(
                "out-of-range",
                expression.span,
                f"The {name} of a stock cannot be less than nought.",
                way_out="Write what is cut off each edge, as in trim: 1/8 in.",
            )
        )
    return value


def _share(value: Quantity, expression: Expression) -> object:
    if value.dimension != NUMBER or not 0 <= value.value <= 1:
        raise Fault(
            error(
                "out-of-range",
                expression.span,
                "The spare of a stock is a share of what is needed, from nought to all of it again.",
                way_out="Write a share, as in spare: 5 %.",
            )
        )
    return value.value


def _listed(name: str, expression: Expression, scope: Scope) -> tuple[Value, ...]:
    value = evaluate(expression, scope)
    items = value.items if isinstance(value, ListValue) else (value,)
    if len(items) > _MOST_SIZES:
        raise Fault(
            error(
                "out-of-range",
                expression.span,
                f"The {name} of a stock are {_MOST_SIZES} at most, and these are {len(items)}.",
                way_out="Leave out the smallest.",
            )
        )
    return items


def _other_size(value: Value, expression: Expression) -> Stock:
    if not isinstance(value, Stock) or value.sheet is None:
        raise Fault(
            error(
                "wrong-kind",
                expression.span,
                f"Another size of a stock is a stock with a sheet, and {_lacking(value)}.",
                way_out="Write a copy of the stock in that size, as in also: [large_kraft].",
            )
        )
    return value


def _lacking(value: Value) -> str:
    """What is wrong with what stands for another size."""
    if not isinstance(value, Stock):
        return f"this is {describe(value)}"
    comes = ""
    if value.roll_width is not None or value.roll_length is not None:
        comes = ": it comes on a roll"
    elif value.height is not None and value.width is not None:
        comes = ": it is bought in its own size"
    return f"{value.words} has none{comes}"
