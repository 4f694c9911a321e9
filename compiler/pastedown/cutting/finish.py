"""The last stages: among plans that cost the same, few settings of the fence, and then a large offcut in one piece."""

from pastedown.cutting.budget import Budget
from pastedown.cutting.large_offcut import with_large_offcut
from pastedown.cutting.pool import Choice, cost_of, gather_layouts, settings_in
from pastedown.cutting.search import Found
from pastedown.cutting.slicing import Layout, fewest
from pastedown.cutting.stacks import with_fewer_settings
from pastedown.cutting.task import Task
from pastedown.cutting.whole import trimmed

# With more patterns than this, each is cut about once, and there is little to save.
_MOST_PATTERNS = 60


def tidied(task: Task, choice: Choice) -> Choice:
    """The choice without pieces too many, every layout arranged for few settings."""
    kept = []
    for one, times in trimmed(task, choice):
        base = task.bases[one.base]
        arranged = Layout(one.base, one.counts, fewest(one.tree, base.width, base.height, task.kinds))
        kept.append((with_fewer_settings(arranged, base, task.kinds), times))
    return gather_layouts(kept)


def finish(task: Task, found: Found, budget: Budget, libraries: bool) -> Choice:
    """The plan as it is told: patterns that are cut most often first."""
    best = tidied(task, found.choice)
    if libraries and 1 < len(best) <= _MOST_PATTERNS and not any(found.left):
        from pastedown.cutting.few_settings import with_few_settings

        for other in with_few_settings(task, found, best, budget):
            other = tidied(task, other)
            if cost_of(task, other) <= cost_of(task, best) and settings_in(task, other) < settings_in(task, best):
                best = other
    best = with_large_offcut(task, best, budget)
    return tuple(sorted(best, key=lambda each: (task.bases[each[0].base].limit is None, -each[1], each[0].counts)))
