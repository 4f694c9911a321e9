"""Stocks as values: made by `stock(...)`, copied with some of their fields set anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from attrs import evolve

from pastedown.design.body import index_body
from pastedown.design.brackets import word_of, wrong_word
from pastedown.design.slips import not_of_a_stock
from pastedown.design.stock import WORDS_OF_STOCK, Stock
from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of
from pastedown.geometry.cutting_fields import (
    CUTTING_FIELDS,
    cutting_field,
    positive,
    read_cutting_field,
    sides_of_sheet,
)
from pastedown.geometry.evaluate import evaluate, length, quantity, text_value, whole_number
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.value import SheetValue, Word
from pastedown.quantity.dimension import AREA, GRAMMAGE
from pastedown.quantity.quantity import Quantity, number
from pastedown.source import Span
from pastedown.tree.expression import Argument, Expression, Text
from pastedown.tree.statement import Fact, Statement

if TYPE_CHECKING:
    from pastedown.geometry.value import Value

_LENGTHS = ("roll_width", "roll_length", "height", "width", "caliper")
STOCK_FIELDS = (
    *_LENGTHS, *WORDS_OF_STOCK, "name", "sheet", "weight", "price", "pack", "coverage", "caution", *CUTTING_FIELDS,
)  # fmt: skip


def stock_with(stock: Stock, arguments: tuple[Argument, ...], scope: Scope) -> Stock:
    """A copy of a stock with the labelled fields set. Raises Fault for a field it does not have.

    A copy is another thing to buy: it goes by the name of the fact that holds it, unless it is given one.
    """
    stock = evolve(stock, name="")
    for argument in arguments:
        stock = _set(stock, argument.label, argument.label_span or argument.span, argument.value, scope)
    return stock


def stock_with_body(stock: Stock, body: tuple[Statement, ...], scope: Scope) -> Stock:
    """A copy of a stock with the facts between the braces of a `with` set; named as `stock_with` says."""
    stock = evolve(stock, name="")
    for placed in index_body(body).placed():
        statement = placed.statement
        if not isinstance(statement, Fact) or statement.path.trailers:
            raise Fault(not_of_a_stock(statement))
        stock = _set(stock, statement.path.head, statement.path.span, statement.value, evolve(scope, its=stock))
    return stock


def amend_stock(stock: Stock, entry: Entry) -> Stock:
    """A copy of a stock with one field set by path from outside."""
    assert entry.value is not None
    scope = entry.scope if entry.its_at != 1 else evolve(entry.scope, its=stock)
    return _set(stock, entry.path[1].name, entry.path[1].span, entry.value, scope)


def read_field(stock: Stock, name: str, span: Span) -> Value:
    """A field of a stock as a value. Raises Fault when it was not given."""
    if name in ("sheet_long", "sheet_short"):
        if stock.sheet is None:
            raise Fault(_not_given(stock, "sheet", span))
        return (
            max(stock.sheet, key=lambda side: side.value)
            if name == "sheet_long"
            else min(stock.sheet, key=lambda side: side.value)
        )
    if name not in STOCK_FIELDS:
        raise Fault(
            error(
                "no-such-member",
                span,
                f"A stock has no {name}.",
                way_out=meant_or_one_of(name, (*STOCK_FIELDS, "sheet_long", "sheet_short"), "It has"),
            )
        )
    value = getattr(stock, name)
    if name in WORDS_OF_STOCK:
        return Word(value)
    if name == "sheet" and value is not None:
        return SheetValue(*value)
    if name in CUTTING_FIELDS:
        return read_cutting_field(value)
    if name == "pack":
        return number(value)
    if name in ("name", "caution"):
        from pastedown.geometry.value import TextValue

        return TextValue((value,))
    if value is None:
        raise Fault(_not_given(stock, name, span))
    assert isinstance(value, Quantity)
    return value


def _not_given(stock: Stock, name: str, span: Span) -> Diagnostic:
    kind = "caliper-missing" if name == "caliper" else "stock-incomplete"
    reason = (
        "Caliper is not a matter of weight: cards of one weight differ in thickness by a fifth and more."
        if name == "caliper"
        else ""
    )
    return error(
        kind,
        span,
        f"The {name.replace('_', ' ')} of {stock.name or 'this stock'} is not given, and this needs it.",
        reason=reason,
        way_out=f"Measure it and add {name}: ... to the stock.",
    )


def _set(stock: Stock, name: str, at: Span, expression: Expression, scope: Scope) -> Stock:
    if name not in STOCK_FIELDS:
        raise Fault(
            error(
                "unknown-setting",
                at,
                f"A stock has no {name}.",
                way_out=did_you_mean(name, STOCK_FIELDS) or f"It has: {', '.join(STOCK_FIELDS)}.",
            )
        )
    if name in WORDS_OF_STOCK:
        fault = wrong_word(f"The {name} of a stock", expression, WORDS_OF_STOCK[name])
        if fault is not None:
            raise Fault(fault)
        worded = _with_field(stock, name, word_of(expression))
        return evolve(worded, grain_at=expression.span) if name == "grain" else worded
    changed = _with_field(stock, name, _field_value(name, expression, scope))
    return _with_field(changed, f"{name}_at", expression.span) if name in ("trim", "offcuts") else changed


def _with_field(stock: Stock, name: str, value: object) -> Stock:
    fields: dict[str, Any] = {name: value}
    return evolve(stock, **fields)


def _field_value(name: str, expression: Expression, scope: Scope) -> object:
    if name in _LENGTHS:
        return positive(length(expression, scope), name, expression)
    if name in CUTTING_FIELDS:
        return cutting_field(name, expression, scope)
    if name == "sheet":
        return sides_of_sheet(evaluate(expression, scope), expression)
    if name in ("name", "caution"):
        if not isinstance(expression, Text):
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    f"The {name} of a stock is a text in quotes.",
                    way_out='Write it in quotes: "...".',
                )
            )
        return "".join(piece for piece in text_value(expression, scope).pieces if isinstance(piece, str))
    if name == "pack":
        count = whole_number(expression, scope)
        if count < 1:
            raise Fault(
                error(
                    "out-of-range",
                    expression.span,
                    "A pack holds one at least.",
                    way_out="Write how many sheets or rolls are in it, as in pack: 10.",
                )
            )
        return count
    value = quantity(expression, scope)
    if name == "weight" and value.dimension != GRAMMAGE:
        raise Fault(
            error(
                "wrong-dimension",
                expression.span,
                f"The weight of a stock is a grammage, and this is {value.dimension.words}.",
                way_out="Write 216 gsm, or 80 lb cover with its basic size.",
            )
        )
    if name == "coverage" and value.dimension != AREA:
        raise Fault(
            error(
                "wrong-dimension",
                expression.span,
                f"The coverage of a stock is an area, and this is {value.dimension.words}.",
                way_out="Write a length times a width, as in coverage: 24 in * 12 in for two square feet.",
            )
        )
    if name in ("weight", "coverage"):
        return positive(value, name, expression)
    if name == "price" and value.dimension.money != 1:
        raise Fault(
            error(
                "wrong-dimension",
                expression.span,
                f"A price is an amount of money, and this is {value.dimension.words}.",
                way_out="Write the currency's three letters: 12.50 EUR.",
            )
        )
    if name == "price" and value.value < 0:
        raise Fault(
            error(
                "out-of-range",
                expression.span,
                "The price of a stock cannot be less than nought.",
                way_out="Write what a pack costs, as in price: 9.00 EUR.",
            )
        )
    return value
