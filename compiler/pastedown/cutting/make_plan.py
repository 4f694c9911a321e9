"""The whole stage on one screen: a problem in, a cutting plan out."""

from importlib.util import find_spec

from pastedown.cutting.budget import Budget
from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.cutting.finish import finish
from pastedown.cutting.offers import search_offers
from pastedown.cutting.pool import cost_of
from pastedown.cutting.problem import Effort, Problem
from pastedown.cutting.search import Progress
from pastedown.cutting.task import read
from pastedown.cutting.tell import nothing, told

LIBRARIES = ("numpy", "highspy")
# Said alike whether they are installed or not, so that the same plan reads the same on every machine.
WITHOUT_LIBRARIES = (
    "This plan was made without numpy and highspy. With --libraries, pastedown kits uses them: plans for many copies "
    "need fewer sheets as a rule, and more of them are proven. Where they are not installed, pip install "
    "'pastedown[plan]' brings them, about 20 MB."
)
LIBRARIES_NOT_THERE = (
    "numpy and highspy were asked for and are not installed, so this plan was made without them: pip install "
    "'pastedown[plan]' brings them, about 20 MB."
)


def libraries_there() -> bool:
    """Whether the libraries of the optional extra `plan` can be imported; they are not imported here."""
    return all(find_spec(name) is not None for name in LIBRARIES)


def make_plan(problem: Problem, effort: Effort | None = None, progress: Progress | None = None) -> CuttingPlan:
    """The plan with the fewest new sheets, or where there are prices the lowest cost, that the effort finds; among
    such, one with few settings of the fence, then with a large offcut. The same problem and effort give the same
    plan.

    `progress` is called whenever a better plan is found, with its cost and the bound, in whole units of cost: sheets,
    where only one size is bought."""
    effort = effort or Effort()
    task, misfits = read(problem)
    if not task.kinds or not task.bases:
        return nothing(problem, misfits)
    libraries = effort.libraries and libraries_there()
    found, left = search_offers(problem, task, effort.work, libraries, progress)
    # What a short search leaves goes to a plan that is less work to cut.
    choice = finish(task, found, Budget(effort.work / 5 + max(0.0, left) / 6), libraries)
    settled = cost_of(task, choice) <= found.bound
    advice = LIBRARIES_NOT_THERE if effort.libraries else WITHOUT_LIBRARIES
    return told(problem, task, found, choice, misfits, "" if settled or libraries else advice)
