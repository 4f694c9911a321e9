"""What text and drawings say alike of the cutting of a stock."""

from pastedown.outputs.in_words import counted, measure
from pastedown.plan.sheet_parts import (
    NotCut,
    Offcut,
    PieceOnSheet,
    SheetCut,
    SheetPattern,
    SheetRun,
    SheetsBought,
    StockCutting,
    TakenGrain,
)
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.quantity.ruler import Ruler


def sides(width: Length, height: Length, ruler: Ruler) -> str:
    """A size as the sheet lies: "5 1/2 in wide, 12 in high"."""
    return f"{measure(width, ruler)} wide, {measure(height, ruler)} high"


def bought(each: SheetsBought, ruler: Ruler) -> str:
    """How many sheets of one size: "19 sheets, 12 in wide, 12 in high, in 2 packs of 10 with 1 left over"; of what
    is on hand "1 of 3 sheets on hand", or "not used: 3 sheets on hand"."""
    size = sides(each.width, each.height, ruler)
    if each.on_hand:
        there = each.used + each.left
        if not each.used:
            return f"not used: {counted(there, 'sheet')} on hand, {size}"
        some = counted(there, "sheet") if not each.left else f"{each.used} of {counted(there, 'sheet')}"
        return f"{some} on hand, {size}"
    said = f"{counted(each.used, 'sheet')}, {size}"
    if each.pack > 1:
        said += f", in {counted(each.packs, 'pack')} of {each.pack}"
        said += f" with {each.left} left over" if each.left else ""
    return f"{said}, for {measure(each.cost, ruler)}" if each.cost is not None else said


def proof(stock: StockCutting, ruler: Ruler) -> str:
    """What is known of plans that take less."""
    kept = KEPT if stock.kept_upright else ""
    if stock.proven and stock.cost is not None and stock.least is None:
        return f"Proven{kept}: no plan costs less than {measure(stock.cost, ruler)}."
    if stock.proven:
        return f"Proven fewest{kept}."
    if stock.gap is not None:
        return f"No plan takes fewer than {stock.least}: a gap of {stock.gap}."
    if stock.least_cost is not None and stock.cost is not None:
        own = measure(stock.cost, ruler)
        return f"No plan costs less than {measure(stock.least_cost, ruler)}; this one costs {own}."
    return "Whether fewer would do is not known."


def how_often(pattern: SheetPattern) -> str:
    """ "cut this sheet 42 times, 4 at once in 11 stacks" """
    if pattern.times == 1:
        return "cut one sheet so"
    if pattern.at_once == 1:
        return f"cut this sheet {pattern.times} times"
    stacks = -(-pattern.times // pattern.at_once)
    return f"cut this sheet {pattern.times} times, up to {pattern.at_once} at once: {counted(stacks, 'stack')}"


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


def split(pattern: SheetPattern) -> list[str]:
    """Of a pattern whose sheets become different pieces: how many sheets become which, "3 sheets of them give 2 x tag,
    1 x mat"; nothing where all are alike."""
    if len(pattern.runs) == 1:
        return []
    return [
        f"{so_many_give(run)} " + ", ".join(f"{piece.count} x {piece.id}" for piece in run.pieces)
        for run in pattern.runs
    ]


def so_many_give(run: SheetRun) -> str:
    """ "3 sheets of them give" """
    return f"{counted(run.times, 'sheet')} of them {'gives' if run.times == 1 else 'give'}"


def what_is_cut(cut: SheetCut, pattern: SheetPattern) -> str:
    """ "strip A", "each of 2 x strip A", or how many strips are stacked where several are cut at once. """
    if cut.alike == 1:
        return cut.what
    if pattern.at_once == 1:
        return f"each of {cut.alike} x {cut.what}"
    if pattern.times == 1 and cut.alike <= pattern.at_once:
        return f"stack of {cut.alike} x {cut.what}"
    return f"each of {cut.alike} x {cut.what}, stacks of up to {pattern.at_once}"


def fence_and_blade(pattern: SheetPattern) -> str:
    """How often the fence is moved and the blade comes down for all sheets of a pattern."""
    settings, strokes = counted(pattern.settings, "setting"), counted(pattern.strokes, "stroke")
    return f"{settings} of the fence, {strokes} of the blade in all."


def raw_edges(offcut: Offcut) -> str:
    """ ", its right edge raw", or nothing"""
    edges = " and ".join(offcut.raw)
    return f", its {edges} edge{'s' if len(offcut.raw) > 1 else ''} raw" if edges else ""


def how_it_lies(stock: StockCutting, *, to_the_designer: bool = False) -> str:
    """Which way sheets lie, how their grain is taken to run where nobody has said it, and which pieces lie otherwise
    than they might; `to_the_designer` also what to write for that, which is nothing to who stands at the trimmer."""
    said = [_UPRIGHT[stock.upright], *dict.fromkeys(map(_taken, stock.taken))]
    if stock.across:
        said.append(f"Across the grain, since they come out of the sheets no other way: {', '.join(stock.across)}.")
    if stock.kept_upright:
        said.append(f"{_NOT_TURNED}{_TURN_THEM if to_the_designer else ''}.")
    if stock.sideways:
        said.append(f"Cut with the pattern sideways: {', '.join(stock.sideways)}.")
    return " ".join(said)


def _taken(each: TakenGrain) -> str:
    if not each.along:
        return f"Nothing says how the grain of {each.sheet} runs: {_BEND}, mark it, and lay it upright."
    other = "short" if each.along == "longer" else "long"
    runs = f"along the {each.along} side of its sheets"
    if each.marked:
        return (
            f"This plan is for {each.sheet} whose grain runs {runs}. Where it runs the other way on yours, say grain: "
            f"{other} and make the plan again."
        )
    return f"Nothing says how the grain of {each.sheet} runs, and it is taken to run {runs}: {_BEND}, and say it."


def look_harder(stock: StockCutting) -> str:
    """How to seek a better plan; empty where none is possible."""
    return "" if stock.proven or not stock.patterns else _HARDER


# Behind "proven fewest".
KEPT = " while its pieces are kept upright"
UNPRICED = (
    "Some size of it has no price, or its prices are in several currencies, so little paper was sought instead of the "
    "cheapest mix."
)
_NOT_TURNED = "Pieces that want no grain are kept upright because it is decorated"
_TURN_THEM = ": say decorated: none of the stock if they may be turned"
_BEND = "bend a sheet both ways, it gives more easily with the grain"
_HARDER = "A better plan may be found: pastedown kits with a larger --work looks longer."
_UPRIGHT = {
    "grain": "Each sheet lies with its grain upright, as the arrow in the drawing.",
    "grain and pattern": "Each sheet lies with its grain upright, as the arrow in the drawing. Its pattern is taken to "
    "run with the grain, head up.",
    "pattern": "Each sheet lies with its pattern upright, head up.",
    "": "It does not matter which way a sheet lies, as long as its sides are those of the drawing.",
}
