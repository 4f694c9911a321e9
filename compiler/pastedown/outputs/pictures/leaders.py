"""Where the line from a name ends: on a spot of the piece that is to be seen, as near to the column of names as can be.

Takes a scene, gives a spot for each name and the side on which the names stand. Afterwards every spot lies inside a
visible face of its piece, clear of all lines, or, where no face is large enough for that, on a visible edge of it, or
on the crease that is named. Of a piece that is new or moves only in part, that part is pointed at.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from pastedown.outputs.pictures.hidden import Hider
from pastedown.outputs.pictures.line_art import Chain, distance_to_line, solid_of
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.solid import Face
from pastedown.outputs.pictures.view import Spot

# On the picture, in millimetres: the end of a leader lies so far from every line; what is shorter is no edge to be
# pointed at if there is a longer one.
_CLEAR = 1.1
_POINTED_AT = 6.0
# A face is tried at so many places each way; of all places of a piece so many are tried. Choices.
_PLACES = 12
_MOST_TRIED = 400
# A way up or down from the middle of a face counts so much of one to the side.
_UP_AND_DOWN = 0.35
# Names stand to the right unless the way to the left is shorter by more than this.
_TO_THE_LEFT = 1.4


@frozen
class Ends:
    """The spot of each name that has one, by its piece, and whether the names stand to the left of the picture."""

    spots: dict[str, Spot]
    to_the_left: bool


def ends_of_leaders(scene: Scene, chains: Sequence[Chain], scale: float, across: tuple[float, float]) -> Ends:
    """`across` is how far the picture reaches, from left to right; `scale` is millimetres on the picture for each of
    the scene."""
    faces, _ = solid_of(scene, scale)
    hider = Hider(faces)
    best: list[tuple[float, bool, dict[str, Spot]]] = []
    for to_the_left, weight in ((False, 1.0), (True, _TO_THE_LEFT)):
        rim = across[0] if to_the_left else across[1]
        spots: dict[str, Spot] = {}
        for path, _ in scene.names:
            found = _inside(path, scene, faces, hider, chains, scale, rim) or _on_an_edge(path, chains, scale, rim)
            if found is not None:
                spots[path] = found
        best.append((weight * sum(abs(spot[0] - rim) for spot in spots.values()), to_the_left, spots))
    _, to_the_left, spots = min(best, key=lambda one: one[:2])
    return Ends(spots, to_the_left)


def _inside(
    path: str, scene: Scene, faces: Sequence[Face], hider: Hider, chains: Sequence[Chain], scale: float, rim: float
) -> Spot | None:
    new = {id(scene.plates[number]) for number in scene.new}
    own = [face for face in faces if face.plate.path == path]
    own = [face for face in own if id(face.plate) in new] or own
    clear = _CLEAR / scale
    tried = sorted(
        (abs(spot[0] - rim) + _UP_AND_DOWN * abs(spot[1] - (face.box[1] + face.box[3]) / 2), spot, number)
        for number, face in enumerate(own)
        for spot in _places(face, clear)
    )
    lines = [chain for chain in chains if chain.kind != "hatch"]
    for _, spot, number in tried[:: -(-len(tried) // _MOST_TRIED) or 1]:
        if own[number].holds(spot) and hider.shows(own[number].seen(spot)) and _is_clear(spot, lines, clear):
            return spot
    return None


def _places(face: Face, clear: float) -> Iterator[Spot]:
    left, low, right, high = face.box
    if min(right - left, high - low) < 2 * clear:
        return
    for column in range(1, _PLACES):
        for row in range(1, _PLACES):
            yield left + (right - left) * column / _PLACES, low + (high - low) * row / _PLACES


def _is_clear(spot: Spot, chains: Sequence[Chain], clear: float) -> bool:
    return not any(
        distance_to_line(spot, one, other) < clear
        for chain in chains
        for one, other in pairwise(chain.spots)
        if min(one[0], other[0]) - clear < spot[0] < max(one[0], other[0]) + clear
    )


def _on_an_edge(path: str, chains: Sequence[Chain], scale: float, rim: float) -> Spot | None:
    """The middle of a line: of what is new, if that is to be seen; then of one that is long enough to be pointed at."""
    best: tuple[bool, bool, float, Spot] | None = None
    for chain in chains:
        if chain.path != path or chain.kind not in ("edge", "new", "creased", "sticky"):
            continue
        for one, other in pairwise(chain.spots):
            middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
            long = ((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5 * scale >= _POINTED_AT
            told = (chain.kind == "new", long, -abs(middle[0] - rim), middle)
            if best is None or told > best:
                best = told
    return best[3] if best else None
