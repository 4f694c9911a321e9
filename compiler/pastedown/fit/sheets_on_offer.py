"""The sheets that a stock says it comes in: something has to be left of each within its raw edges, all sizes have to
be of the same paper, and no offcut is larger than what it was left of."""

from collections.abc import Iterator

from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.fit.made_here import made_here
from pastedown.geometry.grain_on_sheets import OfferedSize, Sides
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write


def sheets_on_offer(piece: FlatPiece, ruler: Ruler) -> Iterator[Diagnostic]:
    """What is wrong with the sheets of the stock of a piece, told where the stock says it, or at the piece."""
    for stock in (piece.stock, *piece.stock.also):
        if stock.sheet is not None and stock.trim * 2 >= min(stock.sheet):
            size = " by ".join(write(side, ruler) for side in stock.sheet)
            yield error(
                "nothing-within-raw-edges",
                stock.trim_at or piece.span,
                f"{stock.words} is {size}, and {write(stock.trim, ruler)} is trimmed off each edge.",
                reason="Nothing is left of the sheet, so no piece can be cut from it.",
                way_out="Write what really comes off each raw edge, as in trim: 1/8 in.",
                labels=() if stock.trim_at else made_here(ruler, piece.height_made, piece.width_made),
            )
    for offcut in dict.fromkeys(piece.stock.offcuts):
        if _too_large(piece.stock, offcut):
            along, beside = (write(side, ruler) for side in offcut)
            offered = [each.sheet for each in (piece.stock, *piece.stock.also) if each.sheet is not None]
            sheets = [" by ".join(write(side, ruler) for side in sheet) for sheet in offered]
            yield warning(
                "offcut-larger-than-sheet",
                piece.stock.offcuts_at or piece.span,
                f"An offcut of {piece.stock.words} is said to be {along} along its grain and {beside} beside it, and "
                f"its sheets are {' or '.join(dict.fromkeys(sheets))}.",
                reason="It cannot have been left of such a sheet, and the plan cuts pieces from it all the same.",
                way_out="Measure it again and write the side along its grain first. If it is left of a larger sheet, "
                "offer that size too, in also.",
                labels=() if piece.stock.offcuts_at else made_here(ruler, piece.height_made, piece.width_made),
            )
    for other in piece.stock.also:
        differs = list(_differs(piece.stock, other, ruler))
        if differs:
            yield error(
                "other-size-is-other-stock",
                piece.span,
                f"{other.words} is offered as another size of {piece.stock.words}, and it is another stock: "
                f"{', '.join(differs)}.",
                reason="Pieces would be cut from both, and the album was worked out for one of them.",
                way_out=f"Give also: a copy of {piece.stock.words} in another sheet, or leave {other.words} out of it.",
                labels=made_here(ruler, piece.height_made, piece.width_made),
            )


def _too_large(stock: Stock, offcut: Sides) -> bool:
    """Whether it cannot have been left of any sheet that the stock comes in, lying with its grain as they do."""
    sizes = [OfferedSize(each.sheet, each.grain) for each in (stock, *stock.also) if each.sheet is not None]
    return bool(sizes) and not any(size.holds(offcut, way) for size in sizes for way in size.ways())


def _differs(stock: Stock, other: Stock, ruler: Ruler) -> Iterator[str]:
    """In what two stocks that should be one paper differ. What is not said of one of them does not count."""
    for what, one, its in (("kind", stock.kind, other.kind), ("decorated", stock.decorated, other.decorated)):
        if one != its:
            yield f"{what} {its}, not {one}"
    for what, mine, theirs in (("caliper", stock.caliper, other.caliper), ("weight", stock.weight, other.weight)):
        if isinstance(mine, Quantity) and isinstance(theirs, Quantity) and mine != theirs:
            yield f"{what} {write(theirs, ruler)}, not {write(mine, ruler)}"
