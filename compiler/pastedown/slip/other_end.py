"""Repairs of a side with folds across it that was cut too long or too short, while its folds lie as designed.

Folds are scored from the edge that the score chart names, so what is missing is missing from the panel at the other
end, and what is too much is there. It is trimmed there; or all folds are scored so much nearer to the first edge or
farther from it that the panel at the first edge takes up all of it, or both end panels half each.
"""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.geometry.actual import Side
from pastedown.quantity.quantity import Length
from pastedown.slip.bench import Bench
from pastedown.slip.laid_by_folds import off_middle
from pastedown.slip.report import Repair, Words
from pastedown.slip.shapes import Shape
from pastedown.slip.tried import SCORED, TRIMMED, Tried
from pastedown.slip.workshop import Workshop


def trimmed_as_designed(bench: Bench) -> Tried | None:
    """Everything that came out longer than designed cut down to its size, where its folds lie as designed; whether that
    mends has not been tried."""
    after = bench.again()
    words: list[str | Length] = []
    for side, shape in bench.now.items():
        designed = bench.designed[side]
        if shape.side > designed.side and _folds(shape) == _folds(designed) and not shape.as_bought:
            after.now[side] = designed.copied()
            off = f" at {shape.last_edge}" if shape.ends else ""
            how = "high" if side[1] == "height" else "wide"
            words += [
                f"{' ' if words else ''}Trim {side[0]} to ", designed.side, f" {how}, as designed; ",
                shape.side - designed.side, f" comes off{off}.",
            ]  # fmt: skip
            _measured_anew(after, side)
    return Tried(Repair(tuple(words), True, order=TRIMMED), bench, after) if words else None


def _measured_anew(bench: Bench, side: Side) -> None:
    """What was told of the lengths that a side is cut to holds no more."""
    for fact in bench.facts:
        if any(place[0] == side for place in fact.places):
            bench.told.pop(fact.path, None)


def scored_otherwise(workshop: Workshop, bench: Bench) -> Iterator[Tried]:
    """The folds of each such side scored from its other end, or from its middle: the first of both that mends, where it
    is laid by its middle as designed, or else does not matter."""
    for side in cut_otherwise(bench):
        ways: list[tuple[bool, int, Bench]] = []
        for share in (1, 2):
            after = bench.again()
            after.now[side] = moved(bench, side, share)
            off = any(each.side == side for each in off_middle(after))
            ways += [(off, share, after)] if after.now[side].possible else []
        for _, share, after in sorted(ways, key=lambda way: way[:2]):
            if workshop.mends(after):
                yield Tried(Repair(_scored(after, bench, side, share), True, order=SCORED), bench, after)
                break


def cut_otherwise(bench: Bench) -> list[Side]:
    """The sides of which the length is another than designed, and all folds lie as designed."""
    return [
        side
        for side, shape in bench.now.items()
        if shape.scores and shape.side != bench.designed[side].side and _folds(shape) == _folds(bench.designed[side])
        and shape.is_scored_throughout and not shape.as_bought
    ]  # fmt: skip


def moved(bench: Bench, side: Side, share: int) -> Shape:
    """A side with all its folds moved by what its length is off by, or by one of so many shares of it."""
    shape = bench.now[side].copied()
    by = (shape.side - bench.designed[side].side) / share
    shape.ends[:-1] = [end + by for end in shape.ends[:-1]]
    return shape


def _scored(after: Bench, bench: Bench, side: Side, share: int) -> Words:
    shape, was = after.now[side], bench.now[side]
    by = shape.ends[0] - was.ends[0]
    where = shape.last_edge if share == 1 else "its middle"
    way = "farther from" if by.value > 0 else "nearer to"
    return (
        f"Score {side[0]} from {where}, each fold ", by if by.value > 0 else -by,
        f" {way} {shape.first_edge} than the chart says: {shape.panels[0]} is then ", shape.size(0),
        f" and {shape.panels[-1]} ", shape.size(len(shape.panels) - 1),
        ". Where it is scored already, the old lines stay in sight.",
    )  # fmt: skip


def _folds(shape: Shape) -> list[Length]:
    return shape.ends[:-1]

