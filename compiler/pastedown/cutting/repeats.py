"""Few settings without libraries: one pattern after another that can be cut many times, on the sheets of a plan that is
there already (after the sequential procedures for few patterns of R. W. Haessler, 1975; from memory)."""

from collections.abc import Iterator, Sequence
from math import gcd

from attrs import frozen

from pastedown.cutting.arranged import Arranged
from pastedown.cutting.budget import Budget
from pastedown.cutting.first_plan import fill_one, orders
from pastedown.cutting.pool import Choice, gather_layouts, sheets_of
from pastedown.cutting.slicing import Layout, settings_of
from pastedown.cutting.task import Task

# Waste allowed on a sheet, in shares of what is to be wasted on each of those left: with the least, all are full alike.
_WASTE = (1.0, 1.3, 2.0, 4.0)
# Of the layouts seen, so many that are full enough are looked at for each pattern.
_MOST_SEEN = 40
# Numbers of sheets for which equal sheets are sought.
_PARTS = (1, 2, 3, 4, 6, 9, 14, 20, 30)


@frozen
class _Candidate:
    one: Layout
    times: int
    settings: int
    used: int

    @property
    def worth(self) -> tuple[float, int]:
        """Area of pieces for each setting of the fence, then how often it is cut."""
        return self.used * self.times / self.settings, self.times


def with_repeats(task: Task, best: Choice, seen: Sequence[Layout], budget: Budget) -> Iterator[Choice]:
    """Plans on no more sheets of each base than `best` takes."""
    sheets = sheets_of(task, best)
    arranged = Arranged(task, budget)
    layouts = [one for one, _ in best] + [one for one in seen if sheets[one.base]]
    for waste in _WASTE:
        if budget.over:
            return
        choice = _one_after_another(task, sheets, layouts, waste, arranged, budget)
        if choice is not None:
            yield choice


def _one_after_another(
    task: Task, sheets: Sequence[int], layouts: Sequence[Layout], waste: float, arranged: Arranged, budget: Budget
) -> Choice | None:
    """None where the sheets do not last, or the budget does not."""
    left, sheets = [kind.demand for kind in task.kinds], list(sheets)
    chosen: list[tuple[Layout, int]] = []
    while any(left):
        room = sum(count * base.area for count, base in zip(sheets, task.bases, strict=True))
        spare = room - sum(kind.area * count for kind, count in zip(task.kinds, left, strict=True))
        if spare < 0 or budget.over:
            return None
        allowed = waste * spare / room
        found = [
            _candidate(task, arranged(one), times, used)
            for one, times, used in _full_enough(task, sheets, left, layouts, allowed, budget)
        ]
        if not found:
            return None
        best = max(found, key=lambda each: each.worth)
        chosen.append((best.one, best.times))
        sheets[best.one.base] -= best.times
        for kind, count in best.one.counts:
            left[kind] -= count * best.times
    return gather_layouts(chosen)


def _candidate(task: Task, one: Layout, times: int, used: int) -> _Candidate:
    base = task.bases[one.base]
    return _Candidate(one, times, max(1, settings_of(one.tree, base.width, base.height, task.kinds)), used)


def _full_enough(
    task: Task, sheets: Sequence[int], left: Sequence[int], layouts: Sequence[Layout], allowed: float, budget: Budget
) -> Iterator[tuple[Layout, int, int]]:
    """Layouts of pieces that are left, of which no more than the share `allowed` of the sheet is wasted, or which hold
    all that is left; how often each can be cut; and the area used."""
    known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
    seen = 0
    total = sum(kind.area * count for kind, count in zip(task.kinds, left, strict=True))
    for one in (*_anew(task, sheets, left, budget), *layouts):
        times = sheets[one.base]
        for kind, count in one.counts:
            if left[kind] < count * times:
                times = left[kind] // count
                if not times:
                    break
        if times == 0 or (one.base, one.counts) in known:
            continue
        if seen >= _MOST_SEEN:
            return
        used = sum(task.kinds[kind].area * count for kind, count in one.counts)
        area = task.bases[one.base].area
        if area - used <= allowed * area or used * times == total:
            known.add((one.base, one.counts))
            seen += 1
            yield one, times, used


def _anew(task: Task, sheets: Sequence[int], left: Sequence[int], budget: Budget) -> Iterator[Layout]:
    """Sheets filled with an equal share of all that is left, for all sheets, half of them, and so on down to one; and
    for as many as there are kits, where all counts are so many times those of one."""
    kits = gcd(*left)
    for base, count in enumerate(sheets):
        for times in dict.fromkeys(((kits,) if 1 < kits <= count else ()) + tuple(count // part for part in _PARTS)):
            share = [number // times for number in left] if times else []
            if not any(share) or budget.over:
                continue
            for order in orders(task):
                one = fill_one(task, base, share, order, budget)
                if one is not None:
                    yield one
