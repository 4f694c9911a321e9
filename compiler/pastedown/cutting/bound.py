"""Lower bounds on the cost of any plan, from a value for each kind of piece: exact, whoever found the values.

If no pattern on a base is worth more than the base's capacity, pieces worth V in all need bases whose capacities come
to V. That holds for any values that are not negative, so the values need not come from an exact calculation.
"""

from collections.abc import Sequence
from fractions import Fraction

from attrs import frozen

from pastedown.cutting.task import Task


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
    `capacities[b]`. Bases on hand are used to the full before any is bought."""
    worth = sum(value * kind.demand for value, kind in zip(values, task.kinds, strict=True))
    dearest = Fraction(0)
    for base, capacity in zip(task.bases, capacities, strict=True):
        if base.limit is not None:
            worth -= base.limit * capacity
        elif base.cost:
            dearest = max(dearest, Fraction(capacity * base.pack, base.cost))
    return Fraction(worth) / dearest if worth > 0 and dearest > 0 else Fraction(0)


def ceiling(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)


def by_area(task: Task) -> Bound:
    values = [kind.area for kind in task.kinds]
    return Bound(ceiling(from_values(task, values, [base.area for base in task.bases])), "area")
