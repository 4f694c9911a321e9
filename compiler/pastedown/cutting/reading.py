"""Layouts read off a table of values: how a block is cut to be worth what it is."""

from collections.abc import Sequence

from pastedown.cutting.grid import Grid, Table
from pastedown.cutting.rooms import MOST_DEPTH
from pastedown.cutting.slicing import Tree, row


class Reading:
    """One table of a grid, with every block's tree worked out once. Its values are taken out of numpy's table first:
    one by one they are read much faster from lists."""

    def __init__(self, grid: Grid, values: Table, which: Table, single: Table) -> None:
        self.grid = grid
        self.values: list[list[int]] = values.tolist()
        self.which, self.single = which, single
        self._known: dict[tuple[int, int], Tree | None] = {}

    def tree(self, i: int, k: int, depth: int = 0) -> Tree | None:
        """How the block of that index is cut to be worth what it is; None where it is worth nothing."""
        values = self.values
        value = values[i][k]
        if value <= 0 or depth > MOST_DEPTH:
            return None
        while i and values[i - 1][k] == value:
            i -= 1
        line = values[i]
        while k and line[k - 1] == value:
            k -= 1
        key = i, k
        if key not in self._known:
            self._known[key] = int(self.which[key]) if self.single[key] == value else self._cut(i, k, value, depth)
        return self._known[key]

    def _cut(self, i: int, k: int, value: int, depth: int) -> Tree | None:
        # The cut nearest the middle, so that trees stay shallow.
        values = self.values
        rests = self.grid.floors_x[i]
        for at in range(len(rests), 0, -1):
            if values[at][k] + values[rests[at - 1]][k] == value:
                return self._joined(0, (at, k), (rests[at - 1], k), depth)
        rests, line = self.grid.floors_y[k], values[i]
        for at in range(len(rests), 0, -1):
            if line[at] + line[rests[at - 1]] == value:
                return self._joined(1, (i, at), (i, rests[at - 1]), depth)
        return None

    def _joined(self, axis: int, one: tuple[int, int], other: tuple[int, int], depth: int = 0) -> Tree | None:
        first, second = self.tree(*one, depth + 1), self.tree(*other, depth + 1)
        if first is None:
            return second
        return first if second is None else row(axis, (first, second))

    def trees(self, base: int, most: int) -> Sequence[Tree]:
        """Up to `most` ways to cut a base, the best first, then those that differ from it in the first cut."""
        i, k = self.grid.ends[base]
        values = self.values
        best = self.tree(i, k)
        found: dict[Tree, None] = {} if best is None else {best: None}
        line = values[i]
        tries = [(-values[at][k] - values[rest][k], 0, at, rest) for at, rest in enumerate(self.grid.floors_x[i], 1)]
        tries += [(-line[at] - line[rest], 1, at, rest) for at, rest in enumerate(self.grid.floors_y[k], 1)]
        for _, axis, at, rest in sorted(tries)[: most - 1]:
            tree = self._joined(0, (at, k), (rest, k)) if axis == 0 else self._joined(1, (i, at), (i, rest))
            if tree is not None:
                found.setdefault(tree)
        return list(found)
