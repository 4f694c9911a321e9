"""What numpy and highspy add to the search: column generation, its bound, and choosing among all layouts seen."""

from pastedown.cutting.budget import Budget
from pastedown.cutting.columns import Generated, generate, grids_for
from pastedown.cutting.dive import dive
from pastedown.cutting.linear import choose
from pastedown.cutting.pool import Choice, left_of
from pastedown.cutting.search import Search
from pastedown.cutting.slicing import Layout, Tree
from pastedown.cutting.whole import MOST_SINGLE, rounded_down

_MOST_LAYOUTS = 800
# Amounts of so many layouts are chosen at once; of more, it is cheaper to round first.
_FEW_LAYOUTS = 250
# Of the sheets that a dive settles, the last ones with so many pieces are packed anew.
_LOOSE_PIECES = 100


def improve(state: Search) -> None:
    task, budget = state.task, state.budget
    small = sum(kind.demand for kind in task.kinds) <= MOST_SINGLE
    own = Budget(budget.left * (0.45 if small else 0.7))
    before = own.left
    grids = grids_for(task, own)
    found = generate(task, grids, state.pool, own, state.bound)
    budget.spend(before - own.left)
    state.bound = max(state.bound, found.bound)
    if state.settled:
        return
    few = len(found.layouts) <= _FEW_LAYOUTS
    if few:
        select(state, found.layouts, 40, 400)
    if not state.settled and not budget.over:
        _round(state, found, small)
    if not state.settled and not few and not small and not budget.over:
        select(state, found.layouts, 40, 400)
    for attempt in range(2 if small else 1):
        if state.settled or budget.over:
            return
        own = Budget(min(1000.0, budget.left * 0.6))
        before = own.left
        affordable = [grid for grid in grids if grid.work * 30 < own.left]
        if not affordable:
            return
        settled = dive(task, affordable[-1], state.pool, tuple(state.pool)[-_MOST_LAYOUTS:], attempt, own)
        budget.spend(before - own.left)
        if settled is not None:
            state.pack(*loosened(settled, _LOOSE_PIECES), 250, 20 + attempt)
    if not state.settled and not budget.over:
        select(state, tuple(state.pool)[-_MOST_LAYOUTS:], 100, 150)


def loosened(settled: Choice, pieces: int) -> tuple[Choice, list[tuple[int, Tree]]]:
    """Settled sheets without the last ones, and those last ones, with about so many pieces, to be packed anew."""
    starts: list[tuple[int, Tree]] = []
    kept = list(settled)
    while kept and pieces > 0:
        one, times = kept.pop()
        size = sum(count for _, count in one.counts)
        taken = min(times, -(-pieces // size))
        starts += [(one.base, one.tree)] * taken
        pieces -= taken * size
        if taken < times:
            kept.append((one, times - taken))
    return tuple(kept), starts


def select(state: Search, layouts: tuple[Layout, ...], nodes: int, work: float) -> None:
    """Chooses the cheapest among layouts, with so much of the budget."""
    task = state.task
    demands = [kind.demand for kind in task.kinds]
    own = Budget(min(work, state.budget.left))
    before = own.left
    answer = choose(task, layouts, demands, left_of(task, [0] * len(task.bases)), nodes, own)
    state.budget.spend(5 + before - own.left)
    if answer is not None:
        state.offer(tuple((layouts[at], times) for at, times in answer.items()))


def _round(state: Search, found: Generated, small: bool) -> None:
    if found.answer is None:
        return
    for seed, spare in enumerate((0,) if small else (0, 2, 5)):
        fixed, starts = rounded_down(state.task, found.layouts, found.answer.amounts, spare)
        rest = sum(kind.demand for kind in state.task.kinds) - sum(
            times * sum(count for _, count in one.counts) for one, times in fixed
        )
        if rest > 4 * MOST_SINGLE:
            break
        state.pack(fixed, starts, 200 if small else state.budget.left / 4, 10 + seed)
        if state.settled or state.budget.over:
            return
