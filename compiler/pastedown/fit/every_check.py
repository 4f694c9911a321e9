"""All checks, in the order in which they run. A new check is one file and one line here."""

from collections.abc import Callable, Iterator

from pastedown.diagnostic import Diagnostic
from pastedown.fit import alignments, in_poses, marked_grain, moves, off_marks, placing, requirements, sheet_and_grain
from pastedown.fit.layer_order import Effort
from pastedown.geometry.folded_piece import how_many_fields
from pastedown.geometry.in_pose import MOST_POSED
from pastedown.geometry.model import Model

# What judging costs in steps of work, by the time it takes: mostly pieces are folded and placed.
WORK_OF_A_FIELD = 20
WORK_OF_A_JOIN = 100

Check = Callable[[Model], Iterator[Diagnostic]]

EVERY_CHECK: tuple[Check, ...] = (
    requirements.look,
    sheet_and_grain.look,
    marked_grain.look,
    placing.look,
    alignments.look,
    in_poses.look,
    moves.look,
    off_marks.look,
)


def judge(model: Model, *, in_space: bool = True) -> tuple[tuple[Diagnostic, ...], int]:
    """Everything the checks find, in their order, and the steps of work that it took, for where one design is judged
    again and again. Without `in_space` nothing is placed, which takes most of the time."""
    effort = Effort()
    found: list[Diagnostic] = []
    for check in EVERY_CHECK:
        if check is not in_poses.look:
            found.extend(check(model))
        elif in_space:
            found.extend(in_poses.look(model, effort))
    return tuple(found), _work_of_placing(model) + effort.work


def _work_of_placing(model: Model) -> int:
    """What folding and placing the pieces costs, all poses together."""
    fields = sum(map(how_many_fields, model.pieces))
    in_poses = min(fields * len(model.poses), MOST_POSED)
    return WORK_OF_A_FIELD * (fields + in_poses) + WORK_OF_A_JOIN * len(model.joins)
