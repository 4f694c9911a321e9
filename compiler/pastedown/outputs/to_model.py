"""The design in three dimensions as glTF 2.0 binary, for any viewer: made up, and in its own poses."""

from collections.abc import Iterator

from pastedown.outputs.model.glb import Body, Group, glb_of
from pastedown.outputs.model.mesh import mesh_of
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.whole_scenes import whole_poses
from pastedown.outputs.pictures.workshop import Workshop, workshop_of
from pastedown.outputs.safe_text import plain
from pastedown.plan.plan import Plan

FOLDER = "model"
# Linear red, green and blue of each kind of stock: chosen to tell them apart on a screen, no source.
_COLOURS = {
    "board": (0.33, 0.31, 0.28), "card": (0.62, 0.45, 0.28), "paper": (0.80, 0.74, 0.62), "cloth": (0.20, 0.28, 0.40),
    "tape": (0.24, 0.16, 0.12), "print": (0.85, 0.85, 0.88), "magnet": (0.10, 0.10, 0.11), "ribbon": (0.45, 0.12, 0.14),
}  # fmt: skip
_OTHER = (0.60, 0.60, 0.60)


def make(plan: Plan) -> dict[str, bytes]:
    """model/made-up.glb, and model/<pose>.glb for the design's own poses in which every sheet has its place;
    where poses are asked for, model/<pose>.glb for these alone."""
    workshop = workshop_of(plan)
    return {
        f"{FOLDER}/{whole.name}.glb": _glb(workshop, whole.words, whole.posed, whole.pieces)
        for whole in whole_poses(workshop)
    }


def _glb(workshop: Workshop, words: str, posed: Posed, pieces: list[str]) -> bytes:
    kinds = {piece.stock_kind for piece in workshop.plan.space.pieces}
    colours = {kind: _COLOURS.get(kind, _OTHER) for kind in kinds}
    title = plain(f"{workshop.plan.title}: {words}")
    return glb_of(title, list(_groups(workshop, posed, pieces)), colours)


def _groups(workshop: Workshop, posed: Posed, pieces: list[str]) -> Iterator[Group]:
    """The parts in the order of their paths, each with its pieces."""
    there = set(pieces)
    parts: dict[str, list[str]] = {}
    for piece in workshop.plan.space.pieces:
        if piece.path in there:
            parts.setdefault(piece.part, []).append(piece.path)
    for part, paths in parts.items():
        bodies = (
            Body(path, workshop.pieces[path].stock_kind, mesh_of(workshop.plates(posed, [path]))) for path in paths
        )
        yield Group(part or workshop.plan.name, tuple(bodies))
