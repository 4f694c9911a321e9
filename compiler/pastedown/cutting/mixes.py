"""Several sizes that are bought: plans on some of them alone, and pieces packed onto the cheapest mixes that can hold
them, packs counted whole. What is cheap by the area may be dear where a whole pack is bought for a few pieces."""

from collections.abc import Iterator
from itertools import combinations, product

from attrs import evolve

from pastedown.cutting.budget import Budget
from pastedown.cutting.first_plan import first_plan
from pastedown.cutting.pool import Choice, gather
from pastedown.cutting.repack import LOOKS_A_UNIT, Packing
from pastedown.cutting.task import Task
from pastedown.cutting.whole import singles

# With more sizes, each is tried alone, and all but one.
_ALL_SUBSETS = 4
_MOST_MIXES, _MOST_BOARDS, _MOST_PACKS = 60, 80, 400
_WORK = 8.0


def bought_sizes(task: Task) -> list[int]:
    """The bases that are bought, by number."""
    return [number for number, base in enumerate(task.bases) if base.limit is None]


def on_some_sizes(task: Task, budget: Budget) -> Iterator[Choice]:
    """First plans that use some of the sizes on offer alone."""
    sizes = bought_sizes(task)
    for some in _subsets(sizes):
        if budget.over:
            return
        bases = tuple(
            evolve(base, limit=0) if number in sizes and number not in some else base
            for number, base in enumerate(task.bases)
        )
        choice, left = first_plan(evolve(task, bases=bases), budget)
        if not any(left):
            yield choice


def on_cheap_mixes(task: Task, below: int, least: int, budget: Budget, work: float = _WORK) -> Choice | None:
    """The pieces packed one by one onto a mix of sheets that costs at least `least` and less than `below`; the cheapest
    mixes are tried first, each with so much work."""
    for mix in _mixes(task, below, least, _MOST_BOARDS):
        if budget.over:
            return None
        packing = Packing(task.kinds, task.bases, 11)
        for number, count in enumerate(mix):
            for _ in range(count):
                packing.add_board(number)
        packing.fill_up(singles([kind.demand for kind in task.kinds]), None)
        budget.spend(packing.looks / LOOKS_A_UNIT)
        own = Budget(min(work, budget.left))
        before = own.left
        packed = packing.improve(own)
        budget.spend(before - own.left)
        if packed:
            return gather([(board.base, tree) for board in packing.boards if (tree := board.tree()) is not None])
    return None


def on_cheap_mixes_at_once(task: Task, below: int, least: int, budget: Budget) -> Choice | None:
    """As `on_cheap_mixes`, for more pieces than can be packed one by one: each mix is filled sheet after sheet, and
    every sheet is cut as often as the pieces last."""
    for mix in _mixes(task, below, least, None):
        if budget.over:
            return None
        bases = tuple(evolve(base, limit=count) for base, count in zip(task.bases, mix, strict=True))
        choice, left = first_plan(evolve(task, bases=bases), budget)
        if not any(left):
            return choice
    return None


def _subsets(sizes: list[int]) -> Iterator[tuple[int, ...]]:
    lengths = range(1, len(sizes)) if len(sizes) <= _ALL_SUBSETS else (1, len(sizes) - 1)
    for length in lengths:
        yield from combinations(sizes, length)


def _mixes(task: Task, below: int, least: int, most: int | None) -> list[tuple[int, ...]]:
    """Sheets of each base, `most` in all: whole packs of what is bought, all that is on hand; by cost, then the largest
    area first."""
    packs = [
        range(min(_MOST_PACKS, -(-below // base.cost)) if base.cost else 1) if base.limit is None else (0,)
        for base in task.bases
    ]
    size = 1
    for some in packs:
        size *= len(some)
    if size > _MOST_PACKS * 100:
        return []
    found: list[tuple[int, int, tuple[int, ...]]] = []
    for counts in product(*packs):
        cost = sum(count * base.cost for count, base in zip(counts, task.bases, strict=True))
        if not least <= cost < below:
            continue
        sheets = tuple(
            count * base.pack if base.limit is None else base.limit
            for count, base in zip(counts, task.bases, strict=True)
        )
        area = sum(count * base.area for count, base in zip(sheets, task.bases, strict=True))
        if area >= task.area and (most is None or sum(sheets) <= most):
            found.append((cost, -area, sheets))
    return [sheets for _, _, sheets in sorted(found)[:_MOST_MIXES]]
