"""Which numbers to change, and how far.

Every number of the maker's own file is moved by one mark of the ruler (a count by one), one at a time, and the design
is worked out with it: so much more or less fails each fault. From that follows how many marks a number has to go for
all the faults it reaches, and whether that is so is seen by working it out. Where one number does not do it, the best
of what one number does is gone on from in the same way.

A length that the file works out from others, and that a fault hangs on, is moved as a whole: something is added to the
sum or taken from it. That is not done to what is only handed to a requirement: nothing would be made otherwise for it.

A change is better than another

1. if fewer of its numbers are limits: numbers by which nothing is made otherwise, only less is asked. Other changes, of
   however many numbers, are looked for first;
2. if it sets fewer numbers anew;
3. if it leaves fewer preferences unmet;
4. if the lengths it changes differ less from what was written, all differences added up (a count by one is as much as
   COUNT_COSTS);
5. if it changes numbers rather than sums;
6. if it makes lengths greater rather than smaller, since paper that is there can be cut away;
7. if the number whose name comes first in the alphabet changes, and it changes to the smaller value.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import evolve, field, frozen

from pastedown.diagnostic import Severity
from pastedown.geometry.sums import sums_behind
from pastedown.mend.numbers import Number, added_to
from pastedown.mend.state import Asking, Setting, State
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import round_to

# So many numbers are set anew at most, and from so many half mended designs it is gone on.
MOST_NUMBERS = 3
MOST_GONE_ON = 4
# So many marks a number is moved at most, and so often the way is looked for once more.
MOST_MARKS = 512
_LOOKS = 4
# One thing more or less, in millimetres: worse than any length.
COUNT_COSTS = Fraction(1000)


@frozen(eq=False)
class Found:
    """What was found: the state that passes, None where none does, how often the design was worked out, and the sums
    that were tried, by what they are called. `by_one` are the states that one number alone leads to and that mend
    something, the best first."""

    state: State | None
    tried: int
    sums: tuple[str, ...] = ()
    by_one: tuple[State, ...] = ()


def search(asking: Asking, first: State, numbers: tuple[Number, ...], mark: Quantity) -> Found:
    """The best change that was found to mend a design whose faults are those of `first`."""
    return _Search(asking, numbers, mark).run(first)


@frozen(eq=False)
class _Search:
    asking: Asking
    numbers: tuple[Number, ...]
    mark: Quantity
    seen: dict[frozenset[tuple[int, Fraction]], State] = field(factory=dict)
    sums: dict[int, Number] = field(factory=dict)
    by_one: list[State] = field(factory=list)

    def run(self, first: State) -> Found:
        level, last_resort = [first], list[State]()
        for number in range(MOST_NUMBERS):
            reached = [state for before in level for state in self._onwards(before)]
            if not number:
                self.by_one.extend(sorted(reached, key=lambda state: (not state.passes, self.cost(state))))
            good = [state for state in reached if state.passes]
            found = self._best([state for state in good if not state.lowered])
            if found is not None:
                return self._found(found)
            last_resort += [state for state in good if state.lowered]
            partly = [state for state in reached if not state.passes]
            partly.sort(key=lambda state: (len(state.faults), self.cost(state)))
            level = partly[:MOST_GONE_ON]
            if not level or self.asking.is_used_up:
                break
        return self._found(self._best(last_resort))

    def _found(self, state: State | None) -> Found:
        sums = tuple(sorted({each.called for each in self.sums.values()}))
        return Found(state, len(self.asking.tried), sums, tuple(self.by_one))

    def _best(self, good: list[State]) -> State | None:
        for state in sorted(good, key=self.cost):
            thorough = self.asking.ask(state.setting, thorough=True)
            if thorough.passes:
                return evolve(thorough, lowered=state.lowered)
        return None

    def cost(self, state: State) -> tuple[object, ...]:
        """What makes one change better than another, least first."""
        away, smaller, sums = Fraction(0), 0, sum(number.is_sum for number in state.setting)
        for number, value in state.setting.items():
            change = value.value - number.value.value
            away += abs(change) * (COUNT_COSTS if number.is_count else 1)
            smaller += change < 0
        names = sorted((number.called, value.value) for number, value in state.setting.items())
        return len(state.lowered), len(state.setting), len(state.disliked), away, sums, smaller, names

    def _onwards(self, before: State) -> Iterator[State]:
        """Every state that one number more leads to, in which something is mended, be it at the cost of something else
        that another number may mend."""
        for number in (*self.numbers, *self._sums(before)):
            if number in before.setting or self.asking.is_used_up:
                continue
            for state in self._moved(before, number):
                is_mended = any(key not in state.faults for key in before.faults)
                if state.is_whole and is_mended and len(state.faults) <= len(before.faults):
                    only_asks_less = state.makes_the_same_as(before)
                    if not only_asks_less or not number.is_sum:
                        yield evolve(state, lowered=before.lowered | ({number} if only_asks_less else set()))

    def _sums(self, before: State) -> list[Number]:
        """The sums of the file that the faults of a state hang on."""
        worked_out = before.judged.worked_out
        if worked_out.root is None or worked_out.model is None:
            return []
        failing = [each.path for each in before.judged.requirements if each.strict and not each.holds]
        places = {each.span for each in before.judged.diagnostics if each.severity is Severity.ERROR}
        pieces = [each.path for each in worked_out.model.pieces if each.span in places]
        found = added_to(sums_behind(worked_out.root, failing, pieces))
        return [self.sums.setdefault(id(each.node), each) for each in found]

    def _moved(self, before: State, number: Number) -> Iterator[State]:
        """The states with one number moved as far as it takes for what it reaches, upwards and downwards."""
        ways = {way: self._ask(before, number, way) for way in (1, -1)}
        for way, near in ways.items():
            if near is None or not near.is_whole:
                continue
            marks, state = 1, near
            for _ in range(_LOOKS):
                if len(state.faults) < len(before.faults) and not self._reached(before, state):
                    break
                further = _further(before, state, marks)
                if further is None or further > MOST_MARKS or further == marks:
                    break
                after = self._ask(before, number, way * further)
                if after is None or not after.is_whole:
                    break
                marks, state = further, after
            yield self._least(before, number, way, marks, state)

    def _reached(self, before: State, state: State) -> bool:
        """Whether some fault that is left has got less, so that going on may mend it as well."""
        return any(
            missing is not None and (was := before.faults.get(key)) is not None and missing < was
            for key, missing in state.faults.items()
        )

    def _least(self, before: State, number: Number, way: int, marks: int, state: State) -> State:
        """The same with as few marks as do as much, by halving."""
        if len(state.faults) >= len(before.faults):
            return state
        low, high, best = 0, marks, state
        while high - low > 1 and not self.asking.is_used_up:
            middle = (low + high) // 2
            tried = self._ask(before, number, way * middle)
            if tried is not None and tried.is_whole and set(tried.faults) <= set(best.faults):
                high, best = middle, tried
            else:
                low = middle
        return best

    def _ask(self, before: State, number: Number, marks: int) -> State | None:
        value = self._value(number, marks)
        if value is None:
            return None
        setting: Setting = {**before.setting, number: value}
        key = frozenset((id(each.node), amount.value) for each, amount in setting.items())
        if key not in self.seen:
            if self.asking.is_used_up:
                return None
            self.seen[key] = self.asking.ask(setting)
        return self.seen[key]

    def _value(self, number: Number, marks: int) -> Quantity | None:
        """The number so many marks away, on a mark itself; None where nothing is left of it."""
        own = number.value
        if number.is_count:
            value = Quantity(own.value + marks, own.dimension)
            return value if value.value >= 1 else None
        on_mark = round_to(own, "down" if marks > 0 else "up", self.mark)
        value = Quantity(on_mark.value + marks * self.mark.value, own.dimension)
        return value if value.value > 0 or number.is_sum else None


def _further(before: State, state: State, marks: int) -> int | None:
    """How many marks it takes for the faults that got less, all of them, as it goes so far; None where none did."""
    wanted: list[int] = []
    for key, was in before.faults.items():
        now = state.faults.get(key)
        if was is not None and now is not None and now < was:
            gain = (was - now) / marks
            wanted.append(ceil(was / gain))
    return max(*wanted, marks + 1) if wanted else None
