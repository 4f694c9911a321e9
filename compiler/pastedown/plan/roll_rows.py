"""What pieces take of a roll: the lengths that come off it in one, with narrow pieces side by side in them, and how
little no cutting could do with.

Ribbon is not cut lengthwise, since its edges are woven: each piece takes the whole width. Of every other roll, lengths
are filled longest piece first, each piece where it first fits, and behind a shorter one in the same lane if it is no
wider.
"""

from collections.abc import Iterable
from fractions import Fraction
from math import floor

from attrs import define, frozen

from pastedown.quantity.quantity import NO_LENGTH, Length

UNSPLIT_KINDS = ("ribbon",)
_Sides = tuple[Length, Length]


@frozen
class RollRows:
    """`lengths` are right across the roll, the longest first. No way of cutting takes less than `least` of it, nor
    fewer than `rolls` rolls of the given length, which is a share of whole ones. Where no piece is `narrow`, the
    lengths are the pieces and cannot be fewer."""

    lengths: tuple[Length, ...]
    least: Length
    rolls: Fraction
    narrow: bool


def roll_rows(pieces: Iterable[_Sides], kind: str, width: Length | None, whole: Length | None) -> RollRows:
    """Of pieces with these sides from a roll of this width, `whole` long; None for what is not known."""
    sides = [(max(piece), min(piece)) for piece in pieces]
    if width is None:
        lengths = sorted((long for long, _ in sides), reverse=True)
        return RollRows(tuple(lengths), sum(lengths, start=NO_LENGTH), Fraction(0), narrow=False)
    split = kind not in UNSPLIT_KINDS
    lying = [_lies(long, short, width, split=split) for long, short in sides]
    if not split:
        lying = [(along, width) for along, _ in lying]
    rows = _filled(lying, width)
    # Pieces wider than half the roll never lie side by side.
    wide = sum((short if long <= width else long for long, short in sides if short * 2 > width), start=NO_LENGTH)
    # Every piece longer than half a roll that lies along it lies over the middle of one.
    over = [beside for along, beside in lying if whole is not None and along * 2 > whole and along > width]
    area = sum(((along * beside) / width for along, beside in lying), start=NO_LENGTH)
    rolls = max(sum((each / width).value for each in over), Fraction(sum(each * 2 > width for each in over)))
    return RollRows(rows, max(area, wide), Fraction(rolls), any(beside < width for _, beside in lying))


def _lies(long: Length, short: Length, width: Length, *, split: bool) -> _Sides:
    """The side along the roll, and the one across: the way in which many of it take less; across where both do."""
    if long > width:
        return long, short
    if not split:
        return short, long
    across, along = short / floor((width / long).value), long / floor((width / short).value)
    return (short, long) if across <= along else (long, short)


@define
class _Row:
    """A length right across the roll: how wide it still is, and how long its lanes still are."""

    length: Length
    wide: Length
    lanes: list[tuple[Length, Length]]

    def takes(self, along: Length, beside: Length) -> bool:
        """Whether there is room, which is then taken."""
        for number, (lane, left) in enumerate(self.lanes):
            if beside <= lane and along <= left:
                self.lanes[number] = lane, left - along
                return True
        if beside > self.wide or along > self.length:
            return False
        self.wide = self.wide - beside
        self.lanes.append((beside, self.length - along))
        return True


def _filled(lying: list[_Sides], width: Length) -> tuple[Length, ...]:
    rows: list[_Row] = []
    full: list[Length] = []
    before: _Sides | None = None
    place = 0
    for sides in sorted(lying, reverse=True):
        along, beside = sides
        if beside >= width:
            full.append(along)
            continue
        # Rows that had no room for a piece have none for another just like it.
        place = place if before == sides else 0
        before = sides
        while place < len(rows) and not rows[place].takes(along, beside):
            place += 1
        if place == len(rows):
            rows.append(_Row(along, width - beside, [(beside, NO_LENGTH)]))
    return tuple(sorted([*full, *(row.length for row in rows)], reverse=True))
