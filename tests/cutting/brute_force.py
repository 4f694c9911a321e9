"""The fewest sheets by trying everything: for a handful of pieces, and with nothing of the planner in it."""

from collections.abc import Sequence
from functools import cache

# width, height, may turn
Small = tuple[int, int, bool]


def fewest_sheets(width: int, height: int, pieces: Sequence[Small]) -> int | None:
    """The fewest sheets from which edge-to-edge cuts free all pieces; None where some piece fits no sheet."""
    everything = (1 << len(pieces)) - 1

    def ways(number: int) -> list[tuple[int, int]]:
        w, h, turns = pieces[number]
        return [(w, h), (h, w)] if turns else [(w, h)]

    @cache
    def lengths(members: int, axis: int) -> tuple[int, ...]:
        """All sums that some of the pieces can make side by side: where a cut may have to be."""
        found = {0}
        for number in range(len(pieces)):
            if members >> number & 1:
                found |= {at + way[axis] for at in found for way in ways(number)}
        return tuple(sorted(found - {0}))

    @cache
    def fits(members: int, w: int, h: int) -> bool:
        if members & (members - 1) == 0:
            return any(a <= w and b <= h for a, b in ways(members.bit_length() - 1))
        if sum(pieces[n][0] * pieces[n][1] for n in range(len(pieces)) if members >> n & 1) > w * h:
            return False
        lowest = members & -members
        part = (members - 1) & members
        while part:
            if part & lowest:
                rest = members ^ part
                for at in lengths(part, 0):
                    if at < w and fits(part, at, h) and fits(rest, w - at, h):
                        return True
                for at in lengths(part, 1):
                    if at < h and fits(part, w, at) and fits(rest, w, h - at):
                        return True
            part = (part - 1) & members
        return False

    if not all(fits(1 << number, width, height) for number in range(len(pieces))):
        return None

    @cache
    def sheets(members: int) -> int:
        if not members:
            return 0
        lowest = members & -members
        best = len(pieces)
        part = members
        while part:
            if part & lowest and fits(part, width, height):
                best = min(best, 1 + sheets(members ^ part))
            part = (part - 1) & members
        return best

    return sheets(everything)
