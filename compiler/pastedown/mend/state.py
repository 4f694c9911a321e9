"""A design with some of its numbers set anew: its faults, and by how much each fails."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from attrs import evolve, field, frozen

from pastedown.diagnostic import Diagnostic
from pastedown.fit import requirements
from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.fit.on_marks import Judged, Trial, on_marks
from pastedown.geometry.natural_order import without_number
from pastedown.mend.numbers import Number
from pastedown.quantity.quantity import Quantity

# A fault by what it is and where it stands, whatever its numbers are.
Key = tuple[str, str, int, str]
# So often a design is worked out to mend it; one of more than 300,000 steps of work not so often.
MOST_TRIED = 160
MOST_WORK = 48_000_000
# Working out only what some requirements hang on mostly takes a tenth of that or less: so many times as often it may be
# done, as long as all of it together takes no more work than that, or than this.
NARROW_WORK = 6_000_000
_NARROW_FOR_ONE = 8
_NUMBERS = re.compile(r"[0-9]+")
Setting = Mapping[Number, Quantity]


@frozen(eq=False)
class State:
    """`setting` are the numbers that are set anew. `faults` has for every error by how much it fails (in millimetres,
    or in what is compared), None where that is no number. `is_whole` is False where the design could not be worked out
    to its end. `lowered` are the numbers by which nothing that is made becomes another: what they change is what is
    asked of it."""

    setting: Setting
    judged: Judged
    faults: Mapping[Key, Fraction | None]
    is_whole: bool
    lowered: frozenset[Number] = frozenset()

    @property
    def disliked(self) -> frozenset[str]:
        """The preferences that are not met."""
        return frozenset(each.path for each in self.judged.requirements if not each.strict and not each.holds)

    def makes_the_same_as(self, other: State) -> bool:
        """Whether every piece and all that is joined is the same in both."""
        one, two = self.judged.worked_out.model, other.judged.worked_out.model
        return one is not None and two is not None and (one.pieces, one.joins) == (two.pieces, two.joins)

    @property
    def passes(self) -> bool:
        return self.is_whole and not self.faults

    @property
    def failing(self) -> frozenset[str] | None:
        """The requirements that fail, by their paths without the number at their end; None where something else is
        wrong too."""
        if any(id != "requirement-fails" for id, *_ in self.faults):
            return None
        failed = (each for each in self.judged.requirements if each.strict and not each.holds)
        return frozenset(without_number(each.path) for each in failed)


@frozen(eq=False)
class Asking:
    """Asks what a design would be. `in_space` says whether everything is placed each time, or only when it is asked
    thoroughly. `tried` counts how often it was; `most` is how often it may be, and `whole` the steps of work that it
    takes once. `narrow` has the steps that it took each time no more was worked out than some requirements hang on."""

    trial: Trial
    in_space: bool
    whole: int
    most: int
    tried: list[Setting] = field(factory=list)
    narrow: list[int] = field(factory=list)

    @property
    def is_used_up(self) -> bool:
        most_work = max(self.most * self.whole, NARROW_WORK)
        is_narrow_used_up = len(self.narrow) >= self.most * _NARROW_FOR_ONE or sum(self.narrow) >= most_work
        return len(self.tried) >= self.most or is_narrow_used_up

    def ask(self, setting: Setting, *, thorough: bool = False) -> State:
        """The design with numbers set anew; `thorough` looks for a system of marks where the first one fails."""
        self.tried.append(setting)
        trial = self._with(setting)
        judged = on_marks(trial) if thorough else trial.judged(0, in_space=self.in_space)
        return state_of(setting, judged)

    def ask_of(self, failing: frozenset[str], setting: Setting) -> State:
        """Of the design with numbers set anew nothing but these requirements, by their paths without the number at
        their end: no other fault is seen."""
        judged = self._with(setting).judged(0, only=failing)
        self.narrow.append(judged.worked_out.spent)
        model = judged.worked_out.model
        told = () if model is None else tuple(requirements.look(model))
        return state_of(setting, evolve(judged, diagnostics=(*judged.diagnostics, *told)))

    def _with(self, setting: Setting) -> Trial:
        return evolve(self.trial, instead={id(number.node): number.said(value) for number, value in setting.items()})


def asking_about(judged: Judged, first: State, most: int = MOST_TRIED, work: int = MOST_WORK) -> Asking:
    """For asking about a design that was judged, and has the faults of `first`, at most so often and with no more than
    so many steps of work."""
    return Asking(judged.trial, fails_in_space(first), _steps_of(judged), how_often(judged, most, work))


def how_often(judged: Judged, most: int, work: int) -> int:
    """How often a design can be judged again with so many steps of work, `most` at most."""
    return min(most, work // _steps_of(judged))


def _steps_of(judged: Judged) -> int:
    # What was spent went into every system of marks that was tried.
    return max(judged.worked_out.spent // judged.systems, 1)


def state_of(setting: Setting, judged: Judged) -> State:
    """The faults among all that was found."""
    faults: dict[Key, Fraction | None] = {}
    for each in judged.diagnostics:
        if not each.is_error:
            continue
        key = key_of(each)
        other = faults.get(key)
        worst = each.missing if other is None or each.missing is None else max(other, each.missing)
        faults[key] = worst if key not in faults or other is not None else None
    worked_out = judged.worked_out
    return State(setting, judged, faults, worked_out.model is not None and not worked_out.broken_off)


def fails_in_space(state: State) -> bool:
    """Whether something is wrong that is only seen once the pieces are placed."""
    return any(id in SEEN_IN_SPACE for id, *_ in state.faults)


def key_of(each: Diagnostic) -> Key:
    """What an error is and where, whatever its numbers are."""
    span = each.span
    if span is None:
        return each.id, "", 0, ""
    return each.id, span.source.name, span.start, _NUMBERS.sub("", span.text)


def speaks_of(sentence: str, path: str) -> bool:
    """Whether a sentence speaks of a piece by its path."""
    return re.search(rf"(?<![\w.\]]){re.escape(path)}(?![\w\[])", sentence) is not None
