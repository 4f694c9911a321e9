"""The places of a stack as they are told: the thickest first, each with what lies there."""

from fractions import Fraction

from pastedown.geometry.layer_stack import LayerStack, Zone
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.ledger import ThickPlace
from pastedown.quantity.quantity import mm

# So many places of a part or a stack are told, the thickest first.
MOST_PLACES = 12
# Of more zones than this no drawing of them could be made out.
_MOST_DRAWN = 400


def corner_of(stack: LayerStack) -> tuple[Fraction, Fraction]:
    """Where the outermost left edge and the outermost tail of a stack lie."""
    nought = Fraction(0)
    places = [zone.place for zone in stack.zones]
    return min((one.left for one in places), default=nought), min((one.tail for one in places), default=nought)


def places_of(stack: LayerStack) -> tuple[ThickPlace, ...]:
    return _told(stack, MOST_PLACES)


def zones_of(stack: LayerStack) -> tuple[ThickPlace, ...]:
    """All places, the thickest first; none where there are too many to be drawn."""
    return _told(stack, _MOST_DRAWN) if len(stack.zones) <= _MOST_DRAWN else ()


def _told(stack: LayerStack, most: int) -> tuple[ThickPlace, ...]:
    ranked = sorted(stack.zones, key=lambda zone: (-zone.thickness, zone.place.left, zone.place.tail))
    return tuple(_place(zone, stack) for zone in ranked[:most])


def _place(zone: Zone, stack: LayerStack) -> ThickPlace:
    left, tail = corner_of(stack)
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
