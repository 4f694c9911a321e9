"""How far one number has to go for what fails.

It is moved by one mark of the ruler (a count by one), up and down, and what comes of it is worked out: so much
more or less fails each fault. From that follows how many marks it takes for all the faults that it reaches, and whether
that is so is seen by working it out. Where only requirements fail, no more is worked out for that than they hang on;
what comes of it for the whole design is asked at the end.

A fault that tells no number by which it fails gets no less before it is gone. There the marks are doubled.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import field, frozen

from pastedown.mend.numbers import Number
from pastedown.mend.state import Asking, Key, Setting, State
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import round_to

# So many marks a number is moved at most, and so often the way is looked for once more.
MOST_MARKS = 512
_LOOKS = 4
# So many places on its way a number may stop at: where it mends most, and the nearest at which it mends one thing.
_MOST_STOPS = 3


@frozen(eq=False)
class HowFar:
    """Moves numbers. `reached` has for each of them, by the identity of its node, the faults that got less or were
    mended by it, however far it went."""

    asking: Asking
    mark: Quantity
    reached: dict[int, set[Key]] = field(factory=dict)
    seen: dict[tuple[frozenset[str] | None, frozenset[tuple[int, Fraction]]], State] = field(factory=dict)

    def stops(self, before: State, number: Number, *, leaping: bool = False) -> Iterator[State]:
        """The states with one number moved as far as it takes for what it reaches, upwards and downwards; where that
        breaks something, also as far as it takes for less, and as far as it can without. `leaping` looks far where no
        fault gets less."""
        narrow = before.failing
        ways = {way: self._ask(before, number, way, narrow) for way in (1, -1)}
        for way, near in ways.items():
            if near is None or not near.is_whole:
                continue
            marks, state = self._as_far(before, number, way, near, narrow)
            if leaping and narrow is None and not self.lessened(before, state):
                marks, state = self._leapt(before, number, way, near)
            if not self.lessened(before, state):
                continue
            yield from self._asked_whole(before, number, way, marks, state, narrow)

    def _asked_whole(
        self, before: State, number: Number, way: int, marks: int, state: State, narrow: frozenset[str] | None
    ) -> Iterator[State]:
        far, best = self._least(before, number, way, marks, state, _mended(before, state), narrow)
        whole = best if narrow is None else self._ask(before, number, way * far, None)
        if whole is None:
            return
        yield whole
        if whole.is_whole and set(whole.faults) <= set(before.faults):
            return
        nearer: dict[int, State | None] = {}
        for key in sorted(_mended(before, state))[:_MOST_STOPS]:
            near, found = self._least(before, number, way, marks, state, {key}, narrow)
            if near != far and near not in nearer:
                nearer[near] = found if narrow is None else self._ask(before, number, way * near, None)
        yield from (each for _, each in sorted(nearer.items()) if each is not None)
        if narrow is not None and whole.is_whole and whole.failing is not None:
            unbroken = self._unbroken(before, number, way, far, narrow | whole.failing)
            if unbroken is not None:
                yield unbroken

    def _unbroken(
        self, before: State, number: Number, way: int, marks: int, failing: frozenset[str]
    ) -> State | None:
        """As many marks as break nothing, by halving, though they mend nothing as yet: another number may do the rest.
        None where that is not a single one, or where something else breaks."""
        low, high = 0, marks
        while high - low > 1 and not self.asking.is_used_up:
            middle = (low + high) // 2
            tried = self._ask(before, number, way * middle, failing)
            if tried is not None and tried.is_whole and set(tried.faults) <= set(before.faults):
                low = middle
            else:
                high = middle
        state = self._ask(before, number, way * low, None) if low else None
        good = state is not None and state.is_whole and set(state.faults) <= set(before.faults)
        return state if good else None

    def _as_far(
        self, before: State, number: Number, way: int, near: State, narrow: frozenset[str] | None
    ) -> tuple[int, State]:
        marks, state = 1, near
        for _ in range(_LOOKS):
            if len(state.faults) < len(before.faults) and not _is_going_on(before, state):
                break
            wanted = _further(before, state, marks)
            if wanted is None or wanted > MOST_MARKS:
                break
            further = min(wanted, self._last(number, way))
            if further <= marks:
                break
            after = self._ask(before, number, way * further, narrow)
            if after is None or not after.is_whole:
                break
            marks, state = further, after
        return marks, state

    def _leapt(self, before: State, number: Number, way: int, near: State) -> tuple[int, State]:
        """Twice as far each time, until something is mended."""
        marks, state = 1, near
        while marks < MOST_MARKS and not _mended(before, state):
            after = self._ask(before, number, way * marks * 2, None)
            if after is None or not after.is_whole:
                break
            marks, state = marks * 2, after
        return marks, state

    def _least(
        self,
        before: State,
        number: Number,
        way: int,
        marks: int,
        state: State,
        wanted: set[Key],
        narrow: frozenset[str] | None,
    ) -> tuple[int, State]:
        """As few marks as mend what is wanted, by halving, and break nothing that more of them do not break."""
        if not wanted:
            return marks, state
        low, high, best = 0, marks, state
        broken = set(state.faults) - set(before.faults)
        while high - low > 1 and not self.asking.is_used_up:
            middle = (low + high) // 2
            tried = self._ask(before, number, way * middle, narrow)
            mends = tried is not None and tried.is_whole and not wanted & set(tried.faults)
            if mends and tried is not None and set(tried.faults) - set(before.faults) <= broken:
                high, best = middle, tried
            else:
                low = middle
        return high, best

    def _last(self, number: Number, way: int) -> int:
        """How many marks a number can go before nothing is left of it."""
        if way > 0 or number.is_sum:
            return MOST_MARKS
        return ceil(number.value.value / (1 if number.is_count else self.mark.value)) - 1

    def lessened(self, before: State, state: State) -> set[Key]:
        """The faults of a state that are mended in another one, or fail by less there."""
        if not state.is_whole:
            return set()
        return {
            key
            for key, was in before.faults.items()
            if key not in state.faults or ((now := state.faults[key]) is not None and was is not None and now < was)
        }

    def _ask(self, before: State, number: Number, marks: int, narrow: frozenset[str] | None) -> State | None:
        value = self._value(number, marks)
        if value is None:
            return None
        setting: Setting = {**before.setting, number: value}
        state = self.ask(setting, narrow)
        if state is not None:
            self.reached.setdefault(id(number.node), set()).update(self.lessened(before, state))
        return state

    def ask(self, setting: Setting, narrow: frozenset[str] | None = None) -> State | None:
        """The design with numbers set anew, as a whole or of it only some requirements; None where it may not be asked
        any more. What was asked before is not asked again."""
        key = narrow, frozenset((id(each.node), amount.value) for each, amount in setting.items())
        if key not in self.seen:
            if self.asking.is_used_up:
                return None
            self.seen[key] = self.asking.ask(setting) if narrow is None else self.asking.ask_of(narrow, setting)
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


def _mended(before: State, state: State) -> set[Key]:
    return set(before.faults) - set(state.faults)


def _is_going_on(before: State, state: State) -> bool:
    """Whether some fault that is left has got less, so that going on may mend it as well."""
    return any(
        missing is not None and (was := before.faults.get(key)) is not None and missing < was
        for key, missing in state.faults.items()
    )


def _further(before: State, state: State, marks: int) -> int | None:
    """How many marks it takes for the faults that got less, all of them, as it goes so far; None where none did."""
    wanted: list[int] = []
    for key, was in before.faults.items():
        now = state.faults.get(key)
        if was is not None and now is not None and now < was:
            gain = (was - now) / marks
            wanted.append(ceil(was / gain))
    return max(*wanted, marks + 1) if wanted else None
