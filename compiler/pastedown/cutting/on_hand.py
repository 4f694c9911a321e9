"""What is on hand is cut first: pieces go over to it from sheets that are bought, also where that saves no sheet."""

from collections.abc import Iterator

from attrs import evolve

from pastedown.cutting.budget import Budget
from pastedown.cutting.first_plan import fill_one, orders
from pastedown.cutting.pool import Choice, better, gather_layouts, left_of, made, sheets_of
from pastedown.cutting.slicing import Layout, without
from pastedown.cutting.task import Task

# So many sheets on hand are filled anew at most; each takes a pass over the whole plan.
_MOST_SHEETS = 40


def with_all_on_hand(task: Task, choice: Choice, budget: Budget) -> Choice:
    """The choice with what is on hand and lies idle filled from the sheets bought that hold least, large ones first."""
    idle = left_of(task, sheets_of(task, choice))
    bases = sorted(range(len(idle)), key=lambda base: (-task.bases[base].area, base))
    waiting = [base for base in bases for _ in range(min(idle[base] or 0, _MOST_SHEETS))]
    for base in waiting[:_MOST_SHEETS]:
        if budget.over:
            break
        filled = _filled(task, base, choice, budget)
        if filled is not None:
            other = gather_layouts((*_without(task, choice, dict(filled.counts)), (filled, 1)))
            if better(task, other, choice):
                choice = other
    return choice


def apart(task: Task, choice: Choice) -> tuple[Choice, Task, Choice]:
    """What is cut from sheets on hand; the task of all other pieces, with nothing on hand; how these are cut."""
    there = tuple(each for each in choice if task.bases[each[0].base].limit is not None)
    bought = tuple(each for each in choice if task.bases[each[0].base].limit is None)
    cut = made(task, there)
    kinds = tuple(evolve(kind, demand=kind.demand - count) for kind, count in zip(task.kinds, cut, strict=True))
    bases = tuple(base if base.limit is None else evolve(base, limit=0) for base in task.bases)
    return there, evolve(task, kinds=kinds, bases=bases), bought


def _filled(task: Task, base: int, choice: Choice, budget: Budget) -> Layout | None:
    """A sheet of the base with as much area as a few tries find, of pieces that are cut from sheets bought."""
    bought = made(task, tuple(each for each in choice if task.bases[each[0].base].limit is None))
    tried = [fill_one(task, base, bought, order, budget) for order in orders(task)]
    layouts = [one for one in tried if one is not None]
    return max(layouts, key=lambda one: sum(task.kinds[kind].area * count for kind, count in one.counts), default=None)


def _without(task: Task, choice: Choice, pieces: dict[int, int]) -> Iterator[tuple[Layout, int]]:
    """The choice with so many pieces fewer on what is bought, sheet by sheet, the patterns cut least often first, then
    those that hold least: so that a sheet may come to hold nothing."""

    def fullness(each: tuple[Layout, int]) -> tuple[int, int]:
        one, times = each
        return times, sum(task.kinds[kind].area * count for kind, count in one.counts)

    for one, times in sorted(choice, key=fullness):
        while times and task.bases[one.base].limit is None:
            lose = {kind: min(count, pieces.get(kind, 0)) for kind, count in one.counts}
            if not any(lose.values()):
                break
            times -= 1
            for kind, count in lose.items():
                pieces[kind] = pieces.get(kind, 0) - count
            tree = without(one.tree, lose)
            if tree is not None:
                counts = tuple((kind, count - lose[kind]) for kind, count in one.counts if count > lose[kind])
                yield Layout(one.base, counts, tree), 1
        if times:
            yield one, times
