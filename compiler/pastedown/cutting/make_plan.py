"""The whole stage on one screen: a problem in, a cutting plan out."""

from fractions import Fraction
from importlib.util import find_spec

from attrs import evolve

from pastedown.cutting.blocks import build
from pastedown.cutting.budget import Budget
from pastedown.cutting.cut_sequence import cuts_of
from pastedown.cutting.cutting_plan import Bought, CuttingPlan, Pattern, Run
from pastedown.cutting.finish import finish
from pastedown.cutting.pool import Choice, cost_of, sheets_of
from pastedown.cutting.problem import Effort, Problem
from pastedown.cutting.search import Found, Progress, search
from pastedown.cutting.slicing import settings_of
from pastedown.cutting.task import Misfit, Task, read

LIBRARIES = ("numpy", "highspy")
WITHOUT_LIBRARIES = (
    "This plan was made without numpy and highspy. With them (pip install 'pastedown[plan]', about 20 MB) plans for many "
    "copies need fewer sheets as a rule, and more of them are proven."
)


def libraries_there() -> bool:
    """Whether the libraries of the optional extra `plan` can be imported; they are not imported here."""
    return all(find_spec(name) is not None for name in LIBRARIES)


def make_plan(problem: Problem, effort: Effort | None = None, progress: Progress | None = None) -> CuttingPlan:
    """The plan with the fewest new sheets, or where there are prices the lowest cost, that the effort finds; among such, one
    with few settings of the fence, and then with a large offcut. The same problem and effort give the same plan.

    `progress` is called whenever a better plan is found, with what was found, its cost and the bound, in whole units."""
    effort = effort or Effort()
    task, misfits = read(problem)
    if not task.kinds or not task.bases:
        return _empty(problem, misfits)
    libraries = effort.libraries and libraries_there()
    budget = Budget(effort.work)
    found = search(task, budget, libraries, progress)
    choice = finish(task, found, Budget(effort.work / 4), libraries)
    settled = cost_of(task, choice) <= found.bound.cost
    return _written(problem, task, found, choice, misfits, "" if settled or libraries else WITHOUT_LIBRARIES)


def _empty(problem: Problem, misfits: tuple[Misfit, ...]) -> CuttingPlan:
    nothing = tuple(Bought(sheet, 0, 0, Fraction(0), 0) for sheet in problem.sheets)
    return CuttingPlan(problem, (), nothing, 0, 0, Fraction(0), Fraction(0), "area", True, misfits, ())


def _written(
    problem: Problem, task: Task, found: Found, choice: Choice, misfits: tuple[Misfit, ...], advice: str
) -> CuttingPlan:
    kinds = task.kinds
    members = [list(kind.members) for kind in kinds]
    for own, count in zip(members, found.left, strict=True):
        _deal(own, count)
    patterns = []
    for one, times in choice:
        base = task.bases[one.base]
        sheet = problem.sheets[base.source]
        block, slots = build(sheet, task.unit, kinds, one.tree)
        trims = sum(bool(edge) for edge in (sheet.trim.left, sheet.trim.right, sheet.trim.bottom, sheet.trim.top))
        settings = settings_of(one.tree, base.width, base.height, kinds) + trims
        patterns.append(Pattern(sheet, times, block, cuts_of(block), settings, ()))
        patterns[-1] = evolve(patterns[-1], runs=_runs(problem, patterns[-1], members, slots))
    used = dict.fromkeys(range(len(problem.sheets)), 0)
    for base, count in zip(task.bases, sheets_of(task, choice), strict=True):
        used[base.source] += count
    bought = []
    for number, sheet in enumerate(problem.sheets):
        packs = 0 if sheet.on_hand is not None else -(-used[number] // sheet.pack)
        left = sheet.on_hand - used[number] if sheet.on_hand is not None else packs * sheet.pack - used[number]
        cost = Fraction(0) if sheet.on_hand is not None else None if sheet.price is None else packs * Fraction(sheet.price)
        bought.append(Bought(sheet, used[number], packs, cost, left))
    new = sum(each.used for each in bought if each.sheet.on_hand is None)
    offered = [sheet for sheet in problem.sheets if sheet.on_hand is None]
    single = len([base for base in task.bases if base.limit is None]) == 1
    priced = bool(offered) and offered[0].price is not None
    cost = sum((each.cost for each in bought if each.cost is not None), Fraction(0)) if priced else None
    least_cost = None
    if priced:
        least_cost = _least_cost(problem, task, found, single)
    cut = dict.fromkeys(range(len(problem.pieces)), 0)
    for pattern in patterns:
        for run in pattern.runs:
            for index in run.pieces:
                cut[index] += run.times
    absent = {problem.pieces.index(misfit.piece) for misfit in misfits}
    short = [
        (index, piece.count - cut[index])
        for index, piece in enumerate(problem.pieces) if index not in absent and cut[index] < piece.count
    ]
    proven = not any(found.left) and cost_of(task, choice) <= found.bound.cost
    return CuttingPlan(
        problem, tuple(patterns), tuple(bought), new, found.bound.cost if single else None, cost, least_cost,
        found.bound.how, proven, misfits, tuple(short), advice,
    )


def _deal(members: list[tuple[int, int]], count: int) -> list[int]:
    """Takes so many pieces from the front of the members of a kind; which ones."""
    dealt: list[int] = []
    while count:
        index, there = members[0]
        taken = min(there, count)
        dealt += [index] * taken
        count -= taken
        if taken == there:
            members.pop(0)
        else:
            members[0] = (index, there - taken)
    return dealt


def _runs(
    problem: Problem, pattern: Pattern, members: list[list[tuple[int, int]]], slots: tuple[int, ...]
) -> tuple[Run, ...]:
    """Which pieces the slots of a pattern are: the same ones on one sheet after another, as long as they last."""
    runs: list[Run] = []
    times = pattern.times
    while times:
        dealt = {kind: _deal(members[kind], slots.count(kind)) for kind in dict.fromkeys(slots)}
        again = times - 1
        for kind, indices in dealt.items():
            left = dict(members[kind])
            again = min(again, *(left.get(index, 0) // indices.count(index) for index in indices))
        for kind, indices in dealt.items():
            taken = {index: indices.count(index) * again for index in indices}
            after = [(index, there - taken.get(index, 0)) for index, there in members[kind]]
            members[kind][:] = [(index, there) for index, there in after if there]
        queues = {kind: iter(indices) for kind, indices in dealt.items()}
        pieces = tuple(next(queues[kind]) for kind in slots)
        turned = tuple(
            (problem.pieces[index].width, problem.pieces[index].height) != (block.width, block.height)
            for index, block in zip(pieces, pattern.pieces, strict=True)
        )
        runs.append(Run(again + 1, pieces, turned))
        times -= again + 1
    return tuple(runs)


def _least_cost(problem: Problem, task: Task, found: Found, single: bool) -> Fraction:
    if single:
        base = next(base for base in task.bases if base.limit is None)
        sheet = problem.sheets[base.source]
        return Fraction(-(-found.bound.cost // sheet.pack)) * Fraction(sheet.price or 0)
    return found.bound.cost * task.coin


__all__ = ["LIBRARIES", "WITHOUT_LIBRARIES", "libraries_there", "make_plan"]
