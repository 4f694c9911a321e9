"""What was worked out for a plan, kept for the next output of the same plan: several outputs show the same pictures.

Only the latest plan is kept, and it is told by being the very same object, so nothing can be mixed up and no result
hangs on what was asked for before.
"""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from pastedown.plan.plan import Plan

_Made = TypeVar("_Made")


def kept_for_the_latest(make: Callable[[Plan], _Made]) -> Callable[[Plan], _Made]:
    """The same function, which works only the first time for each plan as long as no other plan comes between."""
    latest: list[tuple[Plan, _Made]] = []

    @wraps(make)
    def made(plan: Plan) -> _Made:
        if not latest or latest[0][0] is not plan:
            latest[:] = [(plan, make(plan))]
        return latest[0][1]

    return made
