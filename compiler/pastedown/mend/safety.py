"""How safe a change is at the table: what has least to spare for the errors of the hand of all that it changes, and
whether one mark further is safer.

What is offered lies just within its limit. Where cutting and folding as near as a hand can spoils one album in fewer
than OFTEN, the next mark is worth telling.
"""

from __future__ import annotations

from fractions import Fraction

from attrs import frozen

from pastedown.fit.margins import how_often, how_sure
from pastedown.geometry.model import Requirement
from pastedown.geometry.natural_order import natural_key
from pastedown.mend.state import Asking, State
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

# One album in so many is often: of a batch of gifts one may go wrong. Common practice, no source.
OFTEN = 1000


@frozen(eq=False)
class Safer:
    """A state one mark further on, and what has least to spare then of what the first one had least of."""

    state: State
    least: Requirement


def least_safe(state: State, first: State) -> Requirement | None:
    """Of the requirements on what is made that a change touches, the one that the hand breaks first; None where it
    touches none."""
    before = {each.path: each for each in first.judged.requirements}
    touched = [
        each
        for each in state.judged.requirements
        if each.strict and each.holds and each.margin is not None and _is_other(each, before.get(each.path))
    ]
    return min(touched, key=lambda each: (_order(each), natural_key(each.path))) if touched else None


def told_safety(least: Requirement, ruler: Ruler) -> str:
    """That requirement in words: by how much it holds and how often it will not."""
    return f"least sure of what that changes: {how_sure(least, ruler)}"


def told_spare(requirement: Requirement, ruler: Ruler) -> str:
    """By how much a requirement on what is asked for holds, in words; "" where that is no length."""
    left, right = requirement.left, requirement.right
    if not isinstance(left, Quantity) or not isinstance(right, Quantity) or left.dimension != LENGTH:
        return ""
    spare = left - right if left > right else right - left
    return f"; it holds with {write(spare, ruler)} to spare" if spare.value else "; it just holds"


def one_mark_safer(asking: Asking, state: State, first: State, mark: Quantity) -> Safer | None:
    """The same change one mark further on, where the hand breaks what it touches often and less often then, and
    nothing else; None otherwise."""
    least = least_safe(state, first)
    often = None if least is None or least.margin is None else least.margin.one_in
    if least is None or often is None or often >= OFTEN or len(state.setting) != 1 or asking.is_used_up:
        return None
    ((number, value),) = state.setting.items()
    if value.dimension != LENGTH or number.is_bought:
        return None
    way = 1 if value.value > number.value.value else -1
    after = asking.ask({number: Quantity(value.value + way * mark.value, LENGTH)})
    if not after.is_whole or not set(after.faults) <= set(state.faults) or not after.disliked <= state.disliked:
        return None
    now = least_safe(after, first)
    return Safer(after, now) if now is not None and _order(now) > _order(least) else None


def told_often(least: Requirement) -> str:
    """How often the hand breaks a requirement, in a few words."""
    assert least.margin is not None
    return "hardly any fails" if least.margin.one_in is None else f"{how_often(least.margin)} fails"


def _is_other(each: Requirement, before: Requirement | None) -> bool:
    return before is None or (before.left, before.right) != (each.left, each.right)


def _order(each: Requirement) -> Fraction:
    assert each.margin is not None
    return each.margin.order
