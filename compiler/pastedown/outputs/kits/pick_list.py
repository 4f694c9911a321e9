"""The pick list: what goes into each kit, to tick off while packing."""

from collections.abc import Callable

from pastedown.outputs.csv_text import csv_file, exact_inches, exact_millimetres
from pastedown.outputs.in_words import counted
from pastedown.outputs.kits.kit_sheet import item_words
from pastedown.outputs.plain_text import Column, heading, table, wrapped
from pastedown.plan.kits import KitItem, Kits
from pastedown.quantity.quantity import Length

_Write = Callable[[Length], str]
_COLUMNS = (
    Column("", 3),
    Column("count", 6, to_the_right=True),
    Column("id", 18, whole=True),
    Column("what", 22),
    Column("of", 18),
    Column("size", 22),
)
_TITLES = (
    "id", "what", "count a kit", "count in all", "stock", "height in", "width in", "height mm", "width mm",
    "in one piece in", "in one piece mm",
)  # fmt: skip


def pick_list(kits: Kits) -> list[str]:
    ruler = kits.one.ruler
    copies = counted(kits.copies, "kit").replace("\u00a0", " ")
    lines = [*heading(f"Pick list for each of {copies}: {kits.one.title}"), ""]
    if not kits.items:
        return [*lines, "Nothing goes into a kit."]
    rows = [
        ("[ ]", str(item.count), item.id, item.name, item.stock, ", ".join(item_words(item, ruler)))
        for item in kits.items
    ]
    lines += table(_COLUMNS, rows)
    return [*lines, "", *wrapped(_in_all(kits))]


def _in_all(kits: Kits) -> str:
    """How many pieces go into a kit, and what else."""
    pieces = sum(item.count for item in kits.items if item.id)
    lengths = sum(item.in_one is not None for item in kits.items)
    amounts = sum(not item.id and item.in_one is None for item in kits.items)
    counts = ((pieces, "piece"), (lengths, "length"), (amounts, "amount"))
    told = [counted(count, noun) for count, noun in counts if count]
    said = f"Each kit holds {' and '.join(filter(None, (', '.join(told[:-1]), told[-1])))}"
    return f"{said}; {counted(pieces * kits.copies, 'piece')} in all, without spares." if pieces else f"{said}."


def pick_list_csv(kits: Kits) -> bytes:
    return csv_file(_TITLES, [_row(item, kits.copies) for item in kits.items])


def _row(item: KitItem, copies: int) -> tuple[str | int, ...]:
    return (
        item.id, item.name, item.count, item.count * copies, item.stock, *_both(item.height, item.width, exact_inches),
        *_both(item.height, item.width, exact_millimetres), _one(item.in_one, exact_inches),
        _one(item.in_one, exact_millimetres),
    )  # fmt: skip


def _both(height: Length | None, width: Length | None, write: _Write) -> tuple[str, str]:
    return _one(height, write), _one(width, write)


def _one(length: Length | None, write: _Write) -> str:
    return "" if length is None else write(length)
