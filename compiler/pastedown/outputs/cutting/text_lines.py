"""The cutting plan as plain text."""

from collections.abc import Iterator, Sequence

from pastedown.outputs.cutting.done_in_steps import cautions_at_sheets, plan_does_steps
from pastedown.outputs.cutting.words import (
    UNPRICED,
    bought,
    fence_and_blade,
    how_it_lies,
    how_often,
    look_harder,
    not_cut,
    on_sheet,
    proof,
    raw_edges,
    sides,
    so_many_give,
    what_is_cut,
)
from pastedown.outputs.in_words import measure, sentence
from pastedown.outputs.plain_text import Column, heading, table, wrapped
from pastedown.plan.plan import Plan
from pastedown.plan.sheet_parts import Offcut, OffcutUse, SheetCut, SheetPattern, StockCutting
from pastedown.quantity.ruler import Ruler

NOTE = (
    "Every cut goes from edge to edge. The fence is set to the size of the strip that comes off, between fence and "
    "blade; where a raw edge falls, the edge opposite it lies at the fence, and what is kept with it. Set it once and "
    "cut all that the row says, and what the rows below it say for the same setting. An upright cut runs from the "
    "bottom of the sheet to its top, a level one from side to side, as the sheet lies in its drawing: turn it on the "
    "trimmer as you like. Strips are laid aside by their letters until their row comes. Pencil each piece's name on "
    "its back, at the head, as it comes off."
)
_COLUMNS = (
    Column("cut", 4, to_the_right=True),
    Column("take", 22),
    Column("fence at", 18, measures=True),
    Column("runs", 8),
    Column("comes off", 24),
    Column("is left", 18),
)


def text_lines(plan: Plan, stocks: Sequence[StockCutting]) -> list[str]:
    lines = [*heading(f"Cutting plan: {plan.title}"), ""]
    if not stocks:
        return [*lines, "Nothing is cut from sheets of a known size."]
    for caution in cautions_at_sheets(plan, [stock.stock for stock in stocks]):
        lines += wrapped(f"Caution: {caution}", rest="    ")
    lines += ["", *wrapped(f"{NOTE} {plan_does_steps(plan)}")]
    for number, stock in enumerate(stocks, 1):
        lines += ["", "", *heading(f"{number}. {stock.stock} ({stock.kind})", "-"), "", *_stock(stock, plan.ruler)]
        for pattern in stock.patterns:
            lines += ["", *_pattern(number, stock, pattern, plan.ruler)]
    return lines


def _stock(stock: StockCutting, ruler: Ruler) -> Iterator[str]:
    several = len({each.sheet for each in stock.bought}) > 1
    for each in stock.bought:
        if each.used or each.on_hand or len(stock.bought) == 1:
            named = f"{each.sheet}: " if several else ""
            yield from wrapped(sentence(named + bought(each, ruler)))
    lies = how_it_lies(stock, to_the_designer=True)
    yield from wrapped(" ".join(filter(None, (proof(stock, ruler), look_harder(stock), lies))))
    if stock.unpriced:
        yield from wrapped(UNPRICED)
    if stock.advice:
        yield from wrapped(stock.advice)
    if stock.spares:
        yield from wrapped(f"Spare pieces among them: {', '.join(f'{count} x {id}' for id, count in stock.spares)}.")
    for each_piece in stock.not_cut:
        yield from wrapped(not_cut(each_piece, ruler), rest="    ")


def _pattern(number: int, stock: StockCutting, pattern: SheetPattern, ruler: Ruler) -> Iterator[str]:
    named = f", {pattern.sheet}" if pattern.on_hand or pattern.sheet != stock.stock else ""
    on_hand = ", on hand" if pattern.on_hand else ""
    size = sides(pattern.width, pattern.height, ruler)
    yield from wrapped(f"Pattern {number}-{pattern.number}{named}{on_hand}: {how_often(pattern)} ({size})")
    for run in pattern.runs:
        some = f"{so_many_give(run)} " if len(pattern.runs) > 1 else "each gives "
        yield from wrapped(some + "; ".join(on_sheet(piece, ruler) for piece in run.pieces), "  ", "    ")
    if not pattern.cuts:
        yield "  The sheet is the piece: it is not cut."
        return
    yield ""
    yield from table(_COLUMNS, [_row(cut, pattern, ruler) for cut in pattern.cuts])
    yield ""
    yield from wrapped(fence_and_blade(pattern), "  ")
    if pattern.offcuts:
        left = "; ".join(_left(each, ruler) for each in pattern.offcuts)
        yield from wrapped(f"left of each sheet: {left}", "  ", "    ")
    for each in pattern.offcuts:
        if each.uses:
            yield from wrapped(f"{proposal(each, pattern.times)}", "  ", "    ")


def proposal(offcut: Offcut, times: int) -> str:
    """What an offcut of all sheets of a pattern would give besides."""
    several = offcut.count * times
    whole = f"all {several} of {offcut.name}" if several > 1 else offcut.name
    return f"If you like: {whole} would give {' or '.join(_use(use, several) for use in offcut.uses)}."


def _use(use: OffcutUse, several: int) -> str:
    other = f" (of this stock instead of {use.instead_of})" if use.instead_of else ""
    return f"{use.count * several} more {use.id}{other}"


def _left(offcut: Offcut, ruler: Ruler) -> str:
    several = f" ({offcut.count} of them)" if offcut.count > 1 else ""
    return f"{offcut.name}{several}, {sides(offcut.width, offcut.height, ruler)}{raw_edges(offcut)}"


def _row(cut: SheetCut, pattern: SheetPattern, ruler: Ruler) -> tuple[str, ...]:
    return (
        str(cut.number),
        what_is_cut(cut, pattern),
        measure(cut.fence, ruler),
        "upright" if cut.upright else "level",
        cut.taken,
        cut.rest,
    )
