"""Meshes written as glTF 2.0 binary (Khronos, glTF 2.0 specification, sections 3.6, 3.7 and 4.4).

Takes nodes with meshes, gives bytes. Afterwards every accessor starts on a multiple of four bytes and says its least
and its most, and both chunks are padded to four bytes: the text with blanks, the numbers with noughts.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from struct import pack, unpack

from attrs import frozen

from pastedown.outputs.model.mesh import Mesh

_MAGIC, _VERSION = 0x46546C67, 2
_JSON, _BIN = 0x4E4F534A, 0x004E4942
_FLOAT, _UNSIGNED_INT = 5126, 5125
_VERTICES, _ELEMENTS = 34962, 34963


@frozen(eq=False)
class Body:
    """A piece: its name, what it is made of, and its mesh."""

    name: str
    material: str
    mesh: Mesh


@frozen(eq=False)
class Group:
    """A part with its pieces."""

    name: str
    bodies: tuple[Body, ...]


def glb_of(title: str, groups: Sequence[Group], colours: Mapping[str, tuple[float, float, float]]) -> bytes:
    """The model. `colours` are linear red, green and blue of each material."""
    materials = list(dict.fromkeys(body.material for group in groups for body in group.bodies))
    data = _Data()
    meshes: list[object] = []
    nodes: list[dict[str, object]] = [{"name": title}]
    for group in groups:
        own = len(nodes)
        nodes.append({"name": group.name})
        _child(nodes[0], own)
        for body in group.bodies:
            if body.mesh.triangles:
                _child(nodes[own], len(nodes))
                nodes.append({"name": body.name, "mesh": len(meshes)})
                meshes.append({"name": body.name, "primitives": [data.primitive(body, materials)]})
    described: dict[str, object] = {
        "asset": {"version": "2.0", "generator": "pastedown"},
        "scene": 0,
        "scenes": [{"name": title, "nodes": [0]}],
        "nodes": nodes,
    }
    if meshes:
        described |= {
            "meshes": meshes,
            "materials": [_material(name, colours[name]) for name in materials],
            "accessors": data.accessors,
            "bufferViews": data.views,
            "buffers": [{"byteLength": len(data.bytes)}],
        }
    text = json.dumps(described, ensure_ascii=True, separators=(",", ":")).encode("ascii")
    chunks = _chunk(_JSON, text, b" ") + (_chunk(_BIN, bytes(data.bytes), b"\0") if meshes else b"")
    return pack("<III", _MAGIC, _VERSION, 12 + len(chunks)) + chunks


def _child(node: dict[str, object], number: int) -> None:
    children = node.setdefault("children", [])
    assert isinstance(children, list)
    children.append(number)


def _material(name: str, colour: tuple[float, float, float]) -> dict[str, object]:
    return {
        "name": name,
        "pbrMetallicRoughness": {"baseColorFactor": [*colour, 1.0], "metallicFactor": 0.0, "roughnessFactor": 0.9},
    }


def _chunk(kind: int, data: bytes, padding: bytes) -> bytes:
    data += padding * (-len(data) % 4)
    return pack("<II", len(data), kind) + data


class _Data:
    """The numbers of all meshes, one after the other."""

    def __init__(self) -> None:
        self.bytes = bytearray()
        self.views: list[object] = []
        self.accessors: list[object] = []

    def primitive(self, body: Body, materials: Sequence[str]) -> dict[str, object]:
        mesh = body.mesh
        return {
            "attributes": {
                "POSITION": self._vectors(mesh.positions),
                "NORMAL": self._vectors(mesh.normals),
            },
            "indices": self._numbers(mesh.triangles),
            "material": materials.index(body.material),
            "mode": 4,
        }

    def _vectors(self, vectors: Sequence[tuple[float, float, float]]) -> int:
        flat = [number + 0.0 for vector in vectors for number in vector]
        rounded = _as_single(flat)
        least = [min(rounded[at::3]) for at in range(3)]
        most = [max(rounded[at::3]) for at in range(3)]
        view = self._view(pack(f"<{len(flat)}f", *flat), _VERTICES)
        return self._accessor(view, _FLOAT, len(vectors), "VEC3", least, most)

    def _numbers(self, numbers: Sequence[int]) -> int:
        view = self._view(pack(f"<{len(numbers)}I", *numbers), _ELEMENTS)
        return self._accessor(view, _UNSIGNED_INT, len(numbers), "SCALAR", [min(numbers)], [max(numbers)])

    def _view(self, data: bytes, target: int) -> int:
        self.views.append({"buffer": 0, "byteOffset": len(self.bytes), "byteLength": len(data), "target": target})
        self.bytes += data + b"\0" * (-len(data) % 4)
        return len(self.views) - 1

    def _accessor(
        self, view: int, kind: int, count: int, shape: str, least: Sequence[float], most: Sequence[float]
    ) -> int:
        self.accessors.append(
            {
                "bufferView": view,
                "componentType": kind,
                "count": count,
                "type": shape,
                "min": list(least),
                "max": list(most),
            }
        )
        return len(self.accessors) - 1


def _as_single(numbers: Sequence[float]) -> list[float]:
    """The numbers as they are read back in single precision: the least and the most have to be those."""
    return list(unpack(f"<{len(numbers)}f", pack(f"<{len(numbers)}f", *numbers)))
