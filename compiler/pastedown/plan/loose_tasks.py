"""Putting in what nothing holds.

A piece that is declared loose would otherwise be cut and never heard of again. Where an order that the maker wrote
speaks of it, their own step has it in hand.
"""

from pastedown.geometry.model import Crease, Join, Model, Step
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.names import plain_name
from pastedown.plan.path_index import PathIndex
from pastedown.plan.plan import CutPiece
from pastedown.plan.task import Origin, Task


def loose_tasks(model: Model, cut: tuple[CutPiece, ...]) -> list[Task]:
    """A task for each loose piece that lies in something else, if no written order waits for it and no join lays it
    in."""
    laid_in = {join.what.faces[0][0] for join in model.joins if join.adhesive == "nothing"}
    loose = [piece for piece in model.pieces if piece.loose and piece.path not in laid_in]
    if all(piece.loose for piece in model.pieces):
        return []
    waited_for = _waited_for(model, loose)
    group_of = {path: group for group in cut for path in group.paths}
    return [_task(piece, group_of[piece.path]) for piece in loose if piece.path not in waited_for]


def _waited_for(model: Model, loose: list[FlatPiece]) -> set[str]:
    index = PathIndex(piece.path for piece in loose)
    found: set[str] = set()
    things: list[Join | Crease | Step] = [*model.joins, *model.creases, *model.steps]
    for thing in things:
        for path in thing.after:
            # As everywhere in written orders: from the top of the design, or else from the part in which it stands.
            numbers = [*index.find(path)] or [*index.find(f"{thing.part}.{path}")]
            found.update(loose[number].path for number in numbers)
    return found


def _task(piece: FlatPiece, group: CutPiece) -> Task:
    name = plain_name([piece])
    return Task(
        kind="lay",
        origin=Origin(piece.path, piece.part, piece.component, piece.name),
        text=(f"Put in the {name} when all else is done. Nothing holds it there, so that it comes out again.",),
        like=group.id,
        pieces=(group.id,),
        title=f"Put in {name}",
    )
