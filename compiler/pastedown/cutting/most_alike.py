"""How many like pieces come out of one rectangle by cuts from edge to edge.

Exact where few cuts are possible: a rectangle is cut in two at the sums of sides of the piece, in every way, and the
better half counts are added up. Elsewhere two blocks of rows are tried, one with the pieces turned; that may miss some.
"""

from bisect import bisect_right
from fractions import Fraction
from functools import cache, lru_cache

from pastedown.cutting.problem import Exact

# With so many places for a cut in either direction it takes some milliseconds.
_MOST_PLACES = 24


@lru_cache(maxsize=4096)
def most_alike(width: Exact, height: Exact, piece_width: Exact, piece_height: Exact, may_turn: bool) -> int:
    """All lengths in one unit; the piece lies as given, or with `may_turn` a quarter round as well."""
    if width <= 0 or height <= 0:
        return 0
    if not may_turn or piece_width == piece_height:
        return _rows(width, height, piece_width, piece_height)
    across, up = (_places(side, piece_width, piece_height) for side in (width, height))
    if across is None or up is None:
        return _two_blocks(width, height, piece_width, piece_height)

    def down(side: Exact, places: tuple[Exact, ...]) -> Exact:
        return places[bisect_right(places, side) - 1]

    @cache
    def most(wide: Exact, high: Exact) -> int:
        best = max(_rows(wide, high, piece_width, piece_height), _rows(wide, high, piece_height, piece_width))
        for place in across:
            if 0 < place * 2 <= wide:
                best = max(best, most(place, high) + most(down(wide - place, across), high))
        for place in up:
            if 0 < place * 2 <= high:
                best = max(best, most(wide, place) + most(wide, down(high - place, up)))
        return best

    return most(across[-1], up[-1])


def _rows(width: Exact, height: Exact, piece_width: Exact, piece_height: Exact) -> int:
    return int(Fraction(width) / piece_width) * int(Fraction(height) / piece_height)


def _places(side: Exact, one: Exact, other: Exact) -> tuple[Exact, ...] | None:
    """The sums of the two sides up to `side`, nought included; None for too many of them."""
    ones, others = int(Fraction(side) / one), int(Fraction(side) / other)
    if (ones + 1) * (others + 1) > _MOST_PLACES * 4:
        return None
    sums = {one * first + other * second for first in range(ones + 1) for second in range(others + 1)}
    found = tuple(sorted(place for place in sums if place <= side))
    return found if len(found) <= _MOST_PLACES else None


def _two_blocks(width: Exact, height: Exact, piece_width: Exact, piece_height: Exact) -> int:
    """A block of rows beside or below another in which the pieces are turned."""
    best = 0
    for one, other in ((piece_width, piece_height), (piece_height, piece_width)):
        beside, above = int(Fraction(width) / one), int(Fraction(height) / other)
        # Of many places the last ones are tried, where little is left for the other block, and the first.
        for count in {*range(min(beside, 99) + 1), *range(max(beside - 99, 0), beside + 1)}:
            first = count * int(Fraction(height) / other)
            best = max(best, first + _rows(width - one * count, height, other, one))
        for count in {*range(min(above, 99) + 1), *range(max(above - 99, 0), above + 1)}:
            first = count * int(Fraction(width) / one)
            best = max(best, first + _rows(width, height - other * count, other, one))
    return best
