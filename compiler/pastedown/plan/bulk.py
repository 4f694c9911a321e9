"""The ledger of thickness: every part blank and loaded, the stacks that were asked for, the room there is, and what it
takes where there is not enough, cheapest first."""

from fractions import Fraction

from pastedown.geometry.layer_stack import LayerStack, Zone
from pastedown.geometry.model import Model, Requirement, Stack
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.stagger import loaded_of, stagger
from pastedown.geometry.thick_parts import ThickPart, thick_parts
from pastedown.plan.plan import Bulk, RoomLeft, StackBulk, ThickPartTold, ThickPlace
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity, mm

# So many places of a part or a stack are told, the thickest first.
MOST_PLACES = 12


def bulk(model: Model) -> Bulk:
    """The whole ledger of a finished design."""
    return Bulk(
        parts=_parts(model),
        stacks=tuple(_stack(stack) for stack in model.stacks),
        rooms=tuple(_room(each) for each in model.requirements if each.stacks and _is_of_lengths(each)),
    )


def _parts(model: Model) -> tuple[ThickPartTold, ...]:
    """Like parts together."""
    alike: dict[object, list[ThickPart]] = {}
    for part in thick_parts(model):
        alike.setdefault((_map(part.blank), _map(part.loaded), len(part.unplaced)), []).append(part)
    return tuple(
        ThickPartTold(
            paths=tuple(part.path for part in group),
            blank=mm(group[0].blank.highest),
            loaded=mm(group[0].loaded.highest),
            places=_places(group[0].loaded),
            unplaced=tuple(path for part in group for path in part.unplaced),
        )
        for group in alike.values()
    )


def _map(stack: LayerStack) -> object:
    left, tail = _corner(stack)
    placed = ((zone.place, zone.thickness) for zone in stack.zones)
    return tuple((at.left - left, at.right - left, at.tail - tail, at.head - tail, thick) for at, thick in placed)


def _stack(stack: Stack) -> StackBulk:
    return StackBulk(
        stack.path, stack.words, stack.count, stack.blank, mm(stack.layers.highest), _places(stack.layers)
    )


def _corner(stack: LayerStack) -> tuple[Fraction, Fraction]:
    """Where the outermost left edge and the outermost tail of a stack lie."""
    nought = Fraction(0)
    places = [zone.place for zone in stack.zones]
    return min((one.left for one in places), default=nought), min((one.tail for one in places), default=nought)


def _places(stack: LayerStack) -> tuple[ThickPlace, ...]:
    ranked = sorted(stack.zones, key=lambda zone: (-zone.thickness, zone.place.left, zone.place.tail))
    return tuple(_place(zone, stack) for zone in ranked[:MOST_PLACES])


def _place(zone: Zone, stack: LayerStack) -> ThickPlace:
    left, tail = _corner(stack)
    things: dict[str, Fraction] = {}
    for number in zone.layers:
        layer = stack.layers[number]
        things[layer.what] = things.get(layer.what, Fraction(0)) + layer.thickness
    place = zone.place
    return ThickPlace(
        mm(place.left - left),
        mm(place.right - left),
        mm(place.tail - tail),
        mm(place.head - tail),
        mm(zone.thickness),
        tuple((what, mm(thick)) for what, thick in sorted(things.items(), key=lambda each: natural_key(each[0]))),
    )


def _is_of_lengths(requirement: Requirement) -> bool:
    """Whether it compares what is taken with what there is, and not some difference with nought."""
    sides = (requirement.left, requirement.right)
    lengths = all(isinstance(side, Quantity) and side.dimension == LENGTH and side.value > 0 for side in sides)
    return lengths and requirement.operator != "is"


def _room(requirement: Requirement) -> RoomLeft:
    left, right = requirement.left, requirement.right
    assert isinstance(left, Quantity) and isinstance(right, Quantity)
    taken, room = (left.exact, right.exact) if requirement.operator in ("<", "<=") else (right.exact, left.exact)
    over = room - taken
    count = max(stack.count for stack in loaded_of(requirement))
    staggered = stagger(requirement) if over.value < 0 else None
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
