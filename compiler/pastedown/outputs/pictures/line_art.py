"""The visible lines of a scene, each with what it stands for, in millimetres of the scene, y upwards.

Takes a scene and the scale it will be drawn in; gives chains of spots. Afterwards no chain runs behind a face.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot, sqrt

from attrs import evolve, frozen

from pastedown.outputs.pictures.hidden import Hider
from pastedown.outputs.pictures.scene import STICKY, Scene
from pastedown.outputs.pictures.solid import Edge, Face, FlatFace, faces_and_edges, flat_face
from pastedown.outputs.pictures.view import Seen, Spot

# On the picture, in millimetres: a plate that looks thinner shows one line for both its rims; what is shorter is no
# line; lines of a hatching lie so far apart.
_THIN = 0.35
_SHORTEST = 0.2
_HATCH, _TAPE = 2.2, 1.3
# A fold so near to an edge along all its length is not to be told from it, nor a stub so short from anything.
_COVERED, _STUB = 0.5, 2.0
# Two lines of one fold, one for each plate beside it, lie no further apart than this.
_TWICE = 0.35
_FOLDS = ("valley", "mountain", "mark", "crease")
# Beyond so many lines a hatching is coarser.
_MOST_HATCHES = 120
# Across the edges that recede, which rise to the right.
_SLANT = (1 / sqrt(2), -1 / sqrt(2))
_SAME = 1e-6
# A seat is drawn so far above the face it lies on, in millimetres of the scene.
_ABOVE = 0.01


@frozen
class Chain:
    """Visible spots joined by straight lines. `kind` is "edge", "new", "hatch", "guide", "seat", or the kind of a
    line; `path` the piece it belongs to, or the name of a line that is creased now."""

    kind: str
    path: str
    spots: tuple[Spot, ...]


def visible_lines(scene: Scene, scale: float) -> list[Chain]:
    """`scale` is millimetres on the picture for each of the scene."""
    faces, edges = solid_of(scene, scale)
    hider = Hider(faces)
    shortest = _SHORTEST / scale
    chains = list(_told_apart(list(_chained(_edges(edges, scene), hider, shortest)), scale))
    new = {id(scene.plates[number]) for number in scene.new}
    for face in faces:
        if face.is_broad and id(face.plate) in new:
            chains += _hatching(face, hider, _HATCH / scale, shortest)
    for outline in scene.sticky:
        patch = flat_face([_above(scene.view.seen(corner)) for corner in outline])
        if patch is not None:
            chains += _hatching(patch, hider, _TAPE / scale, shortest, "sticky")
    chains += _chained(_guides(scene), hider, shortest)
    for outline in scene.inside:
        chains.append(Chain("guide", "", tuple(scene.view.seen(corner)[:2] for corner in (*outline, outline[0]))))
    return chains


def solid_of(scene: Scene, scale: float) -> tuple[list[Face], list[tuple[Edge, bool]]]:
    """The faces of a scene that can be seen, and the edges, each with whether it is of something new."""
    faces: list[Face] = []
    edges: list[tuple[Edge, bool]] = []
    for number, plate in enumerate(scene.plates):
        own_faces, own_edges = faces_and_edges(plate, scene.view, _THIN / scale)
        faces += own_faces
        edges += [(edge, number in scene.new) for edge in own_edges]
    return faces, edges


_Line = tuple[str, str, Seen, Seen]


def _edges(edges: Iterable[tuple[Edge, bool]], scene: Scene) -> Iterator[_Line]:
    for edge, is_new in edges:
        kind = edge.kind
        if kind == "edge" and edge.line and edge.plate.path in scene.lines_on:
            kind = _line_kind(edge)
        if kind in _FOLDS and not _is_shown(edge, kind, scene):
            continue
        if kind == "crease" and edge.line in scene.creased:
            yield "creased", edge.line, edge.start, edge.end
            continue
        yield ("new" if is_new and kind == "edge" else kind), edge.plate.path, edge.start, edge.end


def _line_kind(edge: Edge) -> str:
    """The kind of a line that is turned, as it lies in the flat piece."""
    for line, _ in edge.plate.beside.values():
        if line.name == edge.line and line.kind:
            return line.kind
    return "edge"


def _is_shown(edge: Edge, kind: str, scene: Scene) -> bool:
    if kind == "crease":
        return edge.line in scene.lines
    return kind in scene.lines


def _chained(lines: Iterable[_Line], hider: Hider, shortest: float) -> Iterator[Chain]:
    """The visible stretches, those that go on from one another joined into one chain."""
    kind, path = "", ""
    spots: list[Spot] = []
    for this, own, start, end in lines:
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = sqrt(dx * dx + dy * dy)
        if length < _SAME:
            continue
        for begin, stop in hider.visible(start, end):
            if (stop - begin) * length < shortest and (begin > 0 or stop < 1):
                continue
            one = (start[0] + dx * begin, start[1] + dy * begin)
            other = (start[0] + dx * stop, start[1] + dy * stop)
            if spots and (this, own) == (kind, path) and _near(spots[-1], one):
                spots.append(other)
                continue
            if spots:
                yield Chain(kind, path, tuple(spots))
            kind, path, spots = this, own, [one, other]
    if spots:
        yield Chain(kind, path, tuple(spots))


def _told_apart(chains: Sequence[Chain], scale: float) -> Iterator[Chain]:
    """The chains without stubs of folds, and without those folds that an edge runs along. Of a fold that both its
    plates show, one line is kept: the dashes of two would fill one another's gaps."""
    covered, twice, stub = _COVERED / scale, _TWICE / scale, _STUB / scale
    edges = [pair for chain in chains if chain.kind in ("edge", "new") for pair in pairwise(chain.spots)]
    yield from (chain for chain in chains if chain.kind not in _FOLDS)
    folds: dict[tuple[str, str], list[tuple[Spot, Spot]]] = {}
    for chain in sorted((chain for chain in chains if chain.kind in _FOLDS), key=lambda one: -_length(one.spots)):
        drawn = folds.setdefault((chain.kind, chain.path), [])
        for spots in _uncovered(chain.spots, edges, covered):
            # A crease made in place is shown by one plate alone, and another may lie close by it.
            for rest in _uncovered(spots, drawn, twice) if chain.kind != "crease" else (spots,):
                # A chain may come back to where it began, so its length tells, not how far its ends are apart.
                if _length(rest) >= stub:
                    drawn += pairwise(rest)
                    yield evolve(chain, spots=rest)


def _length(spots: Sequence[Spot]) -> float:
    return round(sum(hypot(one[0] - other[0], one[1] - other[1]) for one, other in pairwise(spots)), 6)


def _uncovered(
    spots: Sequence[Spot], edges: Sequence[tuple[Spot, Spot]], covered: float
) -> Iterator[tuple[Spot, ...]]:
    """The stretches of a chain along which no edge runs."""
    kept: list[Spot] = []
    for pair in pairwise(spots):
        if any(all(distance_to_line(end, one, other) < covered for end in pair) for one, other in edges):
            if kept:
                yield tuple(kept)
            kept = []
        else:
            kept = [*kept, pair[1]] if kept else [*pair]
    if kept:
        yield tuple(kept)


def distance_to_line(spot: Spot, one: Spot, other: Spot) -> float:
    """From a spot to a straight line between two."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    length = dx * dx + dy * dy
    at = ((spot[0] - one[0]) * dx + (spot[1] - one[1]) * dy) / length if length else 0.0
    at = min(max(at, 0.0), 1.0)
    return float(((one[0] + dx * at - spot[0]) ** 2 + (one[1] + dy * at - spot[1]) ** 2) ** 0.5)


def _near(one: Spot, other: Spot) -> bool:
    return abs(one[0] - other[0]) < _SAME and abs(one[1] - other[1]) < _SAME


def _hatching(
    face: Face | FlatFace, hider: Hider, apart: float, shortest: float, kind: str = "hatch"
) -> Iterator[Chain]:
    """Slanting lines over the visible part of a face; those of tape slant the other way."""
    slant = _SLANT if kind == "hatch" else (_SLANT[0], -_SLANT[1])
    path = face.plate.path if isinstance(face, Face) else STICKY
    across = (-slant[1], slant[0])
    places = [x * across[0] + y * across[1] for x, y, _ in face.rings[0]]
    low, high = min(places), max(places)
    apart = max(apart, (high - low) / _MOST_HATCHES)
    a, b, c = face.nearness
    at = (int(low / apart) + (1 if low > 0 else 0)) * apart
    while at < high:
        cuts = sorted(_cuts(face, across, slant, at))
        for one, other in zip(cuts[::2], cuts[1::2], strict=False):
            ends = [(across[0] * at + slant[0] * along, across[1] * at + slant[1] * along) for along in (one, other)]
            start, end = ((x, y, a * x + b * y + c) for x, y in ends)
            yield from _chained([(kind, path, start, end)], hider, shortest)
        at += apart


def _cuts(face: Face | FlatFace, across: Spot, slant: Spot, at: float) -> Iterator[float]:
    for ring in face.rings:
        for (x1, y1, _), (x2, y2, _) in pairwise((*ring, ring[0])):
            one, other = x1 * across[0] + y1 * across[1] - at, x2 * across[0] + y2 * across[1] - at
            if (one > 0) != (other > 0):
                part = one / (one - other)
                yield (x1 + (x2 - x1) * part) * slant[0] + (y1 + (y2 - y1) * part) * slant[1]


def _above(at: Seen) -> Seen:
    return at[0], at[1], at[2] + _ABOVE


def _guides(scene: Scene) -> Iterator[_Line]:
    view = scene.view
    for start, end in scene.guides:
        yield "guide", "", view.seen(start), view.seen(end)
    for seat in scene.seats:
        spots = [view.seen(corner) for corner in seat]
        for one, other in pairwise((*spots, spots[0])):
            yield "guide", "", _above(one), _above(other)
