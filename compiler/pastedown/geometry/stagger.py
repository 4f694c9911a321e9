"""The cheapest cure of what is too thick: the fewest things that would have to lie elsewhere. Nothing new is cut."""

from __future__ import annotations

from fractions import Fraction

from pastedown.geometry.layer_stack import Layer, LayerStack
from pastedown.geometry.model import Requirement, Stack, WorkedText
from pastedown.geometry.moved_aside import moved_aside
from pastedown.geometry.natural_order import natural_key
from pastedown.quantity.quantity import Length, Quantity, mm

# So many of them are named.
_MOST_NAMED = 6


def loaded_of(requirement: Requirement) -> list[Stack]:
    """The stacks that a requirement hangs on, without the blank ones where there are others."""
    return [stack for stack in requirement.stacks if not stack.blank] or list(requirement.stacks)


def stagger(requirement: Requirement, mark: Length) -> WorkedText | None:
    """Which of the things that are thick in one place would have to lie elsewhere for a requirement to hold, and where,
    to a mark, if one way for all of them will do; None where moving alone is not enough, or what is too thick is no
    stack."""
    left, right = requirement.left, requirement.right
    if not requirement.stacks or not isinstance(left, Quantity) or not isinstance(right, Quantity):
        return None
    if left.dimension != right.dimension or requirement.operator not in ("<", "<=", ">", ">="):
        return None
    excess = (left - right if requirement.operator in ("<", "<=") else right - left).value
    stack = max(loaded_of(requirement), key=lambda each: each.layers.highest).layers
    if not 0 < excess < stack.highest:
        return None
    ranked = sorted(_movable(stack, excess).items(), key=lambda each: (-each[1], natural_key(each[0])))
    total, moved = Fraction(0), 0
    while total < excess and moved < len(ranked):
        total += ranked[moved][1]
        moved += 1
    if total < excess:
        return None
    named = [path for path, _ in ranked[:moved]]
    names = ", ".join(named[:_MOST_NAMED]) + (" ..." if moved > _MOST_NAMED else "")
    which = f"{moved} of the {len(ranked)} things" if len(ranked) > 1 else "the thing"
    words = "that lie only where it is thickest" if len(ranked) > 1 else "that lies only where it is thickest"
    told: WorkedText = (f"let {which} {words} lie elsewhere, such as {names}: that takes ", mm(total), " away there")
    aside = moved_aside(stack.layers, named, stack.highest - excess, mark.value)
    if aside is None:
        return told
    return (*told[:-1], " away there, and it fits if ", "they lie " if moved > 1 else "it lies ", mm(aside.distance),
            f" further {aside.way if ' ' in aside.way else f'to the {aside.way}'}")  # fmt: skip


def _movable(stack: LayerStack, excess: Fraction) -> dict[str, Fraction]:
    """What lies only where there is too much, and how thick it is at the thickest place: what reaches further would
    have to be made smaller to lie elsewhere."""
    highest = max(stack.zones, key=lambda zone: zone.thickness)
    elsewhere = {
        _thing(stack.layers[number])
        for zone in stack.zones
        if zone.thickness + excess <= stack.highest
        for number in zone.layers
    }
    found: dict[str, Fraction] = {}
    for number in highest.layers:
        layer = stack.layers[number]
        thing = _thing(layer)
        if thing not in elsewhere:
            found[thing] = found.get(thing, Fraction(0)) + layer.thickness
    return found


def _thing(layer: Layer) -> str:
    """What would be moved: the piece, with the adhesive under it."""
    return layer.holds or layer.what
