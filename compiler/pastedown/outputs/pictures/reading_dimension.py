"""What a ruler measures at a step that reads something, as a dimension of the picture.

The plan knows the length alone. It is shown where the work that is drawn is just as wide or as high as that, and only
one of the two.
"""

from __future__ import annotations

from collections.abc import Sequence

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.scene import Dimension
from pastedown.outputs.two_systems import beside_mark_in_two_systems
from pastedown.plan.plan import Reading
from pastedown.quantity.ruler import Ruler

# In millimetres: what is drawn differs from what is read by no more than where layers lie.
_SAME = 0.3
_ALIKE = 1e-3


def reading_dimension(plates: Sequence[Plate], reading: Reading, ruler: Ruler) -> Dimension | None:
    """From one outermost edge to the other, along the tail or along the left side."""
    corners = [corner for plate in plates for corner in plate.corners()]
    wanted = float(reading.nominal.millimetres)
    found = [
        (axis, ends)
        for axis in (0, 1)
        for ends in [_ends(corners, axis)]
        if ends is not None and abs(ends[1][axis] - ends[0][axis] - wanted) <= _SAME
    ]
    if len(found) != 1:
        return None
    ((axis, (start, end)),) = found
    return Dimension(start, end, beside_mark_in_two_systems(reading.nominal, ruler), axis == 0)


def _ends(corners: Sequence[Vector], axis: int) -> tuple[Vector, Vector] | None:
    """The outermost corners along an axis that lie nearest to the tail or to the left; None where they are no pair."""
    across = 1 - axis
    low, high = min(corner[axis] for corner in corners), max(corner[axis] for corner in corners)
    start, end = (
        min((corner for corner in corners if abs(corner[axis] - at) < _ALIKE), key=lambda corner: corner[across])
        for at in (low, high)
    )
    return (start, end) if abs(start[across] - end[across]) <= 1.0 else None
