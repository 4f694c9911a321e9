"""Works a design out with its lengths on the marks of the maker's ruler, as one system.

Mostly the first choice for every length will do (`geometry/marks.py` says what that is). Where a requirement then fails
that hangs on a length that was moved, or where a length lies half way between two marks, other systems of marks are
tried. Each is worked out and judged from scratch. The order is always the same:

1. the system whose lengths lie nearest to what was written, all distances added up;
2. of those equally near, one that fails fewest preferences;
3. then the one whose pieces keep nearest to their sizes as written, all differences of their sides added up;
4. then the one that takes the greater mark for the length that comes first by its path.

The first that satisfies everything is taken. At most MOST_SYSTEMS are tried, and all count as work of the recipe.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from heapq import heappop, heappush
from itertools import groupby, islice

from attrs import evolve, field, frozen

from pastedown.design.recipe import Makeable, Recipe
from pastedown.diagnostic import Diagnostic, error
from pastedown.fit import moves
from pastedown.fit.every_check import judge
from pastedown.fit.requirements import failed_in_words
from pastedown.geometry.actual import AS_DESIGNED, Actual
from pastedown.geometry.changes import changes_of
from pastedown.geometry.from_design import Instead, WorkedOut, work_out
from pastedown.geometry.marks import Variable
from pastedown.geometry.model import Model, Move, Requirement
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.pin import Pin
from pastedown.geometry.settle_requirement import requirement_key
from pastedown.geometry.work import MOST_WORK
from pastedown.quantity.write import write
from pastedown.source import Span

MOST_SYSTEMS = 64
# What `moves` tells.
TOLD_OF_MOVES = ("moved-to-mark", "fixed-off-marks")
# So many lengths are named in a message at most.
_MOST_NAMED = 4
# The numbers of choices that are not the first ones.
System = frozenset[tuple[Variable, int]]


@frozen(eq=False)
class Judged:
    """A design worked out, and everything there is to tell of it; `trial` works it out again. `chosen` are the choices
    of marks that are not the first ones, and `systems` how often it was worked out to find them."""

    worked_out: WorkedOut
    diagnostics: tuple[Diagnostic, ...]
    trial: Trial
    chosen: System = frozenset()
    systems: int = 1

    @property
    def requirements(self) -> tuple[Requirement, ...]:
        return self.worked_out.model.requirements if self.worked_out.model is not None else ()

    def variables_of(self, requirement: Requirement) -> frozenset[Variable]:
        """The lengths moved to marks that a requirement hangs on."""
        root = self.worked_out.root
        found = root.work.moved.get(requirement_key(requirement.path)) if root is not None else None
        return frozenset(found or ())

    @property
    def variables(self) -> dict[Variable, str]:
        return self.worked_out.root.work.marks.variables if self.worked_out.root is not None else {}

    @property
    def mark(self) -> Fraction:
        assert self.worked_out.model is not None
        return self.worked_out.model.ruler.marks.value


@frozen(eq=False)
class Trial:
    """A design of a recipe that can be worked out and judged again and again. `told` is what was told of it before.
    `instead` and `turned` are what is read in the place of its words, as `work_out` takes them."""

    recipe: Recipe
    design: Makeable
    told: tuple[Diagnostic, ...]
    instead: Instead = field(factory=dict)
    turned: frozenset[Span] = frozenset()

    def judged(
        self,
        spent: int,
        *,
        on_marks: bool = True,
        chosen: Mapping[Variable, int] | None = None,
        actual: Actual = AS_DESIGNED,
        pins: tuple[Pin, ...] = (),
        in_space: bool = True,
        only: Iterable[str] | None = None,
    ) -> Judged:
        """The design worked out from the start, as `work_out` does it, with all that the checks find; with none of
        them where only some requirements and steps are asked for."""
        worked_out = work_out(
            self.recipe, self.design, self.told, spent,
            on_marks=on_marks, chosen=chosen, actual=actual, pins=pins, instead=self.instead,
            turned=self.turned, only=only,
        )
        model = worked_out.model
        # Of one that was broken off nothing can be said.
        if model is None or worked_out.broken_off or only is not None:
            return Judged(worked_out, worked_out.diagnostics, self)
        found, work = judge(model, in_space=in_space)
        told = (*worked_out.diagnostics, *found)
        return Judged(evolve(worked_out, spent=worked_out.spent + work), told, self, frozenset((chosen or {}).items()))


def on_marks(trial: Trial, spent: int = 0) -> Judged:
    """The design with its lengths on marks, judged. Where no system of marks satisfies what the lengths as written
    did, an error says which requirement that is."""
    first = trial.judged(spent)
    if not first.variables or first.worked_out.model is None or first.worked_out.broken_off:
        return first
    written = trial.judged(first.worked_out.spent, on_marks=False)
    found = _Search(trial, first, written).run()
    return _with_changes(found, written)


def _with_changes(judged: Judged, written: Judged) -> Judged:
    root, model = judged.worked_out.root, judged.worked_out.model
    if root is None or model is None or written.worked_out.root is None:
        return judged
    changes = changes_of(root, written.worked_out.root)
    return evolve(judged, worked_out=evolve(judged.worked_out, model=evolve(model, changes=changes)))


@frozen(eq=False)
class _Search:
    """The search for a system of marks. `written` is the design with nothing moved."""

    trial: Trial
    first: Judged
    written: Judged
    tried: dict[System, Judged] = field(factory=dict)

    def run(self) -> Judged:
        self.tried[frozenset()] = self.first
        half_way = {each for each in self.first.variables if len(each.choices) > 1 and _extra(each) == 0}
        varied = half_way | self._blamed(self.first)
        while varied:
            for group in self._groups(varied):
                good = [system for system in group if self._try(system) and not self._blamed(self.tried[system])]
                if good:
                    return self._spent_on(self._with_reasons(self.tried[min(good, key=self._rank)]))
            wider = varied.union(*map(self._blamed, self.tried.values()))
            if wider == varied or len(self.tried) >= MOST_SYSTEMS:
                break
            varied = wider
        return self._spent_on(self._told_of_failure() if self._blamed(self.first) else self._with_reasons(self.first))

    def _with_reasons(self, judged: Judged) -> Judged:
        """A system whose moves say which requirement does not hold as written, or with the marks that the lengths would
        have gone to by themselves."""
        model = judged.worked_out.model
        if model is None:
            return judged
        moved = tuple(self._with_reason(move) for move in model.moves)
        if moved == model.moves:
            return judged
        model = evolve(model, moves=moved)
        others = [each for each in judged.diagnostics if each.id not in TOLD_OF_MOVES]
        told = (*others, *moves.look(model))
        return evolve(judged, worked_out=evolve(judged.worked_out, model=model), diagnostics=told)

    def _with_reason(self, move: Move) -> Move:
        variable = next((each for each in self.first.variables if _is_of(each, move)), None)
        if variable is None:
            return move
        by_itself, as_written = (self._lost(judged, variable) for judged in (self.first, self.written))
        if move.further and by_itself is not None:
            before = f", the mark it would go to by itself, {by_itself.path} is not met: "
            lost = ("With ", variable.choices[0], before, *by_itself.because, ".")
            return evolve(move, lost=lost, as_written=as_written is not None)
        if as_written is not None and by_itself is None:
            lost = (f"As written, {as_written.path} is not met: ", *as_written.because, ".")
            return evolve(move, lost=lost, as_written=True)
        return move

    def _lost(self, judged: Judged, variable: Variable) -> Requirement | None:
        """The first requirement that does not hold with a length moved to a mark, or with it as written."""
        failed = (each for each in judged.requirements if each.strict and not each.holds)
        return next((each for each in failed if variable in self.first.variables_of(each)), None)

    def _groups(self, varied: set[Variable]) -> Iterator[list[System]]:
        """The systems to try, those equally near to what was written together, nearest first."""
        nearest = _nearest_first([each for each in varied if len(each.choices) > 1], self.first.variables)
        for _, group in groupby(islice(nearest, MOST_SYSTEMS), key=lambda pair: pair[0]):
            yield [system for _, system in group]

    def _try(self, system: System) -> bool:
        """Work a system out, unless it has been or the limits do not allow one more."""
        if system in self.tried:
            return True
        spent = self._spent()
        if len(self.tried) >= MOST_SYSTEMS or spent + self.first.worked_out.spent > MOST_WORK:
            return False
        self.tried[system] = self.trial.judged(spent, chosen=dict(system))
        return True

    def _spent(self) -> int:
        return max(judged.worked_out.spent for judged in (*self.tried.values(), self.written))

    def _spent_on(self, judged: Judged) -> Judged:
        worked_out = evolve(judged.worked_out, spent=self._spent())
        return evolve(judged, worked_out=worked_out, systems=len(self.tried) + 1)

    def _blamed(self, judged: Judged) -> set[Variable]:
        """The lengths whose moves may be to blame for what is wrong with a system; none where nothing is."""
        blamed: set[Variable] = set()
        for requirement in judged.requirements:
            if requirement.strict and not requirement.holds:
                blamed |= judged.variables_of(requirement)
        if self._other_faults(judged) - self._other_faults(self.written):
            blamed |= set(judged.variables)
        return blamed

    def _other_faults(self, judged: Judged) -> set[tuple[str, object]]:
        return {
            (each.id, each.span)
            for each in judged.diagnostics
            if each.is_error and each.id != "requirement-fails"
        }

    def _rank(self, system: System) -> tuple[object, ...]:
        judged = self.tried[system]
        disliked = sum(1 for each in judged.requirements if not each.strict and not each.holds)
        choices = dict(system)
        in_order = sorted(self.first.variables.items(), key=lambda each: natural_key(each[1]))
        marks = tuple(-variable.choices[choices.get(variable, 0)].value for variable, _ in in_order)
        return disliked, _difference(judged.worked_out.model, self.written.worked_out.model), marks

    def _told_of_failure(self) -> Judged:
        """The first choice, with what no system of marks satisfies told as such where the lengths as written did."""
        as_written = {each.path for each in self.written.requirements if each.holds}
        lost = [
            each
            for each in self.first.requirements
            if each.strict and not each.holds and each.path in as_written and self.first.variables_of(each)
        ]
        if not lost:
            return self.first
        places = {each.span for each in lost}
        # What was moved stands in the error itself.
        kept = [
            each
            for each in self.first.diagnostics
            if each.id != "moved-to-mark" and (each.id != "requirement-fails" or each.span not in places)
        ]
        told = {each.span: self._no_system(each) for each in reversed(lost)}
        return evolve(self.first, diagnostics=(*kept, *reversed(told.values())))

    def _no_system(self, requirement: Requirement) -> Diagnostic:
        model = self.first.worked_out.model
        assert model is not None
        moved = self.first.variables_of(requirement)
        of_it = [each for each in model.moves if any(_is_of(variable, each) for variable in moved)]
        named = [f"{each.path} from {write(each.written, model.ruler)}" for each in of_it[:_MOST_NAMED]]
        others = f" and {len(of_it) - _MOST_NAMED} more" if len(of_it) > _MOST_NAMED else ""
        tried = f" All {len(self.tried)} were tried." if len(self.tried) > 1 else ""
        said = failed_in_words(requirement, model.ruler)
        return error(
            "no-system-of-marks",
            requirement.span,
            f"{requirement.path} is met by the lengths as written, and by no system of marks of your ruler.{tried} "
            f"With the nearest one, {said[0].lower()}{said[1:]}",
            reason=f"To the marks go {', '.join(named)}{others}: no ruler of yours measures them as they are.",
            way_out="Give lengths that lie on marks and satisfy it together, or name a finer ruler.",
        )


def _is_of(variable: Variable, move: Move) -> bool:
    return _of(variable) == (move.component, move.name, move.written)


def _of(variable: Variable) -> tuple[str, str, object]:
    return variable.component, variable.name, variable.written


def _extra(variable: Variable) -> Fraction:
    """How much farther the second choice lies than the first."""
    return (variable.away(1) - variable.away(0)).value


def _nearest_first(varied: list[Variable], paths: Mapping[Variable, str]) -> Iterator[tuple[Fraction, System]]:
    """Systems by how much farther they lie from what was written than the first one does, without end but that of
    their number."""
    ordered = sorted(varied, key=lambda each: (_extra(each), natural_key(paths.get(each, "")), each.name))
    extras = [_extra(each) for each in ordered]
    yield Fraction(0), frozenset()
    waiting: list[tuple[Fraction, tuple[int, ...]]] = []
    if ordered:
        heappush(waiting, (extras[0], (0,)))
    while waiting:
        away, flipped = heappop(waiting)
        yield away, frozenset((ordered[at], 1) for at in flipped)
        last = flipped[-1]
        if last + 1 < len(ordered):
            heappush(waiting, (away + extras[last + 1], (*flipped, last + 1)))
            heappush(waiting, (away + extras[last + 1] - extras[last], (*flipped[:-1], last + 1)))


def _difference(model: Model | None, written: Model | None) -> Fraction:
    """By how much the sides of the pieces differ from what they would be as written, all added up."""
    if model is None or written is None:
        return Fraction(0)
    before = {piece.path: piece for piece in written.pieces}
    total = Fraction(0)
    for piece in model.pieces:
        other = before.get(piece.path)
        if other is not None:
            total += abs((piece.height - other.height).value) + abs((piece.width - other.width).value)
    return total
