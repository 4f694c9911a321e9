"""Layouts as slicing trees: how one sheet is cut by edge-to-edge cuts.

A tree is a leaf or a row. A leaf is a number: twice the kind, plus 1 where the piece is turned. A row is a tuple: its
axis, then the trees that lie in it, side by side along x for axis 0, one above the other along y for axis 1. Sizes
are not written down: a part is as large as what lies in it needs, and what is wasted is what is left, always to the
right of and above a part. Every layout that edge-to-edge cuts can free can be pushed together into such a tree.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from attrs import frozen

from pastedown.cutting.task import Kind

# int | tuple[int, Tree, ...]: a recursive type that the type checker cannot follow through tuples of any length.
Tree = Any


@frozen
class Layout:
    """A tree on a base, with how many of which kind lie in it, sorted by kind."""

    base: int
    counts: tuple[tuple[int, int], ...]
    tree: Tree


def layout(base: int, tree: Tree) -> Layout:
    return Layout(base, counts_of(tree), tree)


def leaves(tree: Tree) -> Iterator[int]:
    waiting = [tree]
    while waiting:
        tree = waiting.pop()
        if isinstance(tree, int):
            yield tree
        else:
            waiting.extend(tree[1:])


def counts_of(tree: Tree) -> tuple[tuple[int, int], ...]:
    counts: dict[int, int] = {}
    for leaf in leaves(tree):
        counts[leaf >> 1] = counts.get(leaf >> 1, 0) + 1
    return tuple(sorted(counts.items()))


def leaf_size(leaf: int, kinds: Sequence[Kind]) -> tuple[int, int]:
    kind = kinds[leaf >> 1]
    return (kind.height, kind.width) if leaf & 1 else (kind.width, kind.height)


def row(axis: int, parts: Sequence[Tree]) -> Tree:
    """Parts in a row; rows of the same axis within it are taken apart, and one part alone is that part."""
    flat: list[Tree] = []
    for part in parts:
        if not isinstance(part, int) and part[0] == axis:
            flat.extend(part[1:])
        else:
            flat.append(part)
    return flat[0] if len(flat) == 1 else (axis, *flat)


def size_of(tree: Tree, kinds: Sequence[Kind]) -> tuple[int, int]:
    if isinstance(tree, int):
        return leaf_size(tree, kinds)
    sizes = [size_of(part, kinds) for part in tree[1:]]
    widths, heights = [w for w, _ in sizes], [h for _, h in sizes]
    return (sum(widths), max(heights)) if tree[0] == 0 else (max(widths), sum(heights))


def without(tree: Tree, surplus: dict[int, int]) -> Tree | None:
    """The tree without `surplus` pieces of each kind, last ones first; None where nothing is left."""
    left = {kind: count for kind, count in surplus.items() if count}

    def pruned(tree: Tree) -> Tree | None:
        if isinstance(tree, int):
            if left.get(tree >> 1):
                left[tree >> 1] -= 1
                return None
            return tree
        parts = [kept for part in reversed(tree[1:]) if (kept := pruned(part)) is not None]
        return row(tree[0], parts[::-1]) if parts else None

    return pruned(tree) if left else tree


def tidy(tree: Tree, kinds: Sequence[Kind]) -> Tree:
    """The same tree in one way of writing: equal parts next to each other, long ones first, no row within a row of its
    axis."""
    return _tidied(tree, kinds)[0]


def _tidied(tree: Tree, kinds: Sequence[Kind]) -> tuple[Tree, int, int]:
    """The tidy tree with its size, so that no size is worked out at every level again."""
    if isinstance(tree, int):
        return tree, *leaf_size(tree, kinds)
    axis = tree[0]
    parts: list[tuple[Tree, int, int]] = []
    for part in tree[1:]:
        done = _tidied(part, kinds)
        if isinstance(done[0], int) or done[0][0] != axis:
            parts.append(done)
        else:
            parts.extend((each, *size_of(each, kinds)) for each in done[0][1:])
    if len(parts) == 1:
        return parts[0]
    along, across = 1 + axis, 2 - axis
    parts.sort(key=lambda part: (-part[along], -part[across], repr(part[0])))
    length, breadth = sum(part[along] for part in parts), max(part[across] for part in parts)
    return (axis, *(part[0] for part in parts)), *((length, breadth) if axis == 0 else (breadth, length))


def settings_of(tree: Tree, width: int, height: int, kinds: Sequence[Kind]) -> int:
    """How often the fence is set to cut the tree out of a block of that size: once for each width of strip within a
    block, since equal strips are cut with one setting; not for the strip that is left over exactly. Like blocks are
    counted each, as published instances do; who cuts them together, as `cuts_of` has it, sets the fence less often."""
    w, h, axis, own, single = _sums(tree, kinds)
    if axis < 0:
        return int(w < width) + int(h < height)
    return own - int(single and (w, h)[axis] == (width, height)[axis])


def _sums(tree: Tree, kinds: Sequence[Kind]) -> tuple[int, int, int, int, bool]:
    """Width and height; the axis, -1 for a leaf; how often the fence is set if something is left beyond the last strip;
    and whether a strip is the only one of its width. Across its strips a block is just as large as they are, so
    nothing else has to be known of it."""
    if isinstance(tree, int):
        return *leaf_size(tree, kinds), -1, 0, False
    axis = tree[0]
    parts = [_sums(part, kinds) for part in tree[1:]]
    across = max([part[1 - axis] for part in parts])
    strips: dict[int, int] = {}
    settings = along = 0
    for part in parts:
        size = part[axis]
        along += size
        strips[size] = strips.get(size, 0) + 1
        if part[2] < 0:
            settings += part[1 - axis] < across
        else:
            settings += part[3] - (part[4] and part[1 - axis] == across)
    return *((along, across) if axis == 0 else (across, along)), axis, settings + len(strips), 1 in strips.values()


@frozen
class Placed:
    """A piece where it lies: corner nearest the origin, size as it lies."""

    x: int
    y: int
    width: int
    height: int
    leaf: int


def places(tree: Tree, kinds: Sequence[Kind], x: int = 0, y: int = 0) -> Iterator[Placed]:
    if isinstance(tree, int):
        yield Placed(x, y, *leaf_size(tree, kinds), tree)
        return
    for part in tree[1:]:
        width, height = size_of(part, kinds)
        yield from places(part, kinds, x, y)
        if tree[0] == 0:
            x += width
        else:
            y += height


def fewest(tree: Tree, width: int, height: int, kinds: Sequence[Kind]) -> Tree:
    """The tidy tree; and where a row has several equal strips, each cut into parts, the strips are cut across together
    instead if that takes fewer settings."""
    best = tidy(tree, kinds)
    least = settings_of(best, width, height, kinds)
    for _ in range(4):
        better = None
        for other in _exchanged(best, kinds):
            other = tidy(other, kinds)
            got = settings_of(other, width, height, kinds)
            if got < least:
                better, least = other, got
        if better is None:
            return best
        best = better
    return best


def _exchanged(tree: Tree, kinds: Sequence[Kind]) -> Iterator[Tree]:
    """The trees with one run of equal strips cut across together."""
    if isinstance(tree, int):
        return
    axis, parts = tree[0], tree[1:]
    done: list[Tree] = []
    for at, part in enumerate(parts):
        if part in done:
            continue
        done.append(part)
        for changed in _exchanged(part, kinds):
            yield row(axis, [*parts[:at], changed, *parts[at + 1 :]])
        copies = parts.count(part)
        if copies > 1 and not isinstance(part, int):
            others = [other for other in parts if other != part]
            together = (1 - axis, *((axis, *[each] * copies) for each in part[1:]))
            yield row(axis, [*others, together])
