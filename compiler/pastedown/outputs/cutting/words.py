"""What text and drawings say alike of the cutting of a stock."""

from pastedown.outputs.in_words import counted, measure
from pastedown.plan.sheet_parts import NotCut, PieceOnSheet, SheetPattern, SheetsBought, StockCutting
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.quantity.ruler import Ruler


def sides(width: Length, height: Length, ruler: Ruler) -> str:
    """A size as the sheet lies: "5 1/2 in wide, 12 in high"."""
    return f"{measure(width, ruler)} wide, {measure(height, ruler)} high"


def bought(each: SheetsBought, ruler: Ruler) -> str:
    """How many sheets of one size: "19 sheets of 12 in wide, 12 in high, in 2 packs, 1 left over"."""
    size = sides(each.width, each.height, ruler)
    if each.on_hand:
        return f"{counted(each.used, 'sheet')} on hand, {size}"
    said = f"{counted(each.used, 'sheet')}, {size}"
    if each.pack > 1:
        said += f", in {counted(each.packs, 'pack')} of {each.pack}"
        said += f" with {each.left} left over" if each.left else ""
    return f"{said}, for {measure(each.cost, ruler)}" if each.cost is not None else said


def proof(stock: StockCutting, ruler: Ruler) -> str:
    """What is known of plans that take less."""
    if stock.proven and stock.cost is not None and stock.least is None:
        return f"Proven: no plan costs less than {measure(stock.cost, ruler)}."
    if stock.proven:
        return "Proven fewest."
    if stock.gap is not None:
        return f"No plan takes fewer than {stock.least}: a gap of {stock.gap}."
    if stock.least_cost is not None and stock.cost is not None:
        own = measure(stock.cost, ruler)
        return f"No plan costs less than {measure(stock.least_cost, ruler)}; this one costs {own}."
    return "Whether fewer would do is not known."


def how_often(pattern: SheetPattern, at_once: int) -> str:
    """ "cut this sheet 42 times, 4 at once in 11 stacks" """
    if pattern.times == 1:
        return "cut one sheet so"
    if at_once == 1:
        return f"cut this sheet {pattern.times} times"
    stacks = -(-pattern.times // at_once)
    return f"cut this sheet {pattern.times} times, up to {at_once} at once: {counted(stacks, 'stack')}"


def not_cut(each: NotCut, ruler: Ruler) -> str:
    """Why pieces are not cut, and by how much a sheet is too small for them."""
    who = f"{each.count} x {each.id} ({each.name})" if each.name != each.id else f"{each.count} x {each.id}"
    lacks = [
        f"{measure(short, ruler)} in {way}"
        for short, way in ((each.short_width, "width"), (each.short_height, "height"))
        if short > NO_LENGTH
    ]
    if not lacks:
        return f"Not cut: {who}. No sheet is left for it."
    return f"Not cut: {who}. No sheet can hold it: {each.sheet}, the nearest, lacks {' and '.join(lacks)} as it lies."


def on_sheet(piece: PieceOnSheet, ruler: Ruler) -> str:
    """ "2 x page-sheet, 7 1/2 in by 5 1/2 in", height first"""
    size = f"{measure(piece.height, ruler)} high, {measure(piece.width, ruler)} wide"
    return f"{piece.count} x {piece.id}: {size}"


UPRIGHT = {
    "grain": "Each sheet lies with its grain upright, as the arrow in the drawing.",
    "pattern": "Each sheet lies with its pattern upright, head up.",
    "": "It does not matter which way a sheet lies, as long as its sides are those of the drawing.",
}
