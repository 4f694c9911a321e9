"""What is slid over something has to go over it.

A join of two pairs of sides slides a tube of paper over what stands between its walls. Paper does not stretch: round
something q thick, a tube that lies h high when it is empty is only h - q high inside. Derived; corners of the tube
count as sharp, and the walls as paper that cannot be squeezed. Told only where every requirement holds, for one that
fails says more.
"""

from collections.abc import Iterator
from fractions import Fraction

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.frame import Direction, Vector, along, cosine
from pastedown.geometry.in_pose import InPose, PlacedSide, adhesive_of
from pastedown.geometry.model import Join, Model
from pastedown.quantity.enough import at_least
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_Pair = tuple[PlacedSide, PlacedSide]


def look_in(made_up: InPose) -> Iterator[Diagnostic]:
    """Each kind of join once, as all lies made up."""
    model = made_up.model
    if any(requirement.strict and not requirement.holds for requirement in model.requirements):
        return
    bonds = _bonds(model)
    told: set[tuple[str, str]] = set()
    for join in model.joins:
        if (join.component, join.name) in told or len(join.what.faces) != 2 or len(join.to.faces) != 2:
            continue
        for fault in _look_at(join, made_up, bonds, model.ruler):
            told.add((join.component, join.name))
            yield fault


def _bonds(model: Model) -> dict[frozenset[tuple[str, str]], Fraction]:
    """The caliper of the adhesive between two panels, in millimetres, by the panels."""
    return {
        frozenset((what[:2], to[:2])): adhesive_of(join)
        for join in model.joins
        for what, to in zip(join.what.faces, join.to.faces, strict=False)
    }


def _look_at(
    join: Join, made_up: InPose, bonds: dict[frozenset[tuple[str, str]], Fraction], ruler: Ruler
) -> Iterator[Diagnostic]:
    for outer, inner in ((join.what, join.to), (join.to, join.what)):
        walls, core = _two_sides(made_up, outer.faces), _two_sides(made_up, inner.faces)
        panels = frozenset(face[:2] for face in inner.faces)
        # What stands in the tube is one panel, or two that are stuck together behind the sides that are named.
        if walls is None or core is None or not (len(panels) == 1 or panels in bonds):
            continue
        between = bonds.get(panels, Fraction(0))
        thickness = abs(core[0].level + core[1].level) + between + 2 * adhesive_of(join)
        for axis in ("height", "width"):
            direction = walls[0].field.frame.axis(axis)
            empty = _empty(walls, made_up, direction)
            if empty is None:
                continue
            length = _length(core[0], direction)
            room = empty - thickness
            if length > room:
                yield _too_tight(join, inner.faces[0][0], length, outer.faces[0][0], empty, room, ruler)


def _two_sides(made_up: InPose, faces: tuple[tuple[str, str, str], ...]) -> _Pair | None:
    one, other = made_up.side(faces[0]), made_up.side(faces[1])
    if one is None or other is None or cosine(one.outward, other.outward) != -1:
        return None
    return one, other


def _empty(walls: _Pair, made_up: InPose, direction: Direction) -> Fraction | None:
    """How long a tube is along a direction when it lies empty; None where it is open at either end."""
    found = []
    for wall in walls:
        ends = _ends(wall, direction)
        for end in ends:
            if _is_folded_shut(wall, made_up, end, direction):
                found.append(end)
    middle = sum(_ends(walls[0], direction)) / 2
    low, high = [at for at in found if at < middle], [at for at in found if at > middle]
    return min(high) - max(low) if low and high else None


def _ends(side: PlacedSide, direction: Direction) -> tuple[Fraction, Fraction]:
    low, high = sorted(along(corner, direction) for corner in side.field.corners())
    return low, high


def _is_folded_shut(wall: PlacedSide, made_up: InPose, end: Fraction, direction: Direction) -> bool:
    """Whether the paper of a wall turns back over the other wall at one of its ends."""
    return any(
        one.frame.z == _opposite(wall.field.frame.z) and end in _along_corners(one.corners(), direction)
        for one in wall.placed.folded.fields
        if sum(abs(a - b) for a, b in zip(one.folds, wall.field.folds, strict=True)) == 1
    )


def _opposite(direction: Direction) -> Direction:
    return (-direction[0], -direction[1], -direction[2])


def _along_corners(corners: tuple[Vector, Vector], direction: Direction) -> tuple[Fraction, ...]:
    return tuple(along(corner, direction) for corner in corners)


def _length(side: PlacedSide, direction: Direction) -> Fraction:
    low, high = _ends(side, direction)
    return high - low


def _too_tight(
    join: Join, inner: str, length: Fraction, outer: str, empty: Fraction, room: Fraction, ruler: Ruler
) -> Diagnostic:
    less = write(at_least(mm(length - room), ruler), ruler)
    return error(
        "too-tight",
        join.span,
        f"{join.path}: {outer} is {write(mm(empty), ruler)} inside when empty, and {write(mm(room), ruler)} round "
        f"{inner}, which is {write(mm(length), ruler)} there.",
        reason="Paper does not stretch: a tube gets lower by the thickness of what is in it. On the table the one jams "
        "half way over the other, or a fold splits.",
        way_out=f"Make {inner} smaller by {less} or more, or {outer} larger by as much, and leave some room to slide.",
        missing=length - room,
    )
