"""The layouts seen so far, one for each base and set of pieces, and choices among them."""

from collections.abc import Iterable, Iterator, Sequence

from pastedown.cutting.slicing import Layout, Tree, layout, settings_of
from pastedown.cutting.task import Task

# A plan on its way: layouts, each with how often it is cut.
Choice = tuple[tuple[Layout, int], ...]


class Pool:
    """Layouts in the order in which they were first seen."""

    def __init__(self) -> None:
        self._seen: dict[tuple[int, tuple[tuple[int, int], ...]], Layout] = {}

    def __iter__(self) -> Iterator[Layout]:
        return iter(self._seen.values())

    def __len__(self) -> int:
        return len(self._seen)

    def add(self, base: int, tree: Tree) -> bool:
        """Whether the layout is new."""
        one = layout(base, tree)
        if (base, one.counts) in self._seen:
            return False
        self._seen[(base, one.counts)] = one
        return True

    def add_all(self, choice: Iterable[tuple[Layout, int]]) -> None:
        for one, _ in choice:
            self._seen.setdefault((one.base, one.counts), one)


def gather(boards: Iterable[tuple[int, Tree]]) -> Choice:
    """Equal layouts counted together, in the order in which they come first."""
    counted: dict[tuple[int, tuple[tuple[int, int], ...]], tuple[Layout, int]] = {}
    for base, tree in boards:
        one = layout(base, tree)
        first, times = counted.get((base, one.counts), (one, 0))
        counted[(base, one.counts)] = (first, times + 1)
    return tuple(counted.values())


def sheets_of(task: Task, choice: Choice) -> list[int]:
    """How many sheets of each base are cut."""
    used = [0] * len(task.bases)
    for one, times in choice:
        used[one.base] += times
    return used


def cost_of(task: Task, choice: Choice) -> int:
    """In the task's whole units, packs counted whole."""
    return sum(
        -(-used // base.pack) * base.cost for used, base in zip(sheets_of(task, choice), task.bases, strict=True)
    )


def made(task: Task, choice: Choice) -> list[int]:
    """How many pieces of each kind come out."""
    counts = [0] * len(task.kinds)
    for one, times in choice:
        for kind, count in one.counts:
            counts[kind] += count * times
    return counts


def missing(task: Task, choice: Choice) -> list[int]:
    """How many pieces of each kind are still wanted; below nought where there are too many."""
    return [kind.demand - count for kind, count in zip(task.kinds, made(task, choice), strict=True)]


def better(task: Task, one: Choice, other: Choice | None) -> bool:
    """Whether `one` costs less than `other`, or as much on fewer new sheets, or with more cut from what is on hand, or
    on a smaller area in all."""
    return other is None or rank(task, one) < rank(task, other)


def rank(task: Task, choice: Choice) -> tuple[int, int, int, int]:
    """The less the better: cost, new sheets, area of the pieces on them, area of all sheets."""
    used = sheets_of(task, choice)
    new = sum(count for count, base in zip(used, task.bases, strict=True) if base.limit is None)
    on_new = sum(
        task.kinds[kind].area * count * times
        for one, times in choice if task.bases[one.base].limit is None for kind, count in one.counts
    )
    return cost_of(task, choice), new, on_new, sum(
        count * base.area for count, base in zip(used, task.bases, strict=True)
    )


def left_of(task: Task, used: Sequence[int]) -> list[int | None]:
    """How many sheets of each base are left, once so many are used; None where any number may be bought."""
    return [
        None if base.limit is None else base.limit - count for base, count in zip(task.bases, used, strict=True)
    ]


def gather_layouts(choice: Iterable[tuple[Layout, int]]) -> Choice:
    """Layouts of the same pieces on the same base counted together; the first arrangement stands for all."""
    merged: dict[tuple[int, tuple[tuple[int, int], ...]], tuple[Layout, int]] = {}
    for one, times in choice:
        first, before = merged.get((one.base, one.counts), (one, 0))
        merged[(one.base, one.counts)] = (first, before + times)
    return tuple(merged.values())


def settings_in(task: Task, choice: Choice) -> int:
    """How often the fence is set for all patterns, each once."""
    return sum(
        settings_of(one.tree, task.bases[one.base].width, task.bases[one.base].height, task.kinds) for one, _ in choice
    )
