"""Orders of work that bite their own tail, told to the maker."""

from collections.abc import Sequence

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.plan.needs import Force, Link
from pastedown.plan.rings import shortest_ring
from pastedown.plan.task import Task

# A ring of more tasks than this is cut short in the sentence, and of more orders than this in the labels.
_TOLD = 8


def order_rings(tasks: Sequence[Task], links: Sequence[Link], ring_of: Sequence[int]) -> tuple[Diagnostic, ...]:
    """One error for each ring; `ring_of` has a number for each task and milestone, the same one within a ring."""
    within: dict[int, list[Link]] = {}
    for link in links:
        if ring_of[link.first] == ring_of[link.then]:
            within.setdefault(ring_of[link.first], []).append(link)
    # Every ring holds an order that was written: work on pieces, joins and closes never leads back on itself.
    rings = [_shortest_with_an_order(ring, len(ring_of)) for ring in within.values()]
    return tuple(_tell(tasks, *ring) for ring in sorted(rings, key=lambda ring: min(ring[0])))


def _shortest_with_an_order(links: list[Link], count: int) -> tuple[list[int], list[Link]]:
    """The things on the ring in order, and the links between them; the lowest number with a written order is on it."""
    successors: list[list[int]] = [[] for _ in range(count)]
    by_ends: dict[tuple[int, int], Link] = {}
    for link in links:
        successors[link.first].append(link.then)
        known = by_ends.get((link.first, link.then))
        if known is None or known.force is Force.WRITTEN:
            by_ends[link.first, link.then] = link
    start = min(min(link.first, link.then) for link in links if link.force is Force.WRITTEN)
    ring = shortest_ring(successors, start)
    return ring, [by_ends[ends] for ends in zip(ring, ring[1:] + ring[:1], strict=True)]


def _tell(tasks: Sequence[Task], ring: list[int], links: list[Link]) -> Diagnostic:
    written = [link for link in links if link.force is Force.WRITTEN]
    names = [_name(tasks[number]) for number in ring if number < len(tasks)]
    labels = [Label(link.span, link.words) for link in written if link.span is not None]
    orders = "; ".join(link.words for link in written[:_TOLD])
    return error(
        "order-ring",
        labels[0].span if labels else None,
        f"The order of work runs in a ring: {_waits(names)}.",
        reason="Each of these would have to be done before the other, so the work could never begin.",
        way_out=f"Take away or change one of these orders: {orders}.",
        labels=labels[:_TOLD],
    )


def _waits(names: list[str]) -> str:
    if len(names) == 1:
        return f"{names[0]} waits for itself"
    told = [f"{then} waits for {first}" for first, then in zip(names, names[1:] + names[:1], strict=True)]
    return ", ".join(told) if len(told) <= _TOLD else ", ".join(told[:_TOLD]) + " and so on"


def _name(task: Task) -> str:
    return {"cut": "cutting ", "score": "scoring ", "fold": "folding "}.get(task.kind, "") + task.path
