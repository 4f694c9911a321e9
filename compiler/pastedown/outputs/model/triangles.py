"""A flat shape with openings cut into triangles, by clipping ears (Meisters, 1975; openings bridged as by Eberly).

Every corner of the triangles is a corner of the shape, so that neighbouring faces meet at their rims without a gap.
"""

from collections.abc import Sequence

from pastedown.outputs.template.shape import FloatSpot

Triangle = tuple[int, int, int]
_SAME = 1e-12


def triangles_of(rings: Sequence[Sequence[FloatSpot]]) -> list[Triangle]:
    """Triangles, anticlockwise, by the numbers of the corners, counted on through all rings. The outer ring runs
    anticlockwise and comes first, openings run clockwise."""
    spots = [spot for ring in rings for spot in ring]
    chain = list(range(len(rings[0])))
    start = len(chain)
    openings = []
    for ring in rings[1:]:
        openings.append(list(range(start, start + len(ring))))
        start += len(ring)
    for opening in sorted(openings, key=lambda numbers: -max(spots[number][0] for number in numbers)):
        chain = _bridged(chain, opening, spots)
    return _clipped(chain, spots)


def _bridged(chain: list[int], opening: list[int], spots: Sequence[FloatSpot]) -> list[int]:
    """The opening joined to the chain by two lines in one place, from its rightmost corner to a corner that sees it."""
    first = max(range(len(opening)), key=lambda place: spots[opening[place]])
    own = spots[opening[first]]
    nearest = sorted(range(len(chain)), key=lambda place: _square(spots[chain[place]], own))
    for place in nearest:
        if _sees(own, spots[chain[place]], [chain, opening], spots) and _is_within(chain, place, own, spots):
            return [*chain[: place + 1], *opening[first:], *opening[: first + 1], *chain[place:]]
    return chain


def _is_within(chain: Sequence[int], place: int, to: FloatSpot, spots: Sequence[FloatSpot]) -> bool:
    """Whether the way from a corner of the chain leads into the shape there: a bridge makes one spot two corners."""
    before, here = spots[chain[place - 1]], spots[chain[place]]
    after = spots[chain[(place + 1) % len(chain)]]
    if _turn(before, here, after) >= 0:
        return _turn(before, here, to) > 0 and _turn(here, after, to) > 0
    return _turn(before, here, to) > 0 or _turn(here, after, to) > 0


def _sees(one: FloatSpot, other: FloatSpot, rings: Sequence[Sequence[int]], spots: Sequence[FloatSpot]) -> bool:
    for ring in rings:
        for place in range(len(ring)):
            a, b = spots[ring[place - 1]], spots[ring[place]]
            if {a, b} & {one, other}:
                continue
            if _turn(one, other, a) * _turn(one, other, b) <= 0 and _turn(a, b, one) * _turn(a, b, other) <= 0:
                return False
    return True


def _clipped(chain: list[int], spots: Sequence[FloatSpot]) -> list[Triangle]:
    found: list[Triangle] = []
    left = list(chain)
    while len(left) > 3:
        place = next((place for place in range(len(left)) if _is_ear(left, place, spots)), None)
        if place is None:
            # Only corners on one straight line are left: they enclose nothing.
            place = next((at for at in range(len(left)) if abs(_corner(left, at, spots)) <= _SAME), 0)
        found.append((left[place - 1], left[place], left[(place + 1) % len(left)]))
        del left[place]
    found.append((left[0], left[1], left[2]))
    return found


def _corner(left: Sequence[int], place: int, spots: Sequence[FloatSpot]) -> float:
    return _turn(spots[left[place - 1]], spots[left[place]], spots[left[(place + 1) % len(left)]])


def _is_ear(left: Sequence[int], place: int, spots: Sequence[FloatSpot]) -> bool:
    a, b, c = spots[left[place - 1]], spots[left[place]], spots[left[(place + 1) % len(left)]]
    if _turn(a, b, c) <= _SAME:
        return False
    for number in left:
        spot = spots[number]
        if spot in (a, b, c):
            continue
        if _turn(a, b, spot) >= 0 and _turn(b, c, spot) >= 0 and _turn(c, a, spot) >= 0:
            return False
    return True


def _turn(a: FloatSpot, b: FloatSpot, c: FloatSpot) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _square(a: FloatSpot, b: FloatSpot) -> float:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2
