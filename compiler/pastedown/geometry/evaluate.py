"""Works out one expression, exactly.

Takes an expression and the scope it stands in; gives its value. A fault raises Fault; something that failed before
raises Spoilt."""

from __future__ import annotations

from typing import TYPE_CHECKING, NoReturn

from pastedown.design.body import index_body
from pastedown.design.missing_unit import how_to_add_the_unit
from pastedown.design.slips import list_in_list
from pastedown.design.stock import Stock
from pastedown.diagnostic import Label, error
from pastedown.geometry.describe import describe
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Description, LayerPlan, Scope, description_of
from pastedown.geometry.stated_at import stated_at
from pastedown.geometry.value import FamilyValue, ListValue, MakeableValue, SheetValue, TextValue, Word
from pastedown.geometry.work import (
    LETTERS_IN_A_STEP,
    LONGEST_TEXT,
    WORK_OF_A_SLOT,
    Work,
    refuse_too_many,
)
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.quantity import Length, Quantity
from pastedown.source import Span
from pastedown.tree.expression import (
    Amended,
    Arithmetic,
    Call,
    Comparison,
    Expression,
    ListOf,
    Literal,
    Path,
    Rounded,
    RulerMarks,
    SheetSize,
    Signed,
    Text,
)
from pastedown.tree.statement import Takes

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def work_of(scope: Scope) -> Work:
    """The run that a scope belongs to."""
    assert scope.part is not None
    return scope.part.work


def evaluate(expression: Expression, scope: Scope) -> Value:
    """The value of an expression where it stands."""
    from pastedown.geometry import operators

    work = work_of(scope)
    work.spend(expression.span)
    if work.is_spoilt(expression.span):
        raise Spoilt
    if work.instead and (other := work.instead.get(id(expression))) is not None:
        return evaluate(other, scope)
    match expression:
        case Literal(value=value):
            return value
        case SheetSize(first=first, second=second):
            return SheetValue(first, second)
        case Text():
            return text_value(expression, scope)
        case Path():
            from pastedown.geometry.follow import follow

            return follow(expression, scope)
        case Call():
            return _call(expression, scope)
        case Signed(sign=sign, value=inner):
            value = quantity(inner, scope)
            return -value if sign == "-" else value
        case Arithmetic():
            return operators.arithmetic(expression, scope)
        case Comparison():
            return operators.compare(expression, scope)
        case Rounded():
            return operators.rounded(expression, scope)
        case RulerMarks():
            return operators.ruler_marks(expression, scope)
        case ListOf(items=items):
            return ListValue(tuple(_in_list(item, scope) for item in items))
        case Amended():
            return _amended(expression, scope)


def evaluate_taken(expression: Expression, scope: Scope, takes: Takes) -> Value:
    """The value of something a component takes: a bare word of a choice is that choice, whatever else has its name."""
    words = {word.head for word in takes.type.words} if takes.type.name == "choice" else set()
    if isinstance(expression, Path) and not expression.trailers and expression.head in words:
        return Word(expression.head)
    return evaluate(expression, scope)


def _in_list(item: Expression, scope: Scope) -> Value:
    value = single(evaluate(item, scope), item.span)
    if isinstance(value, ListValue):
        raise Fault(list_in_list(item))
    return value


def single(value: Value, span: Span) -> Value:
    """One value: a family stands for its members where they are all alike."""
    if not isinstance(value, FamilyValue):
        return value
    if not value.items:
        raise Fault(
            error(
                "empty-family",
                span,
                f"There is no {value.name} here at all.",
                way_out="Ask for something that is there however many there are.",
            )
        )
    first_index, first = value.items[0]
    for index, other in value.items[1:]:
        if other != first and value.asked is not None:
            return value.asked()
        if other != first:
            name = value.name
            raise Fault(
                error(
                    "uneven-family",
                    span,
                    f"{name} is not the same for all of them: number {first_index} and number {index} differ.",
                    way_out=f"Say which one is meant, as in {name}[{first_index}]{_of_all(name, first)}.",
                )
            )
    return first


def _of_all(name: str, member: Value) -> str:
    """What stands for all of them where they can be compared; which one depends on the use, known to the maker."""
    if not isinstance(member, Quantity):
        return ""
    largest = f"max({name}) for what has to reach over every one of them"
    return f", or take {largest}, min({name}) for what has to go into every one"


def quantity(expression: Expression, scope: Scope) -> Quantity:
    """The value of an expression that has to be a quantity."""
    value = single(evaluate(expression, scope), expression.span)
    if not isinstance(value, Quantity):
        raise Fault(
            error(
                "wrong-kind",
                expression.span,
                f"A number or a measurement belongs here, and this is {describe(value)}.",
                way_out="Write a length with its unit, as in 1/2 in or 12 mm.",
            )
        )
    return value


def length(expression: Expression, scope: Scope) -> Length:
    """The value of an expression that has to be a length."""
    value = quantity(expression, scope)
    if value.dimension != LENGTH:
        wrong_dimension(expression.span, f"A length belongs here, and this is {value.dimension.words}.", value)
    return value


def wrong_dimension(span: Span, sentence: str, value: Quantity | None = None) -> NoReturn:
    """Raise the fault for a quantity of the wrong dimension; a bare number is told how lengths are written."""
    way_out = "Write a length with its unit, as in 1/2 in or 12 mm."
    if value is not None and value.dimension == NUMBER:
        way_out = how_to_add_the_unit(span.text)
    raise Fault(error("wrong-dimension", span, sentence, way_out=way_out))


def whole_number(expression: Expression, scope: Scope) -> int:
    """The value of an expression that has to be a whole number."""
    value = quantity(expression, scope)
    if value.dimension != NUMBER or value.value.denominator != 1:
        span = stated_at(expression, scope)
        raise Fault(
            error(
                "not-whole",
                span,
                "A whole number belongs here, without a unit.",
                labels=(Label(expression.span, "it counts things here"),) if span is not expression.span else (),
                way_out="whole(x) rounds down to one.",
            )
        )
    return int(value.value)


def whole_range(first: Expression, last: Expression, scope: Scope) -> range:
    """The whole numbers from `first` to `last`, both included; none when `last` is the smaller."""
    start, stop = whole_number(first, scope), whole_number(last, scope)
    refuse_too_many(stop - start + 1, first.span.to(last.span))
    return range(start, stop + 1)


def truth(expression: Expression, scope: Scope) -> bool:
    """The value of a condition."""
    value = single(evaluate(expression, scope), expression.span)
    if not isinstance(value, bool):
        raise Fault(
            error(
                "not-a-condition",
                expression.span,
                f"Something that is or is not so belongs here, and this is {describe(value)}.",
                way_out="Compare two things, as in sheets >= 2, or name a yes-or-no fact.",
            )
        )
    return value


def text_value(text: Text, scope: Scope) -> TextValue:
    """A text with its slots filled; raises Fault when it grows too long."""
    pieces: list[str | Quantity] = []
    for piece in text.pieces:
        if isinstance(piece, str):
            pieces.append(piece)
            continue
        value = single(evaluate(piece, scope), piece.span)
        match value:
            case Quantity() | str():
                pieces.append(value)
            case TextValue(pieces=inner):
                pieces.extend(inner)
            case bool():
                pieces.append("yes" if value else "no")
            case Word(text=word):
                pieces.append(word)
            case Stock(name=name):
                pieces.append(name)
            case _:
                raise Fault(
                    error(
                        "wrong-kind",
                        piece.span,
                        f"A slot holds a measurement, a text or a word, and this is {describe(value)}.",
                        way_out="Name a measure of it, as in {sheet.height}.",
                    )
                )
    letters = sum(len(piece) for piece in pieces if isinstance(piece, str))
    work_of(scope).spend(text.span, letters // LETTERS_IN_A_STEP + WORK_OF_A_SLOT * len(pieces))
    if len(pieces) > 500 or letters > LONGEST_TEXT:
        raise Fault(
            error(
                "text-too-long",
                text.span,
                "This text grows too long with its slots filled.",
                way_out="Put fewer texts into one another.",
            )
        )
    return TextValue(tuple(pieces))


def _call(call: Call, scope: Scope) -> Value:
    from pastedown.geometry.follow import follow
    from pastedown.geometry.functions import FUNCTIONS
    from pastedown.geometry.stock_value import stock_with

    head = call.called.head
    if not call.called.trailers and head in FUNCTIONS and scope.part is not None and scope.part.kind_of(head) is None:
        return FUNCTIONS[head](call, scope)
    called = follow(call.called, scope)
    if isinstance(called, MakeableValue):
        called = description_of(called.makeable)
    if isinstance(called, Description):
        return called.with_layer(LayerPlan(None, call.arguments, scope, scope.file))
    if isinstance(called, Stock):
        return stock_with(called, call.arguments, scope)
    raise Fault(
        error(
            "unknown-function",
            call.called.span,
            f"{call.called.span.text} is {describe(called)}; nothing in brackets can follow it.",
            way_out="Brackets follow a component, a stock or a function such as min.",
        )
    )


def _amended(amended: Amended, scope: Scope) -> Value:
    from pastedown.geometry.stock_value import stock_with_body

    value = evaluate(amended.thing, scope)
    if isinstance(value, MakeableValue):
        value = description_of(value.makeable)
    if isinstance(value, Description):
        return value.with_layer(LayerPlan(index_body(amended.body), (), scope, scope.file))
    if isinstance(value, Stock):
        return stock_with_body(value, amended.body, scope)
    raise Fault(
        error(
            "wrong-kind",
            amended.thing.span,
            f"Only a component or a stock can be amended, and this is {describe(value)}.",
            way_out="Leave out with and its braces, or name a component or a stock before it.",
        )
    )
