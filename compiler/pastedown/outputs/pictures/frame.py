"""Frames and directions in space as decimal numbers, for drawing alone: nothing measured hangs on them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import cos, radians, sin, sqrt

from attrs import frozen

Vector = tuple[float, float, float]


def floats(exact: Sequence[Fraction]) -> Vector:
    """An exact vector for drawing."""
    return float(exact[0]), float(exact[1]), float(exact[2])


def plus(a: Vector, b: Vector) -> Vector:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def minus(a: Vector, b: Vector) -> Vector:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def times(a: Vector, by: float) -> Vector:
    return a[0] * by, a[1] * by, a[2] * by


def dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def unit(a: Vector) -> Vector:
    """The direction of a vector. Raises ZeroDivisionError for one without a length."""
    return times(a, 1 / sqrt(dot(a, a)))


@frozen
class Frame:
    """Where the origin of a piece lies and where its own directions point; right-handed, of unit length."""

    origin: Vector
    x: Vector
    y: Vector
    z: Vector

    def point(self, x: float, y: float, z: float) -> Vector:
        """Where a point of the piece lies."""
        o, a, b, c = self.origin, self.x, self.y, self.z
        return (
            o[0] + a[0] * x + b[0] * y + c[0] * z,
            o[1] + a[1] * x + b[1] * y + c[1] * z,
            o[2] + a[2] * x + b[2] * y + c[2] * z,
        )

    def direction(self, v: Vector) -> Vector:
        """A direction of the piece as one of space."""
        return minus(self.point(*v), self.origin)

    def of(self, inner: Frame) -> Frame:
        """A frame that is given in the coordinates of this one."""
        return Frame(
            self.point(*inner.origin), self.direction(inner.x), self.direction(inner.y), self.direction(inner.z)
        )

    def inside(self, outer: Frame) -> Frame:
        """This frame in the coordinates of another one."""
        return Frame(
            outer.coordinates(self.origin),
            outer.parts(self.x),
            outer.parts(self.y),
            outer.parts(self.z),
        )

    def parts(self, v: Vector) -> Vector:
        """A direction of space in the directions of this frame."""
        return dot(v, self.x), dot(v, self.y), dot(v, self.z)

    def coordinates(self, at: Vector) -> Vector:
        """A point of space in the coordinates of this frame."""
        return self.parts(minus(at, self.origin))

    def moved(self, by: Vector) -> Frame:
        return Frame(plus(self.origin, by), self.x, self.y, self.z)


AT_THE_ORIGIN = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
# The same turned over from side to side: the head stays the head.
TURNED_OVER = Frame((0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))


def folded(frame: Frame, axis: str, at: float, height: float, onward: int, rise: int, angle: float) -> Frame:
    """The frame beyond a fold across `axis` ("width" or "height"), at `at` along it and `height` out of the face.

    `onward` is 1 where the fold is crossed from left to right or from tail to head, else -1; `rise` is 1 where the
    paper beyond turns towards the face and -1 where it turns towards the back; `angle` is in degrees.
    """
    along = frame.x if axis == "width" else frame.y
    turned, sideways = cosine(angle), sine(angle) * onward * rise
    new_along = plus(times(along, turned), times(frame.z, sideways))
    new_z = minus(times(frame.z, turned), times(along, sideways))
    origin = plus(frame.origin, plus(times(along, at), times(frame.z, height)))
    origin = minus(origin, plus(times(new_along, at), times(new_z, height)))
    if axis == "width":
        return Frame(origin, new_along, frame.y, new_z)
    return Frame(origin, frame.x, new_along, new_z)


def cosine(degrees: float) -> float:
    """Of an angle in degrees; exact for right angles, so that what is square stays so."""
    quarters = degrees / 90
    if quarters == int(quarters):
        return (1.0, 0.0, -1.0, 0.0)[int(quarters) % 4]
    return cos(radians(degrees))


def sine(degrees: float) -> float:
    """Likewise."""
    quarters = degrees / 90
    if quarters == int(quarters):
        return (0.0, 1.0, 0.0, -1.0)[int(quarters) % 4]
    return sin(radians(degrees))
