"""Looks for what to do with what is cut already, cheapest first.

Whatever mends a design has been tried: the design was worked out and judged again with it. Cheapest is what takes the
fewest pieces to be cut again, then the least paper; of the same cost, in this order:

0. accepting what a limit misses, where the limit is one that a design may set otherwise;
1. creasing a pair of panels again. A fold that slipped between two panels that are stuck to each other is mended
   without cutting: the two outer folds of the pair are pinched together, and the paper between them is creased where it
   then bends. The old crease ends up inside. Folding again what reads wrong costs as little;
2. trimming what is cut;
3. scoring folds again where they belong, beside the old lines, or from the other end of what was cut too short;
4. cutting something else to another number;
5. cutting again what slipped, as designed, or from a print at full size: as few pieces as it takes.

Where several things slipped that have nothing to do with each other, the repairs of each alone are tried together, too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from attrs import evolve

from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.geometry.actual import Side
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.accept import accepted
from pastedown.slip.bench import Bench
from pastedown.slip.compare import Compared
from pastedown.slip.fewest import anew, cost, fewest_anew
from pastedown.slip.laid_by_folds import laid_by_folds
from pastedown.slip.other_end import scored_otherwise, trimmed_as_designed
from pastedown.slip.other_number import MOST_TRIMMED, other_numbers
from pastedown.slip.paths import together
from pastedown.slip.percent import percent
from pastedown.slip.report import Pair, Repair, Words
from pastedown.slip.tried import ACCEPTED, ANEW, CREASED, SCORED, TRIMMED, Tried, all_done, changed_sides
from pastedown.slip.workshop import MOST_RUNS, Workshop

# So many repairs are told. Of so many slips that have nothing to do with each other the repairs of each alone are tried
# together, so many of each, in so many ways.
MOST_TOLD = 6
_MOST_APART = 6
_MOST_OF_EACH = 3
_MOST_TOGETHER = 16


def repairs(workshop: Workshop, bench: Bench, found: Compared, apart: Sequence[Bench]) -> tuple[Repair, ...]:
    """What to do, cheapest first. `apart` are the benches of what slipped without touching the same pieces."""
    even = [*_folded_back(bench), *_moved_evenly(bench)]
    if found.holds and bench.wrong_way and all(each.done is None and each.scale is None for each in bench.done):
        return tuple(even)
    if found.holds:
        return (*even, *_as_it_is(workshop, bench, found))
    tried = _together(workshop, bench, found, apart)
    if not tried:
        tried = _of_all(workshop, bench, found)
    elif all(each.repair.cut_again for each in tried):
        more = _of_all(workshop.another(MOST_RUNS // 2), bench, found, trims_do=True)
        tried += [each for each in more if each.repair.mends]
    told: dict[Words, Tried] = {}
    for each in tried:
        told.setdefault(each.repair.words, each)
    ranked = sorted(told.values(), key=lambda each: _cost(bench, each))
    return (*even, *(_with_readings(workshop, each) for each in ranked[:MOST_TOLD]))


def _as_it_is(workshop: Workshop, bench: Bench, found: Compared) -> Iterator[Repair]:
    """What to do where nothing is lost. What was read past the limits of its step is folded again all the same: that
    costs nothing, and nobody could go by another number."""
    read = [each for each in found.readings if each.told and each.past is not None]
    if read:
        yield Repair(_folded_again(bench), True)
    laid = laid_by_folds(bench)
    words = "Use it as it is: everything that held as designed still holds."
    if any(each.is_another and not each.told for each in found.readings):
        words += " What its steps read is another now, as told below: true nothing to the old number."
    if any(done.scale is not None and not done.path for done in bench.done):
        words += " Cut everything from these prints: what is cut by the ruler would not match them."
    yield Repair((words, *([" ", *laid] if laid else [])), True)
    for each in scored_otherwise(workshop, bench) if laid else ():
        if not laid_by_folds(each.after):
            yield evolve(each.repair, words=("Or lay it by its middle as designed. ", *each.repair.words))


def _with_readings(workshop: Workshop, tried: Tried) -> Repair:
    """A repair with what the ruler reads otherwise than a step allows even when it was done, and with what is then laid
    by its folds."""
    if not tried.repair.mends:
        return tried.repair
    past = tuple(each for each in workshop.readings(tried.after) if each.is_another)
    laid = laid_by_folds(tried.after)
    return evolve(tried.repair, readings=past, words=(*tried.repair.words, *([" ", *laid] if laid else [])))


def _of_all(workshop: Workshop, bench: Bench, found: Compared, *, trims_do: bool = False) -> list[Tried]:
    """The repairs of all that slipped as one, each tried; where none mends it, that by which the pairs match again.
    Nothing dearer is looked for where trimming mends it, or scoring again."""
    workshop.heed(found)
    creased, words = _creased_again(bench, found)
    after = workshop.compared(creased) if words else None
    if after is not None and after.holds:
        return [Tried(Repair(words, True, order=CREASED), bench, creased)]
    as_one = accepted(workshop, bench, found)
    offered = [*([as_one] if as_one is not None else []), *_with_less_than_cutting(workshop, bench)]
    does = trims_do or any(each.repair.order in (TRIMMED, SCORED) for each in offered)
    if words and after is not None:
        behind = [*_anew(workshop, creased, after), *_others(workshop, creased, after, offered, does)]
        offered += [_behind(words, bench, each) for each in behind if not each.touched & changed_sides(bench, creased)]
    else:
        offered += [*_anew(workshop, bench, found), *_others(workshop, bench, found, offered, does)]
    return offered or ([Tried(Repair(words, False), bench, creased)] if words else [])


def _others(workshop: Workshop, bench: Bench, found: Compared, offered: list[Tried], trims_do: bool) -> list[Tried]:
    if any(each.repair.order == TRIMMED for each in offered):
        return []
    most = 1 if any(each.repair.order == SCORED for each in offered) else MOST_TRIMMED
    return other_numbers(workshop, bench, found, trims_do=trims_do, most_trimmed=most)


def _together(workshop: Workshop, bench: Bench, found: Compared, apart: Sequence[Bench]) -> list[Tried]:
    """The repairs of each slip alone, the cheapest of which that mend all when they are done together."""
    if not 1 < len(apart) <= _MOST_APART:
        return []
    # What mends all is placed when all is done; by itself nothing need be, where nothing is wrong about that.
    in_space = any(id in SEEN_IN_SPACE for id, _ in found.wrong)
    choices: list[list[Tried]] = []
    for alone in apart:
        by_itself = workshop.another(MOST_RUNS // len(apart), in_space=in_space)
        lost = by_itself.compared(alone)
        if lost is None:
            return []
        if not lost.holds:
            offered = [each for each in _of_all(by_itself, alone, lost, trims_do=True) if each.repair.mends]
            choices.append(sorted(offered, key=lambda each: _cost(bench, each))[:_MOST_OF_EACH])
    ways = [way for way in product(*choices) if _are_apart(way)]
    ways.sort(key=lambda way: [sum(costs) for costs in zip(*(_cost(bench, each) for each in way), strict=True)])
    mended: list[Tried] = []
    done: list[tuple[Tried, ...]] = []
    for way in ways[:_MOST_TOGETHER]:
        if any(_is_needless(way, other) for other in done):
            continue
        tried = all_done(bench, way)
        if workshop.mends(tried.after):
            mended.append(tried)
            done.append(way)
        if len(mended) == _MOST_OF_EACH:
            break
    return mended


def _is_needless(way: Sequence[Tried], other: Sequence[Tried]) -> bool:
    """Whether another way that mends accepts nothing and cuts nothing again that this one does not."""
    cut, less = ({piece for each in some for piece in each.repair.cut_again} for some in (way, other))
    taken, also = ({each.repair.words for each in some if each.repair.order == ACCEPTED} for some in (way, other))
    return less <= cut and also <= taken


def _cost(bench: Bench, tried: Tried) -> tuple[int, Fraction, int]:
    return *cost(bench, tried.repair.cut_again), tried.repair.order


def _are_apart(way: Sequence[Tried]) -> bool:
    """Whether no two repairs do something to the same thing, so that the words of each stay true."""
    touched = [each.touched for each in way]
    return len(frozenset().union(*touched)) == sum(map(len, touched))


def _behind(first: Words, bench: Bench, tried: Tried) -> Tried:
    repair = tried.repair
    return Tried(Repair((*first, " ", *repair.words), True, repair.cut_again, repair.order), bench, tried.after)


def _folded_back(bench: Bench) -> Iterator[Repair]:
    """What was folded to the wrong side: that changes no length."""
    kinds = {
        f"{piece.path}.{score.name}": score.kind
        for piece in bench.model.pieces
        for run in piece.runs
        for score in run.scores
    }
    for kind in sorted({kinds[path] for path in bench.wrong_way}):
        folds = [path for path in bench.wrong_way if kinds[path] == kind]
        yield Repair(
            (
                f"Fold {together(folds)} back over, along the same line: {'each is' if len(folds) > 1 else 'it is'} a "
                f"{kind}. No length changes for it; card folded both ways is weaker there, so fold it over once only.",
            ),
            True,
        )


def _moved_evenly(bench: Bench) -> Iterator[Repair]:
    """Runs of which all folds moved alike, and that no join lays by their middle: only the first and the last panel are
    others for it."""
    by_middle = {
        (line.piece, line.axis)
        for join in bench.model.joins
        for alignment in join.alignments
        for line in (alignment.what_line, alignment.to_line)
        if line is not None and line.is_middle
    }
    for side, shape in bench.now.items():
        designed = bench.designed[side]
        moved = {(shape.ends[at] - designed.ends[at]).value for at in shape.scores.values()}
        moved_alike = len(moved) == 1 and moved != {Fraction(0)} and len(shape.scores) > 1
        if moved_alike and shape.side == designed.side and side not in by_middle:
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


def _with_less_than_cutting(workshop: Workshop, bench: Bench) -> Iterator[Tried]:
    """Folding again what reads wrong, trimming what is too long, and scoring folds again where they belong or from the
    other end."""
    folded = bench.again()
    folded.readings.clear()
    folded.swollen.clear()
    if bench.readings and workshop.mends(folded):
        yield Tried(Repair(_folded_again(bench), True, order=CREASED), bench, folded)
    trimmed = trimmed_as_designed(bench)
    if trimmed is not None and workshop.mends(trimmed.after):
        yield trimmed
        return
    if trimmed is not None and (found := workshop.compared(trimmed.after)) is not None:
        rest = accepted(workshop, trimmed.after, found)
        yield from [] if rest is None else [_behind(trimmed.repair.words, bench, rest)]
    yield from scored_otherwise(workshop, bench)
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
    if words and workshop.mends(scored):
        repair = Repair((*words, "the old line beside it stays in sight."), True, order=SCORED)
        yield Tried(repair, bench, scored)


def _folded_again(bench: Bench) -> Words:
    words: list[str | Quantity] = []
    for step in bench.model.steps:
        if step.path in bench.readings and step.reads is not None:
            words += [*([" "] if words else []), *step.tip, *([" "] if step.tip else [])]
            words += [f"Press the folds again until {step.path} reads ", step.reads, "."]
    return tuple(words)


def _anew(workshop: Workshop, bench: Bench, found: Compared) -> list[Tried]:
    """Making as few of the pieces that slipped again as it takes; printing all again, where they were printed."""
    fewest, slipped = fewest_anew(workshop, bench, found), tuple(bench.slipped)
    if fewest is None:
        return []
    scales = {done.scale: None for done in bench.done if done.scale is not None}
    if not scales:
        return [_made_again(bench, (f"Make {together(fewest)} again, as designed.",), fewest)]
    setting = _at_full_size(bench)
    whole = _made_again(bench, (f"Print again at full size, and cut everything from that. {setting}",), slipped)
    if len(fewest) == len(slipped):
        return [whole]
    some = f"Make {together(fewest)} again at full size, by the ruler or from a new print; the rest serves as it is."
    return [_made_again(bench, (f"{some} {setting}",), fewest), whole]


def _made_again(bench: Bench, words: Words, pieces: tuple[str, ...]) -> Tried:
    return Tried(Repair(words, True, pieces, ANEW), bench, anew(bench, pieces))


def _at_full_size(bench: Bench) -> str:
    """What to set when printing again: a print comes out at another scale because it was asked to, as to fit the paper,
    or because the printer itself is off; only the maker can see which."""
    scales = {done.path: done.scale for done in bench.done if done.scale is not None}
    if len(set(scales.values())) == 1:
        other = percent(1 / next(iter(scales.values())))
    else:
        other = ", ".join(f"{percent(1 / scale)} for {path or 'the rest'}" for path, scale in scales.items())
    return (
        f"Set the scaling to 100 %, never to fit the paper; if it stood at 100 % already, the printer itself is off: "
        f"then set it to {other}. Measure the check bar before you cut."
    )
