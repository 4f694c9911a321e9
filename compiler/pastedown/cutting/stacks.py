"""The pieces of one sheet in plain stacks: strips of one width each, with the pieces in it one upon the other.

Such a sheet is often cut with fewer settings of the fence than a layout that was found piece by piece.
"""

from collections.abc import Iterator, Sequence

from pastedown.cutting.slicing import Layout, Tree, leaf_size, leaves, row, settings_of
from pastedown.cutting.task import Base, Kind

# With more pieces a sheet is nearly always full, and stacks seldom hold them.
_MOST_PIECES = 150


def with_fewer_settings(one: Layout, base: Base, kinds: Sequence[Kind]) -> Layout:
    """The same pieces on the same base in stacks, where these take fewer settings; else the layout as it is."""
    best, least = one, settings_of(one.tree, base.width, base.height, kinds)
    lying = list(leaves(one.tree))
    if len(lying) > _MOST_PIECES:
        return one
    for turned in _turned(lying, kinds):
        for axis in (0, 1):
            tree = _stacked(turned, (base.width, base.height), axis, kinds)
            if tree is not None and (needed := settings_of(tree, base.width, base.height, kinds)) < least:
                best, least = Layout(one.base, one.counts, tree), needed
    return best


def _turned(lying: list[int], kinds: Sequence[Kind]) -> Iterator[list[int]]:
    """The pieces as they lie; and, of those that may be turned, all upright or all lengthwise."""
    yield lying
    if any(kinds[leaf >> 1].turns for leaf in lying):
        for turned in (0, 1):
            yield [leaf & ~1 | turned if kinds[leaf >> 1].turns else leaf for leaf in lying]


def _stacked(lying: list[int], room: tuple[int, int], axis: int, kinds: Sequence[Kind]) -> Tree | None:
    """Stacks side by side along the axis, wide pieces first, each on the first stack of its own width that has room,
    else on the first wider one, else on a stack of its own; None where they need more than the room."""
    other = 1 - axis
    stacks: list[tuple[int, list[int]]] = []
    left: list[int] = []
    free = room[axis]
    sizes = {leaf: leaf_size(leaf, kinds) for leaf in set(lying)}
    for leaf in sorted(lying, key=lambda leaf: (-sizes[leaf][axis], -sizes[leaf][other], leaf)):
        width, length = sizes[leaf][axis], sizes[leaf][other]
        fitting = [at for at in range(len(stacks)) if left[at] >= length]
        at = min(fitting, key=lambda at: (stacks[at][0] != width, at), default=None)
        if at is None:
            if width > free or length > room[other]:
                return None
            free -= width
            at = len(stacks)
            stacks.append((width, []))
            left.append(room[other])
        stacks[at][1].append(leaf)
        left[at] -= length
    return row(axis, [row(other, pieces) for _, pieces in stacks])
