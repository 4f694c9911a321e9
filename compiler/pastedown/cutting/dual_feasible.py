"""Bounds by dual feasible functions: lengths are measured with rulers that make what fits together badly seem long.

A function f on 0..C that rises and is superadditive, f(a) + f(b) <= f(a + b), turns lengths that fit side by side into
lengths that still do. The area of pieces measured with one such function across and another one up is at most that of
the sheet measured alike. The functions are those of Fekete and Schepers (2001) and of Carlier, Clautiaux and Moukrim
(2007).
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from pastedown.cutting.bound import ceiling, from_values
from pastedown.cutting.budget import Budget
from pastedown.cutting.task import Task

# Products of a function across and one up that are tried, per thousandth of a second and kind.
_PRODUCTS = 4_000

Ruler = tuple[str, int]


def measure(ruler: Ruler, length: int, whole: int) -> int:
    """A length measured with a ruler made for lengths up to `whole`."""
    name, at = ruler
    if name == "plain":
        return length
    if name == "threshold":
        return 0 if length < at else length if length <= whole - at else whole
    if name == "steps":
        return length * at if length * (at + 1) % whole == 0 else length * (at + 1) // whole * whole
    # "halves": counted in whole parts of length `at`, from both ends.
    if 2 * length < whole:
        return 2 * (length // at)
    if 2 * length == whole:
        return whole // at
    return 2 * (whole // at) - 2 * ((whole - length) // at)


def rulers(lengths: Sequence[int], whole: int, most: int) -> list[Ruler]:
    """Rulers that may tell these lengths from others, up to about `most` of each sort."""
    found: list[Ruler] = [("plain", 0)]
    marks: dict[int, None] = {}
    for length in lengths:
        for mark in (length, whole - length, whole - length + 1):
            if mark >= 1 and 2 * mark <= whole:
                marks[mark] = None
    marks.update(dict.fromkeys(whole // n for n in (2, 3, 4, 5, 6) if whole >= n))
    marks.update(dict.fromkeys(whole // n + 1 for n in (2, 3, 4, 5) if 2 * (whole // n + 1) <= whole))
    chosen = sorted(marks)
    if len(chosen) * 2 > most:
        chosen = [chosen[number * len(chosen) // (most // 2)] for number in range(most // 2)]
    found += [("threshold", mark) for mark in chosen]
    found += [("halves", mark) for mark in chosen]
    found += [("steps", parts) for parts in range(1, 12)]
    return found


def distinct(some: Sequence[Ruler], lengths: Sequence[int], whole: int) -> Iterator[tuple[Ruler, list[int]]]:
    """Those that measure the lengths differently, with what they measure."""
    seen: set[tuple[Fraction, ...]] = set()
    for ruler in some:
        full = measure(ruler, whole, whole)
        if not full:
            continue
        measured = [measure(ruler, length, whole) for length in lengths]
        shape = tuple(Fraction(value, full) for value in measured)
        if shape not in seen:
            seen.add(shape)
            yield ruler, measured


def by_dual_feasible_functions(task: Task, budget: Budget, goal: int) -> int:
    """The best bound found; searching ends once it reaches `goal`, what the best known plan costs."""
    width, height = max(base.width for base in task.bases), max(base.height for base in task.bases)
    ways = [kind.ways() for kind in task.kinds]
    widths = sorted({w for way in ways for w, _, _ in way if w <= width})
    heights = sorted({h for way in ways for _, h, _ in way if h <= height})
    across = list(distinct(rulers(widths, width, 60), widths, width))
    up = list(distinct(rulers(heights, height, 60), heights, height))
    place_w = {length: at for at, length in enumerate(widths)}
    place_h = {length: at for at, length in enumerate(heights)}
    # Of each kind two ways to lie, though they be the same.
    cells = [[(place_w[w], place_h[h]) for w, h, _ in way if w <= width and h <= height] for way in ways]
    one, other = [[cell[end] for cell in cells] for end in (0, -1)]
    turns = one != other
    best = Fraction(0)
    pairs = sorted((i + k, i, k) for i in range(len(across)) for k in range(len(up)))
    for _, i, k in pairs:
        (ruler_w, measured_w), (ruler_h, measured_h) = across[i], up[k]
        values = [measured_w[a] * measured_h[b] for a, b in one]
        if turns:
            values = list(map(min, values, [measured_w[a] * measured_h[b] for a, b in other]))
        capacities = [
            measure(ruler_w, base.width, width) * measure(ruler_h, base.height, height) for base in task.bases
        ]
        best = max(best, from_values(task, values, capacities))
        budget.spend(len(values) / _PRODUCTS)
        if best > goal - 1 or budget.over:
            break
    return ceiling(best)
