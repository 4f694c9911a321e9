"""Errors that a recipe brings in itself: `placed(join, ..., along: height)`, `skew(join)` and `off_by(1/64 in)`.

All are nought on paper. The first two carry the errors of the joins that lie between two things, so that a requirement
on what is made can count them: a thing held by a chain of joins lies off by the error of each. The third is an error of
any other cause, such as paper that swells.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.brackets import word_of
from pastedown.diagnostic import error
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, quantity, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of
from pastedown.geometry.hand import hand_of, placed_along, skewed
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.place import faces_at
from pastedown.geometry.value import FaceValue, PanelValue, Reference, TextValue
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity
from pastedown.tree.expression import Call, Expression
from pastedown.tree.statement import Join

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def placed(call: Call, scope: Scope) -> Value:
    """`placed(mount[1], case_in, along: height)`: nought, give or take the error of placing each of these joins."""
    from pastedown.geometry.functions import values_in_brackets

    values, total = values_in_brackets(call), NO_LENGTH
    axis = word_of(values.pop("along"))
    for expression in values.values():
        for join in _joins(expression, scope):
            work_of(scope).spend(expression.span)
            total = total + placed_along(join.path, axis, hand_of(work_of(scope)))
    return total


def skew(call: Call, scope: Scope) -> Value:
    """`skew(mount[1])`: by how much a join turns what it holds, to the side for each length along: nought, give or
    take. Both ends of the line on which the two hold each other may be off, opposite ways."""
    from pastedown.geometry.functions import values_in_brackets

    total: Quantity | None = None
    for expression in values_in_brackets(call).values():
        for join in _joins(expression, scope):
            one = skewed(join.path, _held(join, expression), hand_of(work_of(scope)))
            total = one if total is None else total + one
    assert total is not None
    return total


def off_by(call: Call, scope: Scope) -> Value:
    """`off_by(0.3 mm, what: "swelling of the card")`: nought, give or take so much. Two of the same part that name the
    same cause are one error."""
    from pastedown.geometry.functions import values_in_brackets

    arguments = values_in_brackets(call)
    by, cause = quantity(arguments["by"], scope), evaluate(arguments["what"], scope)
    if by.value < 0:
        raise Fault(
            error(
                "out-of-range",
                arguments["by"].span,
                "How far off a thing may be goes both ways, so it is nought or more.",
                way_out="Leave the minus out.",
            )
        )
    if not isinstance(cause, TextValue) or not all(isinstance(piece, str) for piece in cause.pieces):
        raise Fault(
            error(
                "wrong-kind",
                arguments["what"].span,
                f"The cause is said in words, and this is {describe(cause)}.",
                way_out='Write it in quotes, without a slot: what: "swelling of the card".',
            )
        )
    words = "".join(piece for piece in cause.pieces if isinstance(piece, str))
    part = scope.part.path if scope.part is not None else ""
    return (by - by).exact.with_error(f"{part}, {words}" if part else words, by.exact)


def _joins(expression: Expression, scope: Scope) -> list[Reference]:
    found: list[Reference] = []
    for value in each_of(evaluate(expression, scope)):
        if not isinstance(value, Reference) or value.kind != "join":
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    f"A join belongs here, and this is {describe(value)}.",
                    way_out="Name the join that places it, as in skew(mount[1]).",
                )
            )
        found.append(value)
    if not found:
        raise Fault(
            error(
                "empty-family",
                expression.span,
                f"There is no {expression.span.text} here at all.",
                way_out="See to it that there is one at least.",
            )
        )
    return found


def _held(join: Reference, where: Expression) -> Length:
    """The longer side of the stretch on which the two sides of a join lie on one another."""
    entry, scope = join.instance.declaration(join)
    statement = entry.statement
    assert isinstance(statement, Join)
    sides = [faces_at(path, scope) for path in (statement.what, statement.to)]
    if not all(sides):
        raise Fault(
            error(
                "empty-family",
                where.span,
                f"{join.path} joins nothing here.",
                way_out="Name a join of things that are there.",
            )
        )
    shared = [min((_extent(side[0], axis) for side in sides), key=lambda length: length.value) for axis in AXES]
    return max(shared, key=lambda length: length.value)


def _extent(face: FaceValue, axis: str) -> Length:
    if face.panel and axis == face.axis:
        return face.piece.panel(PanelValue(face.piece, face.axis, face.panel)).size
    return face.piece.side(axis)
