"""Which steps tell the cutting that the cutting plan does, and what is warned of where sheets are cut."""

from collections.abc import Sequence

from pastedown.plan.cautions import of_cutting_sheets
from pastedown.plan.plan import Plan
from pastedown.plan.words import listed


def steps_told_by(plan: Plan) -> str:
    """The steps whose cutting the cutting plan does, "steps 3 to 12"; "" where there are none. What is cut first is
    cut out, so it is the first step that has a piece in hand."""
    from_sheets = {material.stock for material in plan.materials if material.sheet is not None and not material.zones}
    first: dict[str, int] = {}
    for step in plan.steps:
        for handle in step.pieces:
            first.setdefault(handle, step.number)
    cut = (piece for piece in plan.pieces if piece.stock in from_sheets and not piece.bought)
    return _steps(sorted({first[piece.id] for piece in cut if piece.id in first}))


def plan_does_steps(plan: Plan) -> str:
    """At the cutting plan: what it has to do with the steps; "" where no step tells its cutting."""
    steps = steps_told_by(plan)
    if not steps:
        return ""
    return (
        f"This is the cutting that {steps} {_tell(steps)} again, piece by piece: do it once, here or there. What else "
        "is cut out of a piece and drawn on it is told there."
    )


def steps_done_by_plan(plan: Plan, called: str) -> str:
    """At the steps: what they have to do with the cutting plan, which is `called` so; "" where they tell nothing of
    it."""
    steps = steps_told_by(plan)
    if not steps:
        return ""
    return (
        f"{called} does the cutting of {steps} with as little waste as it can. What is cut by it is not cut again: "
        "look over its size, name it, and do what else is told there."
    )


def cautions_at_sheets(plan: Plan, stocks: Sequence[str]) -> tuple[str, ...]:
    """Everything that the steps warn of where these stocks are cut."""
    materials = [material for material in plan.materials if material.stock in stocks]
    marked = any(each.grain == "marked" for each in materials)
    return of_cutting_sheets(marked, [each.caution for each in materials if each.caution])


def _tell(steps: str) -> str:
    return "tells" if steps.startswith("step ") else "tell"


def _steps(numbers: list[int]) -> str:
    """ "step 3", "steps 3 and 4", "steps 1, 3 to 5 and 7"; nothing for none."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = [word for run in runs for word in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]
    return f"step{'s' if len(numbers) > 1 else ''} {listed(told)}" if told else ""
