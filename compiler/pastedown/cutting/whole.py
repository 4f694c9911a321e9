"""From amounts that are fractions to whole sheets: round down, pack what is missing on few sheets, or choose anew."""

from collections.abc import Sequence

from pastedown.cutting.budget import Budget
from pastedown.cutting.pool import Choice, Pool, better, cost_of, gather, left_of, missing, sheets_of
from pastedown.cutting.repack import Packing
from pastedown.cutting.slicing import Layout, Tree, without
from pastedown.cutting.task import Task

# More single pieces than this are not packed one by one.
MOST_SINGLE = 400


def trimmed(task: Task, choice: Choice) -> Choice:
    """The choice without the pieces that are too many. A layout all of whose copies can spare a piece loses it; else so
    many of its copies as there are too many become a layout of their own."""
    over = [-count for count in missing(task, choice)]
    kept: list[tuple[Layout, int]] = []
    for one, times in sorted(choice, key=lambda each: each[1]):
        todo = times
        while todo:
            lose = {kind: min(count, -(-over[kind] // todo)) for kind, count in one.counts if over[kind] > 0}
            if not lose:
                kept.append((one, todo))
                break
            # So many copies can lose all of that.
            part = min(todo, *(over[kind] // count for kind, count in lose.items()))
            if part == 0:
                lose = {kind: count - 1 for kind, count in lose.items() if count > 1}
                lose = lose or {next(kind for kind, _ in one.counts if over[kind] > 0): 1}
                part = min(todo, *(over[kind] // count for kind, count in lose.items()))
            tree = without(one.tree, lose)
            for kind, count in lose.items():
                over[kind] -= count * part
            if tree is not None:
                counts = tuple((kind, left) for kind, count in one.counts if (left := count - lose.get(kind, 0)))
                kept.append((Layout(one.base, counts, tree), part))
            todo -= part
    merged: dict[tuple[int, tuple[tuple[int, int], ...]], tuple[Layout, int]] = {}
    for one, times in kept:
        first, before = merged.get((one.base, one.counts), (one, 0))
        merged[(one.base, one.counts)] = (first, before + times)
    return tuple(merged.values())


def singles(counts: Sequence[int]) -> list[int]:
    return [kind for kind, count in enumerate(counts) for _ in range(count)]


def pack_rest(
    task: Task, fixed: Choice, boards: Sequence[tuple[int, Tree]], goal: int, budget: Budget, pool: Pool, seed: int,
    below: int | None = None,
) -> Choice | None:
    """Packs what `fixed` leaves missing, starting from `boards`, on as few sheets more as the budget allows; the
    whole choice at the end, or None where even the first packing has pieces left out. Ends at cost `goal`. Where the
    sheets given cost less than `below`, it is tried first to do with them."""
    packing = Packing(task.kinds, task.bases, seed, pool.add)
    for base, tree in boards:
        packing.add_board(base, tree)
    out = missing(task, fixed)
    for base_board in packing.boards:
        tree = base_board.tree()
        if tree is not None:
            for kind, count in gather([(0, tree)])[0][0].counts:
                out[kind] -= count
    packing.fill_up(singles([max(0, count) for count in out]), None)
    best: Choice | None = None
    room = sum(board.area - board.used for board in packing.boards)
    if below is not None and 0 < packing.area_out <= room and _cost_so_far(task, fixed, packing) < below:
        packing.improve(budget)
    _open_more(task, fixed, packing)
    while True:
        if not packing.improve(budget):
            return best
        laid = [(board.base, tree) for board in packing.boards if (tree := board.tree()) is not None]
        found = (*fixed, *gather(laid))
        pool.add_all(found)
        if better(task, found, best):
            best = found
        if cost_of(task, best or found) <= goal or budget.over:
            return best
        # One sheet fewer: of those that are bought the one that holds least.
        bought = [board for board in packing.boards if task.bases[board.base].limit is None]
        if not bought:
            return best
        least = min(bought, key=lambda board: board.used)
        packing.boards.remove(least)
        packing.out += least.drop(least.root)


def _cost_so_far(task: Task, fixed: Choice, packing: Packing) -> int:
    return cost_of(task, (*fixed, *((Layout(board.base, (), 0), 1) for board in packing.boards)))


def _open_more(task: Task, fixed: Choice, packing: Packing) -> None:
    """Adds boards until nothing is left out: those on hand first, then for each the cheapest that holds the piece."""
    used = sheets_of(task, fixed)
    for board in packing.boards:
        used[board.base] += 1
    limits = left_of(task, used)
    ranks = sorted(
        range(len(task.bases)),
        key=lambda n: (task.bases[n].limit is None, task.bases[n].cost / task.bases[n].pack / task.bases[n].area, n),
    )
    while packing.out:
        waiting, packing.out = packing.out, []
        kind = task.kinds[waiting[0]]
        for base in ranks:
            limit = limits[base]
            if (limit is None or limit > 0) and kind.fits(task.bases[base].width, task.bases[base].height):
                if limit is not None:
                    limits[base] = limit - 1
                packing.add_board(base)
                break
        else:
            packing.out = waiting
            return
        packing.fill_up(waiting, None)


def rounded_down(
    task: Task, layouts: Sequence[Layout], amounts: Sequence[float], spare: int
) -> tuple[Choice, list[tuple[int, Tree]]]:
    """What is sure of a fractional choice, and the sheets that are looked at again: whole amounts less `spare` sheets
    of the layouts that waste most, and those with a fraction above a half as a start."""
    fixed: list[tuple[Layout, int]] = []
    loose: list[tuple[float, int, Layout]] = []
    left = [kind.demand for kind in task.kinds]
    for number, (one, amount) in enumerate(zip(layouts, amounts, strict=True)):
        times = int(amount + 1e-6)
        times = min(times, *(left[kind] // count for kind, count in one.counts))
        if times > 0:
            fixed.append((one, times))
            for kind, count in one.counts:
                left[kind] -= count * times
        if amount - times > 0.5:
            loose.append((times - amount, number, one))
    starts: list[tuple[int, Tree]] = []
    for _, _, one in sorted(loose, key=lambda each: each[:2]):
        if all(left[kind] >= count for kind, count in one.counts):
            starts.append((one.base, one.tree))
            for kind, count in one.counts:
                left[kind] -= count
    full = [(sum(task.kinds[k].area * c for k, c in one.counts) / task.bases[one.base].area, n)
            for n, (one, _) in enumerate(fixed)]
    for _, number in sorted(full):
        if spare <= 0:
            break
        one, times = fixed[number]
        taken = min(times, spare)
        spare -= taken
        fixed[number] = (one, times - taken)
        starts += [(one.base, one.tree)] * taken
    return tuple((one, times) for one, times in fixed if times), starts
