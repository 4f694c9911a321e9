"""How every stock that comes in sheets is cut; worked out only when an output asks for it.

Takes the plan, gives what a maker is told of the cutting, one entry for each such stock, in the order of the materials.
"""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve

from pastedown.cutting.cutting_plan import Block, Bought, CuttingPlan, Pattern, Run
from pastedown.cutting.problem import Sheet
from pastedown.plan.cut_order import in_order, settings_of
from pastedown.plan.lying import laid, wants_grain
from pastedown.plan.material import Material
from pastedown.plan.offcut_uses import candidates, uses_of
from pastedown.plan.part_names import PartNames, part_names
from pastedown.plan.plan import CutPiece, Plan
from pastedown.plan.sheet_parts import (
    NotCut,
    Offcut,
    PieceOnSheet,
    SheetCut,
    SheetPart,
    SheetPattern,
    SheetRun,
    SheetsBought,
    SheetStroke,
    StockCutting,
    TakenGrain,
)
from pastedown.plan.sheet_sizes import SheetSize, sheet_sizes
from pastedown.plan.sheets import has_prices, kept_by_pattern, sheet_plan
from pastedown.quantity.quantity import Quantity, mm


def stock_cuttings(plan: Plan) -> tuple[StockCutting, ...]:
    """One entry for each stock that is cut from sheets."""
    return tuple(_cuttings(plan))


def _cuttings(plan: Plan) -> Iterator[StockCutting]:
    for material in plan.materials:
        cutting = sheet_plan(material, plan.pieces)
        if cutting is not None:
            yield told(material, cutting, plan.pieces)


def told(material: Material, cutting: CuttingPlan, pieces: tuple[CutPiece, ...]) -> StockCutting:
    """A cutting plan in the maker's words and lengths. Its pieces are named by the ids of `pieces`."""
    by_id = {piece.id: piece for piece in pieces}
    own = tuple(by_id[piece.label] for piece in cutting.problem.pieces)
    sizes = sheet_sizes(material)
    others = candidates(material, pieces)
    patterns = tuple(
        _pattern(number, pattern, own, material, sizes[int(pattern.sheet.name)], others)
        for number, pattern in enumerate(cutting.patterns, 1)
    )
    currency = material.price
    return StockCutting(
        stock=material.stock,
        kind=material.kind,
        upright=_upright(material, own),
        patterns=patterns,
        bought=tuple(_bought(each, size) for each, size in zip(cutting.bought, sizes, strict=True)),
        sheets=cutting.new_sheets,
        least=cutting.least_sheets,
        cost=_money(cutting.cost, currency),
        least_cost=_money(cutting.least_cost, currency),
        proven=cutting.proven,
        not_cut=tuple(_not_cut(cutting, own, sizes)),
        spares=tuple(
            (piece.id, asked.count - piece.count)
            for piece, asked in zip(own, cutting.problem.pieces, strict=True)
            if asked.count > piece.count
        ),
        unpriced=bool(material.also) and not has_prices(material),
        kept_upright=any(kept_by_pattern(material, piece) for piece in own),
        advice=cutting.advice,
        taken=tuple(_taken(material, cutting, own, sizes)),
        across=tuple(_across(material, cutting, own)),
        sideways=tuple(_sideways(material, cutting, own)),
    )  # fmt: skip


def _upright(material: Material, pieces: tuple[CutPiece, ...]) -> str:
    grain = "grain" if any(wants_grain(material, piece) for piece in pieces) else ""
    pattern = "pattern" if material.decorated != "none" else ""
    return " and ".join(filter(None, (grain, pattern)))


def _taken(
    material: Material, cutting: CuttingPlan, pieces: tuple[CutPiece, ...], sizes: tuple[SheetSize, ...]
) -> Iterator[TakenGrain]:
    """Of the sizes that are cut, where it matters."""
    if not any(wants_grain(material, piece) for piece in pieces):
        return
    for each, size in zip(cutting.bought, sizes, strict=True):
        known = size.grain in ("long", "short", "none") or (size.grain == "marked" and not size.offered.is_open)
        if each.used and not known:
            longer = "longer" if each.sheet.height > each.sheet.width else "shorter"
            yield TakenGrain(size.name, longer if size.offered.is_open else "", size.grain == "marked")


def _across(material: Material, cutting: CuttingPlan, pieces: tuple[CutPiece, ...]) -> Iterator[str]:
    for piece, planned in zip(pieces, cutting.problem.pieces, strict=True):
        sides = laid(material, piece)
        if wants_grain(material, piece) and sides is not None and sides[0].value != planned.height:
            yield piece.id


def _sideways(material: Material, cutting: CuttingPlan, pieces: tuple[CutPiece, ...]) -> Iterator[str]:
    for piece, planned in zip(pieces, cutting.problem.pieces, strict=True):
        if material.decorated != "none" and piece.height.value != planned.height:
            yield piece.id


def _bought(each: Bought, size: SheetSize) -> SheetsBought:
    """What packs of a size cost is told even where prices in several currencies keep the plan from being the cheapest.
    """
    cost = None if size.price is None else size.price * each.packs
    return SheetsBought(
        size.name, mm(each.sheet.width), mm(each.sheet.height), size.on_hand is not None, each.used,
        each.packs, size.pack, cost, each.left, size.grain, size.cut_at_once, size.is_offcut,
    )  # fmt: skip


def _money(value: Fraction | None, like: Quantity | None) -> Quantity | None:
    return None if value is None or like is None else Quantity(Fraction(value), like.dimension)


def _pattern(
    number: int, pattern: Pattern, pieces: tuple[CutPiece, ...], material: Material, size: SheetSize,
    others: tuple[CutPiece, ...],
) -> SheetPattern:
    pattern = evolve(pattern, cuts=in_order(pattern.cuts))
    names = part_names(pattern, tuple(piece.id for piece in pieces))
    return SheetPattern(
        number=number,
        times=pattern.times,
        sheet=size.name,
        on_hand=size.on_hand is not None,
        width=mm(pattern.sheet.width),
        height=mm(pattern.sheet.height),
        parts=tuple(_part(end, names) for end in pattern.block.ends()),
        cuts=tuple(_cuts(pattern, names, size.cut_at_once)),
        runs=tuple(_run(run, pieces) for run in pattern.runs),
        offcuts=tuple(_offcuts(pattern, names, material, others)),
        settings=settings_of(pattern.cuts),
        strokes=sum(cut.strokes(pattern.times, size.cut_at_once) for cut in pattern.cuts),
        at_once=size.cut_at_once,
    )


def _part(end: Block, names: PartNames) -> SheetPart:
    return SheetPart(mm(end.x), mm(end.y), mm(end.width), mm(end.height), end.what, names.end(end))


def _cuts(pattern: Pattern, names: PartNames, at_once: int) -> Iterator[SheetCut]:
    for cut in pattern.cuts:
        strokes = tuple(SheetStroke(mm(one.x), mm(one.y), mm(one.length), one.upright) for one in cut.lines)
        rest = "" if cut.rest is None else names.end(cut.rest)
        yield SheetCut(
            cut.number, names.source(cut), cut.alike, cut.axis == "x", mm(cut.fence), cut.strips,
            names.listed(cut.taken), rest, strokes, cut.strokes(pattern.times, at_once),
        )  # fmt: skip


def _run(run: Run, pieces: tuple[CutPiece, ...]) -> SheetRun:
    counts = Counter(run.pieces)
    on_sheet = (
        PieceOnSheet(pieces[at].id, pieces[at].name, counts[at], pieces[at].height, pieces[at].width)
        for at in sorted(counts)
    )
    return SheetRun(run.times, tuple(on_sheet))


def _offcuts(
    pattern: Pattern, names: PartNames, material: Material, others: tuple[CutPiece, ...]
) -> Iterator[Offcut]:
    counts = Counter((end.width, end.height) for end in pattern.offcuts)
    told_of: set[str] = set()
    for end in pattern.offcuts:
        name = names.end(end)
        if name not in told_of:
            told_of.add(name)
            alike = [each for each in pattern.offcuts if names.end(each) == name]
            raw = tuple(dict.fromkeys(edge for each in alike for edge in _raw(each, pattern.sheet)))
            width, height = mm(end.width), mm(end.height)
            # What is cut from it later keeps clear of its raw edges.
            within = (
                width - mm(pattern.sheet.trim.right) if "right" in raw else width,
                height - mm(pattern.sheet.trim.top) if "top" in raw else height,
            )
            uses = uses_of(material, *within, others)
            yield Offcut(name, width, height, counts[end.width, end.height], uses, raw)


def _raw(offcut: Block, sheet: Sheet) -> Iterator[str]:
    if sheet.trim.right and offcut.x + offcut.width == sheet.width:
        yield "right"
    if sheet.trim.top and offcut.y + offcut.height == sheet.height:
        yield "top"


def _not_cut(
    cutting: CuttingPlan, pieces: tuple[CutPiece, ...], sizes: tuple[SheetSize, ...]
) -> Iterator[NotCut]:
    for misfit in cutting.misfits:
        piece = pieces[misfit.index]
        sheet = "" if misfit.nearest is None else sizes[int(misfit.nearest.name)].name
        short = mm(misfit.short_width), mm(misfit.short_height)
        yield NotCut(piece.id, piece.name, misfit.piece.count, sheet, *short)
    for index, count in cutting.short:
        yield NotCut(pieces[index].id, pieces[index].name, count, "", mm(0), mm(0))
