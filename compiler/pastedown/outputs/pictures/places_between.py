"""Where in a part something flat that nothing holds may lie: between two of its sheets, the larger the better.

Takes the plate of what is put in and the plates around it; gives where it lies once it is in, and the way by which it
comes out again. Nothing in a design says where such a thing goes, so that this is what may be, not what is meant.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from attrs import evolve, frozen

from pastedown.outputs.pictures.frame import Frame, Vector, dot, times
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.way_in import box_of, way_in

_PARALLEL = 1 - 1e-9
# In millimetres: two sheets further apart are no such place; what is larger by less is still taken.
_APART, _PLAY = 6.0, 0.05
# Of the places between pairs of sheets, so many are tried.
_MOST_TRIED = 20


@frozen
class PlaceBetween:
    """What is put in where it lies, the path of the piece it lies on, the outline of that place, and the way by which
    half of it comes out."""

    on: str
    laid: Plate
    outline: tuple[Vector, ...]
    way: Vector


def place_for(card: Plate, around: Sequence[Plate], own: Collection[str]) -> PlaceBetween | None:
    """The largest place between two sheets of the pieces `own` that takes a card with its head as theirs and has a way
    in past everything `around`; None where there is none."""
    sheets = [plate for plate in around if plate.path in own]
    tried = sorted(_between(card, sheets), key=lambda each: -each[0])[:_MOST_TRIED]
    for _, on, laid in tried:
        way = way_in(laid.frame, laid.frame.z, [laid], around)
        if way is not None:
            (left, tail), (right, head) = _extent(laid)
            square = ((left, tail), (right, tail), (right, head), (left, head))
            return PlaceBetween(on, laid, tuple(laid.frame.point(x, y, 0.0) for x, y in square), way)
    return None


def _between(card: Plate, sheets: Sequence[Plate]) -> Iterator[tuple[float, str, Plate]]:
    """Every place that is large enough: its area, the path of the sheet the card lies on, and the card there."""
    low, high = _extent(card)
    for under in sheets:
        for frame in (under.frame, _from_behind(under.frame)):
            one = box_of(frame, [under])
            for over in sheets:
                if over is under or abs(dot(frame.z, over.frame.z)) < _PARALLEL:
                    continue
                other = box_of(frame, [over])
                start = [max(one.low[at], other.low[at]) for at in (0, 1)]
                sizes = [min(one.high[at], other.high[at]) - start[at] for at in (0, 1)]
                apart = other.low[2] - one.high[2]
                if -_PLAY <= apart <= _APART and all(high[at] - low[at] <= sizes[at] + _PLAY for at in (0, 1)):
                    x, y = (start[at] + (sizes[at] - high[at] - low[at]) / 2 for at in (0, 1))
                    # Sheets that touch give way to either side.
                    level = one.high[2] + (card.thickness + min(apart, card.thickness)) / 2
                    origin = frame.point(x, y, level)
                    placed = Frame(origin, frame.x, frame.y, frame.z)
                    yield round(sizes[0] * sizes[1], 3), under.path, evolve(card, frame=placed)


def _from_behind(frame: Frame) -> Frame:
    """With the head where it was."""
    return Frame(frame.origin, times(frame.x, -1.0), frame.y, times(frame.z, -1.0))


def _extent(plate: Plate) -> tuple[tuple[float, float], tuple[float, float]]:
    spots = [spot for ring in plate.rings for spot in ring.spots]
    xs, ys = [spot[0] for spot in spots], [spot[1] for spot in spots]
    return (min(xs), min(ys)), (max(xs), max(ys))
