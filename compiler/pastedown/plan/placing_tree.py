"""Which joins hold two pieces in place against each other."""

from collections import deque
from collections.abc import Mapping

from attrs import frozen

from pastedown.geometry.model import Join


@frozen
class PlacingTree:
    """Each piece that a join places, with the piece it hangs on, the number of that join, and how far down it hangs."""

    _hangs_on: Mapping[str, tuple[str, int]]
    _depth: Mapping[str, int]

    def joins_between(self, one: str, other: str) -> tuple[int, ...]:
        """Numbers of the joins on the way from one piece to the other; none if nothing ties them together."""
        found: list[int] = []
        while one != other:
            if self._depth.get(one, 0) < self._depth.get(other, 0):
                one, other = other, one
            if one not in self._hangs_on:
                return ()
            one, join = self._hangs_on[one]
            found.append(join)
        return tuple(sorted(found))


def placing_tree(joins: Mapping[int, Join]) -> PlacingTree:
    """The tree of joins, by the number of each. The first pair of faces is what places; closes place nothing."""
    neighbours: dict[str, list[tuple[str, int]]] = {}
    for number, join in sorted(joins.items()):
        if not join.closes:
            what, to = join.what.faces[0][0], join.to.faces[0][0]
            neighbours.setdefault(what, []).append((to, number))
            neighbours.setdefault(to, []).append((what, number))
    hangs_on: dict[str, tuple[str, int]] = {}
    depth: dict[str, int] = {}
    for root in sorted(neighbours):
        if root not in depth:
            depth[root] = 0
            _hang(root, neighbours, hangs_on, depth)
    return PlacingTree(hangs_on, depth)


def _hang(
    root: str, neighbours: dict[str, list[tuple[str, int]]], hangs_on: dict[str, tuple[str, int]], depth: dict[str, int]
) -> None:
    waiting = deque([root])
    while waiting:
        piece = waiting.popleft()
        for neighbour, join in neighbours[piece]:
            if neighbour not in depth:
                depth[neighbour] = depth[piece] + 1
                hangs_on[neighbour] = (piece, join)
                waiting.append(neighbour)
