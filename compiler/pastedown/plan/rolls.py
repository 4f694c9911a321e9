"""How many whole rolls a stock takes beyond what is on hand, each strip in one piece."""

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor

from attrs import frozen

from pastedown.plan.material import Material
from pastedown.quantity.quantity import NO_LENGTH, Length


@frozen
class Rolls:
    """`count` rolls that are bought hold every strip, by first fit, the longest strip first, and the spare length, with
    `on_hand` whole rolls and `offcuts` lengths that are there already; no way takes fewer than `least` new ones."""

    count: int
    least: int
    on_hand: int = 0
    offcuts: int = 0


def rolls_for(material: Material) -> Rolls | None:
    """None for what is not sold in rolls of a stated length. A strip that is longer than a roll is joined."""
    whole = material.roll_length
    if whole is None or whole <= NO_LENGTH:
        return None
    share = 1 + material.spare
    there = _offcuts(material)
    in_offcuts, taken = _filled(material)
    # The spare length is in no strip: it comes of what remains, and of further rolls.
    used = there if material.spare else in_offcuts
    sure = material.amount if material.least_length is None else material.least_length
    lacking = material.amount * share - sum(used, start=NO_LENGTH)
    needed = max(len(taken), ceil((lacking / whole).value))
    least = ceil(((sure * share - sum(there, start=NO_LENGTH)) / whole).value)
    by_count = material.least_rolls if material.least_length is not None else least_by_count(material.strips, whole)
    # A part of an offcut counts as much as such a part of a roll, and a bit more where it is cut off within a strip.
    least = max(least, ceil(by_count - sum(ceil((each * 2 / whole).value) for each in there)), 0)
    on_hand = min(needed, material.on_hand)
    count = needed - on_hand
    return Rolls(count, min(max(least - material.on_hand, 0), count), on_hand, len(used))


def least_by_count(strips: Iterable[Length], whole: Length) -> Fraction:
    """How many rolls strips take at least by their number: of those longer than half a roll each takes one, of those
    longer than a third of it two do, and so on."""
    least = Fraction(0)
    for number, strip in enumerate(sorted((each for each in strips if each > NO_LENGTH), reverse=True), 1):
        # No more of this length or a greater one come off a roll.
        least = max(least, Fraction(number, max(floor((whole / strip).value), 1)))
    return least


def left_of_rolls(material: Material, count: int) -> Length | None:
    """What remains of so many rolls that are bought and of what is used of those on hand, in all, with the spare length
    taken off; None where no roll has a length."""
    rolls = rolls_for(material)
    if material.roll_length is None or rolls is None:
        return None
    there = _offcuts(material) if material.spare else _filled(material)[0]
    have = material.roll_length * (count + rolls.on_hand) + sum(there, start=NO_LENGTH)
    # What lies side by side takes a whole length of the roll.
    needed = max(sum(material.strips, start=NO_LENGTH), material.amount) * (1 + material.spare)
    return max(have - needed, NO_LENGTH)


def longest_left(material: Material, count: int) -> Length | None:
    """The longest piece that remains of so many rolls and of what is used of those on hand; None where some of it is
    there to spare."""
    rolls = rolls_for(material)
    if material.roll_length is None or material.spare or rolls is None:
        return None
    in_offcuts, taken = _filled(material)
    if count + rolls.on_hand > len(taken):
        return material.roll_length
    left = [material.roll_length - each for each in taken]
    # Of an offcut it is told only in sum what was taken.
    return max(left, default=NO_LENGTH) if not in_offcuts else None


def _offcuts(material: Material) -> list[Length]:
    """How long the offcuts are that are as wide as the roll."""
    width = material.roll_width
    if width is None:
        return [max(each) for each in material.offcuts]
    return [one if other == width else other for one, other in material.offcuts if width in (one, other)]


def _filled(material: Material) -> tuple[list[Length], list[Length]]:
    """The offcuts that are cut, and how much is taken of each whole roll: without offcuts where they save nothing."""
    assert material.roll_length is not None
    strips = list(material.strips)
    alone = first_fit(strips, material.roll_length)
    used: list[Length] = []
    # The shortest first, so that the long ones are left for what needs them; each filled with the longest strips.
    for offcut in sorted(_offcuts(material)):
        left, kept = offcut, []
        for strip in sorted(strips, reverse=True):
            if strip <= left:
                left = left - strip
            else:
                kept.append(strip)
        if len(kept) < len(strips):
            used.append(offcut)
            strips = kept
    taken = first_fit(strips, material.roll_length)
    return (used, taken) if len(taken) <= len(alone) else ([], alone)


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
