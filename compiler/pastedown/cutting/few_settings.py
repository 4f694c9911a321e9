"""Few settings: among layouts seen, those whose patterns together set the fence least often, on the sheets of the best plan."""

from collections.abc import Iterator

from pastedown.cutting.budget import Budget
from pastedown.cutting.linear import choose_few
from pastedown.cutting.pool import Choice, sheets_of
from pastedown.cutting.search import Found
from pastedown.cutting.slicing import Layout, fewest, settings_of
from pastedown.cutting.task import Task

# More layouts than this are not chosen among: those with few settings for the area they fill are kept.
_MOST_LAYOUTS = 160


def with_few_settings(task: Task, found: Found, best: Choice, budget: Budget) -> Iterator[Choice]:
    """Plans on the same sheets that may need fewer settings; they may have pieces too many."""
    layouts = _candidates(task, found, best)
    used = sheets_of(task, best)
    settings = [
        settings_of(one.tree, task.bases[one.base].width, task.bases[one.base].height, task.kinds) for one in layouts
    ]
    answer = choose_few(task, layouts, settings, used, 200, budget)
    if answer is not None:
        yield tuple((layouts[at], times) for at, times in answer.items())


def _candidates(task: Task, found: Found, best: Choice) -> list[Layout]:
    layouts: dict[tuple[int, tuple[tuple[int, int], ...]], Layout] = {(one.base, one.counts): one for one, _ in best}
    ranked: list[tuple[float, int, Layout]] = []
    for number, one in enumerate(found.layouts):
        base = task.bases[one.base]
        if any(task.kinds[kind].demand < count for kind, count in one.counts):
            continue
        tree = fewest(one.tree, base.width, base.height, task.kinds)
        filled = sum(task.kinds[kind].area * count for kind, count in one.counts) / base.area
        settings = settings_of(tree, base.width, base.height, task.kinds)
        ranked.append((-filled + 0.02 * settings, number, Layout(one.base, one.counts, tree)))
    for _, _, one in sorted(ranked, key=lambda each: each[:2]):
        if len(layouts) >= _MOST_LAYOUTS:
            break
        layouts.setdefault((one.base, one.counts), one)
    return list(layouts.values())
