"""Which way the grain of sheets runs, and which side of a piece lies along it: one answer for checks and cutting plan.

The grain of a stock that is `marked`, or of which nobody says how it runs, is found by the maker, sheet in hand. All
sheets of one size are taken to run alike, as those of a pack do, and that way in which the fewest pieces lie across.
"""

from collections.abc import Sequence

from attrs import frozen

from pastedown.quantity.quantity import NO_LENGTH, Length

# The side along the grain, and the one beside it.
Sides = tuple[Length, Length]


@frozen
class OfferedSize:
    """A size of sheet: its sides in any order, what the stock says of its grain, and what is cut off each raw edge."""

    sheet: Sides
    grain: str
    trim: Length = NO_LENGTH

    @property
    def is_open(self) -> bool:
        """Whether its grain may run along either side, as far as anybody has said, and that makes a difference."""
        return self.grain not in ("long", "short") and self.sheet[0] != self.sheet[1]

    def ways(self) -> tuple[Sides, ...]:
        """The ways it may lie with its grain upright; the longer side first."""
        long_side, short_side = max(self.sheet), min(self.sheet)
        both = ((long_side, short_side), (short_side, long_side))
        if self.is_open:
            return both
        return both[:1] if self.grain != "short" else both[1:]

    def holds(self, sides: Sides, way: Sides) -> bool:
        """Whether a piece with these sides lies on the sheet within its raw edges, if the sheet lies so."""
        return sides[0] <= way[0] - self.trim * 2 and sides[1] <= way[1] - self.trim * 2


@frozen
class Wanted:
    """`count` pieces with these sides; the first has to lie along the grain, or with `by_pattern` is only kept upright
    with the pattern of the stock."""

    sides: Sides
    count: int = 1
    by_pattern: bool = False


def wanted_sides(stock_grain: str, decorated: str, height: Length, width: Length, grain: str) -> Sides | None:
    """The piece's side along the sheet's grain and the one beside it; None where it may lie either way. A pattern
    keeps its direction, so pieces of decorated stock that want no grain lie with their heads alike."""
    if grain == "width" and stock_grain != "none":
        return width, height
    if decorated != "none" or (grain == "height" and stock_grain != "none"):
        return height, width
    return None


def lie_of_sheets(sizes: Sequence[OfferedSize], pieces: Sequence[Wanted]) -> tuple[Sides, ...]:
    """How each size lies with its grain upright. Those whose grain is known lie as they must; the others, one after the
    other, so that the fewest pieces lie straight on no size so far."""
    chosen: dict[int, Sides] = {}
    left = list(pieces)
    for number in sorted(range(len(sizes)), key=lambda each: sizes[each].is_open):
        size = sizes[number]
        chosen[number] = min(size.ways(), key=lambda way: (_across(left, size, way), _across(pieces, size, way)))
        left = [each for each in left if not size.holds(each.sides, chosen[number])]
    return tuple(chosen[number] for number in range(len(sizes)))


def _across(pieces: Sequence[Wanted], size: OfferedSize, way: Sides) -> tuple[int, int]:
    """How many do not lie straight on it: those with a grain, and those with a pattern."""
    off = [each for each in pieces if not size.holds(each.sides, way)]
    by_pattern = sum(each.count for each in off if each.by_pattern)
    return sum(each.count for each in off) - by_pattern, by_pattern
