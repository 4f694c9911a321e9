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
    axis, and rows of equal parts cut alike taken together where that needs fewer settings of the fence."""
    if isinstance(tree, int):
        return tree
    axis = tree[0]
    parts = row(axis, [tidy(part, kinds) for part in tree[1:]])
    if isinstance(parts, int) or parts[0] != axis:
        return parts

    def rank(part: Tree) -> tuple[int, int, str]:
        width, height = size_of(part, kinds)
        along, across = (width, height) if axis == 0 else (height, width)
        return -along, -across, repr(part)

    return (axis, *sorted(parts[1:], key=rank))


def settings_of(tree: Tree, width: int, height: int, kinds: Sequence[Kind]) -> int:
    """How often the fence is set to cut the tree out of a block of that size: once for each width of strip within a
    block, since equal strips are cut with one setting; not for the strip that is left over exactly."""
    if isinstance(tree, int):
        w, h = leaf_size(tree, kinds)
        return (w < width) + (h < height)
    axis = tree[0]
    sizes = [size_of(part, kinds) for part in tree[1:]]
    strips: dict[int, int] = {}
    for size in sizes:
        strips[size[axis]] = strips.get(size[axis], 0) + 1
    settings = len(strips)
    if sum(size[axis] for size in sizes) == (width, height)[axis] and 1 in strips.values():
        settings -= 1
    for part, size in zip(tree[1:], sizes, strict=True):
        settings += settings_of(part, *((size[0], height) if axis == 0 else (width, size[1])), kinds)
    return settings


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
        others = parts[:at] + parts[at + 1 :]
        for changed in _exchanged(part, kinds):
            yield row(axis, [*parts[:at], changed, *parts[at + 1 :]])
        copies = parts.count(part)
        if copies > 1 and not isinstance(part, int):
            others = [other for other in parts if other != part]
            together = (1 - axis, *((axis, *[each] * copies) for each in part[1:]))
            yield row(axis, [*others, together])
