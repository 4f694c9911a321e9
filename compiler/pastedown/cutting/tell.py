"""From whole numbers back to what was asked: patterns with names, sheets to buy, bound and proof."""

from fractions import Fraction

from pastedown.cutting.blocks import build
from pastedown.cutting.cut_sequence import cuts_of
from pastedown.cutting.cutting_plan import Block, Bought, CuttingPlan, Pattern, Run
from pastedown.cutting.pool import Choice, cost_of, sheets_of
from pastedown.cutting.problem import Problem, Sheet
from pastedown.cutting.search import Found
from pastedown.cutting.slicing import settings_of
from pastedown.cutting.task import Misfit, Task

# Of one kind: pieces (index in the problem) and how many of each are still to be dealt out.
_Members = list[tuple[int, int]]


def nothing(problem: Problem, misfits: tuple[Misfit, ...]) -> CuttingPlan:
    """The plan of a problem without a piece that fits."""
    bought = tuple(_bought(sheet, 0) for sheet in problem.sheets)
    return CuttingPlan(problem, (), bought, 0, 0, Fraction(0), Fraction(0), True, misfits, ())


def told(
    problem: Problem, task: Task, found: Found, choice: Choice, misfits: tuple[Misfit, ...], advice: str
) -> CuttingPlan:
    """The plan for a choice of layouts that makes every piece just as often as it can."""
    patterns = _patterns(problem, task, found, choice)
    used = [0] * len(problem.sheets)
    for base, count in zip(task.bases, sheets_of(task, choice), strict=True):
        used[base.source] += count
    bought = tuple(_bought(sheet, count) for sheet, count in zip(problem.sheets, used, strict=True))
    offered = [base for base in task.bases if base.limit is None]
    costs = [each.cost for each in bought if each.cost is not None]
    priced = any(problem.sheets[base.source].price is not None for base in offered)
    least_cost: Fraction | None = None
    if priced and len(offered) == 1:
        sheet = problem.sheets[offered[0].source]
        least_cost = -(-found.bound // sheet.pack) * Fraction(sheet.price or 0)
    elif priced:
        least_cost = found.bound * task.coin
    short = _short(problem, patterns, misfits)
    return CuttingPlan(
        problem, patterns, bought,
        sum(each.used for each in bought if each.sheet.on_hand is None),
        found.bound if len(offered) == 1 else None,
        sum(costs, Fraction(0)) if priced else None, least_cost,
        not short and cost_of(task, choice) <= found.bound, misfits, short, advice,
    )


def _bought(sheet: Sheet, used: int) -> Bought:
    if sheet.on_hand is not None:
        return Bought(sheet, used, 0, Fraction(0), sheet.on_hand - used)
    packs = -(-used // sheet.pack)
    cost = None if sheet.price is None else packs * Fraction(sheet.price)
    return Bought(sheet, used, packs, cost, packs * sheet.pack - used)


def _patterns(problem: Problem, task: Task, found: Found, choice: Choice) -> tuple[Pattern, ...]:
    members = [list(kind.members) for kind in task.kinds]
    for own, count in zip(members, found.left, strict=True):
        # Where sheets ran out, the pieces named last go without.
        own.reverse()
        _deal(own, count)
        own.reverse()
    patterns: list[Pattern] = []
    for one, times in choice:
        base = task.bases[one.base]
        sheet = problem.sheets[base.source]
        block, slots = build(sheet, task.unit, task.kinds, one.tree)
        trims = sum(end.what == "trim" for end in block.ends())
        settings = settings_of(one.tree, base.width, base.height, task.kinds) + trims
        runs = _runs(problem, block, times, members, slots)
        patterns.append(Pattern(sheet, times, block, cuts_of(block), settings, runs))
    return tuple(patterns)


def _deal(members: _Members, count: int) -> list[int]:
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
    problem: Problem, sheet: Block, times: int, members: list[_Members], slots: tuple[int, ...]
) -> tuple[Run, ...]:
    """Which pieces the slots of a sheet are: the same ones on one sheet after another, as long as they last."""
    runs: list[Run] = []
    blocks = [end for end in sheet.ends() if end.what == "piece"]
    while times:
        dealt = {kind: _deal(members[kind], slots.count(kind)) for kind in dict.fromkeys(slots)}
        again = times - 1
        for kind, indices in dealt.items():
            left = dict(members[kind])
            again = min(again, *(left.get(index, 0) // indices.count(index) for index in indices))
        for kind, indices in dealt.items():
            after = [(index, there - indices.count(index) * again) for index, there in members[kind]]
            members[kind][:] = [(index, there) for index, there in after if there]
        queues = {kind: iter(indices) for kind, indices in dealt.items()}
        pieces = tuple(next(queues[kind]) for kind in slots)
        turned = tuple(
            (problem.pieces[index].width, problem.pieces[index].height) != (block.width, block.height)
            for index, block in zip(pieces, blocks, strict=True)
        )
        runs.append(Run(again + 1, pieces, turned))
        times -= again + 1
    return tuple(runs)


def _short(
    problem: Problem, patterns: tuple[Pattern, ...], misfits: tuple[Misfit, ...]
) -> tuple[tuple[int, int], ...]:
    cut = [0] * len(problem.pieces)
    for pattern in patterns:
        for run in pattern.runs:
            for index in run.pieces:
                cut[index] += run.times
    absent = {misfit.index for misfit in misfits}
    return tuple(
        (index, piece.count - cut[index])
        for index, piece in enumerate(problem.pieces) if index not in absent and cut[index] < piece.count
    )
