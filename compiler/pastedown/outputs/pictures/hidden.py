"""Hidden lines, worked out by geometry: the stretches of an edge that no face lies in front of.

Each edge is cut where it passes behind the rim of a face and where it comes through its plane; of each stretch between,
the middle tells whether it lies behind. Nothing is painted over and nothing is sorted, so that faces that hide one
another in a ring are drawn right. Sheets that touch lie in one plane to within `TOUCHING`, and do not hide each other's
rims there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pastedown.outputs.pictures.solid import Face
from pastedown.outputs.pictures.view import Seen

# How much nearer to the eye, in millimetres, a face must be to hide what lies behind it.
TOUCHING = 1e-4
_SAME = 1e-9

Stretch = tuple[float, float]


class Hider:
    """All faces of a picture."""

    def __init__(self, faces: Sequence[Face]) -> None:
        self._faces = [(*face.box, face.nearest, face) for face in faces]

    def visible(self, start: Seen, end: Seen) -> list[Stretch]:
        """The stretches that are to be seen, as parts of the way from start to end."""
        (x0, y0, n0), (x1, y1, n1) = start, end
        left, right = (x0, x1) if x0 < x1 else (x1, x0)
        low, high = (y0, y1) if y0 < y1 else (y1, y0)
        least = (n0 if n0 < n1 else n1) + TOUCHING
        hidden: list[Stretch] = []
        for box_left, box_low, box_right, box_high, nearest, face in self._faces:
            if box_left >= right + _SAME or box_right <= left - _SAME or nearest <= least:
                continue
            if box_low >= high + _SAME or box_high <= low - _SAME:
                continue
            hidden.extend(_behind(face, start, end))
        return _rest(hidden)

    def shows(self, spot: Seen) -> bool:
        """Whether nothing lies in front of a spot."""
        return bool(self.visible(spot, spot))


def _behind(face: Face, start: Seen, end: Seen) -> Iterator[Stretch]:
    (x0, y0, n0), (x1, y1, n1) = start, end
    a, b, c = face.nearness
    first, last = a * x0 + b * y0 + c - n0 - TOUCHING, a * x1 + b * y1 + c - n1 - TOUCHING
    if first <= 0 and last <= 0:
        return
    begin, stop = 0.0, 1.0
    if first < 0:
        begin = first / (first - last)
    elif last < 0:
        stop = first / (first - last)
    cuts = [begin, stop, *(at for at in _crossings(face, x0, y0, x1, y1) if begin < at < stop)]
    cuts.sort()
    for one, other in pairwise(cuts):
        if other - one > _SAME:
            middle = (one + other) / 2
            if face.holds((x0 + (x1 - x0) * middle, y0 + (y1 - y0) * middle)):
                yield one, other


def _crossings(face: Face, x0: float, y0: float, x1: float, y1: float) -> Iterator[float]:
    """Where a line crosses the rim of a face or meets a corner of it: an edge that runs along a rim, as a board's does
    below the seam of two panels, goes in and out there without crossing anything."""
    dx, dy = x1 - x0, y1 - y0
    squared = dx * dx + dy * dy
    touching = _SAME * squared**0.5
    for ring in face.rings:
        px, py, _ = ring[-1]
        before = (px - x0) * dy - (py - y0) * dx
        for qx, qy, _ in ring:
            after = (qx - x0) * dy - (qy - y0) * dx
            if -touching <= after <= touching and squared:
                yield ((qx - x0) * dx + (qy - y0) * dy) / squared
            if (before > 0) != (after > 0):
                ex, ey = qx - px, qy - py
                across = dx * ey - dy * ex
                if across:
                    at = ((px - x0) * ey - (py - y0) * ex) / across
                    if 0.0 < at < 1.0:
                        yield at
            px, py, before = qx, qy, after


def _rest(hidden: list[Stretch]) -> list[Stretch]:
    """What is left of the way from 0 to 1."""
    if not hidden:
        return [(0.0, 1.0)]
    found: list[Stretch] = []
    reached = 0.0
    for begin, stop in sorted(hidden):
        if begin > reached + _SAME:
            found.append((reached, begin))
        reached = max(reached, stop)
    if reached < 1.0 - _SAME:
        found.append((reached, 1.0))
    return found
