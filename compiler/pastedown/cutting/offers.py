"""Several sizes on offer: every choice among them is searched as if it were all there is, and the cheapest plan counts.

So one more offer never makes a plan dearer: what is found without it is found again. A choice is passed over where no
plan on it can be cheaper than one that is there, or where a pack of each of its sizes costs as much as a plan on fewer
of them. A plan buys just the sizes of one choice, so the least that any choice costs bounds them all.
"""

from itertools import combinations, product

from attrs import evolve, frozen

from pastedown.cutting.bound import ceiling
from pastedown.cutting.budget import Budget
from pastedown.cutting.mixes import bought_sizes
from pastedown.cutting.pool import cost_of
from pastedown.cutting.problem import Problem
from pastedown.cutting.search import Found, Progress, search
from pastedown.cutting.size_bounds import Known, by_sizes
from pastedown.cutting.slicing import Layout
from pastedown.cutting.task import Task, read

# Of so many sizes all choices are searched. Of more, each alone, each pair of the first so many, and all together; then
# these get no more work in all.
_ALL_CHOICES, _PAIRED = 4, 10
_MOST_SEARCHES = 2**_ALL_CHOICES - 1
# Before any long search, all choices get so much work: often that shows which of them are no use.
_SHORT = 40.0


@frozen
class _Offer:
    """Some of the sizes, by the numbers of their bases in the whole task, and the task without the others; the numbers
    in the whole task of all its bases; what its plans cost at least, and a pack of each of its sizes."""

    sizes: tuple[int, ...]
    task: Task
    numbers: tuple[int, ...]
    floor: int
    packs: int

    def moved(self, one: Layout) -> Layout:
        return Layout(self.numbers[one.base], one.counts, one.tree)


class _Choices:
    """What was found on the choices so far. Costs are in the units of the whole task."""

    def __init__(self, problem: Problem, task: Task) -> None:
        self.task = task
        self.sizes = tuple(bought_sizes(task))
        self.complete = len(self.sizes) <= _ALL_CHOICES
        lengths = range(1, len(self.sizes) + 1) if self.complete else (1, 2, len(self.sizes))
        known: Known = {}
        some = [
            _offer(problem, task, some, known)
            for length in lengths
            for some in combinations(self.sizes if length != 2 else self.sizes[:_PAIRED], length)
        ]
        offers = [offer for offer in some if offer is not None]
        self.bounds = {offer.sizes: self.whole(offer, offer.floor) for offer in offers}
        # Few sizes first, and of these the most promising, so that the others need no long look.
        self.offers = sorted(offers, key=lambda offer: (len(offer.sizes), self.bounds[offer.sizes], offer.sizes))
        self.costs: dict[tuple[int, ...], int] = {}
        self.cost: int | None = None

    def whole(self, offer: _Offer, cost: int) -> int:
        """A cost on the offer's task; of a single size, a number of sheets."""
        if len(offer.sizes) == 1:
            base = self.task.bases[offer.sizes[0]]
            return -(-cost // base.pack) * base.cost
        return ceiling(cost * offer.task.coin / self.task.coin)

    def below(self, offer: _Offer) -> int | None:
        """The least cost on the offer's task that is no less than the best known."""
        if self.cost is None:
            return None
        if len(offer.sizes) == 1:
            base = self.task.bases[offer.sizes[0]]
            return base.pack * ((self.cost - 1) // base.cost) + 1
        return ceiling(self.cost * self.task.coin / offer.task.coin)

    def bound(self, sizes: tuple[int, ...]) -> int:
        """What any plan on no other sizes costs at least."""
        least = self.bounds[sizes]
        if least <= 0 or not (self.complete or len(sizes) == 1):
            return least
        within = [offer for offer in self.offers if set(offer.sizes) <= set(sizes)]
        return max(least, min(max(self.bounds[offer.sizes], offer.packs) for offer in within))

    def worth_a_search(self, offer: _Offer) -> bool:
        fewer = [cost for some, cost in self.costs.items() if set(some) < set(offer.sizes)]
        if fewer and offer.packs >= min(fewer):
            return False
        return self.cost is None or self.bound(offer.sizes) < self.cost

    def learn(self, offer: _Offer, bound: int, cost: int | None) -> None:
        """A bound on the offer's task, and what a plan for all pieces costs in whole."""
        self.bounds[offer.sizes] = max(self.bounds[offer.sizes], self.whole(offer, bound))
        if cost is not None:
            self.costs[offer.sizes] = min(cost, self.costs.get(offer.sizes, cost))
            self.cost = cost if self.cost is None else min(cost, self.cost)


def search_offers(
    problem: Problem, task: Task, work: float, libraries: bool, progress: Progress | None = None
) -> tuple[Found, float]:
    """The best plan found, and how much of the work it left. Each choice of sizes may take so much work."""
    if len(bought_sizes(task)) < 2:
        budget = Budget(work)
        return search(task, budget, libraries, progress), budget.left
    choices = _Choices(problem, task)
    work *= min(1.0, _MOST_SEARCHES / len(choices.offers))
    best: tuple[tuple[int, int], Found, float] | None = None
    for allowed, offer in product(sorted({min(work, _SHORT), work}), choices.offers):
        if not choices.worth_a_search(offer):
            continue
        budget = Budget(allowed)
        one = search(offer.task, budget, libraries, progress, offer.floor, choices.below(offer))
        choice = tuple((offer.moved(each), times) for each, times in one.choice)
        cost = cost_of(task, choice)
        choices.learn(offer, one.bound, None if any(one.left) else cost)
        if best is None or (sum(one.left), cost) < best[0]:
            found = Found(choice, 0, one.left, tuple(offer.moved(each) for each in one.layouts))
            best = (sum(one.left), cost), found, work - allowed + budget.left
    assert best is not None
    return evolve(best[1], bound=choices.bound(choices.sizes)), best[2]


def _offer(problem: Problem, task: Task, sizes: tuple[int, ...], known: Known) -> _Offer | None:
    """None where some piece that fits another size fits none of these."""
    sources = {task.bases[number].source for number in sizes}
    kept = [number for number, sheet in enumerate(problem.sheets) if sheet.on_hand is not None or number in sources]
    part, _ = read(Problem(tuple(problem.sheets[number] for number in kept), problem.pieces))
    if sum(kind.demand for kind in part.kinds) != sum(kind.demand for kind in task.kinds):
        return None
    at = {base.source: number for number, base in enumerate(task.bases)}
    numbers = tuple(at[kept[base.source]] for base in part.bases)
    return _Offer(sizes, part, numbers, by_sizes(part, known), sum(task.bases[number].cost for number in sizes))
