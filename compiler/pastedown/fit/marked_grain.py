"""Pieces that would need the grain of marked sheets to run both ways.

A marked sheet that is not square may turn out to be long or short, and pieces are cut to suit, as long as one way suits
all of them: sheets of one pack run alike. The cutting plan takes the same way (`geometry/grain_on_sheets.py`).
"""

from collections.abc import Iterator, Sequence

from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.fit.made_here import made_here
from pastedown.fit.sheet_and_grain import harm, in_words
from pastedown.geometry.grain_on_sheets import OfferedSize, Sides, Wanted, lie_of_sheets, wanted_sides
from pastedown.geometry.model import Model
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler


def look(model: Model) -> Iterator[Diagnostic]:
    """Each kind of piece once."""
    by_stock: dict[Stock, list[FlatPiece]] = {}
    for piece in model.pieces:
        by_stock.setdefault(piece.stock, []).append(piece)
    for stock, pieces in by_stock.items():
        sizes = [
            OfferedSize(each.sheet, each.grain, each.trim)
            for each in (stock, *stock.also)
            if each.sheet is not None and each.trim * 2 < min(each.sheet)
        ]
        if stock.sheet is not None and any(size.is_open and size.grain == "marked" for size in sizes):
            yield from _both_ways(stock, pieces, sizes, model.ruler)


def _both_ways(
    stock: Stock, pieces: Sequence[FlatPiece], sizes: Sequence[OfferedSize], ruler: Ruler
) -> Iterator[Diagnostic]:
    wanted = [(piece, sides) for piece in pieces if (sides := _sides(piece)) is not None]
    every = [Wanted(sides, by_pattern=piece.grain == "any") for piece, sides in wanted]
    lie = list(zip(sizes, lie_of_sheets(sizes, every), strict=True))
    told: set[tuple[str, str, Length, Length]] = set()
    for piece, sides in wanted:
        key = piece.component, piece.name, piece.height, piece.width
        if piece.grain == "any" or key in told or any(size.holds(sides, way) for size, way in lie):
            continue
        turned = next(
            (
                (size, way)
                for size, way in lie
                if size.is_open and size.grain == "marked" and size.holds(sides, (way[1], way[0]))
            ),
            None,
        )
        if turned is None:
            continue
        told.add(key)
        yield _told(stock, piece, turned, wanted, ruler)


def _told(
    stock: Stock, piece: FlatPiece, turned: tuple[OfferedSize, Sides], wanted: Sequence[tuple[FlatPiece, Sides]],
    ruler: Ruler,
) -> Diagnostic:  # fmt: skip
    size, way = turned
    mine, theirs, grain = ("shorter", "longer", "short") if way[0] > way[1] else ("longer", "shorter", "long")
    other = next(
        (each for each, sides in wanted if size.holds(sides, way) and not size.holds(sides, (way[1], way[0]))), None
    )
    against = "" if other is None else f", and {other.path} only where it runs along the {theirs} one"
    tell = warning if piece.against_grain == "warn" else error
    return tell(
        "against-grain",
        piece.span,
        f"{piece.path} ({in_words(piece, ruler)}) comes out of a sheet of {stock.words} with its grain along its "
        f"{piece.grain} only where the sheet's grain runs along its {mine} side{against}.",
        reason=f"Sheets of one pack run alike, so that {piece.path} is cut across its grain. {harm(piece)}",
        way_out=f"Have sheets of both: in also: give the same stock with grain: {grain}. Or use larger sheets, or make "
        "the piece smaller." + ("\nAllow it with against_grain: warn." if tell is error else ""),
        labels=made_here(ruler, piece.height_made, piece.width_made),
    )


def _sides(piece: FlatPiece) -> Sides | None:
    return wanted_sides(piece.stock.grain, piece.stock.decorated, piece.height, piece.width, piece.grain)
