"""What the parts of a sheet are called while it is cut: pieces by their ids, strips by letters, offcuts by numbers.

Strips that are cut alike share a letter, offcuts of one size a number.
"""

from collections import Counter
from collections.abc import Iterable

from attrs import frozen

from pastedown.cutting.cut_sequence import shape
from pastedown.cutting.cutting_plan import Block, Cut, Pattern
from pastedown.cutting.problem import Sheet

SHEET = "sheet"
REST = "rest"
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_Size = tuple[object, object]


@frozen
class PartNames:
    """The names of one pattern's parts: `ids` and `offcuts` by size, `strips` by what makes them alike, raw edges by
    the side of the sheet."""

    sheet: Sheet
    ids: dict[_Size, str]
    offcuts: dict[_Size, str]
    strips: dict[object, str]

    def end(self, block: Block) -> str:
        """What a part is called: "page-sheet", "offcut 1", "strip A", "left raw edge"."""
        match block.what:
            case "piece":
                return self.ids[block.width, block.height]
            case "offcut":
                return self.offcuts[block.width, block.height]
            case "trim":
                return f"{self._side(block)} raw edge"
        return self.strips.get(shape(block), REST)

    def _side(self, trim: Block) -> str:
        if trim.width == self.sheet.trim.left:
            return "right" if trim.x else "left"
        return "top" if trim.y else "bottom"

    def source(self, cut: Cut) -> str:
        """What a cut is made to."""
        name = self.strips.get(shape(cut.block), SHEET)
        return f"{REST} of {name}" if cut.again else name

    def listed(self, blocks: Iterable[Block]) -> str:
        """Several parts, like ones counted: "2 x page-sheet, strip A"."""
        counts = Counter(self.end(block) for block in blocks)
        return ", ".join(name if count == 1 else f"{count} x {name}" for name, count in counts.items())


def part_names(pattern: Pattern, piece_ids: tuple[str, ...]) -> PartNames:
    """Names for the parts of a pattern with its cuts `in_order`; `piece_ids` are those of the problem's pieces."""
    ids: dict[_Size, dict[str, None]] = {}
    blocks = pattern.pieces
    for run in pattern.runs:
        for index, block in zip(run.pieces, blocks, strict=True):
            ids.setdefault((block.width, block.height), {})[piece_ids[index]] = None
    sizes = dict.fromkeys((end.width, end.height) for end in pattern.offcuts)
    offcuts: dict[_Size, str] = {size: f"offcut {number}" for number, size in enumerate(sizes, 1)}
    return PartNames(pattern.sheet, {size: " / ".join(some) for size, some in ids.items()}, offcuts, _strips(pattern))


def _strips(pattern: Pattern) -> dict[object, str]:
    """Letters in the order in which strips come off. A sheet within its raw edges is still the sheet."""
    cut_later = {shape(cut.block): at for at, cut in enumerate(pattern.cuts)}
    names: dict[object, str] = {shape(pattern.block): SHEET}
    letters = 0
    for at, cut in enumerate(pattern.cuts):
        hangs_together = cut_later[shape(cut.block)] > at
        parts = (*cut.taken, *(() if cut.rest is None or hangs_together else (cut.rest,)))
        trims = any(part.what == "trim" for part in parts)
        for part in parts:
            form = shape(part)
            if part.what != "cut" or form not in cut_later or form in names:
                continue
            if trims:
                names[form] = SHEET
            else:
                names[form] = f"strip {_letter(letters)}"
                letters += 1
    return names


def _letter(number: int) -> str:
    """A, B ... Z, AA, AB and so on, for 0, 1 ..."""
    name = ""
    number += 1
    while number:
        number, at = divmod(number - 1, len(_LETTERS))
        name = _LETTERS[at] + name
    return name
