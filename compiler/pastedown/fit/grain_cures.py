"""What cures a piece that comes out of its sheet only across its grain, each with the words to write."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from attrs import evolve, field, frozen

from pastedown.design.stock import Stock
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.enough import at_most
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.source import Span

_OTHER_WAY = {"long": "short", "short": "long"}
LiesWell = Callable[[FlatPiece], bool]


@frozen(eq=False)
class GrainCures:
    """Ways out for the pieces of one design. `pieces` are all of it, and `lies_well` says whether one comes out of its
    stock along its grain. What becomes of the others is looked at once a stock: there may be thousands of either."""

    pieces: Sequence[FlatPiece]
    lies_well: LiesWell
    ruler: Ruler
    _then: dict[Stock, str] = field(factory=dict, init=False)

    def of(self, piece: FlatPiece) -> str:
        """One a line: the same stock with its grain the other way, larger sheets, a smaller piece, or the piece as it
        lies."""
        found = [*self._other_grain(piece), *self._larger_sheets(piece), *self._smaller(piece)]
        if piece.against_grain == "warn":
            path = without_indexes(piece.path)
            take = "grain: any" if piece.height_made is None else f"{path}.grain = any"
            found.append(f"Take it as it lies, where that does no harm: write {take}.")
        else:
            found.append("Allow it with against_grain: warn.")
        return "\n".join(found)

    def _other_grain(self, piece: FlatPiece) -> list[str]:
        """The stock with its grain the other way, where the piece lies well on it, and what that does to the others."""
        stock = piece.stock
        turned = _turned(stock)
        if not self.lies_well(evolve(piece, stock=turned)):
            return []
        if stock not in self._then:
            self._then[stock] = self._of_the_others(stock, turned)
        return [
            f"Buy {stock.words} with its grain the other way: grain: {turned.grain}{_where(stock, piece)}; "
            f"{self._then[stock]}."
        ]

    def _larger_sheets(self, piece: FlatPiece) -> list[str]:
        """How large a sheet would have to be. Where that is longer the other way than the stock is, its grain is called
        by another word."""
        stock = piece.stock
        along, across = (side + stock.trim * 2 for side in _along_and_across(piece))
        grain = stock.grain if along == across else "long" if along > across else "short"
        larger = evolve(stock, sheet=(along, across), grain=grain)
        if not self.lies_well(evolve(piece, stock=larger)):
            return []
        told = write(along, self.ruler), write(across, self.ruler)
        renamed = "" if grain == stock.grain else f", and write grain: {grain}{_where(stock, piece)}"
        return [f"Use sheets of {told[0]} or more along the grain and {told[1]} or more across it{renamed}."]

    def _smaller(self, piece: FlatPiece) -> list[str]:
        """How small the piece would have to be."""
        assert piece.stock.sheet is not None
        short_side, long_side = sorted(piece.stock.sheet, key=lambda side: side.value)
        sides = (long_side, short_side) if piece.stock.grain == "long" else (short_side, long_side)
        names = ("height", "width") if piece.grain == "height" else ("width", "height")
        bounds = {
            name: at_most(side - piece.stock.trim * 2, self.ruler)
            for name, size, side in zip(names, _along_and_across(piece), sides, strict=True)
            if size > side - piece.stock.trim * 2
        }
        smaller = evolve(piece, height=bounds.get("height", piece.height), width=bounds.get("width", piece.width))
        if any(most.value <= 0 for most in bounds.values()) or not self.lies_well(smaller):
            return []
        told = [f"its {name} to {write(most, self.ruler)} at most" for name, most in bounds.items()]
        return [f"Bring {' and '.join(told)}."]

    def _of_the_others(self, stock: Stock, turned: Stock) -> str:
        alike = [each for each in self.pieces if each.stock == stock]
        left = [each for each in alike if not self.lies_well(evolve(each, stock=turned))]
        spoilt = next((each for each in left if self.lies_well(each)), None)
        if spoilt is not None:
            return f"but then {spoilt.path} lies across it"
        if len(left) == 1:
            return f"only {left[0].path} lies across it then"
        if left:
            return f"{left[0].path} and {len(left) - 1} more lie across it either way"
        all_of_it = f"all {len(alike)} pieces of it lie along their grain then"
        return all_of_it if len(alike) > 1 else "it lies along it then"


def _turned(stock: Stock) -> Stock:
    return evolve(stock, grain=_OTHER_WAY[stock.grain])


def _where(stock: Stock, piece: FlatPiece) -> str:
    """Where the grain of the stock is written, as far as that is a file of the maker's."""
    at = stock.grain_at
    own = _written_at(piece)
    if at is None:
        return ""
    return f" instead of {stock.grain}, line {at.line}" + ("" if at.source is own.source else f" of {at.source.name}")


def _written_at(piece: FlatPiece) -> Span:
    return piece.height_made.span if piece.height_made is not None else piece.span


def _along_and_across(piece: FlatPiece) -> tuple[Length, Length]:
    return (piece.height, piece.width) if piece.grain == "height" else (piece.width, piece.height)
