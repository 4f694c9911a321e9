"""The whole compiler on one screen: from text to planned designs, one line a stage."""

from __future__ import annotations

import sys
import threading
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, TypeVar

from attrs import evolve, frozen

from pastedown import shipped_files
from pastedown.design.files import Shelf
from pastedown.design.from_syntax import link
from pastedown.design.recipe import Makeable, Recipe
from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.fit import margins
from pastedown.fit.on_marks import Judged, Trial, on_marks
from pastedown.fit.safest_number import with_safest_numbers
from pastedown.geometry.from_design import WorkedOut
from pastedown.geometry.model import Crease, Join, Model, Step
from pastedown.geometry.pin import Pin
from pastedown.source import Span

if TYPE_CHECKING:
    from pastedown.mend.edit import Edit
    from pastedown.mend.report import MendReport
    from pastedown.plan.plan import Plan
    from pastedown.slip.report import SlipReport

ReadSource = Callable[[str], str | None]
# Facts may hang on one another in long chains; working them out descends as deep as the chain is long.
_STACK_BYTES = 256 * 1024 * 1024
_DEEPEST_CALLS = 120_000
Result = TypeVar("Result")


@frozen(eq=False)
class MadeDesign:
    """One design of a file; `judged` has all that was found. `sound` says that it goes together; a refused one has no
    `plan`, and no `model` where it could not even be begun. `edits` are a change with which a refused one goes
    together, where its ways out were tried and one was found."""

    name: str
    worked_out: WorkedOut
    sound: bool
    plan: Plan | None
    judged: Judged
    edits: tuple[Edit, ...] = ()

    @property
    def model(self) -> Model | None:
        return self.worked_out.model


@frozen(eq=False)
class Compiled:
    """All designs of a file, sorted by name, and everything there is to tell."""

    designs: tuple[MadeDesign, ...]
    diagnostics: tuple[Diagnostic, ...]

    @property
    def refused(self) -> bool:
        return _has_error(self.diagnostics)


def compile_design(
    source_name: str,
    text: str,
    read_source: ReadSource,
    *,
    design: str | None = None,
    planned: bool = True,
    ways_tried: bool = False,
    helped: int = 1,
) -> Compiled:
    """Compile a recipe. Never raises for a fault of the maker's.

    `read_source` is given the name of a file beside it and gives its text, or None; it is asked for nothing outside the
    design's folder. `design` picks one design by name. Without `planned` no plan is made unless the order of work could
    be at fault. With `ways_tried`, the ways out of a refused design are tried, each as a whole design.
    Where a plan is made, of the kinds of requirements that hands break first, `helped` get the number that helps most.
    """
    safest = helped if planned else 0
    return _with_deep_stack(lambda: _compile(source_name, text, read_source, design, planned, ways_tried, safest))


def why(design: MadeDesign, measurement: str) -> tuple[str | None, tuple[Diagnostic, ...]]:
    """The derivation of a measurement of a compiled design as text, down to its source lines; None if there is none."""
    from pastedown.geometry.derive import derive
    from pastedown.geometry.write_derivation import write_derivation

    root, model = design.worked_out.root, design.worked_out.model
    if root is None or model is None:
        return None, ()
    derivation, diagnostics = _with_deep_stack(lambda: derive(root, measurement))
    return (None if derivation is None else write_derivation(derivation, model.ruler)), diagnostics


def slips(
    design: MadeDesign, texts: Sequence[str], tell: Callable[[str], None] = lambda words: None
) -> tuple[SlipReport | None, tuple[Diagnostic, ...]]:
    """What slips, told in words such as "strip.crest[2] at 4 1/2 in", do to a compiled design that goes together; None
    where the words cannot be read, or are of nothing in it. `tell` is told meanwhile what is being done."""
    from pastedown.slip.find import find_slips

    return _with_deep_stack(lambda: find_slips(design.judged, texts, tell))


def mend(
    source_name: str, text: str, read_source: ReadSource, design: str | None = None
) -> tuple[MendReport | None, tuple[Diagnostic, ...]]:
    """The smallest change that makes a refused design go together. None, with what is wrong, where the words of the
    recipe are, where `design` does not pick one of it, and where a change that was found did not pass when it was
    read again."""
    return _with_deep_stack(lambda: _mend(source_name, text, read_source, design))


def _mend(
    source_name: str, text: str, read_source: ReadSource, design: str | None
) -> tuple[MendReport | None, tuple[Diagnostic, ...]]:
    from pastedown.mend.report import mend_of

    recipe, diagnostics = link(_shelf(read_source), source_name, text)
    wanted, missing = _wanted(recipe, design, not _has_error(diagnostics))
    told = (*diagnostics, *missing)
    if _has_error(told) or len(wanted) != 1:
        return None, told
    report = mend_of(Trial(recipe, wanted[0], tuple(diagnostics)))
    if report is None or not report.edits:
        return report, told
    # What is proposed is read and judged as a whole before it is told.
    again = _compile(source_name, report.text, read_source, wanted[0].name, planned=True)
    return (None if again.refused else report), again.diagnostics


def _shelf(read_source: ReadSource) -> Shelf:
    grammar = str(shipped_files.grammar_path() / "album.lark")
    return Shelf(grammar, read_source, shipped_files.stdlib_source, shipped_files.stdlib_names())


def _compile(
    source_name: str,
    text: str,
    read_source: ReadSource,
    design: str | None,
    planned: bool,
    ways_tried: bool = False,
    helped: int = 1,
) -> Compiled:
    recipe, diagnostics = link(_shelf(read_source), source_name, text)
    wanted, missing = _wanted(recipe, design, planned and not _has_error(diagnostics))
    told = [*diagnostics, *missing]
    linked = not _has_error(told)
    designs: list[MadeDesign] = []
    spent = 0
    for each in wanted:
        made, found = _make(recipe, each, diagnostics, linked, planned, spent, helped)
        spent = made.worked_out.spent
        if ways_tried and linked and not made.sound:
            made, found = _with_ways_tried(made, found)
        designs.append(made)
        told.extend(found)
        if made.worked_out.broken_off:
            break
    # Designs that have a component in common have its faults in common: each is told once.
    return Compiled(tuple(designs), tuple(dict.fromkeys(told)))


def _make(
    recipe: Recipe,
    design: Makeable,
    told: tuple[Diagnostic, ...],
    linked: bool,
    planned: bool,
    spent: int,
    helped: int,
) -> tuple[MadeDesign, list[Diagnostic]]:
    judged = on_marks(Trial(recipe, design, told), spent)
    if linked and _has_error(judged.diagnostics):
        # Slow to import, and in vain for a design that goes together.
        from pastedown.mend.other_way_round import with_its_root

        judged = with_its_root(judged)
    worked_out, found = judged.worked_out, [*judged.diagnostics]
    if linked and not worked_out.broken_off:
        worked_out = _with_safest_numbers(judged, spent, lowest=helped)
    model, plan = worked_out.model, None
    if model is not None and planned and linked and not _has_error(judged.diagnostics):
        # Slow to import, and in vain for a design that is only checked.
        from pastedown.slip.reading_bands import with_reading_bands

        model = with_reading_bands(judged, model, (judged.worked_out.spent - spent) // judged.systems)
        worked_out = evolve(worked_out, model=model)
    if model is not None:
        found.extend(margins.look(model))
    sound = linked and model is not None and not _has_error(found)
    if model is not None and sound and (planned or _is_ordered(model)):
        # Slow to import, and in vain for a design that is only checked.
        from pastedown.plan.from_geometry import plan_from

        plan, faults = plan_from(model)
        found.extend(faults)
        sound = not _has_error(faults)
    return MadeDesign(design.name, worked_out, sound, plan if sound else None, judged), found


def _with_ways_tried(made: MadeDesign, found: list[Diagnostic]) -> tuple[MadeDesign, list[Diagnostic]]:
    from pastedown.mend.other_way_round import told_root
    from pastedown.mend.ways_out import with_ways_tried

    if told_root(made.judged) is not None:
        return made, found
    tried = with_ways_tried(made.judged)
    instead = dict(zip(made.judged.diagnostics, tried.diagnostics, strict=True))
    return evolve(made, edits=tried.edits), [instead.get(each, each) for each in found]


def _with_safest_numbers(judged: Judged, spent: int, lowest: int) -> WorkedOut:
    """The design with the numbers that help what hands may break. A number that brings in a fault is no help."""
    worked_out = judged.worked_out
    if worked_out.model is None or worked_out.root is None:
        return worked_out
    faults = _faults(judged.diagnostics)

    def tried(pin: Pin) -> Model | None:
        changed = judged.trial.judged(spent, chosen=dict(judged.chosen), pins=(pin,))
        return changed.worked_out.model if _faults(changed.diagnostics) <= faults else None

    # What several systems of marks took says nothing of how much work one more is.
    once = spent + (worked_out.spent - spent) // judged.systems
    return evolve(worked_out, model=with_safest_numbers(worked_out.model, worked_out.root, once, tried, lowest))


def _faults(diagnostics: Iterable[Diagnostic]) -> Counter[tuple[str, Span | None]]:
    """The errors of a design by what they are and where."""
    return Counter((each.id, each.span) for each in diagnostics if each.is_error)


def _has_error(diagnostics: Iterable[Diagnostic]) -> bool:
    return any(diagnostic.is_error for diagnostic in diagnostics)


def _is_ordered(model: Model) -> bool:
    """Whether the maker wrote what comes after what: only then can the order of work be at fault."""
    things: list[Join | Crease | Step] = [*model.joins, *model.creases, *model.steps]
    return any(thing.after or thing.before for thing in things)


def _wanted(recipe: Recipe, name: str | None, must_make: bool) -> tuple[list[Makeable], list[Diagnostic]]:
    if name is not None:
        found = [design for design in recipe.designs if design.name == name]
        if found:
            return found, []
        known = [design.name for design in recipe.designs]
        way_out = did_you_mean(name, known) or f"It holds: {', '.join(known)}."
        return [], [
            error(
                "no-such-design",
                None,
                f"There is no design called {name} in {recipe.file.name}.",
                way_out=way_out if known else "",
            )
        ]
    if must_make and not recipe.designs:
        return [], [
            error(
                "nothing-to-make",
                None,
                f"{recipe.file.name} holds no album, so there is nothing to make.",
                way_out='Write album my_album "Its title" { ... }; a file of components is used by other files.',
            )
        ]
    return list(recipe.designs), []


def _with_deep_stack(run: Callable[[], Result]) -> Result:
    outcome: list[Result] = []
    raised: list[BaseException] = []

    def descend() -> None:
        try:
            outcome.append(run())
        except BaseException as problem:  # handed on to the caller's thread below
            raised.append(problem)

    stack_before, calls_before = threading.stack_size(_STACK_BYTES), sys.getrecursionlimit()
    sys.setrecursionlimit(max(calls_before, _DEEPEST_CALLS))
    try:
        # A daemon, so that a maker who stops the command need not wait for it.
        thread = threading.Thread(target=descend, daemon=True)
        thread.start()
        thread.join()
    finally:
        threading.stack_size(stack_before)
        sys.setrecursionlimit(calls_before)
    if raised:
        raise raised[0]
    return outcome[0]
