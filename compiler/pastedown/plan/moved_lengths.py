"""What was moved to the marks of the maker's ruler, like moves of like parts as one."""

import re

from pastedown.geometry.model import Change, Model, Move
from pastedown.geometry.move_reason import why_moved
from pastedown.plan.plan import ChangedLength, MovedLength


def moved_lengths(model: Model) -> tuple[MovedLength, ...]:
    """The lengths that were moved, each with its reason."""
    alike: dict[tuple[object, ...], list[Move]] = {}
    for move in model.moves:
        alike.setdefault((move.component, move.name, move.written, move.mark), []).append(move)
    return tuple(
        MovedLength(tuple(each.path for each in moves), first.written, first.mark, why_moved(first, model.ruler))
        for first, moves in ((moves[0], moves) for moves in alike.values())
    )


def changed_lengths(model: Model) -> tuple[ChangedLength, ...]:
    """The lengths that are others for it. Members of one family that changed alike count as one."""
    alike: dict[tuple[object, ...], list[Change]] = {}
    for change in model.changes:
        family = re.sub(r"\[[0-9]+\]", "", change.path)
        alike.setdefault((family, change.written, change.mark), []).append(change)
    return tuple(
        ChangedLength(tuple(each.path for each in changes), changes[0].written, changes[0].mark)
        for changes in alike.values()
    )
