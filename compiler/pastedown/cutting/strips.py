"""The most valuable way to cut a sheet into strips, without libraries: a knapsack along one edge, then along the other.

In two stages a strip holds pieces side by side; in three it holds stacks of pieces (Gilmore and Gomory's stages).
Values are floats: layouts are compared here, nothing is proved.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from pastedown.cutting.budget import Budget
from pastedown.cutting.points import sums
from pastedown.cutting.slicing import Tree, row
from pastedown.cutting.task import Base, Kind

_MOST_POINTS = 300
# Heights of strips that are tried in three stages.
_MOST_STRIPS = 60
# Steps of a knapsack that take about a thousandth of a second.
_STEPS = 5_000


class Knapsack:
    """The best values of lengths up to each point, as items are added. Of an item that is added later, everything
    added before may still be used."""

    def __init__(self, points: Sequence[int]) -> None:
        self.points = points
        self.values = [0.0] * len(points)
        self.items: list[Tree | None] = [None] * len(points)
        self.before = [max(0, at - 1) for at in range(len(points))]

    def add(self, item: Tree, value: float, rests: Sequence[int]) -> None:
        """`rests[at]` is the point that is left of point `at` beside the item, -1 where the item does not fit."""
        values, items, before = self.values, self.items, self.before
        highest = 0.0
        for at, rest in enumerate(rests):
            got = values[at]
            if rest >= 0 and values[rest] + value > got:
                got = values[at] = values[rest] + value
                items[at], before[at] = item, rest
            if got < highest:
                values[at] = highest
                items[at], before[at] = None, at - 1
            else:
                highest = got

    def parts(self, at: int) -> list[Tree]:
        found = []
        while at > 0:
            if self.items[at] is not None:
                found.append(self.items[at])
            at = self.before[at]
        return found


class StripCutter:
    """Layouts of one base whose first cuts make strips along x (axis 0) or along y (axis 1)."""

    def __init__(self, kinds: Sequence[Kind], base: Base, axis: int) -> None:
        self.axis = axis
        length, breadth = (base.width, base.height) if axis == 0 else (base.height, base.width)
        ways = [(w, h, 2 * n + turned) for n, kind in enumerate(kinds) for w, h, turned in kind.ways()]
        if axis == 1:
            ways = [(h, w, leaf) for w, h, leaf in ways]
        self.ways = sorted(way for way in ways if way[0] <= length and way[1] <= breadth)
        self.lengths = _points([w for w, _, _ in self.ways], length)
        self.breadths = _points([h for _, h, _ in self.ways], breadth)
        self.along = {w: _rests(self.lengths, w) for w, _, _ in self.ways}
        self.across = {h: _rests(self.breadths, h) for _, h, _ in self.ways}
        strips = [at for at, height in enumerate(self.breadths) if self.ways and height >= self._least()]
        step = -(-len(strips) // _MOST_STRIPS) or 1
        own = {bisect_right(self.breadths, height) - 1 for height in self.across}
        self.strips = sorted({*strips[::step], *own})

    def _least(self) -> int:
        return min(h for _, h, _ in self.ways)

    def two_stages(self, values: Sequence[float], budget: Budget) -> Iterator[Tree]:
        """The best layout of strips of single pieces, then each strip repeated over the whole sheet."""
        strip, sheet = Knapsack(self.lengths), Knapsack(self.breadths)
        ways = sorted(self.ways, key=lambda way: (way[1], way))
        made: list[tuple[int, Tree]] = []
        for number, (w, h, leaf) in enumerate(ways):
            strip.add(leaf, values[leaf >> 1], self.along[w])
            if number + 1 == len(ways) or ways[number + 1][1] != h:
                parts = strip.parts(len(self.lengths) - 1)
                if parts:
                    made.append((h, row(self.axis, parts)))
                    sheet.add(made[-1][1], strip.values[-1], self.across[h])
        budget.spend((len(ways) * len(self.lengths) + len(made) * len(self.breadths)) / _STEPS)
        yield from self._sheet(sheet)
        for h, tree in made:
            yield row(1 - self.axis, [tree] * (self.breadths[-1] // h))

    def three_stages(self, values: Sequence[float], budget: Budget) -> Iterator[Tree]:
        """The best layout of strips of stacks."""
        stack = Knapsack(self.breadths)
        # Of each width of a stack: the values of its heights, and the pieces in it.
        stacks: list[tuple[int, list[float], Knapsack]] = []
        for number, (w, h, leaf) in enumerate(self.ways):
            stack.add(leaf, values[leaf >> 1], self.across[h])
            if number + 1 == len(self.ways) or self.ways[number + 1][0] != w:
                kept = Knapsack(self.breadths)
                kept.values, kept.items, kept.before = list(stack.values), list(stack.items), list(stack.before)
                stacks.append((w, kept.values, kept))
        sheet = Knapsack(self.breadths)
        for at in self.strips:
            if budget.over:
                return
            strip = Knapsack(self.lengths)
            for number, (w, worth, _) in enumerate(stacks):
                # A stack no better than a narrower one is of no use.
                if worth[at] > 0 and (number == 0 or worth[at] > stacks[number - 1][1][at]):
                    strip.add((number,), worth[at], self.along[w])
            budget.spend(len(stacks) * len(self.lengths) / _STEPS)
            chosen = strip.parts(len(self.lengths) - 1)
            if chosen:
                trees = [row(1 - self.axis, stacks[number][2].parts(at)) for (number,) in chosen]
                sheet.add(row(self.axis, trees), strip.values[-1], _rests(self.breadths, self.breadths[at]))
        budget.spend(len(self.strips) * len(self.breadths) / _STEPS)
        yield from self._sheet(sheet)

    def _sheet(self, sheet: Knapsack) -> Iterator[Tree]:
        parts = sheet.parts(len(self.breadths) - 1)
        if parts:
            yield row(1 - self.axis, parts)


def _points(lengths: Sequence[int], limit: int) -> list[int]:
    """Where to cut along an edge; the end of the edge is the last."""
    points = sums([(length, limit) for length in lengths], limit, _MOST_POINTS)[0]
    # What fits alone must not be lost where points were left out.
    return sorted({*points, *lengths, limit})


def _rests(points: Sequence[int], length: int) -> list[int]:
    return [bisect_right(points, point - length) - 1 if point >= length else -1 for point in points]
