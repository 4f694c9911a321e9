"""At which distances a sheet need be cut at all: sums of the lengths of pieces that may lie side by side."""

from collections.abc import Iterable

# Lengths are kept as the bits of one number up to here; beyond, sums are gathered one by one.
_MOST_UNITS = 400_000


def sums(lengths: Iterable[tuple[int, int]], limit: int, most: int) -> tuple[list[int], bool]:
    """The sums up to `limit` of the lengths, each at most so often as its count says, rising from 0; and whether these
    are all. At most about `most` are given: then those that few pieces make up."""
    wanted = sorted({(length, count) for length, count in lengths if length <= limit})
    if limit <= _MOST_UNITS:
        reached, mask = 1, (1 << (limit + 1)) - 1
        for length, count in wanted:
            count = min(count, limit // length)
            step = 1
            while count > 0:
                step = min(step, count)
                reached |= (reached << (length * step)) & mask
                count -= step
                step *= 2
        if reached.bit_count() <= most:
            digits = bin(reached)[:1:-1]
            return [at for at, digit in enumerate(digits) if digit == "1"], True
    found = {0: None}
    layer = [0]
    while layer and len(found) < most:
        fresh: dict[int, None] = {}
        for at in layer:
            for length, _ in wanted:
                if at + length <= limit and at + length not in found:
                    fresh[at + length] = None
        layer = sorted(fresh)[: most - len(found)] if len(fresh) <= most - len(found) else _spread(
            sorted(fresh), most - len(found)
        )
        found.update(dict.fromkeys(layer))
    return sorted(found), False


def _spread(values: list[int], most: int) -> list[int]:
    """So many of the values, evenly spread."""
    return [values[number * len(values) // most] for number in range(most)]


def reduced(points: list[int], limit: int) -> list[int]:
    """Of points that are closed under sums up to `limit`, those that suffice to cut a sheet of just that length: the
    largest point that leaves room for another (Terno, Lindemann and Scheithauer's raster points)."""
    kept: dict[int, None] = {0: None}
    at = len(points) - 1
    for point in points:
        while points[at] > limit - point:
            at -= 1
        kept[points[at]] = None
    return sorted(kept)


def floors(points: list[int]) -> list[list[int]]:
    """For each point, for each point from the second on that is at most its half: the index of the largest point that
    the rest can hold."""
    table: list[list[int]] = []
    for point in points:
        rests: list[int] = []
        at = len(points) - 1
        for part in points[1:]:
            if 2 * part > point:
                break
            while points[at] > point - part:
                at -= 1
            rests.append(at)
        table.append(rests)
    return table
