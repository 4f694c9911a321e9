"""Work that the maker gathers under one step.

A written step with `cuts:`, `scores:`, `folds:` or `gathers:` is a heading: what it names is done in it and is no step
of its own. Cutting goes under a heading only by `cuts:`; scoring and folding by their own words or, of a piece, by
`gathers:`; everything else by `gathers:`.
"""

from collections.abc import Iterable, Mapping, Sequence

from attrs import evolve

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.model import Model, Step
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.order import Batch, in_order_of_work
from pastedown.plan.path_index import PathIndex
from pastedown.plan.task import Task
from pastedown.source import Span

# Each try is an order of work from the start.
_TRIED_ALONE = 8
# Steps that overlap or name nothing are each looked up among all the work there is.
_MOST_TOLD = 20
_WORDS = {"cuts": "cut", "scores": "score", "folds": "fold"}


def under_headings(steps: Iterable[Step], tasks: Sequence[Task]) -> tuple[list[Task], tuple[Diagnostic, ...]]:
    """The tasks, each with the path of the step that gathers it; an error for each that two steps gather, and for each
    step that gathers nothing."""
    headings = sorted((step for step in steps if step.gathered), key=lambda step: natural_key(step.path))
    if not headings:
        return list(tasks), ()
    index = PathIndex(task.path for task in tasks)
    heading_of: dict[int, Step] = {}
    faults: list[Diagnostic] = []
    for step in headings:
        if len(faults) >= _MOST_TOLD:
            break
        found = sorted({number for label, path in step.gathered for number in _meant(index, tasks, step, label, path)})
        taken = [number for number in found if number in heading_of]
        if not found:
            faults.append(_gathers_nothing(step))
        if taken:
            faults.append(_gathered_twice(step, heading_of[taken[0]], tasks[taken[0]]))
        heading_of.update({number: step for number in found if number not in heading_of})
    own = {step.path for step in headings}
    told = [
        evolve(task, heading=heading_of[number].path) if number in heading_of
        else evolve(task, heading=task.path) if task.path in own
        else task
        for number, task in enumerate(tasks)
    ]  # fmt: skip
    return told, tuple(faults)


def scored_apart(steps: Iterable[Step]) -> Mapping[str, str]:
    """Which steps score something, by the paths they name: folds among them are scored there and not with the rest of
    their ladder."""
    return {path: step.path for step in steps for label, path in step.gathered if label == "scores"}


def parted_heading(model: Model, tasks: Sequence[Task], batches: Sequence[Batch]) -> tuple[Diagnostic, ...]:
    """An error where a heading's work cannot be done in one go, because something else has to come between. One heading
    that is torn apart tears others, so one alone is told: one that would be torn though it were the only one, or else
    the one that reaches farthest."""
    places = _places(batches)
    parted = sorted((where[0] - where[-1], natural_key(path), path) for path, where in places.items() if len(where) > 1)
    if not parted:
        return ()
    span_of = {step.path: step.span for step in model.steps if step.gathered}
    for *_, path in parted[:_TRIED_ALONE]:
        alone = [task if task.heading == path else evolve(task, heading="") for task in tasks]
        found, _ = in_order_of_work(model, alone)
        if len(_places(found).get(path, ())) > 1:
            return (_parted(path, found, span_of.get(path)),)
    path = parted[0][-1]
    return (_parted(path, batches, span_of.get(path)),)


def _places(batches: Sequence[Batch]) -> dict[str, list[int]]:
    """Where the batches of each heading stand."""
    places: dict[str, list[int]] = {}
    for place, batch in enumerate(batches):
        if batch[0].heading:
            places.setdefault(batch[0].heading, []).append(place)
    return places


def _meant(index: PathIndex, tasks: Sequence[Task], step: Step, label: str, path: str) -> Iterable[int]:
    numbers = list(index.find(path)) or list(index.find(f"{step.part}.{path}"))
    kind = _WORDS.get(label)
    if label == "scores" and not numbers:
        numbers = [number for number in index.find(path.rpartition(".")[0]) if path in tasks[number].lines]
    for number in numbers:
        task = tasks[number]
        if task.path != step.path and (task.kind == kind if kind else task.kind != "cut"):
            yield number


def _gathers_nothing(step: Step) -> Diagnostic:
    return error(
        "gathers-nothing",
        step.span,
        f"There is no work that {step.path} could gather.",
        reason="What it names is not cut, scored, folded or joined in the way it says.",
        way_out="Name pieces after cuts:, scores: or folds:, and joins, steps and pieces after gathers:.",
    )


def _gathered_twice(step: Step, other: Step, task: Task) -> Diagnostic:
    return error(
        "gathered-twice",
        step.span,
        f"{other.path} and {step.path} both gather the work on {task.path} ({task.kind}).",
        reason="It is done once, so it can stand under one heading only.",
        way_out=f"Take {task.path} out of one of them.",
    )


def _parted(path: str, batches: Sequence[Batch], span: Span | None) -> Diagnostic:
    first, second = _places(batches)[path][:2]
    before, between, then = _work(batches[first])[-1], batches[first + 1][0], _work(batches[second])[0]
    return error(
        "heading-parted",
        span,
        f"What {path} gathers cannot be done in one go: after {before.path} ({before.kind}) comes {between.path} "
        f"({between.kind}), and only then {then.path} ({then.kind}).",
        reason="A step holds work that follows on one another; here something else has to come between.",
        way_out=f"Gather {between.path} there as well, or leave {before.path} or {then.path} out.",
    )


def _work(batch: Batch) -> Batch:
    """What is gathered in a batch; the heading itself only where it stands alone."""
    return tuple(task for task in batch if task.path != task.heading) or batch
