"""The one number that buys a requirement the most safety.

A requirement that the errors of the hand may break is helped by moving one of the numbers its paper is cut or scored
to. Of all such numbers and of the marks they can be moved to, the one is looked for that lifts the score of the
requirement highest without bringing that of any other below it, by the shortest move. Which one is promising follows
from the errors themselves: they say how far the requirement moves with each line. What it brings is worked out afresh.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from attrs import evolve, frozen

from pastedown.geometry.instance import Instance
from pastedown.geometry.model import Change, Model, Requirement
from pastedown.geometry.numbers import Number, numbers_behind
from pastedown.geometry.pin import Pin
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.spread import Spread

# The design with a number set anew, or None where it does not go together any more.
Again = Callable[[Pin], Model | None]
# So many requirements are helped in a design, so many numbers are tried for each, and each is moved by at most so many
# marks.
MOST_HELPED = 4
MOST_TRIED = 4
MOST_MARKS = 16
# A design that took more steps of work than this to work out is not worked out again and again.
MOST_SPENT = 100_000


@frozen
class _Move:
    number: Number
    value: Quantity
    reached: Fraction
    marks: int


def with_safest_numbers(model: Model, root: Instance, spent: int, again: Again, lowest: bool = False) -> Model:
    """The model in which every requirement that the hand may break has the number that helps it most; with `lowest`
    the one that would break first has it too, however safe it is. `spent` is what the model took to work out."""
    helped = _to_be_helped(model, lowest)
    if not helped or spent > MOST_SPENT:
        return model
    changes: dict[str, Change] = {}
    for path in helped:
        change = _change(model, path, root, again)
        if change is not None:
            changes[path] = change
    requirements = tuple(evolve(each, change=changes.get(each.path)) for each in model.requirements)
    return evolve(model, requirements=requirements)


def is_tight(requirement: Requirement) -> bool:
    """Whether a requirement holds on paper, and the root-sum-square of the errors of the hand takes all of it."""
    margin = requirement.margin
    return requirement.holds and requirement.strict and margin is not None and margin.order < 1


def _to_be_helped(model: Model, lowest: bool) -> list[str]:
    """The paths of the requirements to find a number for, one of each kind, the one that breaks first before all."""
    holding = [each for each in model.requirements if each.margin is not None and each.holds and each.strict]
    holding.sort(key=lambda each: each.margin.order if each.margin is not None else Fraction(0))
    kinds: dict[object, Requirement] = {}
    for each in holding:
        if is_tight(each) or (lowest and each is holding[0]):
            kinds.setdefault(each.likeness, each)
    return [each.path for each in list(kinds.values())[:MOST_HELPED]]


def _change(model: Model, path: str, root: Instance, again: Again) -> Change | None:
    before = next(each for each in model.requirements if each.path == path)
    assert before.margin is not None
    errors = frozenset(name for name, _ in before.margin.terms)
    found = [_best_move(model, before, number) for number in numbers_behind(root, errors)]
    moves = sorted((move for move in found if move is not None), key=lambda move: (-move.reached, move.marks))
    best: Change | None = None
    best_reached = before.margin.score or Fraction(0)
    for move in moves[:MOST_TRIED]:
        if best is not None and move.reached <= best_reached:
            break
        after = again(Pin(move.number.path, move.value))
        if after is None:
            continue
        margins = {each.path: each.margin for each in after.requirements if each.margin is not None}
        if path not in margins or margins[path].score is None:
            continue
        reached = _reached(before, ((each, margins[each.path]) for each in _compared(model) if each.path in margins))
        if reached > best_reached:
            score = margins[path].score or Fraction(0)
            best, best_reached = Change(move.number.path, move.number.value, move.value, score), reached
    return best


def _compared(model: Model) -> list[Requirement]:
    return [each for each in model.requirements if each.strict and each.holds and each.margin is not None]


def _reached(helped: Requirement, after: Iterable[tuple[Requirement, Spread]]) -> Fraction:
    """The lowest score among the one that is helped and all that were safer than it."""
    assert helped.margin is not None
    scores = [
        margin.score or Fraction(0)
        for requirement, margin in after
        if requirement.margin is not None and requirement.margin.order >= helped.margin.order
    ]
    return min(scores)


def _best_move(model: Model, helped: Requirement, number: Number) -> _Move | None:
    """The mark to which a number is best moved, as far as the errors tell."""
    slopes = [(each, _slope(each, number)) for each in _compared(model)]
    slope = next(found for each, found in slopes if each.path == helped.path)
    if not slope:
        return None
    best: _Move | None = None
    for marks in range(1, MOST_MARKS + 1):
        value = _moved(number, marks if slope > 0 else -marks)
        if value.value <= 0:
            break
        by = value.value - number.value.value
        after = [(each, _shifted(each.margin, found * by)) for each, found in slopes if each.margin is not None]
        reached = _reached(helped, after)
        if best is None or reached > best.reached:
            best = _Move(number, value, reached, marks)
    return best


def _moved(number: Number, marks: int) -> Quantity:
    """The number so many marks up or down; one that lies between two marks goes to the next one first."""
    if is_on_mark(number.value, number.mark):
        return number.value + number.mark * marks
    return round_to(number.value, "down", number.mark) + number.mark * (marks + 1 if marks < 0 else marks)


def _shifted(margin: Spread, by: Fraction) -> Spread:
    return Spread(Quantity(margin.nominal.value + by, margin.nominal.dimension), margin.terms)


def _slope(requirement: Requirement, number: Number) -> Fraction:
    """By how much the margin of a requirement grows with a number."""
    assert requirement.margin is not None
    terms = dict(requirement.margin.terms)
    return sum((terms[line].value * by for line, by in number.moves if line in terms), Fraction(0))
