"""A pack that is opened for few sheets is not bought where their pieces fit on sheets left over in packs that are paid
anyway: these and the emptiest of the others are packed anew."""

from collections.abc import Sequence

from pastedown.cutting.budget import Budget
from pastedown.cutting.pool import Choice, cost_of, gather, gather_layouts, left_of, sheets_of
from pastedown.cutting.repack import LOOKS_A_UNIT, Packing
from pastedown.cutting.slicing import Layout
from pastedown.cutting.task import Task
from pastedown.cutting.whole import MOST_SINGLE, singles, trimmed

# Sheets left over that are filled at most, and sheets in use that are packed anew with them.
_LEFT_OVER, _ANEW = 40, 8


def without_light_packs(task: Task, choice: Choice, budget: Budget) -> Choice:
    """The choice, or one on fewer packs."""
    while not budget.over:
        used = sheets_of(task, choice)
        opened = [
            (_in_last_pack(count, base.pack), number)
            for number, (count, base) in enumerate(zip(used, task.bases, strict=True)) if base.limit is None and count
        ]
        for over, base in sorted(opened):
            own = budget.share(0.5)
            before = own.left
            other = _without(task, choice, base, over, own)
            budget.spend(before - own.left)
            if other is not None and cost_of(task, other) < cost_of(task, choice):
                choice = other
                break
        else:
            return choice
    return choice


def _in_last_pack(count: int, pack: int) -> int:
    return (count - 1) % pack + 1


def _without(task: Task, choice: Choice, base: int, over: int, budget: Budget) -> Choice | None:
    """The choice with so many sheets of the base fewer; None where that is not found."""
    choice, emptied = _taken(task, trimmed(task, choice), (base,), over)
    others = tuple(number for number in range(len(task.bases)) if number != base)
    free = [(number, count) for number, count in enumerate(_left_over(task, choice)) if number != base and count]
    kept, anew = _taken(task, choice, others, _ANEW)
    out = [0] * len(task.kinds)
    for one, times in emptied:
        for kind, count in one.counts:
            out[kind] += count * times
    if sum(out) + sum(times * sum(count for _, count in one.counts) for one, times in anew) > MOST_SINGLE:
        return None
    packing = Packing(task.kinds, task.bases, 31)
    for one, times in anew:
        for _ in range(times):
            packing.add_board(one.base, one.tree)
    room = _LEFT_OVER
    for number, count in free:
        for _ in range(min(count, room)):
            packing.add_board(number)
            room -= 1
    if sum(board.area - board.used for board in packing.boards) < sum(
        kind.area * count for kind, count in zip(task.kinds, out, strict=True)
    ):
        return None
    packing.fill_up(singles(out), None)
    budget.spend(packing.looks / LOOKS_A_UNIT)
    if not packing.improve(budget):
        return None
    laid = [(board.base, tree) for board in packing.boards if (tree := board.tree()) is not None]
    return gather_layouts((*kept, *gather(laid)))


def _left_over(task: Task, choice: Choice) -> list[int]:
    """Sheets of each base that are paid, or on hand, and not cut."""
    used = sheets_of(task, choice)
    return [
        -count % base.pack if left is None else left
        for count, base, left in zip(used, task.bases, left_of(task, used), strict=True)
    ]


def _taken(task: Task, choice: Choice, bases: Sequence[int], sheets: int) -> tuple[Choice, Choice]:
    """The choice without so many sheets of some bases, those that hold least for their size, and these."""

    def fullness(each: tuple[Layout, int]) -> tuple[float, int]:
        one, times = each
        return sum(task.kinds[kind].area * count for kind, count in one.counts) / task.bases[one.base].area, times

    kept: list[tuple[Layout, int]] = []
    taken: list[tuple[Layout, int]] = []
    for one, times in sorted(choice, key=fullness):
        some = min(times, sheets) if one.base in bases else 0
        sheets -= some
        taken += [(one, some)] if some else []
        kept += [(one, times - some)] if times > some else []
    return tuple(kept), tuple(taken)
