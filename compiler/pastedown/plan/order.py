"""The order of work.

Takes the tasks and what the model says about their order, gives batches of like tasks one after another. Afterwards
every need is met by what stands before it, and nothing hangs on the order in which anything was written.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from attrs import evolve

from pastedown.diagnostic import Diagnostic
from pastedown.geometry.model import Model
from pastedown.plan.batches import Work, in_stretches, ordered_batches
from pastedown.plan.needs import Force, Link, needs
from pastedown.plan.order_rings import order_rings
from pastedown.plan.rings import ring_numbers
from pastedown.plan.task import Rank, Task

Batch = tuple[Task, ...]


def in_order_of_work(model: Model, tasks: Iterable[Task]) -> tuple[tuple[Batch, ...], tuple[Diagnostic, ...]]:
    """Batches of like tasks in the order of work. A ring of orders is an error; the orders in it are then left
    aside."""
    numbered = sorted(tasks, key=lambda task: task.rank)
    needed = needs(model, numbered)
    links = _without_force_in_rings(needed.links, needed.count, Force.HABIT)
    ring_of = ring_numbers(_successors(links, needed.count))
    faults = order_rings(numbered, links, ring_of)
    if faults:
        links = _without_force_in_rings(links, needed.count, Force.WRITTEN)
    work = _work(numbered, links, needed.count)
    batches = [batch for batch in ordered_batches(work) if batch[0] < len(numbered)]
    told = _gathered(batches, work, numbered)
    return tuple(tuple(numbered[number] for number in batch) for batch in told), faults


def _gathered(batches: Iterable[Sequence[int]], work: Work, tasks: Sequence[Task]) -> Iterator[Sequence[int]]:
    """The batches, where neighbours under one heading are one, and like work in it is done one after the other."""
    milestones = range(len(tasks), len(work.labels))
    by_work = evolve(work, labels=[*(task.same_work for task in tasks), *milestones])
    for heading, group in groupby(batches, key=lambda batch: tasks[batch[0]].heading):
        if not heading:
            yield from group
            continue
        members = [number for batch in group for number in batch]
        stretches = in_stretches([*members, *milestones], by_work)
        yield [number for stretch in stretches for number in stretch if number < len(tasks)]


def _without_force_in_rings(links: Sequence[Link], count: int, force: Force) -> tuple[Link, ...]:
    ring_of = ring_numbers(_successors(links, count))
    return tuple(link for link in links if link.force is not force or ring_of[link.first] != ring_of[link.then])


def _successors(links: Iterable[Link], count: int) -> list[list[int]]:
    following: list[dict[int, None]] = [{} for _ in range(count)]
    for link in links:
        following[link.first][link.then] = None
    return [list(numbers) for numbers in following]


def _work(tasks: Sequence[Task], links: Sequence[Link], count: int) -> Work:
    milestones = range(len(tasks), count)
    ranks: list[Rank] = [task.rank for task in tasks]
    ranks += [(-1, number, (), "", "") for number in milestones]
    return Work(_successors(links, count), [*(task.batch for task in tasks), *milestones], ranks)
