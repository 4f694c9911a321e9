"""The search for a cheapest plan: bounds first, fast plans next, then as much as the budget allows."""

from collections.abc import Callable

from attrs import evolve, frozen

from pastedown.cutting.bound import by_area
from pastedown.cutting.budget import Budget
from pastedown.cutting.dual_feasible import by_dual_feasible_functions
from pastedown.cutting.first_plan import first_plan
from pastedown.cutting.light_packs import without_light_packs
from pastedown.cutting.mixes import bought_sizes, on_cheap_mixes, on_cheap_mixes_at_once, on_some_sizes
from pastedown.cutting.pool import Choice, Pool, better, cost_of
from pastedown.cutting.slicing import Layout
from pastedown.cutting.task import Task
from pastedown.cutting.whole import MOST_SINGLE, pack_rest

# So many pieces are packed one by one where they stand for many more.
_ONE_PART = 150
# Mixes of sizes that are looked at for long.
_LONG_LOOKS = 4

# So much of the work may be done once more, at the end, to save a pack.
_KEPT_BACK = 0.1

Progress = Callable[[str, int, int], None]


@frozen
class Found:
    """The best plan, with more pieces than wanted perhaps; the bound; kinds for which no sheet was left; layouts
    seen."""

    choice: Choice
    bound: int
    left: tuple[int, ...]
    layouts: tuple[Layout, ...] = ()


class Search:
    """State of a search: the best plan, the bound, the layouts seen, the budget."""

    def __init__(
        self, task: Task, budget: Budget, progress: Progress | None, known: int = 0, below: int | None = None
    ) -> None:
        self.task, self.budget, self.progress, self.below = task, budget, progress, below
        self.pool = Pool()
        self.bound = max(by_area(task), known)
        self.best: Choice | None = None
        self.left = [0] * len(task.kinds)

    @property
    def cost(self) -> int:
        return cost_of(self.task, self.best or ())

    @property
    def settled(self) -> bool:
        """Whether no plan can cost less, or none can cost less than `below`."""
        enough = self.below is not None and self.bound >= self.below
        return self.best is not None and (enough or self.cost <= self.bound)

    def offer(self, choice: Choice | None) -> None:
        if choice is not None and better(self.task, choice, self.best):
            self.best = choice
            self.pool.add_all(choice)
            if self.progress is not None:
                self.progress("plan", self.cost, self.bound)

    def pack(self, fixed: Choice, starts: list[tuple[int, object]], work: float, seed: int) -> None:
        """Packs single pieces around what is fixed, with so much of the budget."""
        own = Budget(min(work, self.budget.left))
        before = own.left
        below = None if self.best is None else self.cost
        self.offer(pack_rest(self.task, fixed, starts, self.bound, own, self.pool, seed, below))
        # Setting the boards out is work, too, even where there is nothing to improve.
        self.budget.spend(before - own.left + 5 + len(starts) / 10)


def search(
    task: Task, budget: Budget, libraries: bool, progress: Progress | None = None, known: int = 0,
    below: int | None = None,
) -> Found:
    """`known` is a bound that is known already; a plan that does not cost less than `below` is of no use, so the search
    may end with any."""
    state = Search(task, budget, progress, known, below)
    total = sum(kind.demand for kind in task.kinds)
    kept_back = _KEPT_BACK * budget.left
    first, left = first_plan(task, budget)
    state.offer(first)
    if any(left):
        return Found(first, state.bound, tuple(left))
    small = total <= MOST_SINGLE
    if not state.settled and len(bought_sizes(task)) > 1:
        _by_mixes(state, small)
    if not state.settled and small:
        state.pack((), [], 60, 1)
    if not state.settled:
        own = Budget(min(250.0, budget.left / 8))
        before = own.left
        state.bound = max(state.bound, by_dual_feasible_functions(task, own, state.cost))
        budget.spend(before - own.left)
    if not state.settled and small:
        state.pack((), _boards(state.best or ()), 400, 2)
    if not state.settled and small and len(bought_sizes(task)) > 1:
        # What the short look at each mix missed may be found by a longer one at the cheapest.
        own = budget.share(0.8 if libraries else 0.9)
        before = own.left
        state.offer(on_cheap_mixes(task, state.cost, state.bound, own, own.left / _LONG_LOOKS))
        budget.spend(before - own.left)
    if not state.settled and not small and not libraries:
        from pastedown.cutting.plain_columns import improve_plainly

        improve_plainly(state)
        if not state.settled:
            _by_repetition(state)
    if not state.settled and libraries:
        from pastedown.cutting.with_libraries import improve

        improve(state)
    seed = 3
    while not state.settled and not budget.over:
        fixed, starts = _part(state.best or (), seed, small)
        state.pack(fixed, starts, budget.left if small else budget.left / 3 + 100, seed)
        seed += 1
    if not state.settled and len(bought_sizes(task)) > 1:
        state.offer(without_light_packs(task, state.best or (), Budget(kept_back)))
    return Found(state.best or (), state.bound, tuple([0] * len(task.kinds)), tuple(state.pool))


def _by_mixes(state: Search, small: bool) -> None:
    own = state.budget.share(0.3)
    before = own.left
    for choice in on_some_sizes(state.task, own):
        state.offer(choice)
    if not state.settled:
        on_mixes = on_cheap_mixes if small else on_cheap_mixes_at_once
        state.offer(on_mixes(state.task, state.cost, state.bound, own))
    state.budget.spend(before - own.left)


def _by_repetition(state: Search) -> None:
    """A part of the pieces small enough to be packed one by one, repeated as often as it goes; then the same with
    what is left. Kits are cut so, and without a linear programme this is the way to plan many copies."""
    task = state.task
    if any(base.limit is not None for base in task.bases):
        return
    fixed: list[tuple[Layout, int]] = []
    left = [kind.demand for kind in task.kinds]
    work = state.budget.left / 4
    while sum(left) > _ONE_PART:
        times = -(-sum(left) // _ONE_PART)
        part = evolve(task, kinds=tuple(evolve(k, demand=n // times) for k, n in zip(task.kinds, left, strict=True)))
        own = Budget(min(work, state.budget.left))
        before = own.left
        packed = pack_rest(part, (), [], by_area(part), own, state.pool, 5) if part.area else None
        state.budget.spend(before - own.left)
        if packed is None:
            return
        fixed += [(one, count * times) for one, count in packed]
        left = [n - times * (n // times) for n in left]
    state.pack(tuple(fixed), [], work, 6)


def _boards(choice: Choice) -> list[tuple[int, object]]:
    return [(one.base, one.tree) for one, times in choice for _ in range(times)]


def _part(choice: Choice, seed: int, small: bool) -> tuple[Choice, list[tuple[int, object]]]:
    """A plan taken apart for another search: what stays, and the sheets that are packed anew."""
    if small:
        return (), _boards(choice)
    fixed: list[tuple[Layout, int]] = []
    starts: list[tuple[int, object]] = []
    pieces = 0
    for number, (one, times) in enumerate(sorted(choice, key=lambda each: each[1])):
        size = sum(count for _, count in one.counts)
        taken = min(times, 1 + (number + seed) % 2, max(0, (MOST_SINGLE - pieces) // size))
        pieces += taken * size
        starts += [(one.base, one.tree)] * taken
        if times > taken:
            fixed.append((one, times - taken))
    return tuple(fixed), starts

