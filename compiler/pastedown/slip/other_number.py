"""Looks for one number that, set anew, lets a design go together with what slipped.

Each length that pieces are cut to by its name is moved by one mark of the ruler, upwards and downwards, alike in all
members of a family; from what that gains follows how many marks it takes, and whether that is so is seen by working it
out. What only loses an edge by it is trimmed; else all pieces of the parts of that number are cut again that come out
otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import evolve, frozen

from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.slip.bench import Bench
from pastedown.slip.compare import Compared, short
from pastedown.slip.paths import as_one, together
from pastedown.slip.report import Repair, Words
from pastedown.slip.shapes import CutTo
from pastedown.slip.tried import Tried
from pastedown.slip.workshop import Workshop

# So many marks a number is moved at most, and so often the way is looked for again.
MOST_MARKS = 512
# So many things are trimmed together; where such repairs stand among those of the same cost.
MOST_TRIMMED = 3
TRIMMED = 2
_LOOKS = 4


@frozen(eq=False)
class _Number:
    """A number, in all members of a family that did not slip. `trims` says that paper is taken off for it, and nothing
    is cut from new."""

    facts: tuple[CutTo, ...]
    size: Length
    trims: bool


def other_numbers(workshop: Workshop, bench: Bench, found: Compared, *, trims_do: bool = False) -> list[Tried]:
    """The repairs by one number set anew, each tried. Where trimming one thing is not enough, trimming several is
    looked for, at each turn what mends most and then takes off least. With `trims_do`, trims are tried before all else,
    and nothing that is dearer is looked for once one mends."""
    words: list[str | Quantity] = []
    repairs: list[Tried] = []
    before = bench
    for turn in range(MOST_TRIMMED):
        search = _Search(workshop, bench, found)
        partly: list[tuple[int, Fraction, Bench, Compared, Words]] = []
        numbers = list(_numbers(bench))
        if trims_do:
            numbers.sort(key=lambda each: not each[0].trims)
        for number, sign in numbers:
            if trims_do and not number.trims and any(each.repair.order == TRIMMED for each in repairs):
                break
            reached = search.reached(number, sign) if number.trims or not turn else None
            if reached is None:
                continue
            value, after = reached
            if after.holds:
                repair = search.repair(number, value)
                if repair is not None:
                    whole = evolve(repair, words=(*words, *repair.words))
                    repairs.append(Tried(whole, before, search.with_number(number, value)))
            elif number.trims:
                off, trimmed = (number.size - value).value, search.with_number(number, value)
                partly.append((len(after.wrong), off, trimmed, after, _trimmed(number, value)))
        if any(each.repair.order == TRIMMED for each in repairs) or not partly:
            break
        _, _, bench, found, said = min(partly, key=lambda each: each[:2])
        words += [*said, " "]
    return repairs


def _numbers(bench: Bench) -> Iterator[tuple[_Number, int]]:
    families: dict[str, list[CutTo]] = {}
    for fact in bench.facts:
        if not any(bench.now[side].as_bought for side, _ in fact.places):
            families.setdefault(without_indexes(fact.path), []).append(fact)
    slipped = set(bench.slipped)
    for facts in families.values():
        sizes = {bench.now[side].size(panel) for fact in facts for side, panel in fact.places}
        whole = all(panel is None and not bench.now[side].ends for fact in facts for side, panel in fact.places)
        if whole:
            # Those that slipped and are the greater are trimmed by themselves.
            for size in sorted(sizes, key=lambda each: -each.value)[:2]:
                alike = tuple(fact for fact in facts if bench.now[fact.places[0][0]].size(None) == size)
                yield _Number(alike, size, True), -1
        sound = tuple(fact for fact in facts if not slipped & {side[0] for side, _ in fact.places})
        sizes = {bench.now[side].size(panel) for fact in sound for side, panel in fact.places}
        if len(sizes) == 1:
            size = sizes.pop()
            yield _Number(sound, size, False), 1
            if not whole:
                yield _Number(sound, size, False), -1


@frozen(eq=False)
class _Search:
    workshop: Workshop
    bench: Bench
    found: Compared

    def reached(self, number: _Number, sign: int) -> tuple[Length, Compared] | None:
        """A number moved up (1) or down (-1) by the fewest marks for all that it helps; None where it helps nothing."""
        before, marks = self.found.wrong, 1
        for _ in range(_LOOKS):
            value = self._value(number, sign * marks)
            if value is None or not self._helps(number, value):
                return None
            after = self._compared(number, value, thorough=False)
            if after is None or set(after.wrong) - set(before):
                return None
            gained = {key: _marks(before[key], still, marks) for key, still in after.wrong.items()}
            further = [each for each in gained.values() if each is not None]
            if not further:
                return (value, after) if len(after.wrong) < len(before) else None
            marks = max(marks + 1, *further)
            if marks > MOST_MARKS:
                return None
        return None

    def _helps(self, number: _Number, value: Length) -> bool:
        """Whether a number helps with anything that is lost, at a glance; what is no requirement is not glanced at."""
        before = self.found.wrong
        if any(kind != "fit" for kind, _ in before) or self.workshop.is_used_up:
            return True
        fits = self.workshop.fits(self.with_number(number, value), (path for _, path in before))
        if fits is None:
            return True
        lost = {fit.path: short(fit, fit.now) for fit in fits.values() if fit.strict and fit.held and not fit.holds}
        return any(path not in lost or _marks(was, lost[path], 1) is not None for (_, path), was in before.items())

    def _compared(self, number: _Number, value: Length, *, thorough: bool) -> Compared | None:
        if self.workshop.is_used_up:
            return None
        in_space = thorough or any(id in SEEN_IN_SPACE for id, _ in self.found.wrong)
        return self.workshop.compared(self.with_number(number, value), in_space=in_space)

    def with_number(self, number: _Number, value: Length) -> Bench:
        """What lies on the bench, with pieces trimmed to a number or with pieces that follow it."""
        after = self.bench.again()
        if number.trims:
            for fact in number.facts:
                after.told.pop(fact.path, None)
                after.resize(fact, value)
            return after
        parts = {fact.instance.path for fact in number.facts}
        after.numbers.update({fact.path: value for fact in number.facts})
        after.follows |= {piece.path for piece in after.model.pieces if piece.path.rpartition(".")[0] in parts}
        after.follows -= set(after.slipped)
        return after

    def _value(self, number: _Number, marks: int) -> Length | None:
        """The number so many marks away, on a mark itself."""
        mark = self.workshop.mark
        on_mark = round_to(number.size, "down" if marks > 0 else "up", mark)
        value = Quantity(on_mark.value + marks * mark.value, on_mark.dimension)
        return value if value.value > 0 else None

    def repair(self, number: _Number, value: Length) -> Repair | None:
        """The repair, if all is well with it in space, too."""
        after = self._compared(number, value, thorough=True)
        if after is None or not after.holds:
            return None
        if number.trims:
            return Repair(_trimmed(number, value), True, order=TRIMMED)
        again = tuple(_others(self.bench, after.model))
        if not again:
            return None
        words: Words = (
            f"Let {together(fact.path for fact in number.facts)} be ", value, " instead of ", number.size,
            f", and cut {together(again)} to it.",
        )  # fmt: skip
        return Repair(words, True, again, 4)


def _marks(was: Fraction | None, now: Fraction | None, marks: int) -> int | None:
    """How many marks it takes for what is missing, as it goes so far; None where nothing is gained."""
    if was is None or now is None or now >= was:
        return None
    return ceil(was * marks / (was - now))


def _trimmed(number: _Number, value: Length) -> Words:
    pieces = [side for fact in number.facts for side, _ in fact.places]
    axes = {axis for _, axis in pieces}
    named = together(path for path, _ in pieces)
    how = "" if len(axes) > 1 else " high" if axes == {"height"} else " wide"
    each = " each" if len(as_one(path for path, _ in pieces)) > 1 or len(pieces) > 1 else ""
    return f"Trim {named} to ", value, f"{how}; ", number.size - value, f" comes off{each}."


def _others(bench: Bench, model: Model) -> Iterator[str]:
    """The pieces that are others in a model than those that lie there."""
    for piece in model.pieces:
        for axis, side in (("height", piece.height), ("width", piece.width)):
            lies = bench.now.get((piece.path, axis))
            ends = [panel.end for run in piece.runs if run.axis == axis for panel in run.panels]
            if lies is None or lies.side != side or lies.ends != ends:
                yield piece.path
                break
