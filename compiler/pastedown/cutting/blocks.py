"""From a slicing tree to blocks with places and exact lengths: strips, pieces, offcuts and trimmed edges."""

from collections.abc import Sequence
from fractions import Fraction

from attrs import evolve

from pastedown.cutting.cutting_plan import Block
from pastedown.cutting.problem import Exact, Sheet, plain
from pastedown.cutting.slicing import Tree, leaf_size, size_of
from pastedown.cutting.task import Kind, inside

# A block in whole units: x, y, width, height.
_Box = tuple[int, int, int, int]


class _Builder:
    def __init__(self, sheet: Sheet, unit: Fraction, kinds: Sequence[Kind]) -> None:
        self.sheet, self.unit, self.kinds = sheet, unit, kinds
        # The kind of each slot so far.
        self.slots: list[int] = []

    def block(self, box: _Box, what: str, axis: str = "", parts: Sequence[Block] = ()) -> Block:
        x, y, width, height = box
        return Block(
            plain(self.sheet.trim.left + x * self.unit), plain(self.sheet.trim.bottom + y * self.unit),
            plain(width * self.unit), plain(height * self.unit), what, axis, tuple(parts),
        )

    def piece(self, box: _Box, leaf: int) -> Block:
        self.slots.append(leaf >> 1)
        return evolve(self.block(box, "piece"), slot=len(self.slots) - 1)

    def build(self, tree: Tree, box: _Box) -> Block:
        x, y, width, height = box
        if isinstance(tree, int):
            return self._leaf(tree, box)
        parts: list[Block] = []
        axis = tree[0]
        for part in tree[1:]:
            size = size_of(part, self.kinds)[axis]
            parts.append(self.build(part, (x, y, size, height) if axis == 0 else (x, y, width, size)))
            if axis == 0:
                x, width = x + size, width - size
            else:
                y, height = y + size, height - size
        if width and height:
            parts.append(self.block((x, y, width, height), "offcut"))
        return self.block(box, "cut", "xy"[axis], parts)

    def _leaf(self, leaf: int, box: _Box) -> Block:
        """A piece in a block: of the two ways to cut the rest off, the one that leaves the larger offcut."""
        x, y, width, height = box
        w, h = leaf_size(leaf, self.kinds)
        if (w, h) == (width, height):
            return self.piece(box, leaf)
        if (width - w) * height >= (height - h) * width:
            axis, strip = 0, (x, y, w, height)
            rest = (x + w, y, width - w, height)
        else:
            axis, strip = 1, (x, y, width, h)
            rest = (x, y + h, width, height - h)
        return self.block(box, "cut", "xy"[axis], [self._leaf(leaf, strip), self.block(rest, "offcut")])


def build(sheet: Sheet, unit: Fraction, kinds: Sequence[Kind], tree: Tree) -> tuple[Block, tuple[int, ...]]:
    """The whole sheet as it is cut, and the kind of each slot: raw edges off first, one edge after another, then as
    the tree says."""
    builder = _Builder(sheet, unit, kinds)
    width, height = inside(sheet)
    size = size_of(tree, kinds)
    box = (0, 0, int(Fraction(width) / unit), int(Fraction(height) / unit))
    # A rest that runs along the whole sheet stays in one piece if it is cut off first.
    first = 1 - tree[0] if not isinstance(tree, int) else None
    if first is not None and box[2 + first] > size[first] and _tallest_end(tree, kinds, first) > 1:
        kept = (0, 0, box[2], size[1]) if first == 1 else (0, 0, size[0], box[3])
        rest = (0, size[1], box[2], box[3] - size[1]) if first == 1 else (size[0], 0, box[2] - size[0], box[3])
        body = builder.block(box, "cut", "xy"[first], [builder.build(tree, kept), builder.block(rest, "offcut")])
    else:
        body = builder.build(tree, box)
    return _trimmed(sheet, body), tuple(builder.slots)


def _tallest_end(tree: Tree, kinds: Sequence[Kind], axis: int) -> int:
    """How many parts of a row share its full size across."""
    full = size_of(tree, kinds)[axis]
    return sum(size_of(part, kinds)[axis] == full for part in tree[1:])


def _trimmed(sheet: Sheet, body: Block) -> Block:
    """The block of the sheet within its raw edges, and strip by strip what is cut off around it. Where nothing but
    offcuts lies along the right edge or the top, these keep their raw edge and no cut is made for it."""
    trim = sheet.trim
    right, top = trim.right, trim.top
    wider = _grown(body, "x", right)
    if wider is not None:
        body, right = wider, 0
    higher = _grown(body, "y", top)
    if higher is not None:
        body, top = higher, 0
    x, y, width, height = body.x, body.y, body.width, body.height
    for edge, axis, first in (
        (top, "y", False), (trim.bottom, "y", True), (right, "x", False), (trim.left, "x", True)
    ):
        if not edge:
            continue
        if axis == "x":
            strip = Block(plain(x - edge if first else x + width), y, plain(edge), height, "trim")
            x, width = (x - edge if first else x), width + edge
        else:
            strip = Block(x, plain(y - edge if first else y + height), width, plain(edge), "trim")
            y, height = (y - edge if first else y), height + edge
        body = Block(
            plain(x), plain(y), plain(width), plain(height), "cut", axis, (strip, body) if first else (body, strip)
        )
    return body


def _grown(block: Block, axis: str, edge: Exact) -> Block | None:
    """The block with so much more at its right or its top, all of it taken by offcuts; None where a piece lies there.
    """
    if block.what == "piece":
        return None
    parts = block.parts
    if block.what == "cut" and block.axis == axis:
        # Only what is left over grows: a strip would no longer be like others.
        if parts[-1].what != "offcut":
            return None
        parts = (*parts[:-1], _longer(parts[-1], axis, edge))
    elif block.what == "cut":
        grown = [_grown(part, axis, edge) for part in parts]
        parts = tuple(part for part in grown if part is not None)
        if len(parts) < len(grown):
            return None
    return evolve(_longer(block, axis, edge), parts=parts)


def _longer(block: Block, axis: str, edge: Exact) -> Block:
    if axis == "x":
        return evolve(block, width=plain(block.width + edge))
    return evolve(block, height=plain(block.height + edge))
