"""Lower bounds on the cost of any plan, from a value for each kind of piece: exact, whoever found the values.

If no pattern on a base is worth more than the base's capacity, pieces worth V in all need bases whose capacities come
to V. That holds for any values that are not negative, so the values need not come from an exact calculation.
"""

from collections.abc import Sequence
from fractions import Fraction

from attrs import frozen

from pastedown.cutting.task import Task

# Beyond that cost whole packs are not told from parts of packs: it takes as many steps, and hardly matters.
_MOST_COINS = 3_000


@frozen
class Bound:
    """`cost` is what any plan costs at least, in the task's whole units; `how` says which argument shows it."""

    cost: int
    how: str

    def better(self, other: "Bound") -> "Bound":
        """The higher of the two; this one where they are equal."""
        return other if other.cost > self.cost else self


def from_values(task: Task, values: Sequence[int], capacities: Sequence[int]) -> Fraction:
    """What any plan costs at least if kind `i` is worth `values[i]` and no pattern on base `b` is worth more than
    `capacities[b]`. Bases on hand are used to the full before any is bought; packs are bought whole."""
    worth = sum(value * kind.demand for value, kind in zip(values, task.kinds, strict=True))
    packs: list[tuple[int, int]] = []
    for base, capacity in zip(task.bases, capacities, strict=True):
        if base.limit is not None:
            worth -= base.limit * capacity
        elif base.cost and capacity:
            packs.append((base.cost, capacity * base.pack))
    if worth <= 0 or not packs:
        return Fraction(0)
    in_parts = worth / max(Fraction(capacity, cost) for cost, capacity in packs)
    if len(packs) == 1 or in_parts > _MOST_COINS:
        return in_parts
    return Fraction(_whole_packs(worth, packs))


def _whole_packs(worth: int, packs: Sequence[tuple[int, int]]) -> int:
    """The least cost of whole packs, each of a cost and a capacity, whose capacities come to the worth."""
    holds = [0]
    while holds[-1] < worth:
        cost = len(holds)
        holds.append(max([holds[-1], *(holds[cost - each] + capacity for each, capacity in packs if each <= cost)]))
    return len(holds) - 1


def ceiling(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)


def by_area(task: Task) -> Bound:
    values = [kind.area for kind in task.kinds]
    return Bound(ceiling(from_values(task, values, [base.area for base in task.bases])), "area")
