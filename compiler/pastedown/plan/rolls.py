"""How many whole rolls a stock takes, each strip in one piece."""

from collections.abc import Iterable
from math import ceil

from attrs import frozen

from pastedown.plan.material import Material
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
    # Strips that are longer than half a roll each take one.
    alone = sum(strip * 2 > whole for strip in material.strips)
    count = max(len(first_fit(material.strips, whole)), least)
    return Rolls(count, min(max(least, alone), count))


def left_of_rolls(material: Material, count: int) -> Length | None:
    """What remains of so many rolls, in all, with the spare length taken off; None where no roll has a length."""
    if material.roll_length is None:
        return None
    # Pieces narrower than the roll are cut off it one after the other.
    needed = max(sum(material.strips, start=NO_LENGTH), material.amount) * (1 + material.spare)
    return max(material.roll_length * count - needed, NO_LENGTH)


def longest_left(material: Material, count: int) -> Length | None:
    """The longest piece that remains of so many rolls; None where some of it is there to spare."""
    if material.roll_length is None or material.spare:
        return None
    taken = first_fit(material.strips, material.roll_length)
    return material.roll_length if count > len(taken) else material.roll_length - min(taken, default=NO_LENGTH)


def first_fit(strips: Iterable[Length], whole: Length) -> list[Length]:
    """How much is taken of each roll, the longest strip first."""
    taken: list[Length] = []
    before: Length | None = None
    place = 0
    for strip in sorted(strips, reverse=True):
        rest = strip
        if rest > whole:
            more = ceil((rest / whole).value) - 1
            taken += [whole] * more
            rest = rest - whole * more
        # Rolls that had no room for a strip have none for another as long.
        place = place if before == rest else 0
        before = rest
        while place < len(taken) and whole - taken[place] < rest:
            place += 1
        if place == len(taken):
            taken.append(NO_LENGTH)
        taken[place] = taken[place] + rest
    return taken
