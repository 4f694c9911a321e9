"""How thick each part of a finished design is over each place, as it is made up: by itself, and with all that is joined
onto it."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.geometry.in_pose import InPose
from pastedown.geometry.layer_stack import Layer, LayerStack, how_many_cells, stack_of
from pastedown.geometry.lying_there import adhesive_layers, paper_layers
from pastedown.geometry.model import Join, Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece

# So many cells are worked out for all parts together; nothing is told of those that would take more.
MOST_CELLS = 200_000


@frozen(eq=False)
class ThickPart:
    """A part and its layers, blank and loaded. `unplaced` are the pieces that lie loose in it, of which nobody knows
    where."""

    path: str
    blank: LayerStack
    loaded: LayerStack
    unplaced: tuple[str, ...]


def thick_parts(model: Model) -> Iterator[ThickPart]:
    """Every part of the album itself that has a place, by path."""
    made_up = InPose(model)
    on: dict[str, list[str]] = {}
    joins: dict[str, list[Join]] = {}
    for join in model.joins:
        joins.setdefault(join.what.faces[0][0], []).append(join)
        if not join.closes:
            on.setdefault(join.to.faces[0][0], []).append(join.what.faces[0][0])
    left = MOST_CELLS
    carried = {path for paths in on.values() for path in paths}
    pieces: dict[str, list[FlatPiece]] = {}
    for piece in model.pieces:
        pieces.setdefault(piece.part.partition(".")[0], []).append(piece)
    for part in model.parts:
        if not part.path or "." in part.path:
            continue
        inside = {piece.path for piece in pieces.get(part.path, ())}
        loose = {piece.path for piece in pieces.get(part.path, ()) if piece.loose}
        own = {path for path in inside - loose if path not in model.added} or inside
        with_all = _with_all_on(inside, on)
        layers = [_layers(paths, own, joins, made_up) for paths in (own, with_all)]
        cells = sum(how_many_cells(each) for each in layers)
        if not all(layers) or cells > left:
            continue
        left -= cells
        unplaced = tuple(sorted((loose - carried) - own, key=natural_key))
        yield ThickPart(part.path, stack_of(layers[0]), stack_of(layers[1]), unplaced)


def _with_all_on(paths: set[str], on: dict[str, list[str]]) -> set[str]:
    found, waiting = set(paths), list(paths)
    while waiting:
        for path in on.get(waiting.pop(), ()):
            if path not in found:
                found.add(path)
                waiting.append(path)
    return found


def _layers(paths: set[str], own: set[str], joins: dict[str, list[Join]], made_up: InPose) -> list[Layer]:
    placed = {path: where for path in sorted(paths, key=natural_key) if (where := made_up.place(path)) is not None}
    stand_on = {path: where.on.placed.folded.piece.path for path, where in placed.items() if where.on is not None}
    base = next((where for path, where in placed.items() if path in own and stand_on.get(path) not in own), None)
    if base is None:
        return []
    one_heap = {path: where for path, where in placed.items() if where.root == base.root}
    frame = base.base.frame
    layers = [layer for where in one_heap.values() for layer in paper_layers(where, frame)]
    for join in (join for path in one_heap for join in joins.get(path, ())):
        layers += adhesive_layers(join, made_up, frame, lambda face: face[0] in one_heap)
    return layers
