"""What a change comes to in the text of the maker's file."""

from __future__ import annotations

from attrs import frozen

from pastedown.geometry.paths import literals_in
from pastedown.mend.in_style import in_style_of, is_plain
from pastedown.mend.numbers import Number
from pastedown.mend.state import State
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.tree.expression import Arithmetic, Literal, Rounded


@frozen
class Edit:
    """One number or one sum set anew: `before` and `after` as written, in this line of the maker's file. Of a number
    within a sum `said_before` and `said_after` are the whole sum, on one line: what `called` is set to.
    `lowers_limit` says that nothing is made otherwise for it, and only less is asked; `is_bought` that it takes another
    thing to buy."""

    line: int
    called: str
    before: str
    after: str
    lowers_limit: bool = False
    is_bought: bool = False
    said_before: str = ""
    said_after: str = ""


def edits_of(state: State, ruler: Ruler) -> tuple[Edit, ...]:
    """The edits that a state takes, in the order in which they stand."""
    ordered = sorted(state.setting.items(), key=lambda each: each[0].span.start)
    return tuple(_edit(number, value, number in state.lowered, ruler) for number, value in ordered)


def _edit(number: Number, value: Quantity, lowers_limit: bool, ruler: Ruler) -> Edit:
    span = number.span
    after = _with_more(number, value, ruler) if number.is_sum else in_style_of(span.text, value, ruler)
    whole = number.span if number.within is None else number.within.span
    text = whole.source.text
    said = text[whole.start : span.start] + after + text[span.end : whole.end]
    return Edit(
        line=span.line,
        called=number.called,
        before=span.text,
        after=after,
        lowers_limit=lowers_limit,
        is_bought=number.is_bought,
        said_before=_on_one_line(whole.text),
        said_after=_on_one_line(said),
    )


def _on_one_line(text: str) -> str:
    return " ".join(text.split())


def _with_more(number: Number, value: Quantity, ruler: Ruler) -> str:
    """A sum with something added to it or taken from it. What is rounded is rounded before that; a length that ends the
    sum takes it up."""
    words = number.span.text
    if isinstance(number.node, Rounded):
        words = f"({words})"
    elif (ending := _ending(number)) is not None:
        before, last = ending
        whole = Quantity(last.value + value.value, value.dimension)
        if not whole.value:
            return before
        # Millimetres added to a fraction of an inch are no length that anybody could read.
        if is_plain(whole, ruler):
            words, value = before, whole
    amount = Quantity(abs(value.value), value.dimension)
    return f"{words} {'-' if value.value < 0 else '+'} {in_style_of(_style(number, ruler), amount, ruler)}"


def _ending(number: Number) -> tuple[str, Quantity] | None:
    """The words of a sum without the length that it ends with, and that length with its sign."""
    node, words = number.node, number.span.text
    if not isinstance(node, Arithmetic) or node.operator not in "+-" or not isinstance(node.right, Literal):
        return None
    last = node.right.span
    before = words[: last.start - number.span.start].rstrip()
    if last.end != number.span.end or not before.endswith(node.operator) or node.right.value.dimension != LENGTH:
        return None
    sign = -1 if node.operator == "-" else 1
    return before[:-1].rstrip(), Quantity(node.right.value.value * sign, LENGTH)


def _style(number: Number, ruler: Ruler) -> str:
    """A length of the sum, in whose unit what is added is written; else the unit of the ruler."""
    lengths = (each.span.text for each in literals_in(number.node) if each.value.dimension == LENGTH)
    return next(lengths, "1 in" if ruler.in_inches else "1 mm")
