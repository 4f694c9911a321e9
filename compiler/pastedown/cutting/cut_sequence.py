"""The cuts of a sheet in the order in which a maker makes them."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import evolve

from pastedown.cutting.cutting_plan import Block, Cut, Line
from pastedown.cutting.problem import Exact, plain


def shape(block: Block) -> object:
    """What makes two blocks alike for the blade: sizes and cuts, not which pieces they become."""
    return block.width, block.height, block.what, block.axis, tuple(shape(part) for part in block.parts)


def cuts_of(sheet: Block) -> tuple[Cut, ...]:
    """Every block is cut into its strips, wide ones first, equal ones with one setting; then each strip in turn, like
    strips together. Trimmed edges come off before anything else, since they are the outermost cuts."""
    cuts: list[Cut] = []
    waiting: list[list[Block]] = [[sheet]]
    while waiting:
        alike = waiting.pop(0)
        if alike[0].what != "cut":
            continue
        cuts += _strips(alike, len(cuts))
        groups: dict[object, list[Block]] = {}
        for block in alike:
            for part in block.parts:
                groups.setdefault(shape(part), []).append(part)
        waiting = [*groups.values(), *waiting]
    return tuple(cuts)


def _length(block: Block, axis: str) -> Exact:
    return block.width if axis == "x" else block.height


def _order(block: Block) -> list[list[int]]:
    """The parts of a block, by number, in the order in which they come off; those of one list with one setting. What is
    left over at the end needs no setting: an offcut, or a strip that no other equals."""
    parts, axis = block.parts, block.axis
    if parts[0].what == "trim":
        # No fence stands as near as a raw edge is wide, and no clamp holds it: what is kept lies at the fence.
        return [list(range(1, len(parts))), [0]]
    runs: list[list[int]] = []
    for number, part in enumerate(parts):
        if runs and part.what != "offcut" and _length(parts[runs[-1][0]], axis) == _length(part, axis):
            runs[-1].append(number)
        else:
            runs.append([number])
    if parts[-1].what in ("offcut", "trim"):
        return runs
    alone = next((run for run in reversed(runs) if len(run) == 1), runs[-1])
    return [run for run in runs if run is not alone] + [alone]


def _strips(alike: Sequence[Block], before: int) -> Iterator[Cut]:
    """The cuts that take like blocks apart."""
    block = alike[0]
    axis, parts = block.axis, block.parts
    order = _order(block)
    last = order[-1][-1]
    left, number = block, before
    for at, run in enumerate(order):
        off = [part for part in run if part != last]
        if not off:
            continue
        fence = _length(parts[off[0]], axis)
        following = [part for part in (*run, *(one for later in order[at + 1 :] for one in later)) if part not in off]
        if len(following) == 1:
            rest = parts[following[0]]
        else:
            kept = tuple(parts[one] for one in following)
            whole = sum((_length(part, axis) for part in kept), start=Fraction(0))
            # What is left is told by its size; where strips come off both ends, it begins after those of this end.
            first = min(kept, key=lambda part: (part.x, part.y))
            rest = evolve(left, parts=kept, x=first.x, y=first.y)
            rest = evolve(rest, width=plain(whole)) if axis == "x" else evolve(rest, height=plain(whole))
        number += 1
        lines = tuple(_line(one, part, part < last) for one in alike for part in off)
        taken = tuple(parts[part] for part in off)
        yield Cut(number, block, axis, fence, len(off), taken[0], rest, len(alike), taken, lines, at > 0)
        left = rest


def _line(block: Block, number: int, before_rest: bool) -> Line:
    """The side of a strip that is cut: the one towards what is left over at the end."""
    part = block.parts[number]
    if block.axis == "x":
        return Line(plain(part.x + part.width) if before_rest else part.x, block.y, block.height, upright=True)
    return Line(block.x, plain(part.y + part.height) if before_rest else part.y, block.width, upright=False)
