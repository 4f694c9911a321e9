"""Rings in a graph of numbered things: found without recursion, so that no chain is too long.

The method is Tarjan's for strongly connected components: R. Tarjan, "Depth-first search and linear graph algorithms",
SIAM Journal on Computing 1 (1972), pages 146-160.
"""

from collections import deque
from collections.abc import Sequence

Successors = Sequence[Sequence[int]]


def ring_numbers(successors: Successors) -> list[int]:
    """A number for each thing; two things have the same one just when each leads to the other."""
    search = _Search(successors)
    for start in range(len(successors)):
        if search.order[start] < 0:
            search.visit(start)
    return search.component


class _Search:
    """The state of one search: when each thing was first seen, the oldest one it leads back to, and its component."""

    def __init__(self, successors: Successors) -> None:
        self.successors = successors
        self.order = [-1] * len(successors)
        self.lowest = [-1] * len(successors)
        self.component = [-1] * len(successors)
        self._open: list[int] = []
        self._seen = 0
        self._components = 0

    def visit(self, start: int) -> None:
        self._enter(start)
        path = [(start, iter(self.successors[start]))]
        while path:
            thing, remaining = path[-1]
            following = next(remaining, None)
            if following is None:
                path.pop()
                self._leave(thing)
                if path:
                    self._lower(path[-1][0], self.lowest[thing])
            elif self.order[following] < 0:
                self._enter(following)
                path.append((following, iter(self.successors[following])))
            elif self.component[following] < 0:
                self._lower(thing, self.order[following])

    def _enter(self, thing: int) -> None:
        self.order[thing] = self.lowest[thing] = self._seen
        self._seen += 1
        self._open.append(thing)

    def _lower(self, thing: int, order: int) -> None:
        self.lowest[thing] = min(self.lowest[thing], order)

    def _leave(self, thing: int) -> None:
        if self.lowest[thing] < self.order[thing]:
            return
        while True:
            member = self._open.pop()
            self.component[member] = self._components
            if member == thing:
                break
        self._components += 1


def shortest_ring(successors: Successors, start: int) -> list[int]:
    """The things on the shortest way from `start` back to itself, `start` first; empty if there is no such way."""
    came_from: dict[int, int] = {}
    waiting = deque([start])
    while waiting:
        thing = waiting.popleft()
        for following in successors[thing]:
            if following == start:
                return _walk_back(came_from, thing, start)
            if following not in came_from:
                came_from[following] = thing
                waiting.append(following)
    return []


def _walk_back(came_from: dict[int, int], thing: int, start: int) -> list[int]:
    ring = [thing]
    while ring[-1] != start:
        ring.append(came_from[ring[-1]])
    return ring[::-1]
