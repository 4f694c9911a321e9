"""The last stages: among plans that cost the same, few settings of the fence, and then a large offcut in one piece."""

from collections.abc import Iterator

from pastedown.cutting.arranged import arranged
from pastedown.cutting.budget import Budget
from pastedown.cutting.large_offcut import with_large_offcut
from pastedown.cutting.on_hand import apart, with_all_on_hand
from pastedown.cutting.pool import Choice, cost_of, gather_layouts, settings_in
from pastedown.cutting.repeats import with_repeats
from pastedown.cutting.search import Found
from pastedown.cutting.task import Task
from pastedown.cutting.whole import trimmed

# With more patterns than this, each is cut about once, and there is little to save.
_MOST_PATTERNS = 60


def tidied(task: Task, choice: Choice) -> Choice:
    """The choice without pieces too many, every layout arranged for few settings."""
    return gather_layouts([(arranged(task, one), times) for one, times in trimmed(task, choice)])


def finish(task: Task, found: Found, budget: Budget, libraries: bool) -> Choice:
    """The plan as it is told: what is on hand first, then patterns that are cut most often."""
    best = tidied(task, found.choice)
    if not any(found.left):
        best = tidied(task, with_all_on_hand(task, best, budget.share(0.2)))
        there, others, bought = apart(task, best)
        best = (*there, *_with_few_settings(others, found, bought, budget, libraries))
    best = with_large_offcut(task, best, budget)
    return tuple(sorted(best, key=lambda each: (task.bases[each[0].base].limit is None, -each[1], each[0].counts)))


def _with_few_settings(task: Task, found: Found, best: Choice, budget: Budget, libraries: bool) -> Choice:
    if not 1 < len(best) <= _MOST_PATTERNS:
        return best
    for other in _rearranged(task, found, best, budget, libraries):
        other = tidied(task, other)
        if cost_of(task, other) <= cost_of(task, best) and settings_in(task, other) < settings_in(task, best):
            best = other
    return best


def _rearranged(task: Task, found: Found, best: Choice, budget: Budget, libraries: bool) -> Iterator[Choice]:
    own = budget.share(0.3 if libraries else 0.8)
    before = own.left
    yield from with_repeats(task, best, found.layouts, own)
    budget.spend(before - own.left)
    if libraries:
        from pastedown.cutting.few_settings import with_few_settings

        yield from with_few_settings(task, found, best, budget)
