"""What a change comes to in the text of the maker's file."""

from __future__ import annotations

from attrs import frozen

from pastedown.geometry.paths import literals_in
from pastedown.mend.in_style import in_style_of
from pastedown.mend.numbers import Number
from pastedown.mend.state import State
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.tree.expression import Rounded


@frozen
class Edit:
    """One number or one sum set anew: `before` and `after` as written, in this line of the maker's file.
    `lowers_limit` says that nothing is made otherwise for it, and only less is asked."""

    line: int
    called: str
    before: str
    after: str
    lowers_limit: bool = False


def edits_of(state: State, ruler: Ruler) -> tuple[Edit, ...]:
    """The edits that a state takes, in the order in which they stand."""
    ordered = sorted(state.setting.items(), key=lambda each: each[0].span.start)
    return tuple(_edit(number, value, number in state.lowered, ruler) for number, value in ordered)


def _edit(number: Number, value: Quantity, lowers_limit: bool, ruler: Ruler) -> Edit:
    span = number.span
    after = _with_more(number, value, ruler) if number.is_sum else in_style_of(span.text, value)
    return Edit(span.line, number.called, span.text, after, lowers_limit)


def _with_more(number: Number, value: Quantity, ruler: Ruler) -> str:
    """A sum with something added to it or taken from it. What is rounded is rounded before that."""
    words = f"({number.span.text})" if isinstance(number.node, Rounded) else number.span.text
    amount = Quantity(abs(value.value), value.dimension)
    return f"{words} {'-' if value.value < 0 else '+'} {in_style_of(_style(number, ruler), amount)}"


def _style(number: Number, ruler: Ruler) -> str:
    """A length of the sum, in whose unit what is added is written; else the unit of the ruler."""
    lengths = (each.span.text for each in literals_in(number.node) if each.value.dimension == LENGTH)
    return next(lengths, "1 in" if ruler.in_inches else "1 mm")
