"""Column generation: layouts are sought by the values that a linear programme over those known gives the pieces.

Each round solves the programme, looks for the most valuable layouts, and adds those that are worth more than their
sheet. Whenever no layout is worth more, the programme's cost is a bound; and at any time the values give one
(`bound.py`).
"""

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
from attrs import frozen

from pastedown.cutting.bound import ceiling, from_values
from pastedown.cutting.budget import Budget
from pastedown.cutting.grid import Grid
from pastedown.cutting.linear import Answer, Master
from pastedown.cutting.pool import Pool
from pastedown.cutting.reading import Reading
from pastedown.cutting.slicing import Layout, layout
from pastedown.cutting.task import Task

# Values are this many times a whole unit of cost: in rounds so that 32 bits do, for the last word as fine as 64 allow.
COARSE, _FINE = 1 << 20, 1 << 38
# At most so many points along each edge, grid by grid.
_POINTS = (120, 250, 500, 1_500, 4_000)
_COLUMNS = 30
# Halves of points that are worked out in a thousandth of a second.
_MADE = 1_500
# Cells of a table that are got ready to be read in a thousandth of a second.
READ = 25_000
# Tenths of the values with the best bound in those that layouts are sought by.
_CALM = 3


@frozen
class Generated:
    """What any plan costs at least; the layouts of the linear programme with the amounts of each."""

    bound: int
    layouts: tuple[Layout, ...]
    answer: Answer | None


def grids_for(task: Task, budget: Budget) -> list[Grid]:
    """Grids from coarse to fine whose tables the budget can pay for: most layouts are found on a coarse one."""
    grids: list[Grid] = []
    for most in _POINTS:
        grid = Grid(task.kinds, task.bases, most)
        budget.spend(grid.first.size / _MADE)
        if grids and grid.work * 12 > budget.left:
            break
        # A grid is of use before a finer one only if it is much cheaper.
        while grids and grids[-1].work * 2.5 > grid.work:
            grids.pop()
        grids.append(grid)
        if grid.exact:
            break
    return grids


class _Calm:
    """Values that do not jump: between those that gave the best bound so far and the latest ones. A programme with few
    layouts gives values that swing widely, and layouts sought by them are soon of no use (Wentges 1997)."""

    def __init__(self) -> None:
        self.centre: list[int] | None = None
        self.best = Fraction(-1)
        self.blended = False
        self.trusted = True

    def values(self, latest: list[int]) -> list[int]:
        self.blended = self.centre is not None and self.trusted
        if self.centre is None or not self.blended:
            return latest
        return [(_CALM * old + (10 - _CALM) * new) // 10 for old, new in zip(self.centre, latest, strict=True)]

    def learn(self, values: list[int], bound: Fraction) -> None:
        if bound > self.best:
            self.best, self.centre = bound, values

    def went_astray(self, gains: bool) -> bool:
        """Whether a mixture gave no layout that lowers the programme's cost: the latest values themselves are then
        asked."""
        self.trusted = gains or not self.blended
        return not self.trusted


def generate(task: Task, grids: Sequence[Grid], pool: Pool, budget: Budget, known: int) -> Generated:
    """Adds layouts to the pool until none would lower the programme's cost or the budget is spent. A finer grid is
    taken when one has nothing more to give."""
    master = Master(task)
    layouts: list[Layout] = list(pool)
    have = {(one.base, one.counts) for one in layouts}
    for one in layouts:
        master.add(one)
    unit = max((base.cost for base in task.bases), default=1) or 1
    best = Fraction(known - 1)
    answer = None
    level = 0
    calm = _Calm()
    while not budget.over:
        grid = grids[level]
        answer = master.solve()
        budget.spend(0.3 + master.steps * (0.01 + len(task.kinds) / 20_000))
        if answer is None:
            break
        latest = [int(value / unit * COARSE) for value in answer.values]
        values = calm.values(latest)
        single, which = grid.single(values, np.int32)
        table = grid.table(single)
        budget.spend(grid.work)
        capacities = [int(table[end]) for end in grid.ends]
        lower = from_values(task, values, capacities)
        calm.learn(values, lower)
        if grid.exact:
            best = max(best, lower)
        if ceiling(best) >= answer.cost - 1e-6:
            break
        added, gains = 0, False
        reading = Reading(grid, table, which, single)
        budget.spend(table.size / READ)
        for number, base in enumerate(task.bases):
            price = base.cost / base.pack / unit * COARSE
            if capacities[number] <= price * (1 + 1e-5) and base.limit is None:
                continue
            for tree in reading.trees(number, _COLUMNS):
                one = layout(number, tree)
                budget.spend(0.04 + sum([count for _, count in one.counts]) / 2_000)
                if (number, one.counts) not in have:
                    have.add((number, one.counts))
                    layouts.append(one)
                    master.add(one)
                    added += 1
                    gains = gains or sum(latest[kind] * count for kind, count in one.counts) > price * (1 + 1e-5)
        if calm.went_astray(gains):
            continue
        if not added:
            if level == len(grids) - 1:
                break
            level += 1
            calm = _Calm()
    grid = grids[level]
    if answer is not None and grid.exact and ceiling(best) < answer.cost - 1e-6:
        values = [int(value / unit * _FINE) for value in answer.values]
        single, _ = grid.single(values, np.int64)
        table = grid.table(single)
        budget.spend(2 * grid.work)
        best = max(best, from_values(task, values, [int(table[end]) for end in grid.ends]))
    for one in layouts:
        pool.add(one.base, one.tree)
    known_to_answer = layouts[: len(answer.amounts)] if answer is not None else layouts
    return Generated(max(known, ceiling(best)), tuple(known_to_answer), answer)
