"""A repair and what lies there once it was done; several of them done one beside the other."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen

from pastedown.geometry.actual import Side
from pastedown.geometry.lay_piece import AXES
from pastedown.slip.bench import Bench
from pastedown.slip.report import Repair, Words

# Where repairs stand among those that take the same pieces to be cut again.
ACCEPTED, CREASED, TRIMMED, SCORED, NUMBER, ANEW = range(6)


@frozen(eq=False)
class Tried:
    """A repair of what lies at `before`, and what lies there then."""

    repair: Repair
    before: Bench
    after: Bench

    @property
    def touched(self) -> frozenset[Side]:
        """The sides of pieces that are others for it."""
        again = {(path, axis) for path in self.repair.cut_again for axis in AXES}
        return frozenset(again | changed_sides(self.before, self.after))


def changed_sides(before: Bench, after: Bench) -> set[Side]:
    """The sides of pieces that lie there otherwise after than before."""
    return {side for side, shape in after.now.items() if not shape.is_like(before.now[side])}


def all_done(bench: Bench, tried: Iterable[Tried]) -> Tried:
    """What lies on a bench once all these repairs were done there, each tried on a part of what slipped."""
    after, words, again, order = bench.again(), list[Words](), list[str](), 0
    for each in tried:
        before, then = each.before, each.after
        for side in changed_sides(before, then):
            after.now[side] = then.now[side].copied()
        for path in before.told.keys() - then.told.keys():
            after.told.pop(path, None)
        for path in before.readings.keys() - then.readings.keys():
            after.readings.pop(path, None)
        for path in before.swollen.keys() - then.swollen.keys():
            after.swollen.pop(path, None)
        after.numbers.update(then.numbers)
        after.follows |= then.follows
        words.append(each.repair.words)
        again += each.repair.cut_again
        order = max(order, each.repair.order)
    after.follows -= set(bench.slipped)
    said = tuple(word for at, each in enumerate(words) for word in ((" ", *each) if at else each))
    return Tried(Repair(said, True, tuple(dict.fromkeys(again)), order), bench, after)
