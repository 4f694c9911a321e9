"""The most useful offcut: the sheet that is least filled is packed anew so that what is left of it is in one piece."""

from pastedown.cutting.budget import Budget
from pastedown.cutting.pool import Choice
from pastedown.cutting.repack import Packing
from pastedown.cutting.slicing import Layout, fewest, leaf_size, settings_of, size_of
from pastedown.cutting.task import Base, Task
from pastedown.cutting.whole import singles


def largest_rest(task: Task, one: Layout) -> int:
    """Area of the largest rectangle that stays in one piece: beside all pieces or above them, or at the end of a
    row."""
    base = task.bases[one.base]
    if isinstance(one.tree, int):
        width, height = leaf_size(one.tree, task.kinds)
    else:
        width, height = size_of(one.tree, task.kinds)
    return max((base.width - width) * base.height, (base.height - height) * base.width)


def with_large_offcut(task: Task, choice: Choice, budget: Budget) -> Choice:
    """The same sheets and no more settings; the least filled sheet with its pieces on the shortest part of it."""
    single = [at for at, (one, times) in enumerate(choice) if task.bases[one.base].limit is None]
    if not single:
        return choice

    def used(one: Layout) -> int:
        return sum(task.kinds[kind].area * count for kind, count in one.counts)

    at = min(single, key=lambda n: (choice[n][1] > 1, used(choice[n][0]) / task.bases[choice[n][0].base].area, n))
    one, times = choice[at]
    pieces = sum(count for _, count in one.counts)
    if pieces > 150:
        return choice
    best = one
    base = task.bases[one.base]
    settings = settings_of(one.tree, base.width, base.height, task.kinds)
    counts = [0] * len(task.kinds)
    for kind, count in one.counts:
        counts[kind] = count
    for axis in (0, 1):
        low, high = used(one) // (base.height, base.width)[axis], (base.width, base.height)[axis]
        while high - low > 1 and not budget.over:
            middle = (low + high) // 2
            small = Base(*((middle, base.height) if axis == 0 else (base.width, middle)), 1, 1, None, 0)
            packing = Packing(task.kinds, (small,), 7)
            packing.add_board(0)
            packing.fill_up(singles(counts), None)
            own = Budget(min(6.0, budget.left))
            before = own.left
            packed = packing.improve(own)
            budget.spend(before - own.left + 0.5)
            tree = packing.boards[0].tree() if packed else None
            if tree is None:
                low = middle
                continue
            high = middle
            tree = fewest(tree, base.width, base.height, task.kinds)
            other = Layout(one.base, one.counts, tree)
            if (
                settings_of(tree, base.width, base.height, task.kinds) <= settings
                and largest_rest(task, other) > largest_rest(task, best)
            ):
                best = other
    return (*choice[:at], (best, times), *choice[at + 1 :])
