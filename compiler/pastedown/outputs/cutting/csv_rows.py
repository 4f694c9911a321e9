"""The cuts as rows of a table: one row a setting of the fence, and one for each size of offcut."""

from collections.abc import Iterator, Sequence

from pastedown.outputs.csv_text import exact_inches, exact_millimetres
from pastedown.plan.sheet_parts import StockCutting
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

TITLES = (
    "row", "stock", "stock kind", "pattern", "sheet", "sheet width in", "sheet height in", "sheet width mm",
    "sheet height mm", "sheets cut so", "at once", "cut", "take", "alike", "runs", "fence", "fence in", "fence mm",
    "strips", "comes off", "is left", "name", "count a sheet", "width in", "height in", "width mm", "height mm",
)  # fmt: skip
_NO_CUT = ("",) * 10
_NO_PART = ("",) * 6


def rows(stocks: Sequence[StockCutting], ruler: Ruler) -> Iterator[tuple[str | int, ...]]:
    """Rows of three sorts: "cut", "piece" (what the sheets of a pattern become) and "offcut"."""
    for number, stock in enumerate(stocks, 1):
        for pattern in stock.patterns:
            common = (
                stock.stock, stock.kind, f"pattern {number}-{pattern.number}", pattern.sheet,
                *_sizes(pattern.width, pattern.height), pattern.times, stock.at_once,
            )  # fmt: skip
            for cut in pattern.cuts:
                yield (
                    "cut", *common, cut.number, cut.what, cut.alike, "upright" if cut.upright else "level",
                    write(cut.fence, ruler), exact_inches(cut.fence), exact_millimetres(cut.fence), cut.strips,
                    cut.taken, cut.rest, *_NO_PART,
                )  # fmt: skip
            counts: dict[str, int] = {}
            sizes = {}
            for run in pattern.runs:
                for piece in run.pieces:
                    counts[piece.id] = counts.get(piece.id, 0) + piece.count * run.times
                    sizes[piece.id] = piece.width, piece.height
            for id, count in counts.items():
                each = count // pattern.times if count % pattern.times == 0 else ""
                yield ("piece", *common, *_NO_CUT, id, each, *_sizes(*sizes[id]))
            for offcut in pattern.offcuts:
                yield ("offcut", *common, *_NO_CUT, offcut.name, offcut.count, *_sizes(offcut.width, offcut.height))


def _sizes(width: Length, height: Length) -> tuple[str, str, str, str]:
    return exact_inches(width), exact_inches(height), exact_millimetres(width), exact_millimetres(height)
