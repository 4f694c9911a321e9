"""The functions of the language: the few that work things out from values alone, `stock`, `span` and what is done to
paper."""

from __future__ import annotations

from collections.abc import Callable
from math import floor
from typing import TYPE_CHECKING

from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.diagnostic.capital import capital
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, quantity, truth
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of
from pastedown.geometry.layer import Scope
from pastedown.geometry.stock_value import stock_with
from pastedown.geometry.treatment import TREATMENTS, treatment
from pastedown.geometry.value import FamilyValue, ListValue
from pastedown.geometry.work import refuse_too_large
from pastedown.quantity.quantity import Quantity, number
from pastedown.tree.expression import Call, Expression

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def bare_arguments(call: Call, least: int, most: int) -> list[Expression]:
    """The arguments of a function that takes them by place. Raises Fault for a label or a wrong number of them."""
    for argument in call.arguments:
        if argument.label:
            raise Fault(
                error(
                    "unknown-argument",
                    argument.span,
                    f"{call.called.head} takes its values without names.",
                    way_out=f"Write {argument.value.span.text} alone.",
                )
            )
    if not least <= len(call.arguments) <= most:
        wanted = "one value" if most == 1 else "at least one value"
        raise Fault(
            error(
                "missing-argument",
                call.span,
                f"{call.called.head} takes {wanted}, and here {_how_many(len(call.arguments))}.",
                way_out=f"Write {wanted} in its brackets.",
            )
        )
    return [argument.value for argument in call.arguments]


def _how_many(number: int) -> str:
    return f"are {number}" if number else "is none"


def labelled_arguments(call: Call, known: tuple[str, ...], first: str = "") -> dict[str, Expression]:
    """The arguments of a function by label; the first may go without its name when `first` says what it is called."""
    found: dict[str, Expression] = {}
    for at, argument in enumerate(call.arguments):
        label = argument.label or (first if at == 0 else "")
        where = argument.label_span or argument.span
        if label not in known:
            raise Fault(
                error(
                    "unknown-argument",
                    where,
                    f"{call.called.head} has no {label or 'further value without a name'}.",
                    way_out=did_you_mean(label, known) or f"It takes {', '.join(known)}.",
                )
            )
        if label in found:
            raise Fault(error("set-twice", where, f"{label} is given twice.", way_out="Keep one of them."))
        found[label] = argument.value
    return found


def _quantities(call: Call, scope: Scope) -> list[Quantity]:
    """All values of the arguments, families and lists taken apart, all of one dimension."""
    found: list[Quantity] = []
    for argument in bare_arguments(call, 1, 500):
        value = evaluate(argument, scope)
        items = value.items if isinstance(value, ListValue) else each_of(value)
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
    (argument,) = bare_arguments(call, 1, 1)
    value = evaluate(argument, scope)
    if isinstance(value, FamilyValue | ListValue):
        return number(len(value.items))
    return number(1)


def _whole(call: Call, scope: Scope) -> Value:
    (argument,) = bare_arguments(call, 1, 1)
    value = quantity(argument, scope)
    if value.dimension != number(1).dimension:
        raise Fault(
            error(
                "wrong-dimension",
                argument.span,
                f"whole takes a plain number, and this is {value.dimension.words}.",
                way_out="Divide one length by another, or use rounded down to.",
            )
        )
    return number(floor(value.value))


def _on_paper(call: Call, scope: Scope) -> Value:
    """The amount as it is asked for: what hands may do to it is left out."""
    (argument,) = bare_arguments(call, 1, 1)
    return quantity(argument, scope).exact


def _choose(call: Call, scope: Scope) -> Value:
    arguments = labelled_arguments(call, ("when", "yes", "no"), first="when")
    if set(arguments) != {"when", "yes", "no"}:
        raise Fault(
            error(
                "missing-argument",
                call.span,
                "choose needs a condition and both outcomes.",
                way_out="Write choose(a > b, yes: a, no: b).",
            )
        )
    return evaluate(arguments["yes" if truth(arguments["when"], scope) else "no"], scope)


def _stock(call: Call, scope: Scope) -> Value:
    return stock_with(Stock("", "card"), call.arguments, scope)


def _span(call: Call, scope: Scope) -> Value:
    from pastedown.geometry.measure import span

    return span(call, scope)


def _placed(call: Call, scope: Scope) -> Value:
    from pastedown.geometry.placed import placed

    return placed(call, scope)


def _off_by(call: Call, scope: Scope) -> Value:
    from pastedown.geometry.placed import off_by

    return off_by(call, scope)


def _skew(call: Call, scope: Scope) -> Value:
    from pastedown.geometry.placed import skew

    return skew(call, scope)


FUNCTIONS: dict[str, Callable[[Call, Scope], Value]] = {
    "min": _min,
    "max": _max,
    "sum": _sum,
    "count": _count,
    "whole": _whole,
    "choose": _choose,
    "stock": _stock,
    "span": _span,
    "on_paper": _on_paper,
    "off_by": _off_by,
    "placed": _placed,
    "skew": _skew,
    **dict.fromkeys(TREATMENTS, treatment),
}
