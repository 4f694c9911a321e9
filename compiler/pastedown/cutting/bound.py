"""Lower bounds on the cost of any plan, from a value for each kind of piece: exact, whoever found the values.

If no pattern on a base is worth more than the base's capacity, pieces worth V in all need bases whose capacities come
to V. That holds for any values that are not negative, so the values need not come from an exact calculation.
"""

from collections.abc import Sequence
from fractions import Fraction
from heapq import heappop, heappush
from operator import mul

from pastedown.cutting.task import Task

# So many mixes of whole packs are looked at, the cheapest first: prices may be any, so costs cannot be counted up to.
_MOST_MIXES = 3_000


def from_values(task: Task, values: Sequence[int], capacities: Sequence[int]) -> Fraction:
    """What any plan costs at least if kind `i` is worth `values[i]` and no pattern on base `b` is worth more than
    `capacities[b]`. Bases on hand are used to the full before any is bought; packs are bought whole."""
    worth = sum(map(mul, values, [kind.demand for kind in task.kinds]))
    packs: list[tuple[int, int]] = []
    for base, capacity in zip(task.bases, capacities, strict=True):
        if base.limit is not None:
            worth -= base.limit * capacity
        elif base.cost and capacity:
            packs.append((base.cost, capacity * base.pack))
    if worth <= 0 or not packs:
        return Fraction(0)
    in_parts = Fraction(worth) / max(Fraction(capacity, cost) for cost, capacity in packs)
    return in_parts if len(packs) == 1 else max(in_parts, Fraction(_whole_packs(worth, packs)))


def _whole_packs(worth: int, packs: Sequence[tuple[int, int]]) -> int:
    """The least cost of whole packs, each of a cost and a capacity, whose capacities come to the worth; where that
    takes too long to find, a cost below which none do."""
    waiting = [(0, 0)]
    cost, most = 0, -1
    for _ in range(_MOST_MIXES):
        cost, lacking = heappop(waiting)
        holds = -lacking
        if holds >= worth:
            break
        # What costs more and holds no more than another mix is no beginning of a cheaper one.
        if holds > most:
            most = holds
            for each, capacity in packs:
                heappush(waiting, (cost + each, -(holds + capacity)))
    return cost


def ceiling(value: Fraction) -> int:
    return -(-value.numerator // value.denominator)


def by_area(task: Task) -> int:
    """What any plan costs at least, in the task's whole units, for the area of its pieces."""
    values = [kind.area for kind in task.kinds]
    return ceiling(from_values(task, values, [base.area for base in task.bases]))
