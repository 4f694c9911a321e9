"""Where things that are too thick in one place could lie instead: the same way and equally far for all of them.

Tried as a whole: what lies on a thing goes with it, none may leave what carries it, and the stack is worked out again.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction
from math import ceil

from attrs import evolve, frozen

from pastedown.geometry.layer_stack import Layer, Rectangle, how_many_cells, stack_of

# So many distances are tried, the shortest first, and in no stack of more cells.
MOST_TRIED = 40
MOST_CELLS = 20_000
_WAYS = (("right", 1, 0), ("left", -1, 0), ("towards the head", 0, 1), ("towards the tail", 0, -1))


@frozen
class Aside:
    """`distance` in millimetres, and which way in the words of the ledger."""

    distance: Fraction
    way: str


def moved_aside(layers: tuple[Layer, ...], things: Collection[str], most: Fraction, mark: Fraction) -> Aside | None:
    """The shortest way, in whole marks, that leaves no place thicker than `most`; None where there is none."""
    if how_many_cells(layers) > MOST_CELLS:
        return None
    going = _with_what_lies_on(layers, set(things))
    for distance, way, across, upward in _tries(layers, going, mark):
        moved = tuple(
            evolve(one, place=_by(one.place, across * distance, upward * distance),
                   holes=tuple(_by(hole, across * distance, upward * distance) for hole in one.holes))
            if {one.what, one.holds} & going else one
            for one in layers
        )  # fmt: skip
        if _stay_on(moved, going) and stack_of(moved).highest <= most:
            return Aside(distance, way)
    return None


def _with_what_lies_on(layers: tuple[Layer, ...], things: set[str]) -> set[str]:
    while True:
        more = {one.what for one in layers if one.on in things} - things
        if not more:
            return things
        things = things | more


def _tries(
    layers: tuple[Layer, ...], going: set[str], mark: Fraction
) -> Iterator[tuple[Fraction, str, int, int]]:
    """Every distance at which an edge of what moves passes an edge of what stays, up to the next mark."""
    found: set[tuple[Fraction, int]] = set()
    own = [one.place for one in layers if one.what in going]
    others = [one.place for one in layers if not {one.what, one.holds} & going]
    for number, (_, across, upward) in enumerate(_WAYS):
        for place in own:
            for other in (*others, *own):
                gap = (
                    (other.right - place.left) if across == 1
                    else (place.right - other.left) if across == -1
                    else (other.head - place.tail) if upward == 1
                    else (place.head - other.tail)
                )  # fmt: skip
                if gap > 0:
                    found.add((ceil(gap / mark) * mark, number))
    for distance, number in sorted(found)[:MOST_TRIED]:
        way, across, upward = _WAYS[number]
        yield distance, way, across, upward


def _by(place: Rectangle, across: Fraction, upward: Fraction) -> Rectangle:
    return Rectangle(place.left + across, place.right + across, place.tail + upward, place.head + upward)


def _stay_on(layers: tuple[Layer, ...], going: set[str]) -> bool:
    """Whether all that moved still lies wholly on what carries it. What is carried by nothing may not be moved."""
    below: dict[str, list[Rectangle]] = {}
    for one in layers:
        below.setdefault(one.what, []).append(one.place)
    return all(
        any(_holds(other, one.place) for other in below.get(one.on, ())) for one in layers if one.what in going
    )


def _holds(other: Rectangle, place: Rectangle) -> bool:
    return place.within(other) == place
