"""Looks for what to do with what is cut already, cheapest first.

Whatever mends a design has been tried: the design was worked out and judged again with it. Cheapest is what takes the
fewest pieces to be cut again, then the least paper; of the same cost, in this order:

1. creasing a pair of panels again. A fold that slipped between two panels that are stuck to each other is mended
   without cutting: the two outer folds of the pair are pinched together, and the paper between them is creased where it
   then bends. The old crease ends up inside;
2. folding again what reads wrong;
3. trimming what is cut;
4. scoring a fold again where it belongs, beside the old line;
5. cutting something else to another number;
6. cutting again what slipped, as designed, or from a print at the other scale.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import chain, combinations

from pastedown.geometry.actual import Side
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.compare import Compared
from pastedown.slip.lay_over import Bench
from pastedown.slip.other_number import other_numbers
from pastedown.slip.paths import together
from pastedown.slip.percent import percent
from pastedown.slip.report import Pair, Repair, Words
from pastedown.slip.workshop import Workshop

# So many repairs are told, and of so many slipped pieces it is looked at which have to be cut again.
MOST_TOLD = 6
_MOST_PIECES_APART = 6


def repairs(workshop: Workshop, bench: Bench, found: Compared) -> tuple[Repair, ...]:
    """What to do, cheapest first."""
    even = list(_moved_evenly(bench))
    if found.holds:
        as_it_is = "Use it as it is: everything that held as designed still holds."
        if any(done.scale is not None and not done.path for done in bench.done):
            as_it_is += " Cut everything from these prints: what is cut by the ruler would not match them."
        return (*even, Repair((as_it_is,), True))
    creased, words = _creased_again(bench, found)
    after = workshop.compared(creased) if words else None
    if after is not None and after.holds:
        return (*even, Repair(words, True))
    offered = list(_with_less_than_cutting(workshop, bench))
    if words and after is not None:
        offered += [_behind(words, each) for each in other_numbers(workshop, creased, after)]
    else:
        offered += other_numbers(workshop, bench, found)
    offered += _anew(workshop, bench)
    areas = {piece.path: piece.height.value * piece.width.value for piece in bench.model.pieces}
    offered.sort(key=lambda each: (len(each.cut_again), sum(areas[path] for path in each.cut_again), each.order))
    if not offered and words:
        return (*even, Repair(words, False))
    return (*even, *offered[:MOST_TOLD])


def _behind(first: Words, repair: Repair) -> Repair:
    return Repair((*first, " ", *repair.words), True, repair.cut_again, repair.order) if first else repair


def _moved_evenly(bench: Bench) -> Iterator[Repair]:
    """Runs of which all folds moved alike: only the first and the last panel are others for it."""
    for side, shape in bench.now.items():
        designed = bench.designed[side]
        moved = {(shape.ends[at] - designed.ends[at]).value for at in shape.scores.values()}
        if len(moved) == 1 and moved != {Fraction(0)} and len(shape.scores) > 1 and shape.side == designed.side:
            yield Repair(
                (
                    f"Leave the folds of {side[0]}: all lie off by the same, so only its two end panels changed, "
                    f"{shape.panels[0]} to ", shape.size(0), f" and {shape.panels[-1]} to ",
                    shape.size(len(shape.panels) - 1), ". Place it by its folds, not by its ends.",
                ),
                False,
            )  # fmt: skip


def _creased_again(bench: Bench, found: Compared) -> tuple[Bench, Words]:
    """What lies there once each pair that does not match was creased again, and how to."""
    after = bench.again()
    words: list[str | Quantity] = []
    for pair in found.pairs:
        side, middle = _fold_between(after, pair)
        if side is not None and middle is not None:
            words += [*([" "] if words else []), *_crease(after, pair, side, middle)]
    return after, tuple(words)


def _fold_between(bench: Bench, pair: Pair) -> tuple[Side | None, int | None]:
    """The fold that two neighbouring panels share, by the number of the panel that ends there."""
    for side, shape in bench.now.items():
        if side[0] == pair.piece and pair.one in shape.panels and pair.other in shape.panels:
            at = sorted((shape.panels.index(pair.one), shape.panels.index(pair.other)))
            if at[1] == at[0] + 1:
                return side, at[0]
    return None, None


def _crease(bench: Bench, pair: Pair, side: Side, middle: int) -> Words:
    shape = bench.now[side]
    names = {number: name for name, number in shape.scores.items()}
    fold = names.get(middle, "the fold between them")
    start = shape.ends[middle - 1] if middle else shape.ends[middle] - shape.size(middle)
    old, end = shape.ends[middle], shape.ends[middle + 1]
    shape.ends[middle] = (start + end) / 2
    first, last = names.get(middle - 1, shape.first_edge), names.get(middle + 1, "the far edge")
    return (
        f"Pinch {first} and {last} of {pair.piece} together and crease again between them: {fold} then lies ",
        shape.ends[middle], f" from {shape.first_edge}, {pair.one} and {pair.other} are ", shape.size(middle),
        " each, and the old crease, ", _apart(shape.ends[middle], old), " away, hides inside.",
    )  # fmt: skip


def _apart(one: Length, other: Length) -> Length:
    return one - other if one >= other else other - one


def _mends(workshop: Workshop, bench: Bench) -> bool:
    after = workshop.compared(bench)
    return after is not None and after.holds


def _with_less_than_cutting(workshop: Workshop, bench: Bench) -> Iterator[Repair]:
    """Folding again what reads wrong, and scoring folds again where they belong."""
    folded = bench.again()
    folded.readings.clear()
    folded.swollen.clear()
    if bench.readings and _mends(workshop, folded):
        yield Repair(_folded_again(bench), True, order=1)
    scored = bench.again()
    words: list[str | Quantity] = []
    for side, shape in bench.now.items():
        designed = bench.designed[side]
        if shape.side == designed.side and shape.ends != designed.ends:
            scored.now[side] = designed.copied()
            for name, number in shape.scores.items():
                if shape.ends[number] != designed.ends[number]:
                    words += [
                        f"{'Score' if not words else 'and'} {name} of {side[0]} again, ", designed.ends[number],
                        f" from {shape.first_edge}; ",
                    ]  # fmt: skip
    if words and _mends(workshop, scored):
        yield Repair((*words, "the old line beside it stays in sight."), True, order=3)


def _folded_again(bench: Bench) -> Words:
    words: list[str | Quantity] = []
    for step in bench.model.steps:
        if step.path in bench.readings and step.reads is not None:
            words += [*([" "] if words else []), *step.tip, *([" "] if step.tip else [])]
            words += [f"Press the folds again until {step.path} reads ", step.reads, "."]
    return tuple(words)


def _anew(workshop: Workshop, bench: Bench) -> list[Repair]:
    """Cutting again as few of the pieces that slipped as it takes, or printing them at the other scale."""
    printed = {done.scale for done in bench.done if done.scale is not None}
    slipped = bench.slipped
    if printed:
        if not _mends(workshop, _cut_anew(bench, slipped)):
            return []
        if len(printed) == 1 and all(done.scale is not None for done in bench.done):
            words = (f"Print again at {percent(1 / printed.pop())}, and cut from that.",)
        else:
            words = ("Print again at full size, and cut and score everything from that.",)
        return [Repair(words, True, tuple(slipped), 5)]
    for some in _fewest_first(slipped):
        if workshop.is_used_up:
            break
        if _mends(workshop, _cut_anew(bench, some)):
            return [Repair((f"Make {together(some)} again, as designed.",), True, tuple(some), 5)]
    return []


def _fewest_first(pieces: list[str]) -> Iterable[tuple[str, ...]]:
    if len(pieces) > _MOST_PIECES_APART:
        return [tuple(pieces)]
    return chain.from_iterable(combinations(pieces, some) for some in range(1, len(pieces) + 1))


def _cut_anew(bench: Bench, pieces: Iterable[str]) -> Bench:
    after = bench.again()
    after.cut_anew(pieces)
    return after
