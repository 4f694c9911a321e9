"""How the parts of a piece move while it is folded.

Takes a piece, the angles of its folds and its plates as drawn; gives a way for each part that is turned on its own.
Where all folds that cross one way are few, each part beyond one has its own; of many, as of a strip that goes up and
down, the two ends have. A way lies where along its fold most of it is to be seen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.hidden import Hider
from pastedown.outputs.pictures.places import MOVED, span
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import State
from pastedown.outputs.pictures.solid import faces_and_edges
from pastedown.outputs.pictures.view import View
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.space import FieldNumber, SpatialPiece, Strips, Turning

# While a piece is folded its folds are drawn this far towards what they are when all is made up: far enough to show
# which way each goes, not so far that one part hides another. A choice, looked at on all examples.
FOLDED_PART = 0.45
_STEPS = 8
# Where along a fold an arrow may lie, as parts of it, the best first.
_PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
_FOLDS = ("valley", "mountain")
# Of more folds across one way not every one can have an arrow that is told from the others.
_MANY = 4
# In millimetres: what is narrower is not seen to be turned on its own.
_NARROW = 4
# In millimetres: paper nearer than this to an arrow does not hide it.
_UPON = 3.0


@frozen
class _Turned:
    """A field that is turned by some folds of its piece, and places on the flat piece where its arrow may end."""

    number: FieldNumber
    folds: list[str]
    places: list[tuple[float, float]]


def ways_of_folds(
    workshop: Workshop, piece: SpatialPiece, whole: Mapping[Turning, float], plates: Sequence[Plate], view: View
) -> tuple[tuple[Vector, ...], ...]:
    """How the parts move by their own folds from flat to where they are drawn; `whole` are the angles of folds in
    degrees when all is made up."""
    hider = Hider([face for plate in plates for face in faces_and_edges(plate, view, 0.0)[0]])
    ways = []
    for turned in _parts(piece):
        own = {(piece.path, name) for name in turned.folds}
        frames = []
        for part in range(_STEPS + 1):
            angles = {key: angle * FOLDED_PART * (part / _STEPS if key in own else 1.0) for key, angle in whole.items()}
            frames.append(workshop.posed(State({}, angles)).frames[piece.path][turned.number])
        tried = [tuple(frame.point(x, y, 0.0) for frame in frames) for x, y in turned.places]
        way = max(tried, key=lambda one: _seen(one, hider, view))
        if span(way) > MOVED:
            ways.append(way)
    return tuple(ways)


def _seen(way: tuple[Vector, ...], hider: Hider, view: View) -> int:
    """At how many of its places nothing lies before a way."""
    return sum(hider.shows((x, y, near + _UPON)) for x, y, near in map(view.seen, way))


def _parts(piece: SpatialPiece) -> Iterator[_Turned]:
    """What lies beside the base and is turned on its own, each with places on its outer edge."""
    column, row = piece.base
    for names, at, x in _outward(piece.columns, column):
        yield _Turned((at, row), names, [(x, y) for y in _along(piece.rows, row)])
    for names, at, y in _outward(piece.rows, row):
        yield _Turned((column, at), names, [(x, y) for x in _along(piece.columns, column)])


def _outward(strips: Strips, base: int) -> Iterator[tuple[list[str], int, float]]:
    """The strips on either side of the base that are turned on their own, from there outwards: the folds that turn
    each, its number, and where its outer edge is. What is narrow goes with what follows it."""
    last = len(strips.strips) - 1
    many = sum(line.kind in _FOLDS for line in strips.lines) > _MANY
    for end, step in ((0, -1), (last, 1)):
        folds: list[str] = []
        for at in range(base + step, end + step, step):
            line, strip = strips.lines[min(at, at - step)], strips.strips[at]
            folds += [line.name] if line.kind in _FOLDS else []
            goes_on = at != end and (many or strip.end - strip.start < _NARROW or not _is_fold(strips, at, at + step))
            if folds and not goes_on:
                yield folds, at, float(strip.start if step < 0 else strip.end)
                folds = []


def _is_fold(strips: Strips, one: int, other: int) -> bool:
    return strips.lines[min(one, other)].kind in _FOLDS


def _along(strips: Strips, base: int) -> list[float]:
    """Places along one direction of a piece; where folds cross that, of the strip by which it is placed."""
    crossed = any(line.kind in _FOLDS for line in strips.lines)
    first, last = (strips.strips[base], strips.strips[base]) if crossed else (strips.strips[0], strips.strips[-1])
    start, end = float(first.start), float(last.end)
    return [start + (end - start) * part for part in _PLACES]
