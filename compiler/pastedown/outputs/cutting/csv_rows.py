"""The cuts as rows of a table: one row for each thing that is cut at one setting of the fence, and one for each size
of offcut."""

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
    """Rows of three sorts: "cut", "piece" (what so many sheets of a pattern become, each of them) and "offcut"."""
    for number, stock in enumerate(stocks, 1):
        for pattern in stock.patterns:
            sheet = (
                stock.stock, stock.kind, f"pattern {number}-{pattern.number}", pattern.sheet,
                *_sizes(pattern.width, pattern.height),
            )  # fmt: skip
            common = *sheet, pattern.times, pattern.at_once
            for cut in pattern.cuts:
                yield (
                    "cut", *common, cut.number, cut.what, cut.alike, "upright" if cut.upright else "level",
                    write(cut.fence, ruler), exact_inches(cut.fence), exact_millimetres(cut.fence), cut.strips,
                    cut.taken, cut.rest, *_NO_PART,
                )  # fmt: skip
            for run in pattern.runs:
                for piece in run.pieces:
                    size = _sizes(piece.width, piece.height)
                    yield ("piece", *sheet, run.times, pattern.at_once, *_NO_CUT, piece.id, piece.count, *size)
            for offcut in pattern.offcuts:
                yield ("offcut", *common, *_NO_CUT, offcut.name, offcut.count, *_sizes(offcut.width, offcut.height))


def _sizes(width: Length, height: Length) -> tuple[str, str, str, str]:
    return exact_inches(width), exact_inches(height), exact_millimetres(width), exact_millimetres(height)
