"""Tries the ways out that the messages of a refused design offer, each as a whole design.

A way out of one requirement may break another, or may not help where what it is measured against follows it. So each
that sets a number of the maker's own is worked out, and told with what comes of it; one that does not even mend its own
requirement is told no more. Then one change is looked for with which everything passes, as `search.py` does it, among
the numbers that the faults hang on.

A refused design costs at most MOST_TRIED designs more, and no more than MOST_WORK steps of work for all of them: one
that is too much work to begin with is not tried at all.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, field, frozen

from pastedown.diagnostic import Diagnostic
from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.fit.on_marks import Judged
from pastedown.fit.requirements import failed_in_words
from pastedown.geometry.from_design import instances
from pastedown.geometry.model import Requirement
from pastedown.geometry.natural_order import without_number
from pastedown.geometry.sums import literals_behind, requirements_of
from pastedown.mend.edit import Edit, edits_of
from pastedown.mend.numbers import Number, numbers_in
from pastedown.mend.safety import least_safe, one_mark_safer, told_often, told_safety, told_spare
from pastedown.mend.search import Found, search
from pastedown.mend.state import Asking, State, asking_about, key_of, speaks_of, state_of
from pastedown.mend.way_subject import Subject, subjects
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write_text
from pastedown.tree.statement import Require

MOST_TRIED = 32
MOST_WORK = 1_800_000
# So many ways out are taken together, and so many numbers named that each mend one fault.
MOST_TOGETHER = 6
MOST_NAMED = 4
# So many numbers are tried where the words of a way out do not say which one they set.
MOST_GUESSED = 12
_NOT_TRIED = " (not tried with the rest of the design)"


@frozen(eq=False)
class Tried:
    """What was told of a refused design, with its ways out tried; `edits` are a change with which everything passes,
    none where none was found, and `state` is the design with it. `tried` designs were worked out for that."""

    diagnostics: tuple[Diagnostic, ...]
    edits: tuple[Edit, ...]
    state: State | None = None
    tried: int = 0


def with_ways_tried(judged: Judged) -> Tried:
    """The diagnostics of a refused design with what comes of each way out."""
    first = state_of({}, judged)
    if judged.worked_out.root is None or not first.is_whole or not first.faults:
        return Tried(judged.diagnostics, ())
    asking = asking_about(judged, first, MOST_TRIED, MOST_WORK)
    return Tried(judged.diagnostics, ()) if asking.most < 1 else _Ways(judged, first, asking).run()


@frozen(eq=False)
class _Ways:
    judged: Judged
    first: State
    asking: Asking
    passing: list[State] = field(factory=list)
    wanted: dict[int, list[tuple[str, Quantity]]] = field(factory=dict)

    def run(self) -> Tried:
        told = {id(each): each for each in self.judged.diagnostics}
        for each in self.judged.diagnostics:
            if each.id == "requirement-fails":
                told[id(each)] = self._with_its_ways(each)
        best = min(self.passing, key=_least) if self.passing else self._one_after_another()
        others = [each for each in self.first.faults if each[0] != "requirement-fails"]
        if others or best is None:
            found = self._searched()
            best = best or found.state
            for each in self.judged.diagnostics:
                if each.is_error and key_of(each) in others:
                    told[id(each)] = self._with_one_number(each, found)
        if best is not None and len(best.setting) == 1 and best.passes:
            told = {at: self._follows_from(each, best) for at, each in told.items()}
        told = {at: _told_untried(each) for at, each in told.items()}
        if best is not None:
            told = {at: self._in_order(each, best) for at, each in told.items()}
        edits = () if best is None else self._edits(best)
        return Tried(tuple(told[id(each)] for each in self.judged.diagnostics), edits, best, len(self.asking.tried))

    def _one_after_another(self) -> State | None:
        """The first way out that helps of each requirement that fails, all together."""
        state = self.first
        for _ in range(MOST_TOGETHER):
            after = self._one_more(state)
            if after is None:
                return None
            state = after
            if state.passes:
                thorough = self.asking.ask(state.setting, thorough=True)
                return thorough if thorough.passes else None
        return None

    def _one_more(self, before: State) -> State | None:
        failing = next((each for each in before.judged.requirements if each.strict and not each.holds), None)
        if failing is None:
            return None
        for _, choices in self._subjects(failing, before):
            for each in choices:
                if self.asking.is_used_up:
                    return None
                # Two ways out may pull on each other: a number that is set already may have to go further.
                setting = before.setting.items()
                others = {number: value for number, value in setting if number.node is not each.number.node}
                after = self.asking.ask({**others, each.number: each.value})
                no_worse = after.is_whole and set(after.faults) <= {*before.faults, *self.first.faults}
                if no_worse and not _fails(failing, after) and not after.makes_the_same_as(before):
                    return after
        return None

    def _searched(self) -> Found:
        worked_out = self.judged.worked_out
        assert worked_out.root is not None and worked_out.model is not None
        told = [each for each in self.judged.diagnostics if each.is_error]
        pieces = [
            each.path
            for each in worked_out.model.pieces
            if any(each.span == error.span or speaks_of(error.sentence, each.path) for error in told)
        ]
        failing = [each.path for each in self._failing()]
        behind = literals_behind(worked_out.root, failing, pieces)
        numbers = tuple(
            each
            for each in numbers_in(self.judged.trial.recipe.file)
            if id(each.node) in behind or any(each.span == error.span for error in told)
        )
        return search(self.asking, self.first, numbers, worked_out.model.ruler.marks)

    def _with_one_number(self, told: Diagnostic, found: Found) -> Diagnostic:
        """A fault that is none of a requirement, with the numbers that mend it alone."""
        mending = [
            each
            for each in found.by_one
            if key_of(told) not in each.faults and not each.lowered and set(each.faults) <= set(self.first.faults)
        ]
        if not mending and told.id == "out-of-range":
            mending = self._beyond_the_bound(told, found)
        ways = [
            f"set {self._where(each)} (the nearest that does; tried{self._came_of_it(each)})"
            for each in mending[:MOST_NAMED]
        ]
        # A bound alone says less than a number that was tried, and would not agree with it.
        kept = () if ways and told.id == "out-of-range" else (told.way_out,)
        return evolve(told, way_out="\n".join([*ways, *kept]))

    def _follows_from(self, told: Diagnostic, best: State) -> Diagnostic:
        """What is wrong in space often follows from one number that is wrong. Where that is known, and nothing else was
        found for what is wrong in space, it is told instead of a guess that nobody tried."""
        if not told.is_error or told.id not in SEEN_IN_SPACE or "tried" in told.way_out:
            return told
        kept = () if told.id == "runs-through" else (told.way_out,)
        return evolve(told, way_out="\n".join([f"set {self._where(best)} (tried, and everything passes)", *kept]))

    def _beyond_the_bound(self, told: Diagnostic, found: Found) -> list[State]:
        """States in which a number is not only within its bounds, but goes as far as a requirement wants it that was
        not asked before."""
        within = [each for each in found.by_one if key_of(told) not in each.faults and each.is_whole]
        further = [self._one_more(each) for each in within[:MOST_NAMED]]
        return [
            each
            for each in further
            if each is not None and len(each.setting) == 1 and set(each.faults) < set(self.first.faults)
        ]

    def _in_order(self, told: Diagnostic, best: State) -> Diagnostic:
        """Where one number mends everything, what is wrong with its own part is what the rest follows from, and so is
        a requirement that it is given to."""
        called = next(iter(best.setting)).called
        part = called.partition(".")[0]
        is_cause = told.sentence.startswith((f"{part}.", f"{part}[")) or self._is_given_to(called, told)
        return evolve(told, is_cause=is_cause and len(best.setting) == 1 and told.is_error)

    def _is_given_to(self, called: str, told: Diagnostic) -> bool:
        failing = (each for each in self._failing() if told.id == "requirement-fails" and _is_told_of(each, told))
        return any(given.stated == called for each in failing if each.made is not None for given in each.made.given)

    def _edits(self, state: State) -> tuple[Edit, ...]:
        """The edits of a state, each called by the words in which the maker has it."""
        own = {id(each.node): each.called for each in numbers_in(self.judged.trial.recipe.file)}
        named = {evolve(each, called=own.get(id(each.node), each.called)): to for each, to in state.setting.items()}
        lowered = frozenset(each for each in named if any(each.node is other.node for other in state.lowered))
        return edits_of(evolve(state, setting=named, lowered=lowered), self._ruler)

    @property
    def _ruler(self) -> Ruler:
        model = self.judged.worked_out.model
        assert model is not None
        return model.ruler

    def _with_its_ways(self, told: Diagnostic) -> Diagnostic:
        requirement = next((each for each in self._failing() if _is_told_of(each, told)), None)
        if requirement is None or not requirement.ways_out:
            return told
        written = told.way_out.split("\n")
        # A way that the compiler itself puts first has no words in the recipe.
        before = len(written) - len(requirement.ways_out)
        offered = zip(written[before:], self._subjects(requirement, self.first), strict=True)
        ways = [self._way(requirement, *each) for each in offered]
        kept = [way for way in ways if way is not None]
        if not kept:
            kept = [f"{each} (tried, and not enough by itself)" for each in written[before:]]
        return evolve(told, way_out="\n".join([*written[:before], *kept]))

    def _failing(self) -> Iterator[Requirement]:
        return (each for each in self.judged.requirements if each.strict and not each.holds)

    def _subjects(self, requirement: Requirement, state: State) -> tuple[tuple[bool, tuple[Subject, ...]], ...]:
        """For each way out whether it has a number, and what it may set."""
        root = state.judged.worked_out.root
        assert root is not None
        numbered = [any(isinstance(each, Quantity) for each in way) for way in requirement.ways_out]
        for instance in instances(root):
            if instance.path != requirement.part:
                continue
            for name in instance.names():
                for index, entry, scope in requirements_of(instance, name):
                    said = entry.statement
                    if isinstance(said, Require) and instance.path_of(name, index) == requirement.path:
                        return tuple(zip(numbered, subjects(instance, said, scope), strict=True))
        return tuple((has, ()) for has in numbered)

    def _way(self, requirement: Requirement, written: str, offered: tuple[bool, tuple[Subject, ...]]) -> str | None:
        has_number, choices = offered
        if not has_number:
            return written
        in_vain = False
        for each in choices or self._guessed(requirement, written):
            if self.asking.is_used_up:
                break
            state = self.asking.ask({each.number: each.value})
            # What is only handed to a rule is not made otherwise by another number there: that says nothing of the way.
            if not state.is_whole or (each.number.is_sum and state.makes_the_same_as(self.first)):
                continue
            if _fails(requirement, state):
                in_vain = True
                continue
            state, also = self._for_others_too(requirement, each, state)
            if state.passes and not self.asking.is_used_up:
                state = self.asking.ask(state.setting, thorough=True)
            if state.makes_the_same_as(self.first) and not each.number.is_bought:
                state = evolve(state, lowered=frozenset({each.number}))
            if state.passes:
                self.passing.append(state)
            came_of_it = f"{self._came_of_it(state)}{self._safety(state, requirement)}"
            return f"{written} ({self._where(state)}{also}; tried{came_of_it})"
        return None if in_vain else written + _NOT_TRIED

    def _guessed(self, requirement: Requirement, written: str) -> tuple[Subject, ...]:
        """Where words do not say which number they set, as of one of two pieces that are to be alike: those numbers
        with which the requirement holds once they are what a way out names."""
        root = self.judged.worked_out.root
        way = next((way for way in requirement.ways_out if write_text(way, self._ruler) == written), ())
        assert root is not None
        behind = literals_behind(root, [requirement.path], [])
        only = frozenset({without_number(requirement.path)})
        numbers = [each for each in numbers_in(self.judged.trial.recipe.file) if id(each.node) in behind]
        guesses = [
            Subject(number, value.exact)
            for value in dict.fromkeys(each for each in way if isinstance(each, Quantity))
            for number in numbers
            if value.dimension == number.value.dimension == LENGTH and value != number.value and value.value > 0
        ]
        guesses.sort(key=lambda each: abs((each.value - each.number.value).value))
        return tuple(
            each
            for each in guesses[:MOST_GUESSED]
            if not self.asking.is_used_up and self._holds(requirement, only, each)
        )

    def _holds(self, requirement: Requirement, only: frozenset[str], subject: Subject) -> bool:
        state = self.asking.ask_of(only, {subject.number: subject.value})
        return state.is_whole and any(
            each.path == requirement.path and each.holds for each in state.judged.requirements
        )

    def _for_others_too(self, requirement: Requirement, subject: Subject, state: State) -> tuple[State, str]:
        """The same number moved as far as other requirements that fail want it too, and that it mends them, in words.
        The state itself where no other one asks for more of it."""
        own = (subject.value - subject.number.value).value
        for path, value in self._wanted_elsewhere(subject.number):
            more = (value - subject.number.value).value
            other = next((each for each in self._failing() if each.path == path), None)
            if other is None or not _fails(other, state) or more * own <= 0 or abs(more) <= abs(own):
                continue
            if self.asking.is_used_up:
                break
            further = self.asking.ask({subject.number: value})
            helps = further.is_whole and not _fails(requirement, further) and not _fails(other, further)
            if helps and set(further.faults) <= set(state.faults):
                return further, f", as far as {path} needs it too"
        return state, ""

    def _wanted_elsewhere(self, number: Number) -> list[tuple[str, Quantity]]:
        """What the ways out of all requirements that fail would have one number be."""
        if not self.wanted:
            for failing in self._failing():
                for _, choices in self._subjects(failing, self.first):
                    for each in choices:
                        self.wanted.setdefault(id(each.number.node), []).append((failing.path, each.value))
        return self.wanted.get(id(number.node), [])

    def _safety(self, state: State, asked: Requirement) -> str:
        """What the hand breaks first of what a change touches, and the next mark where that is safer; of a change that
        touches nothing that is made, what the requirement itself has to spare."""
        ruler = self._ruler
        if set(state.faults) - set(self.first.faults):
            return ""
        least = least_safe(state, self.first)
        if least is None:
            now = next((each for each in state.judged.requirements if each.path == asked.path), asked)
            return told_spare(now, ruler)
        told = f"; {told_safety(least, ruler)}"
        safer = one_mark_safer(self.asking, state, self.first, ruler.marks)
        if safer is None:
            return told
        (edit,) = self._edits(safer.state)
        return f"{told}; safer is {edit.said_after}, where {told_often(safer.least)}"

    def _came_of_it(self, state: State) -> str:
        if state.passes:
            return ", and everything passes" + (", for less is asked" if state.lowered else "")
        new = [key for key in state.faults if key not in self.first.faults]
        return f", and then {self._broken(state)}" if new else ": it mends this and breaks nothing else"

    def _where(self, state: State) -> str:
        (edit,) = self._edits(state)
        return f"{edit.called} = {edit.said_after}, line {edit.line}"

    def _broken(self, state: State) -> str:
        """What breaks first with a change that held before."""
        model = state.judged.worked_out.model
        assert model is not None
        held = {each.path for each in self.judged.requirements if each.holds}
        for each in state.judged.requirements:
            if each.strict and not each.holds and each.path in held:
                said = failed_in_words(each, model.ruler).rstrip(".")
                return said.replace(" is not met:", " is not met either:", 1)
        known = {each.sentence for each in self.judged.diagnostics}
        new = (each for each in state.judged.diagnostics if each.is_error)
        return next((each.sentence.rstrip(".") for each in new if each.sentence not in known), "something else fails")


def _is_told_of(requirement: Requirement, told: Diagnostic) -> bool:
    """Whether a message is that of a requirement: several parts may have one by the same words."""
    return told.span == requirement.span and told.sentence.startswith(f"{requirement.path} is not met")


def _fails(requirement: Requirement, state: State) -> bool:
    """Whether a requirement of the design as it was fails in a state."""
    return any(other.path == requirement.path and not other.holds for other in state.judged.requirements)


def _told_untried(told: Diagnostic) -> Diagnostic:
    """More room for what runs through something is a guess: it says so, where nothing was found that was tried."""
    is_guess = told.id == "runs-through" and "tried" not in told.way_out
    return evolve(told, way_out=f"{told.way_out.rstrip('.')}{_NOT_TRIED}.") if is_guess else told


def _least(state: State) -> tuple[object, ...]:
    number, value = next(iter(state.setting.items()))
    return number.is_bought, bool(state.lowered), number.is_sum, abs((value - number.value).value), number.span.start
