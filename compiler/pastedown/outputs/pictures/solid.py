"""A plate as faces and edges in a view.

Only faces that look towards the eye can hide anything: a ray from behind a closed body to the eye leaves it through
such a face. An edge between two faces that look away lies behind its own body and is left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from pastedown.outputs.pictures.field_shape import CUT, Ring
from pastedown.outputs.pictures.frame import Vector, dot, plus, times
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.view import Seen, Spot, View, is_within

# A side that looks less towards the eye is seen edge on.
_EDGE_ON = 1e-6
# Edges between sides that turn less are the chords of one round cut: cosine of fifteen degrees.
_SMOOTH = 0.966


@frozen(eq=False)
class Face:
    """A flat face that looks towards the eye: its rings on the picture, and its nearness as a x + b y + c."""

    plate: Plate
    rings: tuple[tuple[Seen, ...], ...]
    nearness: tuple[float, float, float]
    box: tuple[float, float, float, float]
    nearest: float
    is_broad: bool

    def holds(self, spot: Spot) -> bool:
        """Whether a spot of the picture lies within the rim and in no hole."""
        return is_within(self.rings, *spot)

    def seen(self, spot: Spot) -> Seen:
        """A spot of the picture, with how near the face is there."""
        a, b, c = self.nearness
        return spot[0], spot[1], a * spot[0] + b * spot[1] + c


@frozen(eq=False)
class FlatFace:
    """A flat place on a face that hides nothing: its rings on the picture, and its nearness as a x + b y + c."""

    rings: tuple[tuple[Seen, ...], ...]
    nearness: tuple[float, float, float]


@frozen(eq=False)
class Edge:
    """A straight edge. `kind` is "edge", or the kind of the line that is folded there, as seen from this side; `line`
    is its name."""

    plate: Plate
    start: Seen
    end: Seen
    kind: str
    line: str = ""


def faces_and_edges(plate: Plate, view: View, thin: float) -> tuple[list[Face], list[Edge]]:
    """What can be seen of a plate. One thinner than `thin` shows its broad side alone, unless that is seen edge on."""
    towards = dot(plate.frame.z, view.towards) / dot(view.towards, view.towards) ** 0.5
    broad = abs(towards) > _EDGE_ON
    faces: list[Face] = []
    edges: list[Edge] = []
    top = [_ring(ring, plate, view, 0.0) for ring in plate.rings]
    below = [_ring(ring, plate, view, -plate.thickness) for ring in plate.rings]
    sides = [_sides(ring, plate, view) for ring in plate.rings]
    near, far = (top, below) if towards > 0 else (below, top)
    if broad:
        face = _face(plate, near, True)
        faces += [face] if face is not None else []
    thick = plate.thickness > 0 and (plate.thickness >= thin or not broad)
    for ring, upper, lower, turned in zip(plate.rings, near, far, sides, strict=True):
        count = len(ring.spots)
        for number in range(count):
            after = (number + 1) % count
            kind, line = _kind(plate, ring.kinds[number], towards > 0)
            open_side = ring.kinds[number] == CUT or not plate.beside[ring.kinds[number]][1]
            shown = thick and open_side and turned[number] > _EDGE_ON
            if kind and (broad or shown):
                edges.append(Edge(plate, upper[number], upper[after], kind, line))
            if shown:
                side = _face(plate, [(upper[number], upper[after], lower[after], lower[number])], False)
                faces += [side] if side is not None else []
                edges.append(Edge(plate, lower[number], lower[after], "edge"))
            elif thick and not broad and open_side and turned[number] >= -_EDGE_ON and kind:
                edges.append(Edge(plate, lower[number], lower[after], "edge"))
        if thick:
            edges += _upright(plate, ring, turned, upper, lower)
    return faces, edges


def _ring(ring: Ring, plate: Plate, view: View, height: float) -> tuple[Seen, ...]:
    return tuple(view.seen(plate.frame.point(x, y, height)) for x, y in ring.spots)


def _sides(ring: Ring, plate: Plate, view: View) -> list[float]:
    """How far each side looks towards the eye: 1 for straight towards it, less than nought for away."""
    length = dot(view.towards, view.towards) ** 0.5
    found = []
    for outward in _outwards(ring):
        way = plus(times(plate.frame.x, outward[0]), times(plate.frame.y, outward[1]))
        found.append(dot(way, view.towards) / length)
    return found


def _outwards(ring: Ring) -> Iterator[Vector]:
    for (x1, y1), (x2, y2) in zip(ring.spots, (*ring.spots[1:], ring.spots[0]), strict=True):
        length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        yield ((y2 - y1) / length, (x1 - x2) / length, 0.0)


def _upright(
    plate: Plate, ring: Ring, turned: list[float], upper: tuple[Seen, ...], lower: tuple[Seen, ...]
) -> Iterator[Edge]:
    """The short edges through the thickness: where two sides meet at an angle, or one looks away."""
    outwards = list(_outwards(ring))
    for number in range(len(ring.spots)):
        before = number - 1
        flat = [side for side in (ring.kinds[before], ring.kinds[number]) if side != CUT and plate.beside[side][1]]
        if flat or max(turned[before], turned[number]) <= _EDGE_ON:
            continue
        sharp = dot(outwards[before], outwards[number]) < _SMOOTH
        if sharp or min(turned[before], turned[number]) <= _EDGE_ON:
            yield Edge(plate, upper[number], lower[number], "edge")


_SEEN_FROM_BEHIND = {"valley": "mountain", "mountain": "valley"}


def _kind(plate: Plate, side: str, from_face: bool) -> tuple[str, str]:
    """The kind of an edge and the name of its line; "" for one that is not drawn, or by the plate beyond it."""
    if side == CUT:
        return "edge", ""
    line, is_flat = plate.beside[side]
    if not is_flat:
        return "edge", line.name
    if side in ("left", "tail"):
        return "", ""
    return (line.kind if from_face else _SEEN_FROM_BEHIND.get(line.kind, line.kind)), line.name


def _face(plate: Plate, rings: Sequence[tuple[Seen, ...]], is_broad: bool) -> Face | None:
    """The face; None where it is seen edge on, so that it hides nothing."""
    plane = _plane(rings[0])
    if plane is None:
        return None
    xs, ys = [spot[0] for spot in rings[0]], [spot[1] for spot in rings[0]]
    box = (min(xs), min(ys), max(xs), max(ys))
    return Face(plate, tuple(rings), plane, box, max(spot[2] for spot in rings[0]), is_broad)


def flat_face(ring: Sequence[Seen]) -> FlatFace | None:
    """The place within a ring; None where it is seen edge on."""
    plane = _plane(tuple(ring))
    return None if plane is None else FlatFace((tuple(ring),), plane)


def _plane(ring: tuple[Seen, ...]) -> tuple[float, float, float] | None:
    """Nearness over the picture, by the sum of all triangles of the ring (Newell's method)."""
    a = b = c = 0.0
    for (x1, y1, n1), (x2, y2, n2) in zip(ring, (*ring[1:], ring[0]), strict=True):
        a += (y1 - y2) * (n1 + n2)
        b += (n1 - n2) * (x1 + x2)
        c += (x1 - x2) * (y1 + y2)
    if abs(c) < 1e-9:
        return None
    count = len(ring)
    x, y, n = (sum(spot[at] for spot in ring) / count for at in range(3))
    p, q = -a / c, -b / c
    return p, q, n - p * x - q * y
