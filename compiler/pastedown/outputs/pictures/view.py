"""Where one looks from. All views are parallel projections.

Pictures of work in three dimensions are drawn obliquely: widths run level and are true, heights that stand up are
upright and true, and what lies on the table recedes to the upper right, shortened. Chosen over an isometric view
because most of what is drawn lies flat: a sheet keeps its level edges, its head stays at the top and its left edge on
the left, as in every flat drawing, and a score across it stays level, while isometric views turn every sheet into one
and the same rhombus, in which head and side are soon mistaken for one another.
"""

from collections.abc import Iterable, Sequence

from attrs import frozen

from pastedown.outputs.pictures.frame import Vector

Spot = tuple[float, float]
# A place on the picture, x to the right and y upwards, and how near it is to the eye.
Seen = tuple[float, float, float]


def is_within(rings: Iterable[Sequence[Sequence[float]]], x: float, y: float) -> bool:
    """Whether a spot lies within the rim and in no hole: rings that it lies within, counted, are odd in number."""
    inside = False
    for ring in rings:
        px, py = ring[-1][:2]
        for qx, qy in (corner[:2] for corner in ring):
            if (py > y) != (qy > y) and x < px + (y - py) * (qx - px) / (qy - py):
                inside = not inside
            px, py = qx, qy
    return inside


@frozen
class View:
    """Where the three directions of space go on the picture, and which way the eye lies: along `towards` a point
    stays where it is on the picture and comes nearer. `nearness` counts along that way: only differences at one place
    of the picture mean anything."""

    x: Spot
    y: Spot
    z: Spot
    towards: Vector
    nearness: Vector

    def seen(self, at: Vector) -> Seen:
        a, b, c = at
        n = self.nearness
        return (
            a * self.x[0] + b * self.y[0] + c * self.z[0],
            a * self.x[1] + b * self.y[1] + c * self.z[1],
            a * n[0] + b * n[1] + c * n[2],
        )


OBLIQUE = View((1.0, 0.0), (0.4, 0.55), (0.0, 1.0), (0.4, -1.0, 0.55), (0.0, -1.0, 0.0))
# The same from the other side, for what cannot be seen from the right: what lies on the table recedes to the upper
# left.
OBLIQUE_FROM_LEFT = View((1.0, 0.0), (-0.4, 0.55), (0.0, 1.0), (-0.4, -1.0, 0.55), (0.0, -1.0, 0.0))
# The usual view of a sheet that lies with its tail to the left and its left edge away from you.
TAIL_TO_THE_LEFT = View((-0.4, -0.55), (1.0, 0.0), (0.0, 1.0), (1.0, 0.4, 0.55), (1.0, 0.0, 0.0))
FROM_ABOVE = View((1.0, 0.0), (0.0, 1.0), (0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 1.0))
