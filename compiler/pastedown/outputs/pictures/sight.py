"""From where a place is to be seen, and what stands before it.

The view is kept from step to step unless the place looks away from it; then it is the same view from the left. What
hides the place from there is left out, with all that it carries: who makes it has it out of the way as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pastedown.outputs.pictures.frame import Vector, dot, minus, plus, times
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.view import OBLIQUE, OBLIQUE_FROM_LEFT, View, is_within
from pastedown.plan.space import Face

# A place is looked at in so many spots each way, so far above its face, in millimetres.
_SPOTS = 4
_ABOVE = 0.1
# If less of it than this is seen, what hides it is left out. A choice, looked at on all examples.
_LEAST_SEEN = 0.5
# The cosine between a face and the way to the eye from which on it is seen.
_TOWARDS = 0.05


def view_of(outward: Vector) -> View:
    """The view in which a face that looks `outward` is seen: the usual one, if it is seen from there."""
    seen = {id(view): dot(outward, view.towards) for view in (OBLIQUE, OBLIQUE_FROM_LEFT)}
    if seen[id(OBLIQUE)] < _TOWARDS < seen[id(OBLIQUE_FROM_LEFT)]:
        return OBLIQUE_FROM_LEFT
    return OBLIQUE


def hidden_by(
    posed: Posed, to: Face, outward: Vector, seat: Sequence[Vector], plates: Sequence[Plate], view: View
) -> frozenset[str]:
    """The pieces that stand between a seat on a face and the eye, each with all that hangs together with it beside what
    carries the face; none where enough of the seat is seen."""
    if not seat or dot(outward, view.towards) < _TOWARDS:
        return frozenset()
    kept = _carriers(posed, to.piece)
    hiding: set[str] = set()
    spots = list(_spots(seat, outward))
    hidden = 0
    for spot in spots:
        before = {plate.path for plate in plates if plate.path not in kept and _hides(plate, spot, view)}
        hiding |= before
        hidden += bool(before)
    if len(spots) - hidden >= _LEAST_SEEN * len(spots):
        return frozenset()
    return _with_their_own(posed, hiding, kept)


def is_seen(seat: Sequence[Vector], outward: Vector, plates: Sequence[Plate], view: View) -> bool:
    """Whether any of a place on a face is seen past all plates."""
    if dot(outward, view.towards) < _TOWARDS:
        return False
    return not all(any(_hides(plate, spot, view) for plate in plates) for spot in _spots(seat, outward))


def passed_through(
    posed: Posed, to: Face, new: Sequence[Plate], off: Vector, plates: Sequence[Plate]
) -> frozenset[str]:
    """The pieces through which something new would be drawn, or its way into its place, where it stands `off`; told by
    boxes along the directions of space."""
    kept = _carriers(posed, to.piece)
    corners = [corner for plate in new for corner in plate.corners()]
    corners += [plus(corner, off) for corner in corners]
    low, high = _box(corners)
    met = set()
    for plate in plates:
        start, end = _box(plate.corners())
        if plate.path not in kept and all(min(high[at], end[at]) - max(low[at], start[at]) > _ABOVE for at in range(3)):
            met.add(plate.path)
    return _with_their_own(posed, met, kept)


def _box(corners: Iterable[Vector]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    axes = list(zip(*corners, strict=True))
    return tuple(map(min, axes)), tuple(map(max, axes))


def _carriers(posed: Posed, path: str) -> frozenset[str]:
    return frozenset(_up(path, _parents(posed)))


def _parents(posed: Posed) -> dict[str, str]:
    return {child: parent for parent, children in posed.children.items() for child in children}


def _with_their_own(posed: Posed, paths: Iterable[str], kept: frozenset[str]) -> frozenset[str]:
    """Pieces with all that they hang together with, but by what is kept."""
    parents = _parents(posed)
    found: set[str] = set()
    for path in paths:
        top = [one for one in _up(path, parents) if one not in kept][-1]
        waiting = [top]
        while waiting:
            found.add(one := waiting.pop())
            waiting += (child for child in posed.children.get(one, ()) if child not in kept)
    return frozenset(found)


def _up(path: str, parents: dict[str, str]) -> Iterator[str]:
    """A piece and all that carries it."""
    seen: set[str] = set()
    while path not in seen:
        seen.add(path)
        yield path
        path = parents.get(path, path)


def _spots(seat: Sequence[Vector], outward: Vector) -> Iterator[Vector]:
    first, second, _, last = seat
    for a in range(_SPOTS):
        for b in range(_SPOTS):
            across = times(minus(second, first), (a + 0.5) / _SPOTS)
            up = times(minus(last, first), (b + 0.5) / _SPOTS)
            yield plus(plus(first, plus(across, up)), times(outward, _ABOVE))


def _hides(plate: Plate, spot: Vector, view: View) -> bool:
    """Whether the way from a spot to the eye goes through a plate: through its face, and through none of its
    windows."""
    x, y, z = plate.frame.coordinates(spot)
    way = plate.frame.parts(view.towards)
    if abs(way[2]) < _TOWARDS:
        return False
    far = -z / way[2]
    if far <= 0:
        return False
    x, y = x + way[0] * far, y + way[1] * far
    return is_within((ring.spots for ring in plate.rings), x, y)
