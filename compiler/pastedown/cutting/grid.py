"""The most valuable way to cut a sheet, if each kind of piece had a value: a dynamic programme over any number of
stages.

The value of a block is that of the best piece that lies in it, or of the best way to cut it in two, along either axis
(Gilmore and Gomory's recursion over the points at which cutting can help at all). Values are whole numbers, so that
sums are exact. How often a kind is wanted is not looked at: the value is a bound for patterns that keep to it, too.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from pastedown.cutting.points import floors, reduced, sums
from pastedown.cutting.task import Base, Kind

# A block of so many cells and more is closed one column after another, smaller ones by doubling: measured.
_WIDE_BLOCK = 700

Table = Any


class Grid:
    """The points of a task's sheets, and the tables of values over them. `exact` says that no point was left out.
    `work` is what one table costs, in thousandths of a second."""

    def __init__(self, kinds: Sequence[Kind], bases: Sequence[Base], most: int) -> None:
        self.kinds = kinds
        width, height = max(base.width for base in bases), max(base.height for base in bases)
        # A kind is of use only where some sheet can hold it; wide ones may fit one sheet and tall ones another.
        ways = [(w, h, 2 * n + t) for n, kind in enumerate(kinds) for w, h, t in kind.ways()]
        self.ways = [(w, h, leaf) for w, h, leaf in ways if any(w <= b.width and h <= b.height for b in bases)]
        many = max(width, height)
        xs, all_x = sums([(w, many) for w, _, _ in self.ways], width, most)
        ys, all_y = sums([(h, many) for _, h, _ in self.ways], height, most)
        self.exact = all_x and all_y
        if all(base.width == width for base in bases):
            xs = reduced(xs, width)
        if all(base.height == height for base in bases):
            ys = reduced(ys, height)
        self.xs, self.ys = xs, ys
        self.floors_x, self.floors_y = floors(xs), floors(ys)
        self.rest_x = [np.array(rests, dtype=np.intp) for rests in self.floors_x]
        self.rest_y = [np.array(rests, dtype=np.intp) for rests in self.floors_y]
        deep = 1 + max(len(rests) for rests in self.floors_y)
        first = [[j if j <= len(r) else 0 for j in range(deep)] for r in self.floors_y]
        second = [[k] + [r[j] if j < len(r) else k for j in range(deep - 1)] for k, r in enumerate(self.floors_y)]
        # Turned, so that the largest is sought along the first axis.
        self.first = np.array(first, dtype=np.intp).T.copy()
        self.second = np.array(second, dtype=np.intp).T.copy()
        self.cells = [
            (int(np.searchsorted(xs, w)), int(np.searchsorted(ys, h)), leaf) for w, h, leaf in self.ways
        ]
        # Reduced points need not hold a length that fits only by itself; the next one up then stands for it.
        self.cells = [cell for cell in self.cells if cell[0] < len(xs) and cell[1] < len(ys)]
        self.ends = [
            (int(np.searchsorted(xs, b.width, "right")) - 1, int(np.searchsorted(ys, b.height, "right")) - 1)
            for b in bases
        ]
        self.blocks = self._blocks()
        self.work = self._work()

    def _blocks(self) -> list[tuple[int, int]]:
        """Runs of rows, first and past the last, that do not depend on one another: those less than the narrowest strip
        apart."""
        xs, blocks, start = self.xs, [], 1
        while start < len(xs):
            stop = start + 1
            while stop < len(xs) and xs[stop] < xs[start] + xs[1]:
                stop += 1
            blocks.append((start, stop))
            start = stop
        return blocks

    def _work(self) -> float:
        """Measured: sums of two parts, steps of the programme, and what the doublings of small blocks take."""
        columns = len(self.ys)
        up = sum(len(rests) for rests in self.rest_y)
        sums = columns * sum(len(rests) for rests in self.rest_x)
        work = 0.3 + sums / 1_000_000
        for start, stop in self.blocks:
            if (stop - start) * columns >= _WIDE_BLOCK:
                work += columns / 250 + (stop - start) * up / 1_000_000
            else:
                work += 0.02 + (stop - start) * self.first.size / 170_000
        return work

    def single(self, values: Sequence[int], dtype: Any) -> tuple[Table, Table]:
        """Of each block the value of the best single piece in it, and the leaf of it."""
        best = np.zeros((len(self.xs), len(self.ys)), dtype=dtype)
        which = np.full(best.shape, -1, dtype=np.int32)
        for i, k, leaf in self.cells:
            value = values[leaf >> 1]
            block = best[i:, k:]
            better = block < value
            block[better] = value
            which[i:, k:][better] = leaf
        return best, which

    def table(self, single: Table) -> Table:
        """The value of every block, by index of its width and height."""
        values = single.copy()
        for start, stop in self.blocks:
            for i in range(start, stop):
                here = values[i]
                np.maximum(here, values[i - 1], out=here)
                rests = self.rest_x[i]
                if len(rests):
                    halves = values.take(rests, axis=0)
                    halves += values[1 : len(rests) + 1]
                    np.maximum(here, np.maximum.reduce(halves), out=here)
            values[start:stop] = self._closed(values[start:stop])
        return values

    def _closed(self, block: Table) -> Table:
        """The rows with their blocks cut across in any number of strips."""
        if block.size >= _WIDE_BLOCK:
            columns = np.ascontiguousarray(block.T)
            for k, rests in enumerate(self.rest_y):
                if k:
                    np.maximum(columns[k], columns[k - 1], out=columns[k])
                if len(rests):
                    halves = columns.take(rests, axis=0)
                    halves += columns[1 : len(rests) + 1]
                    np.maximum(columns[k], np.maximum.reduce(halves), out=columns[k])
            return columns.T
        np.maximum.accumulate(block, axis=1, out=block)
        while True:
            doubled = np.maximum.reduce(block.take(self.first, axis=1) + block.take(self.second, axis=1), axis=1)
            np.maximum.accumulate(doubled, axis=1, out=doubled)
            if np.array_equal(doubled, block):
                return doubled
            block = doubled
