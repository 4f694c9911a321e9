"""Few settings: among layouts seen, those whose patterns together set the fence least often, on the sheets of the
best plan."""

from collections.abc import Iterable, Iterator

from pastedown.cutting.arranged import Arranged
from pastedown.cutting.budget import Budget
from pastedown.cutting.dice import Dice
from pastedown.cutting.first_plan import fill_one
from pastedown.cutting.linear import choose_few
from pastedown.cutting.pool import Choice, gather_layouts, sheets_of
from pastedown.cutting.search import Found
from pastedown.cutting.slicing import Layout, layout, settings_of, without
from pastedown.cutting.task import Task
from pastedown.cutting.whole import trimmed

# More layouts than this are not chosen among: those with few settings for the area they fill are kept.
_MOST_LAYOUTS = 160
# Of the layouts seen, so many that fill their sheet best are arranged for few settings, which is most of the work here.
_MOST_ARRANGED = 320
_ORDERS = 100


def with_few_settings(task: Task, found: Found, best: Choice, budget: Budget) -> Iterator[Choice]:
    """Plans on the same sheets that may need fewer settings. The first may have pieces too many, which then make
    patterns of their own; the others come out exactly, from the layouts of those before and what is left of these
    without a piece."""
    used = sheets_of(task, best)
    more = tuple(_more_layouts(task, budget))
    starts = best
    arranged = Arranged(task, budget)
    for exact, seen in ((False, found.layouts), (True, found.layouts), (True, (*more, *found.layouts))):
        if budget.over:
            return
        layouts = _candidates(task, seen, starts, exact, arranged)
        settings = [
            settings_of(one.tree, task.bases[one.base].width, task.bases[one.base].height, task.kinds)
            for one in layouts
        ]
        own = budget.share(0.5)
        before = own.left
        answer = choose_few(task, layouts, settings, used, exact, own)
        budget.spend(before - own.left + 5)
        if answer is not None:
            chosen = tuple((layouts[at], times) for at, times in answer.items())
            yield chosen
            starts = gather_layouts((*best, *trimmed(task, chosen)))


def _more_layouts(task: Task, budget: Budget) -> Iterator[Layout]:
    """Sheets filled kind after kind in many orders: a search for the fewest sheets alone sees few layouts."""
    dice = Dice(5)
    demands = [kind.demand for kind in task.kinds]
    enough = budget.left * 0.7
    for base, each in enumerate(task.bases):
        if each.limit is not None:
            continue
        for _ in range(_ORDERS):
            if budget.left < enough:
                return
            order = list(range(len(demands)))
            for at in range(len(order) - 1, 0, -1):
                other = dice.below(at + 1)
                order[at], order[other] = order[other], order[at]
            one = fill_one(task, base, demands, order, budget)
            if one is not None:
                yield one


def _candidates(
    task: Task, seen: Iterable[Layout], starts: Choice, exact: bool, arranged: Arranged
) -> list[Layout]:
    """The layouts of `starts`, those without one piece of a kind or without all of it where the plan is to come out
    exactly, and of the others those with few settings for what they fill."""
    layouts: dict[tuple[int, tuple[tuple[int, int], ...]], Layout] = {(one.base, one.counts): one for one, _ in starts}
    if exact:
        for one, _ in starts:
            for kind, count in one.counts:
                for lose in {1, count}:
                    tree = without(one.tree, {kind: lose})
                    if tree is not None:
                        less = layout(one.base, tree)
                        if (less.base, less.counts) not in layouts:
                            layouts[less.base, less.counts] = arranged(less)
    filled: list[tuple[float, int, Layout]] = []
    for number, one in enumerate(seen):
        if not any(task.kinds[kind].demand < count for kind, count in one.counts):
            area = sum(task.kinds[kind].area * count for kind, count in one.counts)
            filled.append((-area / task.bases[one.base].area, number, one))
    ranked: list[tuple[float, int, Layout]] = []
    for empty, number, one in sorted(filled, key=lambda each: each[:2])[:_MOST_ARRANGED]:
        one = arranged(one)
        base = task.bases[one.base]
        ranked.append((empty + 0.02 * settings_of(one.tree, base.width, base.height, task.kinds), number, one))
    for _, _, one in sorted(ranked, key=lambda each: each[:2]):
        if len(layouts) >= _MOST_LAYOUTS:
            break
        layouts.setdefault((one.base, one.counts), one)
    return list(layouts.values())
