"""Putting in what nothing holds.

A piece that is declared loose would otherwise be cut and never heard of again. Where an order that the maker wrote
speaks of it by itself, their own step has it in hand; one that speaks of what it lies in, measures it, or works on it
before it goes anywhere, has not.
"""

from collections.abc import Iterable, Iterator

from pastedown.geometry.model import Crease, Join, Model, Step
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.names import plain_name
from pastedown.plan.path_index import PathIndex
from pastedown.plan.plan import CutPiece
from pastedown.plan.task import Origin, Task


def loose_tasks(model: Model, cut: tuple[CutPiece, ...]) -> list[Task]:
    """A task for each loose piece that lies in something else, if no written order has it in hand and no join lays
    it in."""
    laid_in = {join.what.faces[0][0] for join in model.joins if join.adhesive == "nothing"}
    loose = [piece for piece in model.pieces if piece.loose and piece.path not in laid_in]
    if all(piece.loose for piece in model.pieces):
        return []
    waited_for = _waited_for(model, loose)
    group_of = {path: group for group in cut for path in group.paths}
    return [_task(piece, group_of[piece.path]) for piece in loose if piece.path not in waited_for]


def _waited_for(model: Model, loose: list[FlatPiece]) -> set[str]:
    every = [piece.path for piece in model.pieces]
    index = PathIndex(every)
    own = _loose_and_on_them(model, loose)
    among_loose = {piece.path for piece in loose}

    def are_loose(numbers: Iterable[int]) -> bool:
        return all(every[number] in own for number in numbers)

    found: set[str] = set()
    for thing, path in _orders(model):
        if thing.part and are_loose(index.find(thing.part)):
            continue  # work on the loose thing itself, such as folding it up
        # As everywhere in written orders: from the top of the design, or else from the part in which it stands.
        numbers = [*index.find(path)] or [*index.find(f"{thing.part}.{path}")]
        if are_loose(numbers):
            found.update(every[number] for number in numbers if every[number] in among_loose)
    return found


def _orders(model: Model) -> Iterator[tuple[Join | Crease | Step, str]]:
    """What is to come after something, and after what; a measurement puts nothing in."""
    doing = (step for step in model.steps if step.reads is None)
    things: list[Join | Crease | Step] = [*model.joins, *model.creases, *doing]
    for thing in things:
        for path in thing.after:
            yield thing, path


def _loose_and_on_them(model: Model, loose: list[FlatPiece]) -> set[str]:
    """The paths of the loose pieces, and of all that is carried by one of them."""
    carried: dict[str, list[str]] = {}
    for join in model.joins:
        if not join.closes:
            carried.setdefault(join.to.faces[0][0], []).append(join.what.faces[0][0])
    waiting = [piece.path for piece in loose]
    found: set[str] = set()
    while waiting:
        path = waiting.pop()
        if path not in found:
            found.add(path)
            waiting += carried.get(path, ())
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
