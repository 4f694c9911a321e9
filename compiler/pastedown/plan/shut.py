"""The whole design when it is shut: what lies between the boards that then look at one another, and the room there is.

Takes the model, gives one entry for each two boards with something between them and no third board. How near the two
may stand to one another is told by the bends between them, so it is the same whether or not a requirement asks for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from pastedown.design.stock import Stock
from pastedown.geometry.between import Between, between
from pastedown.geometry.in_pose import InPose
from pastedown.geometry.layer_stack import how_many_cells
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.pose import CLOSED
from pastedown.geometry.thick_parts import MOST_CELLS
from pastedown.plan.ledger import Shut
from pastedown.plan.thick_places import places_of
from pastedown.quantity.quantity import NO_LENGTH, mm

_RIGID = "board"
# Of more boards than so many none is looked at: what lies between which of them is no single thing any more.
MOST_BOARDS = 16


def shut(model: Model, stock_names: dict[Stock, str]) -> tuple[Shut, ...]:
    """Nothing for a design that has no pose in which it is shut, or whose pieces cannot be placed in it."""
    pose = next((each for each in model.poses if each.path == CLOSED and not each.part), None)
    boards = [piece.path for piece in model.pieces if piece.stock.kind == _RIGID]
    if pose is None or not model.can_be_placed or len(boards) > MOST_BOARDS:
        return ()
    placed = InPose(model, pose, InPose(model))
    found = [
        _told(there, (one, other), model, stock_names)
        for one, other in combinations(boards, 2)
        for there in _between(placed, one, other, set(boards))
    ]
    return tuple(found)


def _between(placed: InPose, one: str, other: str, boards: set[str]) -> Iterator[Between]:
    for side, facing in product(("face", "back"), repeat=2):
        there = between(placed, (one, "", side), (other, "", facing), placed.model.added)
        if there is None or not there.layers or how_many_cells(there.layers) > MOST_CELLS:
            continue
        if not boards & {layer.what for layer in there.stack(blank=False).layers}:
            yield there


def _told(there: Between, ends: tuple[str, str], model: Model, stock_names: dict[Stock, str]) -> Shut:
    blank, loaded = there.stack(blank=True), there.stack(blank=False)
    put = (
        zone.thickness
        for zone in loaded.zones
        if any({loaded.layers[at].what, loaded.layers[at].holds} & there.added for at in zone.layers)
    )
    filled = max(put, default=None)
    count = max(len(there.moving), 1)
    left_over = there.least - loaded.highest
    calipers = {piece.path: piece.stock.caliper for piece in model.pieces}
    return Shut(
        pose=CLOSED,
        one=ends[0],
        other=ends[1],
        least=mm(there.least),
        apart=mm(there.apart),
        blank=mm(blank.highest),
        loaded=mm(loaded.highest),
        filled=None if filled is None else mm(filled),
        left_over=mm(left_over),
        count=count,
        each=mm(left_over / count),
        places=places_of(loaded),
        loose=there.loose,
        unplaced=there.unplaced,
        unplaced_thickness=sum((calipers[path] or NO_LENGTH for path in there.unplaced), start=NO_LENGTH),
        without_caliper=_stocks(there, model, stock_names),
    )


def _stocks(there: Between, model: Model, stock_names: dict[Stock, str]) -> tuple[str, ...]:
    unknown = set(there.without_caliper)
    used = {piece.stock for piece in model.pieces if piece.path in unknown}
    used |= {join.by for join in model.joins if join.path in unknown and join.by is not None}
    return tuple(sorted((stock_names[stock] for stock in used), key=natural_key))
