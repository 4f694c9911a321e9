"""The linear programme over layouts without libraries: the revised simplex method with the inverse of the basis kept.

It serves a few dozen kinds and some hundreds of layouts. Its amounts are rounded afterwards and its values only say
what to look for, so floats will do; they come out alike on every machine, since each step is done in a fixed order.
"""

from collections.abc import Sequence

from pastedown.cutting.budget import Budget
from pastedown.cutting.slicing import Layout

_TINY = 1e-9
# Steps of the inner loops that take about a thousandth of a second.
_STEPS = 8_000


class PlainMaster:
    """Layouts that come to at least the demands, at the least cost. `starts` holds, for each kind in order, a layout
    of that kind alone: with them every demand can be met."""

    def __init__(self, demands: Sequence[int], starts: Sequence[Layout], costs: Sequence[float]) -> None:
        count = len(demands)
        self.columns: list[tuple[float, list[tuple[int, float]]]] = []
        self.layouts: list[Layout] = []
        for one, cost in zip(starts, costs, strict=True):
            self.add(one, cost)
        amounts = [self.columns[row][1][0][1] for row in range(count)]
        # Which column stands in which row of the basis; -1 - row for a piece too many of that kind.
        self.basis = list(range(count))
        self.inverse = [
            [1 / amounts[row] if row == at else 0.0 for at in range(count)] for row in range(count)
        ]
        self.amounts = [demand / amount for demand, amount in zip(demands, amounts, strict=True)]
        self.values = [costs[row] / amounts[row] for row in range(count)]

    def add(self, one: Layout, cost: float) -> None:
        self.layouts.append(one)
        self.columns.append((cost, [(kind, float(count)) for kind, count in one.counts]))

    def gain(self, one: Layout, cost: float) -> float:
        """What one sheet of the layout would save at the present values; below nought where it is too dear."""
        return sum(self.values[kind] * count for kind, count in one.counts) - cost

    def solve(self, budget: Budget) -> None:
        """Goes on until nothing is cheaper or the budget is spent."""
        count = len(self.basis)
        while not budget.over:
            entering, gain = self._entering()
            budget.spend((len(self.columns) * 6 + count * count + 50) / _STEPS)
            if gain <= _TINY * (1 + abs(max(self.values, default=0.0))):
                return
            entries = self.columns[entering][1] if entering >= 0 else [(-1 - entering, -1.0)]
            way = [sum(line[row] * amount for row, amount in entries) for line in self.inverse]
            leaving = self._leaving(way)
            if leaving is None:
                return
            self._exchange(leaving, entering, way, gain)

    def used(self) -> list[float]:
        """How many of each layout, in the order in which they were added."""
        amounts = [0.0] * len(self.layouts)
        for column, amount in zip(self.basis, self.amounts, strict=True):
            if column >= 0:
                amounts[column] = max(0.0, amount)
        return amounts

    def _entering(self) -> tuple[int, float]:
        best, gain = 0, 0.0
        values = self.values
        for number, (cost, entries) in enumerate(self.columns):
            saved = -cost
            for row, amount in entries:
                saved += values[row] * amount
            if saved > gain:
                best, gain = number, saved
        for row, value in enumerate(values):
            if -value > gain:
                best, gain = -1 - row, -value
        return best, gain

    def _leaving(self, way: Sequence[float]) -> int | None:
        best: tuple[float, int] | None = None
        leaving = None
        for row, step in enumerate(way):
            if step > _TINY:
                rank = max(0.0, self.amounts[row]) / step, self.basis[row]
                if best is None or rank < best:
                    best, leaving = rank, row
        return leaving

    def _exchange(self, leaving: int, entering: int, way: Sequence[float], gain: float) -> None:
        pivot = way[leaving]
        line = [each / pivot for each in self.inverse[leaving]]
        amount = max(0.0, self.amounts[leaving]) / pivot
        for row, step in enumerate(way):
            if row != leaving and step:
                self.inverse[row] = [each - step * new for each, new in zip(self.inverse[row], line, strict=True)]
                self.amounts[row] -= step * amount
        self.inverse[leaving], self.amounts[leaving] = line, amount
        self.basis[leaving] = entering
        self.values = [value - gain * new for value, new in zip(self.values, line, strict=True)]
