"""The cuts of a sheet in the order in which a maker makes them."""

from collections.abc import Sequence

from attrs import evolve

from pastedown.cutting.cutting_plan import Block, Cut


def shape(block: Block) -> object:
    """What makes two blocks alike for the blade: sizes and cuts, not which pieces they become."""
    return block.width, block.height, block.what, block.axis, tuple(shape(part) for part in block.parts)


def cuts_of(sheet: Block) -> tuple[Cut, ...]:
    """Every block is cut into its strips, wide ones first, equal ones with one setting; then each strip in turn, like
    strips together. Trimmed edges come off before anything else, since they are the outermost cuts."""
    cuts: list[Cut] = []
    waiting: list[tuple[Block, int]] = [(sheet, 1)]
    while waiting:
        block, alike = waiting.pop(0)
        if block.what != "cut":
            continue
        cuts += _strips(block, alike, len(cuts))
        groups: dict[object, tuple[Block, int]] = {}
        for part in block.parts:
            first, count = groups.get(shape(part), (part, 0))
            groups[shape(part)] = (first, count + 1)
        waiting = [(first, count * alike) for first, count in groups.values()] + waiting
    return tuple(cuts)


def _length(block: Block, axis: str) -> object:
    return block.width if axis == "x" else block.height


def _strips(block: Block, alike: int, before: int) -> Sequence[Cut]:
    """The cuts that take a block apart."""
    axis = block.axis
    parts = list(block.parts)
    # What is left over at the end needs no setting: an offcut, or a strip that no other equals.
    if parts[0].what == "trim":
        order = [parts[:1], parts[1:]]
    else:
        runs: list[list[Block]] = []
        for part in parts:
            if runs and part.what != "offcut" and _length(runs[-1][0], axis) == _length(part, axis):
                runs[-1].append(part)
            else:
                runs.append([part])
        order = runs
        if parts[-1].what not in ("offcut", "trim"):
            alone = next((run for run in reversed(runs) if len(run) == 1), runs[-1])
            order = [run for run in runs if run is not alone] + [alone]
    cuts: list[Cut] = []
    left = block
    for number, run in enumerate(order):
        last = number == len(order) - 1
        width = run[0].width if axis == "x" else run[0].height
        strips = len(run) - 1 if last else len(run)
        if strips == 0:
            continue
        rest: Block | None = None
        if last:
            rest = run[-1]
        else:
            taken = width * strips
            whole = left.width if axis == "x" else left.height
            following = [part for later in order[number + 1 :] for part in later]
            if len(following) == 1:
                rest = following[0]
            elif axis == "x":
                rest = evolve(left, parts=tuple(following), x=left.x + taken, width=whole - taken)
            else:
                rest = evolve(left, parts=tuple(following), y=left.y + taken, height=whole - taken)
            left = rest
        cuts.append(Cut(before + len(cuts) + 1, block, axis, width, strips, run[0], rest, alike))
    return cuts
