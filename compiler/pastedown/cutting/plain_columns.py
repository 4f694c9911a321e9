"""Column generation without libraries, for many copies: strips and stacks instead of any number of stages."""

from collections.abc import Iterator

from attrs import evolve

from pastedown.cutting.budget import Budget
from pastedown.cutting.plain_linear import PlainMaster
from pastedown.cutting.pool import Choice, made, missing
from pastedown.cutting.search import Search
from pastedown.cutting.slicing import Layout, Tree, layout, row
from pastedown.cutting.strips import StripCutter
from pastedown.cutting.task import Task
from pastedown.cutting.whole import MOST_SINGLE, rounded_down

# A layout must save at least so much of its sheet to be taken.
_WORTH_IT = 1e-6
# Of the layouts found in one go, at most so many are taken.
_MOST_TAKEN = 12


def improve_plainly(state: Search) -> None:
    """Offers plans made of whole amounts of the layouts that a linear programme asks for. Sheets on hand stay as the
    first plan used them."""
    task = state.task
    on_hand = tuple(each for each in state.best or () if task.bases[each[0].base].limit is not None)
    covered = made(task, on_hand)
    rest = evolve(
        task,
        kinds=tuple(
            evolve(kind, demand=max(0, kind.demand - count)) for kind, count in zip(task.kinds, covered, strict=True)
        ),
    )
    starts = _alone(rest)
    if starts is None:
        return
    own = state.budget.share(0.6)
    before = own.left
    master = _generated(rest, starts, own)
    state.budget.spend(before - own.left)
    amounts = master.used()
    for seed, spare in enumerate((0, 2, 5)):
        fixed, boards = rounded_down(rest, master.layouts, amounts, spare)
        whole: Choice = (*on_hand, *fixed)
        if sum(max(0, count) for count in missing(task, whole)) > 2 * MOST_SINGLE:
            return
        state.pack(whole, boards, state.budget.left / 4, 40 + seed)
        if state.settled or state.budget.over:
            return


def _alone(task: Task) -> list[Layout] | None:
    """For each kind a sheet of that kind alone, the cheapest a piece; None where a kind fits nothing that is bought."""
    found = []
    for number, kind in enumerate(task.kinds):
        best: tuple[tuple[float, int, int], Layout] | None = None
        for at, base in enumerate(task.bases):
            if base.limit is not None:
                continue
            for w, h, turned in kind.ways():
                across, up = base.width // w, base.height // h
                if across and up:
                    rank = base.cost / base.pack / (across * up), at, turned
                    if best is None or rank < best[0]:
                        tree = row(1, [row(0, [2 * number + turned] * across)] * up)
                        best = rank, layout(at, tree)
        if best is None:
            return None
        found.append(best[1])
    return found


def _generated(task: Task, starts: list[Layout], budget: Budget) -> PlainMaster:
    prices = [base.cost / base.pack for base in task.bases]
    master = PlainMaster([kind.demand for kind in task.kinds], starts, [prices[one.base] for one in starts])
    bought = [at for at, base in enumerate(task.bases) if base.limit is None]
    cutters = [(at, StripCutter(task.kinds, task.bases[at], axis)) for at in bought for axis in (0, 1)]
    have = {(one.base, one.counts) for one in starts}
    stages = 2
    while not budget.over:
        master.solve(budget)
        found: list[tuple[float, int, Layout]] = []
        for at, tree in _sought(cutters, master.values, stages, budget):
            one = layout(at, tree)
            gain = master.gain(one, prices[at])
            if gain > _WORTH_IT * prices[at] and (one.base, one.counts) not in have:
                found.append((-gain / prices[at], len(found), one))
        for _, _, one in sorted(found, key=lambda each: each[:2])[:_MOST_TAKEN]:
            if (one.base, one.counts) not in have:
                have.add((one.base, one.counts))
                master.add(one, prices[one.base])
        if not found:
            if stages == 3:
                break
            stages = 3
    return master


def _sought(
    cutters: list[tuple[int, StripCutter]], values: list[float], stages: int, budget: Budget
) -> Iterator[tuple[int, Tree]]:
    for at, cutter in cutters:
        for tree in cutter.two_stages(values, budget) if stages == 2 else cutter.three_stages(values, budget):
            yield at, tree
