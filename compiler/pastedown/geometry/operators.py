"""The value of a sum, a comparison, a rounding or a ruler: worked out from the values on both sides of a sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.missing_unit import how_to_add_the_unit
from pastedown.design.slips import METRIC_RULERS, UNITS_OF_RULER, WAYS, wrong_unit_of_ruler, wrong_way
from pastedown.diagnostic import error
from pastedown.diagnostic.capital import capital
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, quantity, single, wrong_dimension
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import Word
from pastedown.geometry.work import (
    refuse_too_large,
)
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.quantity import MILLIMETRES_IN_AN_INCH, DimensionError, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.quantity.ruler import Ruler, Show
from pastedown.tree.expression import (
    Arithmetic,
    Comparison,
    Expression,
    Path,
    Rounded,
    RulerMarks,
)

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def arithmetic(expression: Arithmetic, scope: Scope) -> Quantity:
    left, right = quantity(expression.left, scope), quantity(expression.right, scope)
    try:
        match expression.operator:
            case "+":
                result = left + right
            case "-":
                result = left - right
            case "*":
                result = left * right
            case _:
                result = left / right
    except DimensionError:
        verb = "added to" if expression.operator == "+" else "taken from"
        first, second = (left, right) if expression.operator == "+" else (right, left)
        number_at = expression.left if left.dimension == NUMBER else expression.right
        way_out = (
            how_to_add_the_unit(number_at.span.text)
            if NUMBER in (left.dimension, right.dimension)
            else "Only like is added to like, and taken from like."
        )
        raise Fault(
            error(
                "wrong-dimension",
                expression.span,
                f"{capital(first.dimension.words)} cannot be {verb} {second.dimension.words}.",
                way_out=way_out,
            )
        ) from None
    except ZeroDivisionError:
        raise Fault(
            error(
                "divide-by-nought",
                expression.right.span,
                "This is nought, and nothing can be divided by nought.",
                way_out="Divide by something above nought, or use choose(...) for the case in which there is nothing.",
            )
        ) from None
    refuse_too_large(result, expression.span)
    return result


def compare(expression: Comparison, scope: Scope) -> bool:
    """Whether a comparison holds. Raises Fault when its sides cannot be compared."""
    left = single(evaluate(expression.left, scope), expression.left.span)
    right = compared_with(left, expression.right, scope)
    if expression.operator == "is":
        if type(left) is not type(right) or (isinstance(left, Quantity) and left.dimension != right.dimension):  # type: ignore[union-attr]
            raise Fault(
                error(
                    "wrong-dimension",
                    expression.span,
                    f"{capital(describe(left))} is never the same as {describe(right)}.",
                    way_out="Only like is compared with like.",
                )
            )
        return left == right
    if not isinstance(left, Quantity) or not isinstance(right, Quantity) or left.dimension != right.dimension:
        bare = (
            isinstance(right, Quantity) and isinstance(left, Quantity) and NUMBER in (right.dimension, left.dimension)
        )
        raise Fault(
            error(
                "wrong-dimension",
                expression.span,
                f"{capital(describe(left))} cannot be compared with {describe(right)}.",
                way_out="Write the unit beside the number." if bare else "Only like is compared with like.",
            )
        )
    match expression.operator:
        case "<":
            return left < right
        case "<=":
            return left <= right
        case ">":
            return left > right
        case _:
            return left >= right


def compared_with(left: Value, right: Expression, scope: Scope) -> Value:
    """The right side of a comparison; beside a word, a bare name is a word too."""
    if isinstance(left, Word) and isinstance(right, Path) and not right.trailers:
        return Word(right.head)
    return single(evaluate(right, scope), right.span)


def rounded(expression: Rounded, scope: Scope) -> Quantity:
    value, mark = quantity(expression.value, scope), quantity(expression.mark, scope)
    if expression.way not in WAYS:
        raise Fault(wrong_way(expression))
    if value.dimension != mark.dimension:
        wrong_dimension(
            expression.mark.span,
            f"{capital(value.dimension.words)} is rounded to {value.dimension.words}, and this is "
            f"{mark.dimension.words}.",
            mark,
        )
    if mark.value <= 0:
        sentence = "The distance between marks has to be more than nought."
        raise Fault(
            error("out-of-range", expression.mark.span, sentence, way_out="Write it as in rounded down to 1/16 in.")
        )
    return round_to(value, expression.way, mark)


def ruler_marks(expression: RulerMarks, scope: Scope) -> Ruler:
    mark = quantity(expression.mark, scope)
    if expression.unit not in UNITS_OF_RULER:
        raise Fault(wrong_unit_of_ruler(expression))
    metric = expression.unit in METRIC_RULERS
    if mark.dimension == NUMBER:
        mark = Quantity(mark.value if metric else mark.value * MILLIMETRES_IN_AN_INCH, LENGTH)
    if mark.dimension != LENGTH or mark.value <= 0:
        raise Fault(
            error(
                "out-of-range",
                expression.mark.span,
                "The distance between the ruler's marks has to be a length above nought.",
                way_out="Write it as in inches to 1/16, or millimetres to 1.",
            )
        )
    return Ruler(mark, Show.METRIC if metric else Show.INCHES)
