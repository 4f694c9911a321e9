"""Exact frames: where a plate of paper lies and which way it faces.

A frame carries the coordinates of a flat piece (x from the left edge, y from the tail, z out of its face, which lies at
z = 0, while its back lies at z = minus its caliper) to those of the made up work. Folds are flat, square or shut, so
every direction is one of six and every length stays a rational number, in millimetres.
"""

from __future__ import annotations

from fractions import Fraction

from attrs import frozen

Vector = tuple[Fraction, Fraction, Fraction]
# One of the three directions of space or its opposite: a single 1 or -1 and two noughts.
Direction = tuple[int, int, int]


@frozen
class Frame:
    """`origin` is where the corner of tail and left edge lies on the face, and `x`, `y` and `z` are where the piece's
    own directions point."""

    origin: Vector
    x: Direction
    y: Direction
    z: Direction

    def axis(self, name: str) -> Direction:
        """The direction along which a piece's width or height runs."""
        return self.x if name == "width" else self.y

    def point(self, x: Fraction, y: Fraction, z: Fraction) -> Vector:
        """Where a point of the piece lies."""
        return moved(moved(moved(self.origin, self.x, x), self.y, y), self.z, z)

    def turned(self, axis: str, at: Fraction, height: Fraction, onward: int, rise: int, angle: str) -> Frame:
        """The frame beyond a fold across `axis` ("width" or "height"), at `at` along it and `height` out of the face.

        `onward` is 1 where the fold is crossed from left to right or from tail to head, else -1; `rise` is 1 where the
        paper beyond turns towards the face (a valley) and -1 where it turns towards the back (a mountain).
        """
        along = self.axis(axis)
        if angle == "flat":
            return self
        if angle == "square":
            new_along, new_z = scaled(self.z, onward * rise), scaled(along, -onward * rise)
        else:
            new_along, new_z = scaled(along, -1), scaled(self.z, -1)
        # The points of the fold itself stay where they are.
        origin = moved(self.origin, along, at)
        origin = moved(origin, self.z, height)
        origin = moved(origin, new_along, -at)
        origin = moved(origin, new_z, -height)
        if axis == "width":
            return Frame(origin, new_along, self.y, new_z)
        return Frame(origin, self.x, new_along, new_z)


AT_THE_ORIGIN = Frame((Fraction(0), Fraction(0), Fraction(0)), (1, 0, 0), (0, 1, 0), (0, 0, 1))


def scaled(direction: Direction, by: int) -> Direction:
    """A direction as it is, or turned round."""
    return (direction[0] * by, direction[1] * by, direction[2] * by)


def moved(at: Vector, direction: Direction, by: Fraction) -> Vector:
    """A point moved along a direction."""
    # A direction has one part only, and this is where most of the time of placing goes.
    x, y, z = at
    if not by:
        return at
    if direction[0]:
        return (x + by if direction[0] == 1 else x - by, y, z)
    if direction[1]:
        return (x, y + by if direction[1] == 1 else y - by, z)
    return (x, y, z + by if direction[2] == 1 else z - by)


def along(at: Vector, direction: Direction) -> Fraction:
    """How far out a point lies along a direction."""
    number = 0 if direction[0] else 1 if direction[1] else 2
    return at[number] if direction[number] == 1 else -at[number]


def cosine(one: Direction, other: Direction) -> int:
    """1 where two directions are the same, -1 where they are opposite, 0 where they are square to one another."""
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def square_to(one: Direction, other: Direction) -> Direction:
    """The third direction of a right-handed frame whose first two are given."""
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )


def taken_along(frame: Frame, before: Frame, after: Frame) -> Frame:
    """Where a frame goes that keeps its place by another one, which goes from `before` to `after`."""
    axes = ((before.x, after.x), (before.y, after.y), (before.z, after.z))

    def turned(direction: Direction) -> Direction:
        return next(scaled(to, sign) for own, to in axes if (sign := cosine(direction, own)))

    origin = after.origin
    for own, to in axes:
        origin = moved(origin, to, along(frame.origin, own) - along(before.origin, own))
    return Frame(origin, turned(frame.x), turned(frame.y), turned(frame.z))
