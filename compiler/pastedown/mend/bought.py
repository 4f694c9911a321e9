"""The measures of what is bought, where a recipe states them: the caliper of a card, how wide a tape is.

They are no measures of the design, so no mending changes them by itself. But where a way out speaks of one, such as
"use tape no wider than 3/8 in", that can be tried like any other.
"""

from __future__ import annotations

from pastedown.design.stock import Stock
from pastedown.geometry.evaluate import single
from pastedown.geometry.instance import Instance
from pastedown.geometry.origin import owned, said_of
from pastedown.geometry.stock_value import read_field
from pastedown.quantity.quantity import Quantity
from pastedown.tree.expression import Call, Literal, Path

MOST_STEPS = 20


def measure_of(owner: Instance, name: str) -> Quantity | None:
    """What a stock measures: `name` is the fact of `owner` that holds it and the field, as in "tape.roll_width". None
    for anything else. Raises Fault where the stock was not told."""
    held, _, field = name.partition(".")
    stock = single(owner.lookup(held, owner.span), owner.span) if field else None
    value = read_field(stock, field, owner.span) if isinstance(stock, Stock) else None
    return value if isinstance(value, Quantity) else None


def stated_measure(owner: Instance, name: str) -> tuple[str, Literal] | None:
    """The number of the own file that states such a measure, and what it is called there; None where it stands
    elsewhere, or where another statement sets it anew."""
    held, _, field = name.partition(".")
    now = measure_of(owner, name)
    for _ in range(MOST_STEPS):
        said = list(said_of(owner, held))
        if len(said) != 1:
            return None
        expression, scope = said[0]
        if isinstance(expression, Call):
            number = next((each.value for each in expression.arguments if each.label == field), None)
            if number is not None:
                if not isinstance(number, Literal) or number.value != now:
                    return None
                is_own = number.span.source is owner.work.own
                return (f"{owner.path_of(held, None)}.{field}", number) if is_own else None
            expression = expression.called
        after = owned(expression, scope) if isinstance(expression, Path) else None
        if after is None:
            return None
        owner, held = after
    return None
