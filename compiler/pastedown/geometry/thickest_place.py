"""What lies at the thickest place of a stack that an expression asks for: where a thickness comes from."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from pastedown.geometry.layer import Scope
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.thickness import stack_asked_for
from pastedown.quantity.quantity import Length, mm
from pastedown.tree.expression import Arithmetic, Call, Expression, Rounded, Signed


def thicknesses_in(expression: Expression) -> Iterator[Call]:
    """Every call of `thickness` in a sum, from left to right."""
    match expression:
        case Call() if expression.called.head == "thickness" and not expression.called.trailers:
            yield expression
        case Call(arguments=arguments):
            for argument in arguments:
                yield from thicknesses_in(argument.value)
        case Arithmetic(left=left, right=right):
            yield from thicknesses_in(left)
            yield from thicknesses_in(right)
        case Signed(value=value) | Rounded(value=value):
            yield from thicknesses_in(value)
        case _:
            return


def thickest_place(call: Call, scope: Scope) -> list[tuple[str, Length]]:
    """Each piece that lies there, and each join for its adhesive, with how thick it is there, by path."""
    stack = stack_asked_for(call, scope)
    thickest = max(stack.zones, key=lambda zone: zone.thickness, default=None)
    things: dict[str, Fraction] = {}
    for number in thickest.layers if thickest is not None else ():
        layer = stack.layers[number]
        things[layer.what] = things.get(layer.what, Fraction(0)) + layer.thickness
    return [(what, mm(thick)) for what, thick in sorted(things.items(), key=lambda each: natural_key(each[0]))]
