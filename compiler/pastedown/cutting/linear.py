"""The linear and whole-number programmes over layouts, solved by HiGHS.

HiGHS was chosen because one small library solves both kinds, warm starts when layouts are added, and gives the same
answer on one thread each time. Its limits are set in nodes and rounds, never in seconds.
"""

from collections.abc import Sequence
from math import sqrt
from typing import Any

import highspy
import numpy as np
from attrs import frozen

from pastedown.cutting.budget import Budget
from pastedown.cutting.slicing import Layout
from pastedown.cutting.task import Task

# What passes between two of HiGHS's questions whether to go on: measured. Choosing the fewest sheets, it looks between
# some of them at a smaller programme as a whole, which takes the longer the more columns there are: a thousandth of a
# second for so many. Choosing the fewest settings, it makes the programme tighter, which takes the longer the larger
# the whole numbers are, too.
_COLUMNS_ASKED = 18


@frozen
class Answer:
    """Of a linear programme: its cost, how many of each layout, what one more piece of each kind would cost."""

    cost: float
    amounts: tuple[float, ...]
    values: tuple[float, ...]


class _Quiet(highspy.Highs):
    """HiGHS 1.16 prints its name as it enables callbacks, which is as early as it is made."""

    def enableCallbacks(self) -> None:
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]


def _quiet() -> Any:
    solver = _Quiet()  # type: ignore[no-untyped-call]
    for name, value in (("output_flag", False), ("threads", 1), ("random_seed", 0)):
        solver.setOptionValue(name, value)
    return solver


def _solve_whole(solver: Any, nodes: int, budget: Budget, asked: float) -> Any:
    """Solves a programme in whole numbers within so many nodes and the budget; the solution if there is one. `asked` is
    the work between two questions."""

    columns = solver.getNumCol()

    def look(event: Any) -> None:
        # HiGHS asks at fixed points of its work whether to go on, and no other count of it can be had there.
        budget.spend(asked)
        if budget.over:
            event.interrupt()

    solver.changeColsIntegrality(
        columns, np.arange(columns, dtype=np.int32), np.array([highspy.HighsVarType.kInteger] * columns)
    )
    for name, value in (("mip_max_nodes", nodes), ("mip_abs_gap", 0.999), ("mip_rel_gap", 0.0)):
        solver.setOptionValue(name, value)
    solver.cbMipInterrupt += look
    solver.run()
    solution = solver.getSolution()
    return solution if solution.value_valid else None


def _entries(task: Task, one: Layout, limits: dict[int, int]) -> tuple[list[int], list[float]]:
    rows = [kind for kind, _ in one.counts]
    amounts = [float(count) for _, count in one.counts]
    if one.base in limits:
        rows.append(limits[one.base])
        amounts.append(1.0)
    return rows, amounts


class Master:
    """The linear programme: layouts that come to at least the wanted pieces, at the least cost."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.solver = _quiet()
        empty = np.array([], dtype=np.int32), np.array([], dtype=np.double)
        for kind in task.kinds:
            self.solver.addRow(float(kind.demand), highspy.kHighsInf, 0, *empty)
        self.limits: dict[int, int] = {}
        for number, base in enumerate(task.bases):
            if base.limit is not None:
                self.limits[number] = len(task.kinds) + len(self.limits)
                self.solver.addRow(-highspy.kHighsInf, float(base.limit), 0, *empty)
        self.steps = 0

    def add(self, one: Layout) -> None:
        rows, amounts = _entries(self.task, one, self.limits)
        base = self.task.bases[one.base]
        self.solver.addCol(
            base.cost / base.pack, 0.0, highspy.kHighsInf, len(rows),
            np.array(rows, dtype=np.int32), np.array(amounts, dtype=np.double),
        )

    def want(self, kind: int, count: int) -> None:
        """From now on so many pieces of the kind are wanted."""
        self.solver.changeRowBounds(kind, float(count), highspy.kHighsInf)

    def limit(self, base: int, count: int) -> None:
        """From now on there are so many sheets of the base on hand."""
        self.solver.changeRowBounds(self.limits[base], -highspy.kHighsInf, float(count))

    def allow(self, number: int, allowed: bool) -> None:
        """Whether the layout added as that number may be used."""
        self.solver.changeColBounds(number, 0.0, highspy.kHighsInf if allowed else 0.0)

    def solve(self) -> Answer | None:
        """None where the layouts do not come to the pieces, or the solver gave up."""
        self.solver.run()
        self.steps = max(0, int(self.solver.getInfo().simplex_iteration_count))
        if self.solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        solution = self.solver.getSolution()
        count = len(self.task.kinds)
        return Answer(
            float(self.solver.getInfo().objective_function_value),
            tuple(solution.col_value), tuple(max(0.0, value) for value in solution.row_dual[:count]),
        )


def choose(
    task: Task, layouts: Sequence[Layout], demands: Sequence[int], limits: Sequence[int | None], nodes: int,
    budget: Budget,
) -> dict[int, int] | None:
    """How often to cut which layout so that at least the wanted pieces come out, at the least cost that is found within
    so many nodes; by index of the layout. None where nothing was found."""
    # No plan is given to start from: HiGHS 1.16 takes one for optimal that is not, after it has simplified the
    # programme.
    solver = _quiet()
    infinite = highspy.kHighsInf
    empty = np.array([], dtype=np.int32), np.array([], dtype=np.double)
    for demand in demands:
        solver.addRow(float(demand), infinite, 0, *empty)
    rows_of: dict[int, int] = {}
    packs: dict[int, int] = {}
    at = len(demands)
    for number, base in enumerate(task.bases):
        limit = limits[number]
        if limit is not None:
            solver.addRow(-infinite, float(limit), 0, *empty)
        elif base.pack > 1:
            packs[number] = at
            solver.addRow(-infinite, 0.0, 0, *empty)
        else:
            continue
        rows_of[number] = at
        at += 1
    for one in layouts:
        rows, amounts = _entries(task, one, rows_of)
        base = task.bases[one.base]
        most = max(-(-demands[kind] // count) for kind, count in one.counts)
        solver.addCol(
            0.0 if one.base in packs else float(base.cost), 0.0, float(most), len(rows),
            np.array(rows, dtype=np.int32), np.array(amounts, dtype=np.double),
        )
    for number, at in packs.items():
        base = task.bases[number]
        solver.addCol(
            float(base.cost), 0.0, infinite, 1, np.array([at], dtype=np.int32), np.array([-float(base.pack)])
        )
    solution = _solve_whole(solver, nodes, budget, 1 + solver.getNumCol() / _COLUMNS_ASKED)
    if solution is None:
        return None
    return {
        number: round(solution.col_value[number])
        for number in range(len(layouts))
        if round(solution.col_value[number])
    }


def choose_few(
    task: Task, layouts: Sequence[Layout], settings: Sequence[int], sheets: Sequence[int], exact: bool,
    budget: Budget,
) -> dict[int, int] | None:
    """As `choose`, on at most so many sheets of each base, but with the least sum of `settings` of the layouts used;
    if `exact`, with no piece too many."""
    solver = _quiet()
    infinite = highspy.kHighsInf
    empty = np.array([], dtype=np.int32), np.array([], dtype=np.double)
    kinds = len(task.kinds)
    for kind in task.kinds:
        solver.addRow(float(kind.demand), float(kind.demand) if exact else infinite, 0, *empty)
    for count in sheets:
        solver.addRow(-infinite, float(count), 0, *empty)
    for _ in layouts:
        solver.addRow(-infinite, 0.0, 0, *empty)
    for number, one in enumerate(layouts):
        most = min(
            sheets[one.base], max(-(-task.kinds[kind].demand // count) for kind, count in one.counts)
        )
        rows = [*(kind for kind, _ in one.counts), kinds + one.base, kinds + len(sheets) + number]
        amounts = [*(float(count) for _, count in one.counts), 1.0, 1.0]
        solver.addCol(0.0, 0.0, float(most), len(rows), np.array(rows, dtype=np.int32), np.array(amounts))
        solver.addCol(
            float(settings[number]), 0.0, 1.0, 1,
            np.array([kinds + len(sheets) + number], dtype=np.int32), np.array([-float(most)]),
        )
    asked = 0.5 + solver.getNumCol() * (solver.getNumCol() / 9_000 + sqrt(sum(sheets)) / 1_000 + sum(sheets) / 25_000)
    solution = _solve_whole(solver, 400, budget, asked)
    if solution is None:
        return None
    return {
        number: round(solution.col_value[2 * number])
        for number in range(len(layouts))
        if round(solution.col_value[2 * number])
    }
