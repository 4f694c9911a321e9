"""Finds pieces that are laid by their middle, or by an edge, and whose folds do not lie about it as designed any more.

A piece cut short at one end loses half of that at either side of its middle, so a join that brings its middle to the
middle of something else brings all its folds in half of it off. The same is so where all folds were scored so much
farther. It costs nothing to lay it by another line: the one about which its folds lie as designed.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.geometry.actual import Side
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.bench import Bench
from pastedown.slip.report import Words


@frozen
class OffMiddle:
    """A piece that a join lays by its middle, by which all its folds lie `off` by the same: farther from the first edge
    where that is above nought. Laid by the line `at`, from the first edge, they lie as designed."""

    side: Side
    join: str
    other: str
    at: Length
    middle: Length
    off: Length


def off_middle(bench: Bench) -> Iterator[OffMiddle]:
    """Each side of such a piece once, with the first join that lays it by its middle."""
    seen: set[Side] = set()
    for join in bench.model.joins:
        for alignment in join.alignments:
            lines = ((alignment.what_line, alignment.to), (alignment.to_line, alignment.what))
            for line, other in lines:
                if line is None or not line.is_middle or (line.piece, line.axis) in seen:
                    continue
                side = line.piece, line.axis
                by = _moved_alike(bench, side)
                shape, designed = bench.now[side], bench.designed[side]
                off = None if by is None else by - (shape.side - designed.side) / 2
                if by is not None and off is not None and off.value:
                    seen.add(side)
                    yield OffMiddle(side, join.path, other, designed.side / 2 + by, shape.side / 2, off)


def _moved_alike(bench: Bench, side: Side) -> Length | None:
    """By how much all folds across a side lie farther from its first edge; None where they do not move alike."""
    shape, designed = bench.now[side], bench.designed[side]
    moved = {shape.ends[at] - designed.ends[at] for at in shape.scores.values()}
    return moved.pop() if len(shape.scores) > 1 and len(moved) == 1 else None


def words_for(bench: Bench, found: OffMiddle) -> Words:
    shape = bench.now[found.side]
    towards = shape.last_edge if found.off.value > 0 else shape.first_edge
    by = found.off if found.off.value > 0 else -found.off
    return (
        f"Lay {found.side[0]} by its folds at {found.join}: its middle lies ", found.middle,
        f" from {shape.first_edge}, and laid by it all folds come ", by, f" too near to what lies at {towards}. "
        f"Bring the line ", found.at, f" from {shape.first_edge} to {found.other} instead: {shape.panels[0]} is ",
        shape.size(0), f" and {shape.panels[-1]} ", shape.size(len(shape.panels) - 1), ".",
    )  # fmt: skip


def laid_by_folds(bench: Bench) -> Words:
    """What to lay by its folds with what lies on a bench; nothing where all lie about their middles as designed."""
    words: list[str | Quantity] = []
    for each in off_middle(bench):
        words += [*([" "] if words else []), *words_for(bench, each)]
    return tuple(words)
