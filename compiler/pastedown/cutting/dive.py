"""Whole sheets one after another from the linear programme: what it is surest of is settled, the rest is looked at
anew.

Column generation for what is left goes on in between, so that the layouts found keep to the pieces still wanted. The
last few sheets are packed piece by piece.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from pastedown.cutting.budget import Budget
from pastedown.cutting.columns import COARSE, READ
from pastedown.cutting.grid import Grid
from pastedown.cutting.linear import Answer, Master
from pastedown.cutting.pool import Choice, Pool
from pastedown.cutting.reading import Reading
from pastedown.cutting.repack import Packing
from pastedown.cutting.slicing import Layout, Tree, counts_of, layout, without
from pastedown.cutting.task import Task

# Rounds of column generation before each settling, and tables in each round.
_ROUNDS, _TABLES = 2, 2
# With so many pieces left, settling ends.
_LEAVE = 12
# How many layouts of one table are looked at.
_TREES = 8


def dive(task: Task, grid: Grid, pool: Pool, layouts: Sequence[Layout], skip: int, budget: Budget) -> Choice | None:
    """Settles sheets until few pieces are left or the budget is spent; at first not the surest layout, but the one
    after `skip` others, so that one dive differs from the next."""
    left = [kind.demand for kind in task.kinds]
    limits = [base.limit for base in task.bases]
    columns = list(layouts)
    have = {(one.base, one.counts) for one in columns}
    for kind, each in enumerate(task.kinds):
        # One piece on a sheet: whatever else is ruled out, the programme can be met.
        for base, sheet in enumerate(task.bases):
            columns += [
                layout(base, 2 * kind + turned)
                for w, h, turned in each.ways() if w <= sheet.width and h <= sheet.height
            ]
    master = Master(task)
    for one in columns:
        master.add(one)
    settled: list[tuple[Layout, int]] = []
    unit = max((base.cost for base in task.bases), default=1) or 1
    for at, one in enumerate(columns):
        master.allow(at, all(count <= left[kind] for kind, count in one.counts))
    while sum(left) > _LEAVE and not budget.over:
        answer: Answer | None = None
        for _ in range(_ROUNDS):
            answer = master.solve()
            budget.spend(0.3 + master.steps * (0.01 + len(task.kinds) / 20_000))
            if answer is None:
                return None
            values = [
                int(value / unit * COARSE) if count else 0 for value, count in zip(answer.values, left, strict=True)
            ]
            fresh = 0
            for one in _proper(task, grid, values, left, limits, budget):
                if (one.base, one.counts) in have:
                    continue
                have.add((one.base, one.counts))
                price = task.bases[one.base].cost / task.bases[one.base].pack / unit * COARSE
                if sum(values[kind] * count for kind, count in one.counts) > price * (1 + 1e-5):
                    fresh += 1
                    columns.append(one)
                    master.add(one)
                    pool.add(one.base, one.tree)
            if not fresh or budget.over:
                break
        if answer is None or not _settle(columns, answer, left, limits, settled, skip):
            return None
        skip = 0
        for kind, count in enumerate(left):
            master.want(kind, count)
        for base, limit in enumerate(limits):
            if limit is not None:
                master.limit(base, limit)
        for at, one in enumerate(columns):
            master.allow(at, all(count <= left[kind] for kind, count in one.counts))
    return tuple(settled)


def _proper(
    task: Task, grid: Grid, values: list[int], left: list[int], limits: list[int | None], budget: Budget
) -> Iterator[Layout]:
    """Valuable layouts that ask for no more pieces than are left: where a table's best asks for more, these pieces lose
    in value for the next table, and what is too much is left out of the layout."""
    for _ in range(_TABLES):
        single, which = grid.single(values, np.int32)
        table = grid.table(single)
        budget.spend(grid.work)
        reading = Reading(grid, table, which, single)
        over: dict[int, None] = {}
        for number in range(len(task.bases)):
            if limits[number] == 0:
                continue
            for rank, tree in enumerate(reading.trees(number, _TREES)):
                surplus = {kind: count - left[kind] for kind, count in counts_of(tree) if count > left[kind]}
                if rank == 0:
                    over.update(dict.fromkeys(surplus))
                kept = without(tree, surplus)
                if kept is not None:
                    yield filled_up(task, number, kept, left, values) if surplus else layout(number, kept)
            budget.spend(table.size / READ + 0.1 * _TREES)
        if not over or budget.over:
            return
        values = [value * 3 // 4 if kind in over else value for kind, value in enumerate(values)]


def filled_up(task: Task, base: int, tree: Tree, left: Sequence[int], values: Sequence[int]) -> Layout:
    """The layout with what fits besides of the pieces left, the most valuable for their area first."""
    packing = Packing(task.kinds, task.bases, 1)
    board = packing.add_board(base, tree)
    spare = list(left)
    for kind, count in counts_of(tree):
        spare[kind] -= count
    for kind in sorted(range(len(spare)), key=lambda n: (-values[n] // (1 + task.kinds[n].area // 64), n)):
        for _ in range(spare[kind]):
            if not packing.place(kind, None):
                break
    return layout(base, board.tree())


def _settle(
    columns: Sequence[Layout], answer: Answer, left: list[int], limits: list[int | None],
    settled: list[tuple[Layout, int]], skip: int,
) -> bool:
    """Settles whole amounts, and of the fractions the largest; whether there was one."""
    ranked = sorted(
        (-(amount - int(amount + 1e-6)), number) for number, amount in enumerate(answer.amounts) if amount > 1e-6
    )
    done = False
    wanted = [(number, int(amount + 1e-6)) for number, amount in enumerate(answer.amounts) if amount >= 1 - 1e-6]
    for number, times in [*wanted, *((number, 1) for _, number in ranked[min(skip, len(ranked) - 1) :][:1])]:
        one = columns[number]
        times = min(times, *(left[kind] // count for kind, count in one.counts))
        limit = limits[one.base]
        if limit is not None:
            times = min(times, limit)
            limits[one.base] = limit - times
        if times <= 0:
            continue
        done = True
        settled.append((one, times))
        for kind, count in one.counts:
            left[kind] -= count * times
    return done
