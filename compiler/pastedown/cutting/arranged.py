"""Layouts arranged for few settings of the fence."""

from pastedown.cutting.budget import Budget
from pastedown.cutting.slicing import Layout, Tree, fewest
from pastedown.cutting.stacks import with_fewer_settings
from pastedown.cutting.task import Task

# Work of arranging a layout, for each piece in it: measured.
_ARRANGING = 0.04


def arranged(task: Task, one: Layout) -> Layout:
    """The same pieces, cut with as few settings as a few tries find."""
    base = task.bases[one.base]
    tree = fewest(one.tree, base.width, base.height, task.kinds)
    return with_fewer_settings(Layout(one.base, one.counts, tree), base, task.kinds)


class Arranged:
    """Layouts with their trees arranged for few settings, each worked out once."""

    def __init__(self, task: Task, budget: Budget) -> None:
        self.task, self.budget = task, budget
        self.known: dict[tuple[int, Tree], Layout] = {}

    def __call__(self, one: Layout) -> Layout:
        key = one.base, one.tree
        if key not in self.known:
            self.known[key] = arranged(self.task, one)
            self.budget.spend(_ARRANGING * sum(count for _, count in one.counts))
        return self.known[key]
