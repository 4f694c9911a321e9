"""The same work on like parts drawn together into batches, without making a ring.

Takes numbered tasks with a label each and the links between them, which hold no ring; gives batches of equal labels.
Afterwards the batches hold no ring either: where doing all of one label at once would make one, its tasks are spread
over several batches.
"""

from collections.abc import Hashable, Iterable, Sequence
from heapq import heappop, heappush

from attrs import frozen

from pastedown.plan.rings import ring_numbers
from pastedown.plan.task import Rank

Successors = Sequence[Sequence[int]]


@frozen
class Work:
    """Numbered things to do: what each leads to, which label it has, and how early it is taken up when it is ready."""

    successors: Successors
    labels: Sequence[Hashable]
    ranks: Sequence[Rank]


def ordered_batches(work: Work) -> list[list[int]]:
    """Batches in the order of work, each with its members in order: every link leads forwards."""
    batches = _without_rings(work)
    batch_of = _numbers_of_groups(batches, len(work.labels))
    successors = _between_groups(work.successors, batch_of, len(batches))
    ranks = [work.ranks[batch[0]] for batch in batches]
    return [batches[number] for number in _in_order(range(len(batches)), successors, ranks)]


def in_stretches(members: Iterable[int], work: Work) -> list[list[int]]:
    """The members alone, like work together as far as the links between them allow."""
    return _spread(members, work)


def _without_rings(work: Work) -> list[list[int]]:
    groups = _by_label(work.labels)
    group_of = _numbers_of_groups(groups, len(work.labels))
    ring_of = ring_numbers(_between_groups(work.successors, group_of, len(groups)))
    tied: dict[int, list[int]] = {}
    for group, ring in enumerate(ring_of):
        tied.setdefault(ring, []).append(group)
    batches: list[list[int]] = []
    for together in tied.values():
        members = [number for group in together for number in groups[group]]
        batches += _spread(members, work) if len(together) > 1 else [_in_order(members, work.successors, work.ranks)]
    return batches


def _by_label(labels: Sequence[Hashable]) -> list[list[int]]:
    groups: dict[Hashable, list[int]] = {}
    for number, label in enumerate(labels):
        groups.setdefault(label, []).append(number)
    return list(groups.values())


def _numbers_of_groups(groups: Sequence[Sequence[int]], count: int) -> list[int]:
    group_of = [0] * count
    for group, members in enumerate(groups):
        for member in members:
            group_of[member] = group
    return group_of


def _between_groups(successors: Successors, group_of: Sequence[int], count: int) -> list[list[int]]:
    between: list[dict[int, None]] = [{} for _ in range(count)]
    for number, following in enumerate(successors):
        for then in following:
            if group_of[then] != group_of[number]:
                between[group_of[number]][group_of[then]] = None
    return [list(groups) for groups in between]


def _in_order(members: Iterable[int], successors: Successors, ranks: Sequence[Rank]) -> list[int]:
    """The members so that every link between them leads forwards; of those that are ready the least rank comes
    first."""
    one_by_one = Work(successors, range(len(successors)), ranks)
    return [number for batch in _spread(members, one_by_one) for number in batch]


def _spread(members: Iterable[int], work: Work) -> list[list[int]]:
    """Again and again the ready thing of least rank, with every other of its label that is ready or becomes so."""
    waits_for = _counts_of_links_to(members, work.successors)
    ready: list[tuple[Rank, int]] = []
    ready_of: dict[Hashable, list[tuple[Rank, int]]] = {}

    def make_ready(number: int) -> None:
        heappush(ready, (work.ranks[number], number))
        heappush(ready_of.setdefault(work.labels[number], []), (work.ranks[number], number))

    for number, waits in waits_for.items():
        if waits == 0:
            make_ready(number)
    batches: list[list[int]] = []
    while ready:
        batch = []
        alike = ready_of[work.labels[heappop(ready)[1]]]
        while alike:
            batch.append(heappop(alike)[1])
            for then in work.successors[batch[-1]]:
                if then in waits_for:
                    waits_for[then] -= 1
                    if waits_for[then] == 0:
                        make_ready(then)
        if batch:
            batches.append(batch)
    return batches


def _counts_of_links_to(members: Iterable[int], successors: Successors) -> dict[int, int]:
    counts = dict.fromkeys(members, 0)
    for number in counts:
        for then in successors[number]:
            if then in counts:
                counts[then] += 1
    return counts
