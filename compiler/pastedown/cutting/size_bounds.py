"""A bound on the cost where sheets differ: every size of sheet is measured with rulers of its own.

Take any value for each kind of piece. A dual feasible function of a size, for lengths across and up, says of each kind
how much of a sheet it takes at least; so no pattern on that size is worth more than its capacity, measured alike, times
the most that a piece is worth for what it takes. Kinds that fit the size in no way count for nothing there. Values are
taken from the functions of every size in turn, which holds for any values (`bound.py`).
"""

from collections.abc import Sequence
from fractions import Fraction

from attrs import frozen

from pastedown.cutting.bound import by_area, ceiling, from_values
from pastedown.cutting.dual_feasible import distinct, measure, rulers
from pastedown.cutting.task import Base, Task

# Rulers of each sort along an edge, and how often a kind is measured at most.
_RULERS, _MEASURED = 16, 20_000
# Of their products so many are kept for a size, and for one that is on hand; fewer where otherwise so many values would
# be compared.
_BOUGHT, _ON_HAND, _COMPARED = 30, 6, 400_000
# So many values, those with the best bound by and large, are looked at exactly.
_EXACT = 6


@frozen
class _Measure:
    """What each kind takes of a sheet, and what there is of it."""

    takes: tuple[int, ...]
    capacity: int


# What is known of sizes of sheets, by width and height in a unit, for the same pieces.
Known = dict[tuple[Fraction, int, int], list[_Measure]]


def by_sizes(task: Task, known: Known) -> int:
    """What any plan costs at least, in the task's whole units: no less than what the area says. What is found out of
    a size is noted in `known` for other tasks of the same pieces."""
    fitting = [
        [number for number, kind in enumerate(task.kinds) if kind.fits(base.width, base.height)] for base in task.bases
    ]
    measures: list[list[_Measure]] = []
    kept = _kept(task)
    for base, fits in zip(task.bases, fitting, strict=True):
        key = task.unit, base.width, base.height
        if key not in known:
            known[key] = _measures(task, base, fits)
        measures.append(known[key][: kept if base.limit is None else min(kept, _ON_HAND)])
    tried: dict[tuple[int, ...], None] = {tuple(kind.area for kind in task.kinds): None}
    for base, some in zip(task.bases, measures, strict=True):
        if base.limit is None:
            tried.update(dict.fromkeys(each.takes for each in some))
    ranked: list[tuple[float, int, tuple[int, ...], list[int]]] = []
    for number, values in enumerate(tried):
        capacities = [_capacity(task, values, some, of) for some, of in zip(fitting, measures, strict=True)]
        ranked.append((-_by_and_large(task, values, capacities), number, values, capacities))
    least = by_area(task)
    for _, _, values, capacities in sorted(ranked)[:_EXACT]:
        least = max(least, ceiling(from_values(task, values, capacities)))
    return least


def _kept(task: Task) -> int:
    """How many measures of a size are used."""
    bought = sum(base.limit is None for base in task.bases)
    on_hand = len(task.bases) - bought
    kept = _BOUGHT
    while kept > 2 and kept * bought * (kept * bought + min(kept, _ON_HAND) * on_hand) * len(task.kinds) > _COMPARED:
        kept -= 1
    return kept


def _measures(task: Task, base: Base, fitting: Sequence[int]) -> list[_Measure]:
    """Those under which the pieces wanted fill most sheets of the size, the area among them."""
    ways = {
        number: [(w, h) for w, h, _ in task.kinds[number].ways() if w <= base.width and h <= base.height]
        for number in fitting
    }
    widths = sorted({w for way in ways.values() for w, _ in way})
    heights = sorted({h for way in ways.values() for _, h in way})
    across = list(distinct(rulers(widths, base.width, _RULERS), widths, base.width))
    up = list(distinct(rulers(heights, base.height, _RULERS), heights, base.height))
    found: dict[tuple[Fraction, ...], tuple[Fraction, _Measure]] = {}
    pairs = sorted((i + k, i, k) for i in range(len(across)) for k in range(len(up)))
    for _, i, k in pairs[: max(1, _MEASURED // len(task.kinds))]:
        (ruler_w, measured_w), (ruler_h, measured_h) = across[i], up[k]
        by_width, by_height = dict(zip(widths, measured_w, strict=True)), dict(zip(heights, measured_h, strict=True))
        capacity = measure(ruler_w, base.width, base.width) * measure(ruler_h, base.height, base.height)
        takes = [0] * len(task.kinds)
        for number, way in ways.items():
            takes[number] = min([by_width[w] * by_height[h] for w, h in way])
        sheets = Fraction(sum([n * kind.demand for n, kind in zip(takes, task.kinds, strict=True)]), capacity)
        found.setdefault(tuple(Fraction(n, capacity) for n in takes), (sheets, _Measure(tuple(takes), capacity)))
    best = sorted(enumerate(found.values()), key=lambda each: (each[0] > 0, -each[1][0], each[0]))
    return [each for _, (_, each) in best[:_BOUGHT]]


def _capacity(task: Task, values: Sequence[int], fitting: Sequence[int], measures: Sequence[_Measure]) -> int:
    """No pattern of those kinds is worth more."""
    worth = [number for number in fitting if values[number]]
    best = sum(values[number] * task.kinds[number].demand for number in worth)
    for each in measures:
        if all(each.takes[number] for number in worth):
            most = max([values[number] * each.capacity // each.takes[number] for number in worth], default=0)
            best = min(best, most)
    return best


def _by_and_large(task: Task, values: Sequence[int], capacities: Sequence[int]) -> float:
    """The bound without whole packs, as a float: only to compare."""
    worth = float(sum(value * kind.demand for value, kind in zip(values, task.kinds, strict=True)))
    gain = 0.0
    for base, capacity in zip(task.bases, capacities, strict=True):
        if base.limit is not None:
            worth -= base.limit * capacity
        elif base.cost:
            gain = max(gain, capacity * base.pack / base.cost)
    return worth / gain if gain else 0.0
