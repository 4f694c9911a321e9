"""Frames at any angle: what `frame.py` is for exact ones, in floating point, for drawings and never for a verdict.

The coordinates are the same: x from the left edge, y from the tail, z out of the face, which lies at z = 0, all in
millimetres.
"""

from __future__ import annotations

from math import cos, pi, sin

from attrs import frozen

from pastedown.geometry.frame import Frame, along, cosine

Spot = tuple[float, float, float]
# The angles at which a cosine and a sine are whole numbers.
_WHOLE = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}


@frozen
class SwungFrame:
    """`origin` is where the corner of tail and left edge lies on the face; `x`, `y` and `z`, each one long, are where
    the piece's own directions point."""

    origin: Spot
    x: Spot
    y: Spot
    z: Spot

    def point(self, x: float, y: float, z: float) -> Spot:
        """Where a point of the piece lies."""
        return _sum(self.origin, _sum(_times(self.x, x), _sum(_times(self.y, y), _times(self.z, z))))

    def turned(self, axis: str, at: float, height: float, onward: int, rise: int, degrees: float) -> SwungFrame:
        """The frame beyond a fold across `axis`, as `Frame.turned` has it, turned by so many degrees: nought is flat,
        180 shut."""
        lengthwise = self.x if axis == "width" else self.y
        c, s = _cosine_and_sine(degrees)
        s *= onward * rise
        new_lengthwise = _sum(_times(lengthwise, c), _times(self.z, s))
        new_z = _sum(_times(self.z, c), _times(lengthwise, -s))
        # The points of the fold itself stay where they are.
        origin = _sum(self.origin, _sum(_times(lengthwise, at), _times(self.z, height)))
        origin = _sum(origin, _sum(_times(new_lengthwise, -at), _times(new_z, -height)))
        if axis == "width":
            return SwungFrame(origin, new_lengthwise, self.y, new_z)
        return SwungFrame(origin, self.x, new_lengthwise, new_z)


def swung(frame: Frame) -> SwungFrame:
    """An exact frame in floating point."""
    x, y, z = frame.origin
    return SwungFrame((float(x), float(y), float(z)), _floats(frame.x), _floats(frame.y), _floats(frame.z))


def taken_along(frame: Frame, before: Frame, after: SwungFrame) -> SwungFrame:
    """Where a frame goes that keeps its place by another one, which goes from `before` to `after`."""
    axes = (before.x, before.y, before.z)
    at = [float(along(frame.origin, own) - along(before.origin, own)) for own in axes]
    nowhere = SwungFrame((0.0, 0.0, 0.0), after.x, after.y, after.z)
    directions = [nowhere.point(*(float(cosine(own, axis)) for axis in axes)) for own in (frame.x, frame.y, frame.z)]
    return SwungFrame(after.point(at[0], at[1], at[2]), *directions)


def _cosine_and_sine(degrees: float) -> tuple[float, float]:
    turn = degrees % 360
    if turn in _WHOLE:
        return _WHOLE[turn]
    return cos(turn * pi / 180), sin(turn * pi / 180)


def _floats(direction: tuple[int, int, int]) -> Spot:
    return float(direction[0]), float(direction[1]), float(direction[2])


def _times(spot: Spot, by: float) -> Spot:
    return spot[0] * by, spot[1] * by, spot[2] * by


def _sum(one: Spot, other: Spot) -> Spot:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]
