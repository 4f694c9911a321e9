"""How many whole rolls a stock takes, each strip in one piece."""

from math import ceil

from attrs import frozen

from pastedown.plan.plan import Material
from pastedown.quantity.quantity import NO_LENGTH, Length


@frozen
class Rolls:
    """`count` rolls hold every strip, by first fit, the longest strip first, and the spare length; no way takes fewer
    than `least`."""

    count: int
    least: int


def rolls_for(material: Material) -> Rolls | None:
    """None for what is not sold in rolls of a stated length. A strip that is longer than a roll is joined."""
    whole = material.roll_length
    if whole is None or whole <= NO_LENGTH:
        return None
    least = ceil((material.amount / whole).value * (1 + material.spare))
    left: list[Length] = []
    full = 0
    for strip in sorted(material.strips, reverse=True):
        rest = strip
        if rest > whole:
            more = ceil((rest / whole).value) - 1
            full, rest = full + more, rest - whole * more
        place = next((at for at, room in enumerate(left) if room >= rest), None)
        if place is None:
            left.append(whole - rest)
        else:
            left[place] = left[place] - rest
    count = max(full + len(left), least)
    return Rolls(count, least)
