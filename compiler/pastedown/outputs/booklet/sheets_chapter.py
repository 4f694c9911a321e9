"""How the sheets are cut: which to buy, and each way of cutting one, drawn, with the settings of the fence in order."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph, Picture, Pictures, Said, Section, Table
from pastedown.outputs.booklet.say import sized
from pastedown.outputs.cutting.done_in_steps import cautions_at_sheets, plan_does_steps
from pastedown.outputs.cutting.pattern_drawing import pattern_picture
from pastedown.outputs.cutting.text_lines import NOTE, proposal
from pastedown.outputs.cutting.words import (
    UNPRICED,
    fence_and_blade,
    how_it_lies,
    how_often,
    not_cut,
    proof,
    raw_edges,
    so_many_give,
    what_is_cut,
)
from pastedown.outputs.in_words import counted, sentence
from pastedown.outputs.two_systems import TwoSystems, told_in_two_systems
from pastedown.plan.plan import Plan
from pastedown.plan.sheet_parts import NotCut, Offcut, SheetCut, SheetPattern, SheetsBought, StockCutting
from pastedown.plan.stock_cutting import stock_cuttings
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler

_SHEETS = ("Stock", "Wide", "High", "Sheets", "Packs", "Cost", "Left over")
_CUTS = ("Cut", "Take", "Fence at", "Runs", "Comes off", "Is left")


def sheets_chapter(plan: Plan) -> tuple[Block, ...]:
    """What to buy for all stocks, then the patterns of each, in the order of the materials."""
    stocks = stock_cuttings(plan)
    if not stocks:
        return (Paragraph(("Nothing is cut from sheets of a known size.",)),)
    bought = tuple(_bought(each, plan.ruler) for stock in stocks for each in stock.bought if each.used or each.on_hand)
    table = (_to_buy(bought),) if bought else ()
    told = cautions_at_sheets(plan, [stock.stock for stock in stocks])
    cautions = (Paragraph((caution,), "Caution") for caution in told)
    steps = plan_does_steps(plan)
    sections = (
        section
        for number, stock in enumerate(stocks, 1)
        for section in (_stock(number, stock, plan.ruler), *_patterns(number, stock, plan.ruler))
    )
    return (*((Paragraph((steps,)),) if steps else ()), Paragraph((NOTE,)), *cautions, *table, *sections)


def _to_buy(rows: tuple[tuple[Said, ...], ...]) -> Table:
    """Without the columns in which nothing would stand: a telephone is narrow."""
    kept = [at for at in range(len(_SHEETS)) if any(row[at] not in ((), ("",)) for row in rows)]
    return Table(
        "Sheets to buy or have at hand", tuple(_SHEETS[at] for at in kept),
        tuple(tuple(row[at] for at in kept) for row in rows), frozenset(range(1, len(kept))),
    )


def _bought(each: SheetsBought, ruler: Ruler) -> tuple[Said, ...]:
    name = f"{each.sheet}, on hand" if each.on_hand else each.sheet
    packs = f"{each.packs} of {each.pack}" if each.pack > 1 and not each.on_hand else ""
    size = sized(each.width, ruler), sized(each.height, ruler)
    return (name,), *size, (str(each.used),), (packs,), sized(each.cost, ruler), (str(each.left) if each.left else "",)


def _stock(number: int, stock: StockCutting, ruler: Ruler) -> Section:
    """What is known of the stock's plan as a whole. How a better one may be sought is for who sits at the computer, and
    told in the plan's own text."""
    known = told_in_two_systems(lambda one: proof(stock, one), ruler)
    text = f"{counted(stock.sheets, 'new sheet')}. ", known, f" {how_it_lies(stock)}"
    blocks: list[Block] = [Paragraph(text)]
    if stock.unpriced:
        blocks.append(Paragraph((UNPRICED,)))
    if stock.spares:
        spares = ", ".join(f"{count} x {name}" for name, count in stock.spares)
        blocks.append(Paragraph((f"Spare pieces among them: {spares}.",)))
    blocks += [Paragraph((_not_cut(each, ruler),), "Caution") for each in stock.not_cut]
    return Section((f"{number}. {stock.stock} ({stock.kind})",), tuple(blocks))


def _not_cut(each: NotCut, ruler: Ruler) -> TwoSystems:
    return told_in_two_systems(lambda one: not_cut(each, one), ruler)


def _patterns(number: int, stock: StockCutting, ruler: Ruler) -> Iterator[Section]:
    for pattern in stock.patterns:
        name = f"{number}-{pattern.number}"
        title = f"Pattern {name}, {pattern.sheet}: {how_often(pattern)}"
        yield Section((title,), tuple(_pattern(name, stock, pattern, ruler)))


def _pattern(name: str, stock: StockCutting, pattern: SheetPattern, ruler: Ruler) -> Iterator[Block]:
    of = "On hand: " if pattern.on_hand else "Sheet "
    yield Paragraph((of, *_sides(pattern.width, pattern.height, ruler), "."))
    drawing = Picture(f"sheet-{name}", pattern_picture(name, stock, pattern, ruler), _in_words(name, stock, pattern))
    yield Pictures((drawing,))
    for run in pattern.runs:
        some = f"{so_many_give(run)}:" if len(pattern.runs) > 1 else "Each sheet gives:"
        yield Paragraph((some,))
        yield Listing(
            tuple((f"{each.count} x {each.id}, ", *_sides(each.width, each.height, ruler)) for each in run.pieces)
        )
    if not pattern.cuts:
        yield Paragraph(("The sheet is the piece: it is not cut.",))
        return
    rows = tuple(_cut(cut, pattern, ruler) for cut in pattern.cuts)
    yield Table(f"Cuts of pattern {name}, in order", _CUTS, rows, frozenset((2,)))
    yield Paragraph((fence_and_blade(pattern),))
    if pattern.offcuts:
        yield Paragraph(("Left of each sheet:",))
        yield Listing(tuple(_left(each, ruler) for each in pattern.offcuts))
    for each in pattern.offcuts:
        if each.uses:
            yield Paragraph((proposal(each, pattern.times),), "Tip")


def _cut(cut: SheetCut, pattern: SheetPattern, ruler: Ruler) -> tuple[Said, ...]:
    way = "upright" if cut.upright else "level"
    return (str(cut.number),), (what_is_cut(cut, pattern),), sized(cut.fence, ruler), (way,), (cut.taken,), (cut.rest,)


def _left(each: Offcut, ruler: Ruler) -> Said:
    several = f" ({each.count} of them)" if each.count > 1 else ""
    return (f"{each.name}{several}, ", *_sides(each.width, each.height, ruler), raw_edges(each))


def _sides(width: Length, height: Length, ruler: Ruler) -> Said:
    return (*sized(width, ruler), " wide, ", *sized(height, ruler), " high")


def _in_words(name: str, stock: StockCutting, pattern: SheetPattern) -> str:
    """What the drawing shows, for who cannot see it; the table below it has the measures."""
    pieces: dict[str, int] = {}
    for part in pattern.parts:
        if part.kind != "trim":
            pieces[part.name] = pieces.get(part.name, 0) + 1
    parts = ", ".join(f"{count} x {part}" for part, count in pieces.items())
    way = f", {stock.upright} upright" if stock.upright else ""
    cuts = f"with {counted(len(pattern.cuts), 'numbered cut')}" if pattern.cuts else "not cut"
    return sentence(f"pattern {name} on a sheet of {pattern.sheet}{way}, {cuts}: {parts}")
