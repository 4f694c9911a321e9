"""The model as glTF, read back by two libraries that know nothing of each other, and held against the places by which
poses are judged here (`tests/geometry/drawn_pose.py`), which are worked out without anything the output uses."""

import json
from collections import Counter
from io import BytesIO
from struct import unpack

import numpy
import pytest
import trimesh
from pygltflib import FLOAT, GLTF2, UNSIGNED_INT

from geometry.drawn_pose import Plate, plates_in
from outputs.sample_plan import sample_plan
from pastedown.outputs.model.triangles import triangles_of
from pastedown.outputs.to_model import make
from test_examples import DESIGNS, made, plan_of

NAMES = [name.removesuffix(".album") for name in DESIGNS]
# Cubic metres in a cubic millimetre, and metres in a millimetre.
CUBIC, METRE = 1e-9, 1e-3
# What lies between sheets lifts the upper one in the model, while the judged places leave it where the join put it.
LIFTED = 4.0


def loaded(data: bytes) -> dict[str, trimesh.Trimesh]:
    """By trimesh: the mesh of each piece where it lies."""
    scene = trimesh.load(BytesIO(data), file_type="glb")
    assert isinstance(scene, trimesh.Scene)
    found = {}
    for node in scene.graph.nodes_geometry:
        transform, name = scene.graph[node]
        found[node] = scene.geometry[name].copy()
        found[node].apply_transform(transform)
    return found


def in_space(spots: list[tuple[float, float, float]]) -> numpy.ndarray:
    """As glTF has it: what stands up along y, the head towards minus z, in metres."""
    x, y, z = numpy.array(spots).T
    return numpy.array([x, z, -y]).T * METRE


def volume(plate: Plate) -> float:
    rings = (plate.outline, *plate.windows)
    areas = []
    for ring in rings:
        spots = numpy.array(ring) - ring[0]
        areas.append(float(numpy.linalg.norm(numpy.cross(spots[:-1], spots[1:]).sum(axis=0))) / 2)
    return (areas[0] - sum(areas[1:])) * plate.thickness * CUBIC


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("pose", ["made-up", "closed"])
def test_volumes_and_extents_are_those_of_the_places_by_which_it_is_judged(name: str, pose: str) -> None:
    design = made(name)
    assert design.model is not None
    wanted = next((one for one in design.model.poses if one.path == pose), None)
    assert (wanted is None) is (pose == "made-up")
    meshes = loaded(make(plan_of(name))[f"model/{pose}.glb"])
    judged: dict[str, list[Plate]] = {}
    for plate in plates_in(design.model, wanted):
        judged.setdefault(plate.piece, []).append(plate)
    root = judged[next(iter(meshes))][0].root
    heap = {piece for piece, plates in judged.items() if plates[0].root == root}
    assert set(meshes) == heap
    corners = {
        piece: in_space([spot for plate in judged[piece] for spot in (*plate.outline, *plate.back)])
        for piece in heap
    }
    over = turned_over(meshes, corners)
    for piece, mesh in meshes.items():
        assert is_closed(mesh), piece
        assert mesh.volume == pytest.approx(sum(map(volume, judged[piece])), rel=1e-4), piece
        low, high = ends(corners[piece] * over)
        assert mesh.bounds[0] == pytest.approx(low, abs=LIFTED * METRE), piece
        assert mesh.bounds[1] == pytest.approx(high, abs=LIFTED * METRE), piece


def is_closed(mesh: trimesh.Trimesh) -> bool:
    """Whether every side of a triangle is run through as often one way as the other, corners in one place being one."""
    _, same = numpy.unique(numpy.round(mesh.vertices / 1e-7).astype(int), axis=0, return_inverse=True)
    corners = same.ravel()[mesh.faces]
    sides = Counter((int(a), int(b)) for face in corners for a, b in zip(face, numpy.roll(face, -1), strict=True))
    return all(sides[b, a] == times for (a, b), times in sides.items())


def turned_over(meshes: dict[str, trimesh.Trimesh], corners: dict[str, numpy.ndarray]) -> numpy.ndarray:
    """Whether the whole lies the other way up, from side to side: the signs that turn one into the other."""
    middle = numpy.mean([mesh.bounds.mean(axis=0) for mesh in meshes.values()], axis=0)
    judged = numpy.mean([numpy.mean(ends(some), axis=0) for some in corners.values()], axis=0)
    return numpy.array([1.0, 1.0, 1.0] if middle[1] * judged[1] > 0 else [-1.0, -1.0, 1.0])


def ends(spots: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
    return spots.min(axis=0), spots.max(axis=0)


@pytest.mark.parametrize("name", ["harbour_walk", "orchard_year_harvest"])
def test_the_other_reader_finds_the_same_names_and_numbers(name: str) -> None:
    plan = plan_of(name)
    for data in make(plan).values():
        gltf = GLTF2.load_from_bytes(data)
        assert gltf.asset.version == "2.0"
        (root,) = gltf.scenes[gltf.scene].nodes
        parts = [gltf.nodes[number] for number in gltf.nodes[root].children]
        of_parts = {piece.part or plan.name for piece in plan.space.pieces}
        assert {part.name for part in parts} <= of_parts
        pieces = [gltf.nodes[number] for part in parts for number in part.children]
        meshes = loaded(data)
        assert {piece.name for piece in pieces} == set(meshes)
        blob = gltf.binary_blob()
        for piece in pieces:
            (primitive,) = gltf.meshes[piece.mesh].primitives
            spots = numbers(gltf, blob, primitive.attributes.POSITION).reshape(-1, 3)
            normals = numbers(gltf, blob, primitive.attributes.NORMAL).reshape(-1, 3)
            corners = numbers(gltf, blob, primitive.indices).reshape(-1, 3)
            assert numpy.linalg.norm(normals, axis=1) == pytest.approx(numpy.ones(len(normals)), abs=1e-5)
            assert corners.max() == len(spots) - 1
            accessor = gltf.accessors[primitive.attributes.POSITION]
            assert accessor.min == list(spots.min(axis=0)) and accessor.max == list(spots.max(axis=0))
            assert spots.min(axis=0) == pytest.approx(meshes[piece.name].bounds[0])
            one, other, third = (spots[corners[:, at]] for at in range(3))
            inside_out = numpy.einsum("ij,ij->i", numpy.cross(other - one, third - one), normals[corners[:, 0]]) < -1e-12
            assert not inside_out.any(), "triangles run anticlockwise as seen from outside"


def numbers(gltf: GLTF2, blob: bytes, number: int) -> numpy.ndarray:
    accessor = gltf.accessors[number]
    view = gltf.bufferViews[accessor.bufferView]
    assert view.byteOffset % 4 == 0
    kind = {FLOAT: "<f4", UNSIGNED_INT: "<u4"}[accessor.componentType]
    count = accessor.count * {"SCALAR": 1, "VEC3": 3}[accessor.type]
    return numpy.frombuffer(blob, dtype=kind, count=count, offset=view.byteOffset)


def test_metres_and_y_upwards() -> None:
    """By hand: the covers of the almanac are boards of 216 by 297 - 2 x 12 + 2 x 3 mm, 2 mm thick, and lie flat made
    up; its pages, 210 mm from the mouth to the fore edge, stand on the hinge."""
    meshes = loaded(make(plan_of("almanac"))["model/made-up.glb"])
    assert meshes["case.front_cover"].extents == pytest.approx([0.216, 0.002, 0.291], abs=1e-6)
    assert meshes["page[2].front_sheet"].extents[1] == pytest.approx(0.210, abs=1e-6)
    assert meshes["page[2].front_sheet"].bounds[0][1] > 0


def test_both_chunks_end_on_a_multiple_of_four_bytes() -> None:
    for data in make(sample_plan()).values():
        magic, version, length = unpack("<4sII", data[:12])
        assert (magic, version, length) == (b"glTF", 2, len(data))
        size, kind = unpack("<I4s", data[12:20])
        assert kind == b"JSON" and size % 4 == 0 and json.loads(data[20 : 20 + size])
        if len(data) > 20 + size:
            size_of_numbers, kind = unpack("<I4s", data[20 + size : 28 + size])
            assert kind == b"BIN\0" and size_of_numbers % 4 == 0 and len(data) == 28 + size + size_of_numbers


@pytest.mark.parametrize("seed", range(20))
def test_a_shape_with_openings_is_covered_once(seed: int) -> None:
    """The triangles have the area of the shape together, and none of them is turned over: so they cover it once."""
    chance = numpy.random.default_rng(seed)
    count = int(chance.integers(5, 30))
    angles = numpy.linspace(0, 2 * numpy.pi, count, endpoint=False)
    reach = chance.uniform(40, 100, count)
    outer = [(float(r * numpy.cos(a)), float(r * numpy.sin(a))) for r, a in zip(reach, angles, strict=True)]
    middles = [(-6.0, -6.0), (6.0, -6.0), (6.0, 6.0), (-6.0, 6.0)][: int(chance.integers(0, 5))]
    openings = [[(x - 2, y - 2), (x - 2, y + 2), (x + 2, y + 2), (x + 2, y - 2)] for x, y in middles]
    spots = [spot for ring in (outer, *openings) for spot in ring]
    areas = [area([spots[number] for number in triangle]) for triangle in triangles_of([outer, *openings])]
    assert min(areas) > -1e-9
    assert sum(areas) == pytest.approx(area(outer) - 16 * len(openings))


def area(spots: list[tuple[float, float]]) -> float:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(spots, [*spots[1:], spots[0]], strict=True)) / 2
