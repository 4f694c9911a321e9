"""The cuts inside a piece, windows and slits, and what is known of any cut before it is drawn."""

from __future__ import annotations

from attrs import frozen

from pastedown.diagnostic import error
from pastedown.geometry.cut_regions import Region, quarter_round, region
from pastedown.geometry.fault import Fault
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.path_moves import Move, without_stops
from pastedown.geometry.piece import ArcTo, CutPath, LineTo, Point
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.value import Treatment
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.quantity.write import write
from pastedown.source import Span


@frozen
class Said:
    """A treatment with the words that asked for it."""

    treatment: Treatment
    span: Span


def inner_cut(piece: PieceMaker, name: str, said: Said, height: Length, width: Length) -> CutPath:
    """A window or a slit called `name`. Raises Fault where it does not lie inside the piece."""
    treatment = said.treatment
    high, wide = treatment.length("height"), treatment.length("width")
    if treatment.kind == "slit":
        size = treatment.length("length") or NO_LENGTH
        high, wide = (size, NO_LENGTH) if treatment.word("along") == "height" else (NO_LENGTH, size)
    assert high is not None and wide is not None
    left, tail = treatment.length("from_left"), treatment.length("from_tail")
    left = (width - wide) / 2 if left is None else left
    tail = (height - high) / 2 if tail is None else tail
    if left.value <= 0 or tail.value <= 0 or left + wide >= width or tail + high >= height:
        raise Fault(
            error(
                "cut-outside",
                said.span,
                f"{name} does not lie inside {piece.path}.",
                way_out="Make it smaller or move it with from_left and from_tail.",
            )
        )
    if treatment.kind == "slit":
        return CutPath(name, Point(left, tail), (LineTo(Point(left + wide, tail + high)),), False)
    return _window(name, left, tail, wide, high, treatment.length("radius") or NO_LENGTH, said)


def _window(name: str, left: Length, tail: Length, wide: Length, high: Length, radius: Length, said: Said) -> CutPath:
    if radius * 2 > wide or radius * 2 > high:
        raise Fault(
            error(
                "cut-outside",
                said.span,
                f"The round corners of {name} are larger than the window.",
                way_out="Make the radius at most half of its shorter side.",
            )
        )
    right, head = left + wide, tail + high
    r = radius
    corners: list[tuple[Point, Point, Point]] = [
        (Point(left, head - r), Point(left + r, head), Point(left + r, head - r)),
        (Point(right - r, head), Point(right, head - r), Point(right - r, head - r)),
        (Point(right, tail + r), Point(right - r, tail), Point(right - r, tail + r)),
        (Point(left + r, tail), Point(left, tail + r), Point(left + r, tail + r)),
    ]
    moves: list[Move] = []
    for before, after, centre in corners:
        moves.append(LineTo(before))
        if r.value:
            moves.append(ArcTo(after, centre, r, True))
    start = Point(left, tail + r)
    return CutPath(name, start, without_stops(start, moves), True)


def inner_region(cut: CutPath) -> Region:
    """What a window or a slit takes out; round corners by the polygon about them."""
    corners: list[Point] = [cut.start]
    for move in cut.moves:
        if isinstance(move, ArcTo):
            begun = corners[-1]
            for x, y in quarter_round(move.radius):
                # Each arc turns a quarter with the clock about its centre.
                right, up = begun.x - move.centre.x, begun.y - move.centre.y
                level = bool(right.value)
                ahead, aside = (right, move.end.y - move.centre.y) if level else (up, move.end.x - move.centre.x)
                far, off = _signed(x, ahead), _signed(y, aside)
                across, along = (far, off) if level else (off, far)
                corners.append(Point(move.centre.x + across, move.centre.y + along))
        corners.append(move.end)
    return region(cut.name, corners)


def _signed(size: Length, like: Length) -> Length:
    return size if like.value > 0 else -size


def written(piece: PieceMaker, length: Length) -> str:
    """The length as the maker of the piece writes it."""
    return write(length, ruler_of(piece.instance))
