"""The names of a flat piece's edges and the arrow along its grain.

Two edges are named with the sizes measured along them, below and to the left of the piece; the other two, above it and
to its right, are named here.
"""

from __future__ import annotations

from collections.abc import Sequence

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.lettering import SIZE
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.scene import EdgeName, Scene
from pastedown.outputs.pictures.view import OBLIQUE, Spot, View, is_within
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.plan.plan import CutPiece

# In millimetres of the picture: a name stands so far above an edge, or to its right: clear of a slanting line.
_ABOVE, _BESIDE = 1.8, 4.0
# The arrow is so long, in parts of its side, and lies at the first of these places across that is clear.
_LENGTH = 0.5
_ACROSS = (0.5, 0.36, 0.64, 0.22, 0.78, 0.12, 0.88)
# In parts of the side across: lines along the arrow keep off so far.
_CLEAR = 0.04
_LOOKS = 10
# In millimetres of the picture: of a longer name the beginning is written.
_LONGEST = 30.0


def edge_names(cut: CutPiece, plates: Sequence[Plate], view: View, on_back: bool = False) -> tuple[EdgeName, ...]:
    """The far edge and the one on the right, as a piece lies flat in a view, its face up or its back."""
    if not plates:
        return ()
    frame = plates[0].frame
    width, height = float(cut.width.millimetres), float(cut.height.millimetres)
    head = frame.point(width / 2, height, 0.0)
    if view is OBLIQUE:
        x, right = (0.0, cut.left) if on_back else (width, cut.right)
        return EdgeName(head, "head", True), EdgeName(frame.point(x, height / 2, 0.0), short_name(right), False)
    return EdgeName(frame.point(0.0, height / 2, 0.0), short_name(cut.left), True), EdgeName(head, "head", False)


def short_name(edge: str) -> str:
    """The name of an edge, as much of it as there is room for."""
    return shortened(edge, SIZE, _LONGEST)


def ends_right(scene: Scene, scale: float) -> float:
    """How far to the right the names of edges reach, in millimetres of the picture from the scene's own origin."""
    ends = []
    for each in scene.edges:
        x, width = scene.view.seen(each.at)[0] * scale, width_of(each.text, SIZE)
        ends.append(x + (width / 2 if each.above else _BESIDE + width))
    return max(ends)


def written_beside(each: EdgeName, spot: Spot) -> Words:
    """A name beside the middle of its edge, at a spot of the picture."""
    if each.above:
        return Words(each.text, spot[0], spot[1] - _ABOVE, SIZE, "middle")
    return Words(each.text, spot[0] + _BESIDE, spot[1] + SIZE * 0.35, SIZE)


def grain_arrow(cut: CutPiece, plates: Sequence[Plate]) -> tuple[Vector, ...]:
    """The ends of an arrow along the grain on a flat piece, clear of windows and of lines along it; none where the
    grain may run either way, or where nothing is clear."""
    if cut.grain_as_cut not in ("height", "width") or not plates:
        return ()
    along_height = cut.grain_as_cut == "height"
    width, height = float(cut.width.millimetres), float(cut.height.millimetres)
    side, across = (height, width) if along_height else (width, height)
    strips = plates[0].piece.columns if along_height else plates[0].piece.rows
    # What is creased only once it lies in its place is not drawn on the flat piece.
    told = zip(strips.strips, strips.lines, strict=False)
    lines = [float(strip.end) / across for strip, line in told if line.kind in ("valley", "mountain", "mark")]
    for place in _ACROSS:
        spots = [side * (0.5 + _LENGTH * (part / _LOOKS - 0.5)) for part in range(_LOOKS + 1)]
        places = [(place * across, at) if along_height else (at, place * across) for at in spots]
        if all(abs(place - line) > _CLEAR for line in lines) and all(_is_on(plates, *one) for one in places):
            frame = plates[0].frame
            return frame.point(*places[0], 0.0), frame.point(*places[-1], 0.0)
    return ()


def _is_on(plates: Sequence[Plate], x: float, y: float) -> bool:
    return any(is_within((ring.spots for ring in plate.rings), x, y) for plate in plates)
