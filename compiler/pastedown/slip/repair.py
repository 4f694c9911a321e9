"""Looks for the cheapest repair with what is cut already: leaving it, creasing a pair again, trimming, cutting again.

A fold that slipped between two panels that are stuck to each other is mended without cutting: the two outer folds of
the pair are pinched together, and the paper between them is creased where it then bends. The old crease ends up inside.
Whatever is proposed to mend the design has been tried on it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import frozen

from pastedown.fit.on_marks import Judged
from pastedown.geometry.actual import Side
from pastedown.quantity.quantity import Length
from pastedown.quantity.rounding import round_to
from pastedown.slip.compare import Compared, compared, faults_of, margin_of
from pastedown.slip.lay_over import Bench
from pastedown.slip.report import Pair, Repair
from pastedown.slip.shapes import CutTo, Shape

# So many sides are tried for trimming at most, and so many trims proposed.
_MOST_TRIED = 24
_MOST_PROPOSED = 3


@frozen(eq=False)
class Workshop:
    """Works a design out with what lies on the bench."""

    designed: Judged

    def judged(self, bench: Bench) -> Judged:
        root = bench.root
        return self.designed.trial.judged(0, on_marks=False, chosen=root.work.marks.chosen, actual=bench.actual())

    def compared(self, bench: Bench) -> Compared | None:
        """What is otherwise than designed with what lies on the bench; None where it cannot be worked out."""
        now = self.judged(bench)
        return compared(self.designed, now) if now.worked_out.model is not None else None


def repairs(workshop: Workshop, bench: Bench, found: Compared) -> tuple[Repair, ...]:
    """What to do, cheapest first."""
    even = list(_moved_evenly(bench))
    if found.holds:
        words = "Use it as it is: everything that held as designed still holds."
        if any(done.scale is not None and not done.path for done in bench.done):
            words += " Cut everything from these prints: what is cut by the ruler would not match them."
        return (*even, Repair((words,), True))
    creased = list(_creased_again(workshop, bench, found))
    if creased and creased[-1].mends:
        return (*even, *creased)
    proposed = [*even, *creased, *_trims(workshop, bench)]
    return (*proposed, *_anew(bench))


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


def _creased_again(workshop: Workshop, bench: Bench, found: Compared) -> Iterator[Repair]:
    """A new crease for each pair that does not match; the last one says whether all is well with them together."""
    after = bench.again()
    words = []
    for pair in found.pairs:
        side, middle = _fold_between(after, pair)
        if side is not None and middle is not None:
            words.append(_crease(after, pair, side, middle))
    if not words:
        return
    result = workshop.compared(after)
    mends = result is not None and result.holds
    for number, each in enumerate(words, start=1):
        yield Repair(each, mends and number == len(words))


def _fold_between(bench: Bench, pair: Pair) -> tuple[Side | None, int | None]:
    """The fold that two neighbouring panels share, by the number of the panel that ends there."""
    for side, shape in bench.now.items():
        if side[0] == pair.piece and pair.one in shape.panels and pair.other in shape.panels:
            at = sorted((shape.panels.index(pair.one), shape.panels.index(pair.other)))
            if at[1] == at[0] + 1:
                return side, at[0]
    return None, None


def _crease(bench: Bench, pair: Pair, side: Side, middle: int) -> tuple[str | Length, ...]:
    shape = bench.now[side]
    names = {number: name for name, number in shape.scores.items()}
    fold = names.get(middle, "the fold between them")
    start = shape.ends[middle - 1] if middle else shape.ends[middle] - shape.size(middle)
    old, end = shape.ends[middle], shape.ends[middle + 1]
    shape.ends[middle] = (start + end) / 2
    away = shape.ends[middle] - old
    first, last = names.get(middle - 1, shape.first_edge), names.get(middle + 1, "the far edge")
    return (
        f"Pinch {first} and {last} of {pair.piece} together and crease again between them: {fold} then lies ",
        shape.ends[middle], f" from {shape.first_edge}, {pair.one} and {pair.other} are ", shape.size(middle),
        " each, and the old crease, ", away if away.value >= 0 else -away, " away, hides inside.",
    )  # fmt: skip


def _trims(workshop: Workshop, bench: Bench) -> list[Repair]:
    """Sides that, made a little smaller, let the design go together; the least that has to come off first."""
    now = workshop.judged(bench)
    known = faults_of(workshop.designed)
    failing = {path for id, path in faults_of(now) - known if not id}
    before = {each.path: margin_of(each) for each in now.requirements if each.path in failing}
    if not failing or None in before.values():
        return []
    found: list[tuple[Fraction, Repair]] = []
    for fact in _sides_only(bench)[:_MOST_TRIED]:
        trimmed = _trim(workshop, bench, fact, before, known)
        if trimmed is not None:
            found.append(trimmed)
    found.sort(key=lambda each: each[0])
    return [repair for _, repair in found[:_MOST_PROPOSED]]


def _sides_only(bench: Bench) -> list[CutTo]:
    """Facts that only whole sides without folds across them are cut to: those can be trimmed."""
    return [
        fact
        for fact in bench.facts
        if all(
            panel is None and not bench.now[side].ends and not bench.now[side].as_bought for side, panel in fact.places
        )
    ]


def _trim(
    workshop: Workshop,
    bench: Bench,
    fact: CutTo,
    before: dict[str, Fraction | None],
    known: set[tuple[str, str]],
) -> tuple[Fraction, Repair] | None:
    marks = workshop.designed.worked_out.model.ruler.marks if workshop.designed.worked_out.model is not None else None
    size = bench.now[fact.places[0][0]].side
    if marks is None or size <= marks:
        return None
    a_mark_less = _cut_to(bench, fact, size - marks)
    margins = {each.path: margin_of(each) for each in workshop.judged(a_mark_less).requirements}
    needed = 0
    for path, margin in before.items():
        now = margins.get(path)
        if margin is None or now is None or now <= margin:
            return None
        needed = max(needed, ceil(-margin / (now - margin)))
    to = round_to(size - marks * max(needed, 1), "down", marks)
    if to.value <= 0:
        return None
    after = workshop.judged(_cut_to(bench, fact, to))
    if after.worked_out.model is None or faults_of(after) - known:
        return None
    pieces = ", ".join(side[0] for side, _ in fact.places)
    axis = "high" if fact.places[0][0][1] == "height" else "wide"
    words = (f"Trim {pieces} to ", to, f" {axis}; ", size - to, " comes off.")
    return (size - to).value, Repair(words, not compared(workshop.designed, after).pairs)


def _cut_to(bench: Bench, fact: CutTo, size: Length) -> Bench:
    trial = bench.again()
    trial.told.pop(fact.path, None)
    trial.resize(fact, size)
    return trial


def _anew(bench: Bench) -> Iterator[Repair]:
    """Cutting again, or printing at the other scale, which always helps."""
    scales = {done.scale for done in bench.done if done.scale is not None}
    if scales:
        if len(scales) == 1:
            yield Repair((f"Print again at {percent(1 / scales.pop())}, and cut from that.",), True)
        return
    anew = sorted({path for (path, axis), shape in bench.now.items() if _slipped(shape, bench.designed[path, axis])})
    if anew:
        yield Repair((f"Cut and score {', '.join(anew)} again, as designed.",), True)


def _slipped(shape: Shape, designed: Shape) -> bool:
    return shape.side != designed.side or shape.ends != designed.ends


def percent(scale: Fraction) -> str:
    """A scale as a percentage of at most two decimals."""
    hundredths = round(scale * 10_000)
    about = "" if scale * 10_000 == hundredths else "about "
    text = f"{hundredths // 100}.{hundredths % 100:02}".rstrip("0").rstrip(".")
    return f"{about}{text} %"
