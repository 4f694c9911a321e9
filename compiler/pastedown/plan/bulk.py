"""The ledger of thickness: every part blank and loaded, the stacks that were asked for, the room there is, and what it
takes where there is not enough, cheapest first."""

from pastedown.design.stock import Stock
from pastedown.geometry.layer_stack import LayerStack
from pastedown.geometry.model import Model, Requirement, Stack
from pastedown.geometry.stagger import loaded_of, stagger
from pastedown.geometry.thick_parts import ThickPart, thick_parts
from pastedown.plan.ledger import Bulk, RoomLeft, StackBulk, ThickPartTold
from pastedown.plan.shut import shut
from pastedown.plan.thick_places import corner_of, places_of, zones_of
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity, mm


def bulk(model: Model, stock_names: dict[Stock, str]) -> Bulk:
    """The whole ledger of a finished design."""
    return Bulk(
        parts=_parts(model),
        # What lies between two sides is told of the whole design.
        stacks=tuple(_stack(stack) for stack in model.stacks if not stack.between),
        rooms=tuple(
            _room(each, model.ruler.marks) for each in model.requirements if each.stacks and _is_of_lengths(each)
        ),
        shut=shut(model, stock_names),
    )


def _parts(model: Model) -> tuple[ThickPartTold, ...]:
    """Like parts together."""
    alike: dict[object, list[ThickPart]] = {}
    for part in thick_parts(model):
        told = len(part.unplaced), len(part.loose), bool(part.square)
        alike.setdefault((_map(part.blank), _map(part.loaded), told), []).append(part)
    return tuple(
        ThickPartTold(
            paths=tuple(part.path for part in group),
            blank=mm(group[0].blank.highest),
            loaded=mm(group[0].loaded.highest),
            places=places_of(group[0].loaded),
            unplaced=tuple(path for part in group for path in part.unplaced),
            square=tuple(dict.fromkeys(path for part in group for path in part.square)),
            loose=tuple(path for part in group for path in part.loose),
            zones=zones_of(group[0].loaded),
        )
        for group in alike.values()
    )


def _map(stack: LayerStack) -> object:
    left, tail = corner_of(stack)
    placed = ((zone.place, zone.thickness) for zone in stack.zones)
    return tuple((at.left - left, at.right - left, at.tail - tail, at.head - tail, thick) for at, thick in placed)


def _stack(stack: Stack) -> StackBulk:
    return StackBulk(
        stack.path, stack.words, stack.count, stack.blank, mm(stack.layers.highest), places_of(stack.layers)
    )


def _is_of_lengths(requirement: Requirement) -> bool:
    """Whether it compares what is taken with what there is, and not some difference with nought."""
    sides = (requirement.left, requirement.right)
    lengths = all(isinstance(side, Quantity) and side.dimension == LENGTH and side.value > 0 for side in sides)
    return lengths and requirement.operator != "is"


def _room(requirement: Requirement, mark: Length) -> RoomLeft:
    left, right = requirement.left, requirement.right
    assert isinstance(left, Quantity) and isinstance(right, Quantity)
    taken, room = (left.exact, right.exact) if requirement.operator in ("<", "<=") else (right.exact, left.exact)
    over = room - taken
    count = max(stack.count for stack in loaded_of(requirement))
    staggered = stagger(requirement, mark) if over.value < 0 else None
    ways = requirement.ways_out if not requirement.holds else ()
    return RoomLeft(
        path=requirement.path,
        taken=taken,
        room=room,
        left_over=over,
        count=count,
        each=mm(over.value / count),
        holds=requirement.holds,
        because=requirement.because,
        meant=requirement.meant,
        ways=(*((staggered,) if staggered is not None else ()), *ways),
    )
