"""A first plan, fast: sheet after sheet is filled as well as a few tries allow, and cut as often as the pieces last."""

from collections.abc import Sequence

from pastedown.cutting.budget import Budget
from pastedown.cutting.pool import Choice
from pastedown.cutting.repack import Packing
from pastedown.cutting.rooms import Board
from pastedown.cutting.slicing import Layout, layout
from pastedown.cutting.task import Task

# More pieces are not put on one sheet.
MOST_PIECES = 3_000


def orders(task: Task) -> list[list[int]]:
    """A few orders of the kinds in which to fill a sheet: large ones first, by one measure or another."""
    kinds = task.kinds
    count = range(len(kinds))
    return [
        list(count),
        sorted(count, key=lambda n: (-max(kinds[n].width, kinds[n].height), n)),
        sorted(count, key=lambda n: (-kinds[n].height, -kinds[n].width, n)),
        sorted(count, key=lambda n: (-kinds[n].width, -kinds[n].height, n)),
    ]


def fill_one(task: Task, base: int, left: Sequence[int], order: Sequence[int], budget: Budget) -> Layout | None:
    """One sheet filled with pieces of those left, kind after kind in that order; None where none fits."""
    packing = Packing(task.kinds, task.bases, 1)
    board: Board = packing.add_board(base)
    room = MOST_PIECES
    for kind in order:
        for _ in range(min(left[kind], room)):
            if not packing.place(kind, None):
                break
            room -= 1
    budget.spend(packing.looks / 4_000 + 0.05)
    tree = board.tree()
    return None if tree is None else layout(base, tree)


def _worth(task: Task, one: Layout) -> float:
    """Area of the pieces for the cost; on hand, for the area of the sheet."""
    base = task.bases[one.base]
    area = sum(task.kinds[kind].area * count for kind, count in one.counts)
    return area / (base.cost / base.pack if base.limit is None else base.area)


def first_plan(task: Task, budget: Budget) -> tuple[Choice, list[int]]:
    """Layouts, and how many pieces of each kind are left because no sheet is left for them."""
    left = [kind.demand for kind in task.kinds]
    limits = [base.limit for base in task.bases]
    chosen: list[tuple[Layout, int]] = []
    tried = orders(task)
    while any(left):
        best: tuple[tuple[int, float], Layout] | None = None
        for base, limit in enumerate(limits):
            if limit == 0:
                continue
            for order in tried if not budget.over else tried[:1]:
                one = fill_one(task, base, left, order, budget)
                # What is on hand is used first.
                if one is not None and (best is None or (int(limit is not None), _worth(task, one)) > best[0]):
                    best = ((int(limit is not None), _worth(task, one)), one)
        if best is None:
            break
        one = best[1]
        times = min(left[kind] // count for kind, count in one.counts)
        limit = limits[one.base]
        if limit is not None:
            times = min(times, limit)
            limits[one.base] = limit - times
        for kind, count in one.counts:
            left[kind] -= count * times
        chosen.append((one, times))
    return tuple(chosen), left
