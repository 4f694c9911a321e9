"""Which numbers to change, and how far.

Every number of the maker's own file is moved by one mark of the ruler (a count by one), one at a time, and the design
is worked out with it: so much more or less fails each fault. From that follows how many marks a number has to go for
all the faults it reaches, and whether that is so is seen by working it out. Where one number does not do it, the best
of what one number does is gone on from in the same way.

A change is better than another

1. if it sets fewer numbers anew;
2. if it leaves fewer preferences unmet;
3. if the lengths it changes differ less from what was written, all differences added up (a count by one is as much as
   COUNT_COSTS);
4. if it makes lengths greater rather than smaller, since paper that is there can be cut away;
5. if the number whose name comes first in the alphabet changes, and it changes to the smaller value.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import field, frozen

from pastedown.mend.numbers import Number
from pastedown.mend.state import Asking, Setting, State
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import round_to

# So often the design is worked out, so many numbers are set anew at most, and from so many half mended designs it is
# gone on.
MOST_TRIED = 300
MOST_NUMBERS = 3
MOST_GONE_ON = 4
# So many marks a number is moved at most, and so often the way is looked for once more.
MOST_MARKS = 512
_LOOKS = 4
# One thing more or less, in millimetres: worse than any length.
COUNT_COSTS = Fraction(1000)


@frozen(eq=False)
class Found:
    """What was found: the state that passes, None where none does, and how often the design was worked out."""

    state: State | None
    tried: int


def search(asking: Asking, first: State, numbers: tuple[Number, ...], mark: Quantity) -> Found:
    """The best change that was found to mend a design whose faults are those of `first`."""
    return _Search(asking, numbers, mark).run(first)


@frozen(eq=False)
class _Search:
    asking: Asking
    numbers: tuple[Number, ...]
    mark: Quantity
    seen: dict[frozenset[tuple[int, Fraction]], State] = field(factory=dict)

    def run(self, first: State) -> Found:
        level = [first]
        for _ in range(MOST_NUMBERS):
            reached = [state for before in level for state in self._onwards(before)]
            good = sorted((state for state in reached if state.passes), key=self.cost)
            for state in good:
                thorough = self.asking.ask(state.setting, thorough=True)
                if thorough.passes:
                    return Found(thorough, len(self.asking.tried))
            partly = [state for state in reached if not state.passes]
            partly.sort(key=lambda state: (len(state.faults), self.cost(state)))
            level = partly[:MOST_GONE_ON]
            if not level or self._is_used_up():
                break
        return Found(None, len(self.asking.tried))

    def cost(self, state: State) -> tuple[object, ...]:
        """What makes one change better than another, least first."""
        away, smaller = Fraction(0), 0
        for number, value in state.setting.items():
            change = value.value - number.literal.value.value
            away += abs(change) * (COUNT_COSTS if number.is_count else 1)
            smaller += change < 0
        names = sorted((number.called, value.value) for number, value in state.setting.items())
        return len(state.setting), len(state.disliked), away, smaller, names

    def _is_used_up(self) -> bool:
        return len(self.asking.tried) >= MOST_TRIED

    def _onwards(self, before: State) -> Iterator[State]:
        """Every state that one number more leads to, in which something is mended, be it at the cost of something else
        that another number may mend."""
        for number in self.numbers:
            if number in before.setting or self._is_used_up():
                continue
            for state in self._moved(before, number):
                is_mended = any(key not in state.faults for key in before.faults)
                if state.is_whole and is_mended and len(state.faults) <= len(before.faults):
                    yield state

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
        while high - low > 1 and not self._is_used_up():
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
        key = frozenset((id(each.literal), amount.value) for each, amount in setting.items())
        if key not in self.seen:
            if self._is_used_up():
                return None
            self.seen[key] = self.asking.ask(setting)
        return self.seen[key]

    def _value(self, number: Number, marks: int) -> Quantity | None:
        """The number so many marks away, on a mark itself; None where nothing is left of it."""
        own = number.literal.value
        if number.is_count:
            value = Quantity(own.value + marks, own.dimension)
            return value if value.value >= 1 else None
        on_mark = round_to(own, "down" if marks > 0 else "up", self.mark)
        value = Quantity(on_mark.value + marks * self.mark.value, own.dimension)
        return value if value.value > 0 else None


def _further(before: State, state: State, marks: int) -> int | None:
    """How many marks it takes for the faults that got less, all of them, as it goes so far; None where none did."""
    wanted: list[int] = []
    for key, was in before.faults.items():
        now = state.faults.get(key)
        if was is not None and now is not None and now < was:
            gain = (was - now) / marks
            wanted.append(ceil(was / gain))
    return max(*wanted, marks + 1) if wanted else None
