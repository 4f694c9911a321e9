"""The one number that buys a requirement the most safety.

A requirement that the errors of the hand may break is helped by moving one of the numbers its paper is cut or scored
to. Of all such numbers and of the marks they can be moved to, the one is looked for that lifts the score of the
requirement highest without bringing that of any other below it, by the shortest move. Which one is promising follows
from the errors themselves: they say how far the requirement moves with each line. What it brings is worked out afresh.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from attrs import evolve, frozen

from pastedown.geometry.instance import Instance
from pastedown.geometry.model import Model, Requirement, Safer
from pastedown.geometry.numbers import Number, numbers_behind
from pastedown.geometry.pin import Pin
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.spread import Spread

# The design with a number set anew, or None where it does not go together any more.
Again = Callable[[Pin], Model | None]
# So many requirements are helped in a design, compared with so many others that are the least safe; so many numbers are
# looked at for each, by at most so many marks, and so many of them tried out.
MOST_HELPED = 4
MOST_COMPARED = 200
MOST_NUMBERS = 24
MOST_MARKS = 16
MOST_TRIED = 2
# Where the designs of a recipe took more steps of work than this, they are not worked out again and again.
MOST_SPENT = 100_000


@frozen
class _Move:
    number: Number
    value: Quantity
    reached: Fraction
    marks: int


def with_safest_numbers(model: Model, root: Instance, spent: int, again: Again, lowest: int = 0) -> Model:
    """The model in which every requirement that the hand may break has the number that helps it most; of the kinds that
    would break first, `lowest` have it too: the first however safe it is, the others where they may fail at all.
    `spent` is what the designs took so far."""
    helped = _to_be_helped(model, lowest)
    if not helped or spent > MOST_SPENT:
        return model
    changes: dict[str, Safer] = {}
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


def _may_fail(requirement: Requirement) -> bool:
    """Whether all errors together, each at its worst, take the margin: else it needs no help."""
    margin = requirement.margin
    return margin is not None and margin.nominal < margin.worst


def _to_be_helped(model: Model, lowest: int) -> list[str]:
    """The paths of the requirements to find a number for, one of each kind, the one that breaks first before all."""
    holding = [each for each in model.requirements if each.margin is not None and each.holds and each.strict]
    holding.sort(key=lambda each: each.margin.order if each.margin is not None else Fraction(0))
    kinds: dict[object, Requirement] = {}
    for each in holding:
        kinds.setdefault(each.likeness, each)
    ranked = list(kinds.values())
    first = [each for at, each in enumerate(ranked[:lowest]) if not at or _may_fail(each)]
    helped = [each.path for each in ranked if each in first or is_tight(each)]
    return helped[: max(MOST_HELPED, lowest)]


def _change(model: Model, path: str, root: Instance, again: Again) -> Safer | None:
    helped = next(each for each in model.requirements if each.path == path)
    assert helped.margin is not None
    errors = frozenset(name for name, _ in helped.margin.terms)
    slopes = [(abs(_slope(helped.margin, number)), number) for number in numbers_behind(root, errors)]
    steepest = sorted((each for each in slopes if each[0]), key=lambda each: (-each[0], each[1].path))[:MOST_NUMBERS]
    compared = _compared(model, helped)
    moves = [move for _, number in steepest if (move := _best_move(helped.margin, compared, number)) is not None]
    moves.sort(key=lambda move: (-move.reached, move.marks, move.number.path))
    best: Safer | None = None
    best_reached = _score(helped.margin)
    for move in moves[:MOST_TRIED]:
        if move.reached <= best_reached:
            break
        after = again(Pin(move.number.path, move.value))
        margins = {} if after is None else _margins(after)
        if path not in margins or _is_worse_off(model, helped, margins):
            continue
        reached = min(_score(margins[each]) for each in (path, *compared) if each in margins)
        if reached > best_reached:
            best_reached = reached
            best = Safer(move.number.path, move.number.value, move.value, _score(margins[path]))
    return best


def _margins(model: Model) -> dict[str, Spread]:
    """The margins of all that is required and holds."""
    return {
        each.path: each.margin
        for each in model.requirements
        if each.strict and each.holds and each.margin is not None
    }


def _score(margin: Spread) -> Fraction:
    return margin.score or Fraction(0)


def _compared(model: Model, helped: Requirement) -> dict[str, Spread]:
    """The least safe of all that are safer than the one that is helped: none may become less safe than it."""
    assert helped.margin is not None
    least = helped.margin.order
    safer = [item for item in _margins(model).items() if item[1].order >= least and item[0] != helped.path]
    safer.sort(key=lambda item: (item[1].order, item[0]))
    return dict(safer[:MOST_COMPARED])


def _is_worse_off(model: Model, helped: Requirement, after: dict[str, Spread]) -> bool:
    """Whether something that was less safe than the one that is helped has become less safe still."""
    assert helped.margin is not None
    least = helped.margin.order
    return any(
        path in after and after[path].order < margin.order < least for path, margin in _margins(model).items()
    )


def _best_move(helped: Spread, compared: dict[str, Spread], number: Number) -> _Move | None:
    """The mark to which a number is best moved, as far as the errors tell: they say how every score goes with it."""
    going = [(_score(margin), _slope(margin, number) / margin.rss.value) for margin in (helped, *compared.values())]
    up = going[0][1] > 0
    best: _Move | None = None
    for marks in range(1, MOST_MARKS + 1):
        value = _moved(number, marks if up else -marks)
        if value.value <= 0:
            break
        by = value.value - number.value.value
        reached = min(score + slope * by for score, slope in going)
        if best is None or reached > best.reached:
            best = _Move(number, value, reached, marks)
    return best


def _moved(number: Number, marks: int) -> Quantity:
    """The number so many marks up or down; one that lies between two marks goes to the next one first."""
    if is_on_mark(number.value, number.mark):
        return number.value + number.mark * marks
    return round_to(number.value, "down", number.mark) + number.mark * (marks + 1 if marks < 0 else marks)


def _slope(margin: Spread, number: Number) -> Fraction:
    """By how much a margin grows with a number."""
    moves = dict(number.moves)
    return sum((term.value * moves[name] for name, term in margin.terms if name in moves), Fraction(0))
