"""The plates of a piece as triangles with normals, in metres, y upwards."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from attrs import define, field

from pastedown.outputs.model.triangles import triangles_of
from pastedown.outputs.pictures.field_shape import Ring
from pastedown.outputs.pictures.frame import Vector, plus, times
from pastedown.outputs.pictures.plate import Plate

_METRES = 0.001


@define
class Mesh:
    """Corners with a normal each, and triangles, anticlockwise from outside, by the numbers of their corners."""

    positions: list[Vector] = field(factory=list)
    normals: list[Vector] = field(factory=list)
    triangles: list[int] = field(factory=list)

    def add(self, corners: Sequence[Vector], normal: Vector, triangles: Iterable[tuple[int, int, int]]) -> None:
        first = len(self.positions)
        self.positions += corners
        self.normals += [normal] * len(corners)
        self.triangles += [first + number for triangle in triangles for number in triangle]


def mesh_of(plates: Iterable[Plate]) -> Mesh:
    """All plates of a piece as closed bodies. One without a thickness is a face alone, which is seen from both
    sides."""
    mesh = Mesh()
    for plate in plates:
        rings = [ring.spots for ring in plate.rings]
        triangles = triangles_of(rings)
        face = [_place(plate.frame.point(x, y, 0.0)) for ring in rings for x, y in ring]
        back = [_place(plate.frame.point(x, y, -plate.thickness)) for ring in rings for x, y in ring]
        outward = _turned(plate.frame.z)
        mesh.add(face, outward, triangles)
        mesh.add(back, times(outward, -1.0), [(a, c, b) for a, b, c in triangles])
        if plate.thickness:
            for ring in plate.rings:
                _add_sides(mesh, plate, ring)
    return mesh


def _add_sides(mesh: Mesh, plate: Plate, ring: Ring) -> None:
    for (x1, y1), (x2, y2) in zip(ring.spots, (*ring.spots[1:], ring.spots[0]), strict=True):
        length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
        across = ((y2 - y1) / length, (x1 - x2) / length)
        normal = _turned(plus(times(plate.frame.x, across[0]), times(plate.frame.y, across[1])))
        corners = [
            _place(plate.frame.point(x, y, z))
            for x, y, z in ((x1, y1, -plate.thickness), (x2, y2, -plate.thickness), (x2, y2, 0.0), (x1, y1, 0.0))
        ]
        mesh.add(corners, normal, ((0, 1, 2), (0, 2, 3)))


def _place(point: Vector) -> Vector:
    return times(_turned(point), _METRES)


def _turned(v: Vector) -> Vector:
    """What lies on the table with its head away from one, as glTF has it: y upwards, the head towards minus z."""
    return v[0], v[2], -v[1]
