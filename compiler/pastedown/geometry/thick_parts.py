"""How thick each part of a finished design is over each place, as it is made up: by itself, and with all that is joined
onto it."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.geometry.frame import Frame
from pastedown.geometry.in_pose import InPose, PlacedPiece
from pastedown.geometry.layer_stack import Layer, LayerStack, Rectangle, how_many_cells, stack_of
from pastedown.geometry.lying_there import adhesive_layers, is_parallel, paper_layers
from pastedown.geometry.model import Join, Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Length

# So many cells are worked out for all parts together; nothing is told of those that would take more.
MOST_CELLS = 200_000


@frozen(eq=False)
class ThickPart:
    """A part and its layers, blank and loaded. `loose` are the pieces that lie loose in it: nobody knows where, so each
    counts over the whole part. `unplaced` are those of a part that has nothing else. `square` are the parts that stand
    square to it, and so are no layers of it; the part itself where some of it does."""

    path: str
    blank: LayerStack
    loaded: LayerStack
    unplaced: tuple[str, ...]
    loose: tuple[str, ...]
    square: tuple[str, ...]


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
    calipers = {piece.path: piece.stock.caliper for piece in model.pieces}
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
        heaps = [_heap(paths, own, made_up) for paths in (own, with_all)]
        layers = [_layers(heap, joins, made_up) for heap in heaps]
        lying = sorted((loose - carried) - own, key=natural_key)
        if layers[0] and lying:
            layers[1] += _over_all(lying, layers[0], calipers)
        cells = sum(how_many_cells(each) for each in layers)
        if not all(layers) or cells > left:
            continue
        left -= cells
        laid = tuple(lying)
        square = tuple(_square(part.path, heaps[1])) if heaps[1] is not None else ()
        yield ThickPart(part.path, stack_of(layers[0]), stack_of(layers[1]), (), laid, square)


def _over_all(paths: list[str], layers: list[Layer], calipers: dict[str, Length | None]) -> list[Layer]:
    """What lies loose, over all that lies there."""
    places = [layer.place for layer in layers]
    over = Rectangle(
        min(one.left for one in places), max(one.right for one in places),
        min(one.tail for one in places), max(one.head for one in places),
    )  # fmt: skip
    return [Layer(path, thick.value, over) for path in paths if (thick := calipers[path]) is not None]


def _square(own: str, heap: _Heap) -> Iterator[str]:
    """The parts of which something stands square to the piece by which a part is placed, and on something that does
    not; the part itself first. What lies loose, in a heap of its own, stands nowhere."""
    placed, frame = heap.placed, heap.frame
    lies = {path: any(is_parallel(one, frame) for one in where.folded.fields) for path, where in placed.items()}
    found: dict[str, None] = {}
    for path, where in placed.items():
        part = where.folded.piece.part.partition(".")[0]
        if part == own:
            if not all(is_parallel(one, frame) for one in where.folded.fields):
                found[own] = None
        elif not lies[path] and where.on is not None and lies.get(where.on.placed.folded.piece.path, False):
            found[part] = None
    yield from sorted(found, key=lambda part: (part != own, natural_key(part)))


def _with_all_on(paths: set[str], on: dict[str, list[str]]) -> set[str]:
    found, waiting = set(paths), list(paths)
    while waiting:
        for path in on.get(waiting.pop(), ()):
            if path not in found:
                found.add(path)
                waiting.append(path)
    return found


@frozen
class _Heap:
    """What hangs together with the piece by which a part is placed, by path, and the frame of that piece."""

    placed: dict[str, PlacedPiece]
    frame: Frame


def _heap(paths: set[str], own: set[str], made_up: InPose) -> _Heap | None:
    """None for a part of which nothing is placed."""
    placed = {path: where for path in sorted(paths, key=natural_key) if (where := made_up.place(path)) is not None}
    stand_on = {path: where.on.placed.folded.piece.path for path, where in placed.items() if where.on is not None}
    base = next((where for path, where in placed.items() if path in own and stand_on.get(path) not in own), None)
    if base is None:
        return None
    return _Heap({path: where for path, where in placed.items() if where.root == base.root}, base.base.frame)


def _layers(heap: _Heap | None, joins: dict[str, list[Join]], made_up: InPose) -> list[Layer]:
    if heap is None:
        return []
    layers = [layer for where in heap.placed.values() for layer in paper_layers(where, heap.frame)]
    for join in (join for path in heap.placed for join in joins.get(path, ())):
        layers += adhesive_layers(join, made_up, heap.frame, lambda face: face[0] in heap.placed)
    return layers
