"""The cutting plan as JSON: the shape `cutting_plan` of the schema."""

from collections.abc import Sequence

from pastedown.outputs.json_value import (
    FORMAT_VERSION,
    Json,
    json_length,
    json_ruler,
    json_value_or_null,
)
from pastedown.plan.plan import Plan
from pastedown.plan.sheet_parts import SheetCut, SheetPattern, StockCutting
from pastedown.quantity.ruler import Ruler

CUTTING_PLAN_FORMAT = "pastedown-cutting-plan"


def json_cutting(plan: Plan, stocks: Sequence[StockCutting]) -> Json:
    return {
        "format": CUTTING_PLAN_FORMAT,
        "format_version": FORMAT_VERSION,
        "name": plan.name,
        "title": plan.title,
        "ruler": json_ruler(plan.ruler),
        "stocks": [_stock(stock, plan.ruler) for stock in stocks],
    }


def sheets_bought(stock: StockCutting, ruler: Ruler) -> list[Json]:
    """A row for each size of sheet that is on offer or on hand."""
    return [
        {
            "sheet": each.sheet,
            "width": json_length(each.width, ruler),
            "height": json_length(each.height, ruler),
            "on_hand": each.on_hand,
            "used": each.used,
            "packs": each.packs,
            "pack": each.pack,
            "cut_at_once": each.at_once,
            "cost": json_value_or_null(each.cost, ruler),
            "left": each.left,
        }
        for each in stock.bought
    ]


def _stock(stock: StockCutting, ruler: Ruler) -> Json:
    return {
        "stock": stock.stock,
        "kind": stock.kind,
        "upright": stock.upright,
        "grain_taken": [{"sheet": each.sheet, "along": each.along, "marked": each.marked} for each in stock.taken],
        "across_grain": list(stock.across),
        "pattern_sideways": list(stock.sideways),
        "sheets": stock.sheets,
        "least_sheets": stock.least,
        "cost": json_value_or_null(stock.cost, ruler),
        "least_cost": json_value_or_null(stock.least_cost, ruler),
        "proven": stock.proven,
        "bought": sheets_bought(stock, ruler),
        "not_cut": [
            {
                "id": each.id,
                "count": each.count,
                "sheet": each.sheet,
                "short_width": json_length(each.short_width, ruler),
                "short_height": json_length(each.short_height, ruler),
            }
            for each in stock.not_cut
        ],
        "spares": [{"id": id, "count": count} for id, count in stock.spares],
        "patterns": [_pattern(pattern, ruler) for pattern in stock.patterns],
    }


def _pattern(pattern: SheetPattern, ruler: Ruler) -> Json:
    return {
        "number": pattern.number,
        "times": pattern.times,
        "sheet": pattern.sheet,
        "on_hand": pattern.on_hand,
        "width": json_length(pattern.width, ruler),
        "height": json_length(pattern.height, ruler),
        "settings": pattern.settings,
        "cut_at_once": pattern.at_once,
        "strokes": pattern.strokes,
        "cuts": [_cut(cut, ruler) for cut in pattern.cuts],
        "parts": [
            {
                "kind": part.kind,
                "name": part.name,
                "x": json_length(part.x, ruler),
                "y": json_length(part.y, ruler),
                "width": json_length(part.width, ruler),
                "height": json_length(part.height, ruler),
            }
            for part in pattern.parts
        ],
        "runs": [
            {"times": run.times, "pieces": [{"id": piece.id, "count": piece.count} for piece in run.pieces]}
            for run in pattern.runs
        ],
        "offcuts": [
            {
                "name": each.name,
                "width": json_length(each.width, ruler),
                "height": json_length(each.height, ruler),
                "count": each.count,
                "raw_edges": list(each.raw),
                "uses": [
                    {"id": use.id, "count": use.count, "instead_of": use.instead_of} for use in each.uses
                ],
            }
            for each in pattern.offcuts
        ],
    }


def _cut(cut: SheetCut, ruler: Ruler) -> Json:
    return {
        "number": cut.number,
        "what": cut.what,
        "alike": cut.alike,
        "runs": "upright" if cut.upright else "level",
        "fence": json_length(cut.fence, ruler),
        "strips": cut.strips,
        "strokes": cut.blade,
        "comes_off": cut.taken,
        "is_left": cut.rest,
    }
