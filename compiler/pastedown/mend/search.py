"""Which numbers to change, and how far.

Every number of the maker's own file is moved as far as it takes (`how_far.py`), one at a time. If one does not do,

- what single numbers do is joined, so that every fault is mended by one of them (`joined.py`), the best first. Where so
  many numbers are needed at least, by the faults that each of them reaches, that is the smallest change;
- else the best of what one number does is gone on from with another one of those that reach what is left, and so on;
- and then with all of them.

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

from attrs import evolve, field, frozen

from pastedown.geometry.sums import literals_behind, sums_behind
from pastedown.mend.how_far import HowFar
from pastedown.mend.joined import Offer, fewest_for, joined
from pastedown.mend.numbers import Number, added_to
from pastedown.mend.state import Asking, State, speaks_of
from pastedown.quantity.quantity import Quantity

# So many numbers are looked for one after another, and from so many half mended designs it is gone on.
MOST_NUMBERS = 3
MOST_GONE_ON = 6
# So many numbers that each mend something are joined, and so many joints are worked out.
MOST_JOINED = 6
MOST_JOINTS = 12
# So many designs more are worked out to see whether a change that was found is the smallest.
MOST_FOR_LESS = 40
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
    return _Search(asking, numbers, HowFar(asking, mark)).run(first)


@frozen(eq=False)
class _Search:
    asking: Asking
    numbers: tuple[Number, ...]
    how_far: HowFar
    sums: dict[int, Number] = field(factory=dict)
    by_one: list[State] = field(factory=list)
    last_resort: list[State] = field(factory=list)

    def run(self, first: State) -> Found:
        singles = list(self._onwards(first, with_all=True))
        self.by_one.extend(sorted(singles, key=lambda state: (not state.passes, self.cost(state))))
        found = self._best_of(singles)
        if found is not None:
            return self._found(found)
        together, partly = self._joined(first, singles)
        found = together or self._one_after_another(singles, MOST_NUMBERS, with_all=False)
        if together is not None and not self._is_proven(first, together):
            found = self._smaller(singles, together)
        elif found is None:
            # What is left where numbers were joined is mended by one or two more; else every number is tried again.
            found = self._one_after_another(partly, 3, with_all=False)
            found = found or self._one_after_another(singles, MOST_NUMBERS, with_all=True)
        return self._found(found or self._best(self.last_resort))

    def _found(self, state: State | None) -> Found:
        sums = tuple(sorted({each.called for each in self.sums.values()}))
        return Found(state, len(self.asking.tried), sums, tuple(self.by_one))

    def _is_proven(self, first: State, state: State) -> bool:
        """Whether no change of fewer numbers mends all faults, and none of as many could cost less: every number
        reaches one fault, so that the least for each is the least for all."""
        reached = [keys & set(first.faults) for keys in self.how_far.reached.values()]
        return len(state.setting) <= fewest_for(first.faults, reached) and all(len(keys) <= 1 for keys in reached)

    def _smaller(self, singles: list[State], state: State) -> State:
        """What one number after another finds with a few designs more, where that is a smaller change."""
        asking = evolve(self.asking, most=min(self.asking.most, len(self.asking.tried) + MOST_FOR_LESS))
        few = evolve(self, asking=asking, how_far=evolve(self.how_far, asking=asking))
        other = few._one_after_another(singles, min(len(state.setting), MOST_NUMBERS), with_all=False)
        return state if other is None or self.cost(state) <= self.cost(other) else other

    def _joined(self, first: State, singles: list[State]) -> tuple[State | None, list[State]]:
        """The best change that several of the single ones make together, and those that mend some of it."""
        offers = [
            Offer(state.setting, frozenset(set(first.faults) - set(state.faults)), self.cost(state))
            for state in singles
            if not state.lowered
        ]
        partly: list[State] = []
        for setting in joined(first.faults, offers, MOST_JOINED, MOST_JOINTS):
            state = self.how_far.ask(setting)
            if state is None:
                break
            if state.passes and (thorough := self._best([state])) is not None:
                return thorough, partly
            if state.is_whole and not state.passes:
                partly.append(state)
        return None, partly

    def _one_after_another(self, level: list[State], most: int, *, with_all: bool) -> State | None:
        for _ in range(most - 1):
            partly = [state for state in level if not state.passes]
            partly.sort(key=lambda state: (len(state.faults), self.cost(state)))
            level = [state for before in partly[:MOST_GONE_ON] for state in self._onwards(before, with_all=with_all)]
            found = self._best_of(level)
            if found is not None or not level or self.asking.is_used_up:
                return found
        return None

    def _best_of(self, reached: list[State]) -> State | None:
        """The best of the states that pass; those that only ask less are kept as a last resort."""
        good = [state for state in reached if state.passes]
        self.last_resort.extend(state for state in good if state.lowered)
        return self._best([state for state in good if not state.lowered])

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

    def _onwards(self, before: State, *, with_all: bool) -> Iterator[State]:
        """Every state that one number more leads to, in which something is mended or fails by less, be it at the cost
        of something else that another number may mend. Not `with_all`, numbers that reached nothing of what is wrong
        are left out."""
        untold = any(missing is None for missing in before.faults.values())
        behind = self._behind(before) if untold else frozenset()
        for number in (*self.numbers, *self._sums(before)):
            reached = self.how_far.reached.get(id(number.node))
            in_vain = not with_all and reached is not None and not reached & set(before.faults)
            if number in before.setting or self.asking.is_used_up or in_vain:
                continue
            for state in self.how_far.stops(before, number, leaping=id(number.node) in behind):
                if self.how_far.lessened(before, state) and len(state.faults) <= len(before.faults):
                    only_asks_less = state.makes_the_same_as(before)
                    if not only_asks_less or not number.is_sum:
                        yield evolve(state, lowered=before.lowered | ({number} if only_asks_less else set()))

    def _sums(self, before: State) -> list[Number]:
        """The sums of the file that the faults of a state hang on."""
        worked_out = before.judged.worked_out
        if worked_out.root is None or worked_out.model is None:
            return []
        found = added_to(sums_behind(worked_out.root, *_at_fault(before)))
        return [self.sums.setdefault(id(each.node), each) for each in found]

    def _behind(self, before: State) -> frozenset[int]:
        """The numbers of the file that the faults of a state hang on, by the identity of their nodes."""
        root = before.judged.worked_out.root
        return frozenset() if root is None else literals_behind(root, *_at_fault(before))


def _at_fault(state: State) -> tuple[list[str], list[str]]:
    """The requirements that fail, and the pieces that an error speaks of, by their paths."""
    model = state.judged.worked_out.model
    failing = [each.path for each in state.judged.requirements if each.strict and not each.holds]
    told = [each for each in state.judged.diagnostics if each.is_error]
    pieces = [
        each.path
        for each in (() if model is None else model.pieces)
        if any(each.span == error.span or speaks_of(error.sentence, each.path) for error in told)
    ]
    return failing, pieces
