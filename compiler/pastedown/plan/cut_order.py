"""The cuts of a sheet in an order in which the fence is moved seldom: strips that are cut alike together, wherever on
the sheet they come from, and cuts with one setting in a row where what they cut has come off by then.
"""

from collections.abc import Sequence
from itertools import groupby

from attrs import evolve, frozen

from pastedown.cutting.cut_sequence import shape
from pastedown.cutting.cutting_plan import Cut


@frozen
class _Step:
    """One cut, and the numbers of those before it."""

    cut: Cut
    after: frozenset[int]


def in_order(cuts: Sequence[Cut]) -> tuple[Cut, ...]:
    """The same cuts, numbered anew: none before what it cuts has come off; as before where that saves no setting."""
    steps = _steps(_merged(cuts))
    plain, gathered = _scheduled(steps, gather=False), _scheduled(steps, gather=True)
    best = gathered if settings_of(gathered) < settings_of(plain) else plain
    return tuple(evolve(cut, number=number) for number, cut in enumerate(best, 1))


def settings_of(cuts: Sequence[Cut]) -> int:
    """How often the fence is set: once for cuts in a row at one distance."""
    return sum(1 for _ in groupby(cuts, key=lambda cut: cut.fence))


def _merged(cuts: Sequence[Cut]) -> list[list[Cut]]:
    """The cuts of each shape of block, one after another, with all blocks of that shape together."""
    rows: dict[object, list[Cut]] = {}
    place = 0
    own: list[Cut] = []
    for cut in cuts:
        form = shape(cut.block)
        if not cut.again:
            own, place = rows.setdefault(form, []), 0
        if place < len(own):
            there = own[place]
            own[place] = evolve(there, alike=there.alike + cut.alike, lines=(*there.lines, *cut.lines))
        else:
            own.append(cut)
        place += 1
    return list(rows.values())


def _steps(rows: Sequence[Sequence[Cut]]) -> list[_Step]:
    """A block is there when the last cut is done by which one of its shape comes off or is left."""
    comes_off: dict[object, set[int]] = {}
    number = 0
    for row in rows:
        last = number + len(row) - 1
        for cut in row:
            for part in cut.taken:
                comes_off.setdefault(shape(part), set()).add(number)
            if number == last and cut.rest is not None:
                comes_off.setdefault(shape(cut.rest), set()).add(number)
            number += 1
    steps: list[_Step] = []
    for row in rows:
        for at, cut in enumerate(row):
            before = {len(steps) - 1} if at else comes_off.get(shape(cut.block), set())
            steps.append(_Step(cut, frozenset(before)))
    return steps


def _scheduled(steps: Sequence[_Step], *, gather: bool) -> list[Cut]:
    """The first that can be done each time; with `gather` the first that needs no other setting, if there is one."""
    waiting = list(range(len(steps)))
    done: list[int] = []
    while waiting:
        ready = [number for number in waiting if steps[number].after.issubset(done)]
        alike = [number for number in ready if done and steps[number].cut.fence == steps[done[-1]].cut.fence]
        chosen = (alike if gather and alike else ready)[0]
        waiting.remove(chosen)
        done.append(chosen)
    return [steps[number].cut for number in done]
