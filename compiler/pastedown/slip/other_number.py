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

from pastedown.geometry.actual import Asked
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.slip.bench import Bench
from pastedown.slip.compare import Compared, short
from pastedown.slip.paths import as_one, together
from pastedown.slip.report import Repair, Words
from pastedown.slip.shapes import CutTo
from pastedown.slip.tried import NUMBER, TRIMMED, Tried
from pastedown.slip.workshop import Workshop

# So many marks a number is moved at most, and so often the way is looked for again.
MOST_MARKS = 512
# So many things are trimmed together, and of numbers that something would be cut again to so many are tried as a whole.
MOST_TRIMMED = 3
_MOST_TRIED = 3
_LOOKS = 4


@frozen(eq=False)
class _Number:
    """A number, in all members of a family that did not slip. `trims` says that paper is taken off for it, and nothing
    is cut from new."""

    facts: tuple[CutTo, ...]
    size: Length
    trims: bool


def other_numbers(
    workshop: Workshop, bench: Bench, found: Compared, *, trims_do: bool = False, most_trimmed: int = MOST_TRIMMED
) -> list[Tried]:
    """The repairs by one number set anew, each tried. Where trimming one thing is not enough, trimming several is
    looked for, at each turn what mends most and then takes off least. Trims come before all else, and nothing dearer is
    looked for once one mends, nor with `trims_do`."""
    words: list[str | Quantity] = []
    before, dearer = bench, list[Tried]()
    for turn in range(most_trimmed):
        search = search_on(workshop, bench, found)
        reached = [
            (number, value, still)
            for number, sign in search.numbers
            if number.trims or not (turn or trims_do)
            for value, still in search.reached(number, sign)
        ]
        trims = [each for each in reached if each[0].trims]
        mended = [
            Tried(evolve(repair, words=(*words, *repair.words)), before, search.with_number(number, value))
            for number, value, still in trims
            if not still and (repair := search.repair(number, value)) is not None
        ]
        if mended:
            return mended
        if not turn:
            dearer = _dearer(search, [each for each in reached if not each[0].trims and not each[2]])
        if turn + 1 == most_trimmed:
            break
        trims.sort(key=lambda each: (each[2], (each[0].size - each[1]).value))
        for number, value, _ in trims[:1]:
            bench = search.with_number(number, value)
            words += [*_trimmed(number, value), " "]
        after = workshop.compared(bench) if trims and not workshop.is_used_up else None
        if after is None or set(after.wrong) - set(found.wrong):
            break
        found = after
    return dearer


def _dearer(search: _Search, reached: list[tuple[_Number, Length, int]]) -> list[Tried]:
    """The first few of them that mend, those of parts with the fewest pieces before the others."""
    some: list[Tried] = []
    for number, value, _ in sorted(reached, key=lambda each: len(search.pieces_of(each[0]))):
        repair = search.repair(number, value)
        if repair is not None:
            some.append(Tried(repair, search.bench, search.with_number(number, value)))
        if len(some) == _MOST_TRIED:
            break
    return some


def _numbers(bench: Bench) -> Iterator[tuple[_Number, int]]:
    families: dict[str, list[CutTo]] = {}
    for fact in bench.facts:
        if not fact.handed_down and not any(bench.now[side].as_bought for side, _ in fact.places):
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


def search_on(workshop: Workshop, bench: Bench, found: Compared) -> _Search:
    """A search of what mends all that was found."""
    lost = {
        (fit.path, fit.operator): short(fit, fit.now)
        for fit in found.fits
        if fit.strict and fit.held and not fit.holds
    }
    asked = Asked()
    workshop.fits(bench, {path for path, _ in lost}, asked)
    return _Search(workshop, bench, found, lost, asked)


@frozen(eq=False)
class _Search:
    """`lost` are the requirements that do not hold, with how much is missing, and `asked` is what they hang on."""

    workshop: Workshop
    bench: Bench
    found: Compared
    lost: dict[tuple[str, str], Fraction | None]
    asked: Asked

    @property
    def numbers(self) -> list[tuple[_Number, int]]:
        """What may help: what the lost requirements hang on; where none is lost, what faults speak of."""
        return [each for each in _numbers(self.bench) if self._may_help(each[0])]

    def _may_help(self, number: _Number) -> bool:
        if not self.lost:
            told = [fault.sentence for fault in self.found.faults]
            told += [f"{pair.piece} " for pair in self.found.pairs]
            return any(f"{piece} " in words for piece in self.pieces_of(number) for words in told)
        sides = {side for fact in number.facts for side, _ in fact.places}
        if number.trims:
            return bool(self.asked.sides & sides) or any(fact.path in self.asked.facts for fact in number.facts)
        parts = {fact.instance.path for fact in number.facts}
        within = {path for path, _ in self.asked.sides} | self.asked.facts
        return any(path.rpartition(".")[0] in parts for path in within)

    def pieces_of(self, number: _Number) -> list[str]:
        """The pieces of the parts of a number."""
        parts = {fact.instance.path for fact in number.facts}
        return [piece.path for piece in self.bench.model.pieces if piece.path.rpartition(".")[0] in parts]

    def reached(self, number: _Number, sign: int) -> Iterator[tuple[Length, int]]:
        """A number moved up (1) or down (-1) by the fewest marks for all that it helps, and how many of the lost
        requirements are lost still; none where it helps nothing. What is missing changes evenly with a number, as it is
        a sum of lengths; where it does not, it is looked at again from nearer by."""
        if not self.lost:
            value = self._value(number, sign)
            yield from [(value, 0)] if value is not None else []
            return
        marks = 1
        for _ in range(_LOOKS):
            value = self._value(number, sign * marks)
            still = None if value is None or self.workshop.is_used_up else self._lost_with(number, value)
            if value is None or still is None:
                return
            helped = {key for key, was in self.lost.items() if key not in still or _gained(was, still[key])}
            if not helped:
                return
            moved = abs((value - number.size).value)
            further = [
                was * moved / (was - now)
                for key, now in still.items()
                if key in helped and (was := self.lost[key]) is not None and now is not None
            ]
            if not further:
                yield value, len(still)
                return
            marks = max(marks + 1, self._marks(number, sign, max(further)))
            if marks > MOST_MARKS:
                return

    def _lost_with(self, number: _Number, value: Length) -> dict[tuple[str, str], Fraction | None] | None:
        """Those of the lost requirements that are lost with a number, too, at a glance."""
        fits = self.workshop.fits(self.with_number(number, value), {path for path, _ in self.lost})
        if fits is None:
            return None
        return {
            key: short(fit, fit.now) for key, fit in fits.items() if key in self.lost and not fit.holds and fit.strict
        }

    def _marks(self, number: _Number, sign: int, distance: Fraction) -> int:
        """How many marks away a number lies at least that is so far from what it is."""
        mark = self.workshop.mark.value
        on_mark = round_to(number.size, "down" if sign > 0 else "up", self.workshop.mark)
        return ceil((distance + abs((on_mark - number.size).value)) / mark)

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
        # What handed the number down is set anew with it.
        places = {place for fact in number.facts for place in fact.places}
        above = [fact for fact in after.facts if fact.handed_down and places >= set(fact.places)]
        after.numbers.update({fact.path: value for fact in above})
        return after

    def _value(self, number: _Number, marks: int) -> Length | None:
        """The number so many marks away, on a mark itself."""
        mark = self.workshop.mark
        on_mark = round_to(number.size, "down" if marks > 0 else "up", mark)
        value = Quantity(on_mark.value + marks * mark.value, on_mark.dimension)
        return value if value.value > 0 else None

    def repair(self, number: _Number, value: Length) -> Repair | None:
        """The repair, if all is well with it."""
        tried = self.with_number(number, value)
        if self.workshop.is_used_up or self.workshop.fails_at_a_glance(tried):
            return None
        after = self.workshop.compared(tried)
        if after is None or not after.holds:
            if after is not None:
                self.workshop.heed(after)
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
        return Repair(words, True, again, NUMBER)


def _gained(was: Fraction | None, now: Fraction | None) -> bool:
    return was is not None and now is not None and now < was


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
