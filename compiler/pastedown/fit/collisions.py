"""Two things in one place.

In every pose each field of paper or board is a plate of its caliper. Where two plates of different pieces run through
one another, what is told is how deep: the shortest way by which one would have to move to be clear of the other. Sheets
that lie on one another give way, and how thick they are together is a matter of bulk; so of plates that lie in parallel
only boards are looked at. What is stuck together, directly, is the matter of its join. Derived: plates of the stock's
caliper, turned about their scores; the closing rule of a joint between boards follows from it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import lcm

from attrs import frozen

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.fit.alike import the_same_goes_for
from pastedown.fit.trapped import Trapped
from pastedown.geometry.folded_piece import Field, is_cut_away
from pastedown.geometry.frame import Vector
from pastedown.geometry.in_pose import (
    InPose,
    PlacedPiece,
    PlacedSide,
    side_of,
    turned_bends_between,
)
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import natural_key
from pastedown.quantity.enough import at_least
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_RIGID = ("board",)
# So many pairs of plates are compared in one pose.
MOST_COMPARED = 100_000


@frozen(eq=False)
class _Plate:
    """One field of a placed piece, from `low` to `high` along each direction of space, in one unit for all plates."""

    placed: PlacedPiece
    field: Field
    low: tuple[int, int, int]
    high: tuple[int, int, int]

    @property
    def path(self) -> str:
        return self.placed.folded.piece.path

    @property
    def normal(self) -> int:
        """Along which direction of space it is as thick as its caliper."""
        return next(number for number, part in enumerate(self.field.frame.z) if part)

    @property
    def is_rigid(self) -> bool:
        return self.placed.folded.piece.stock.kind in _RIGID


@frozen(eq=False)
class _Clash:
    depth: Fraction
    one: _Plate
    other: _Plate


# The kinds of pieces of which a clash was told already, by twos.
Told = set[frozenset[tuple[str, str]]]


def look_in(placed: InPose, told: Told) -> Iterator[Diagnostic]:
    """The deepest clash of each two kinds of pieces, once, with the others named; nothing of what lies as it lies made
    up, for that has been looked at."""
    model = placed.model
    refused = {each.part for each in model.requirements if each.strict and not each.holds}
    alike: dict[frozenset[tuple[str, str]], list[_Clash]] = {}
    for clash in _clashes(placed, _bonded(model)):
        kinds = frozenset(_kind(plate) for plate in (clash.one, clash.other))
        # A requirement that fails of a part says more than that its pieces do not find room.
        if kinds in told or any(_is_within(plate, refused) for plate in (clash.one, clash.other)):
            continue
        alike.setdefault(kinds, []).append(clash)
    for kinds, (clash, *others) in alike.items():
        told.add(kinds)
        yield _told(clash, others, placed, model.ruler)


def _bonded(model: Model) -> set[frozenset[str]]:
    return {
        frozenset((what[0], to[0]))
        for join in model.joins
        for what in join.what.faces
        for to in join.to.faces
    }


def _kind(plate: _Plate) -> tuple[str, str]:
    piece = plate.placed.folded.piece
    return piece.component, piece.name


def _is_within(plate: _Plate, parts: set[str]) -> bool:
    own = plate.placed.folded.piece.part
    return any(own == part or (part and own.startswith(f"{part}.")) for part in parts)


def _clashes(placed: InPose, bonded: set[frozenset[str]]) -> list[_Clash]:
    """All clashes in one pose, the deepest of each two pieces, the deepest first."""
    plates, unit = _plates(placed)
    deepest: dict[frozenset[str], _Clash] = {}
    trapped = Trapped()
    for one, other in _meeting(plates):
        pair = frozenset((one.path, other.path))
        if len(pair) == 1 or pair in bonded or one.placed.root != other.placed.root:
            continue
        if placed.stays(one.path) and placed.stays(other.path):
            continue
        if one.normal == other.normal and not (one.is_rigid and other.is_rigid):
            continue
        ways_out = [Fraction(way, unit) for way in _ways_out(one, other)]
        depth = min(ways_out)
        if pair in deepest and depth <= deepest[pair].depth:
            continue
        # By so much they may seem to overlap where something is trapped in a shut fold.
        play = trapped.play(_side(one), _side(other))
        if all(way > least for way, least in zip(ways_out, play, strict=True)):
            deepest[pair] = _Clash(depth, one, other)
    return sorted(deepest.values(), key=lambda clash: (-clash.depth, clash.one.path, clash.other.path))


def _plates(placed: InPose) -> tuple[list[_Plate], int]:
    """The plates of a pose, and how many of their units make a millimetre."""
    found: list[tuple[PlacedPiece, Field, list[Vector]]] = []
    unit = 1
    for piece in placed.model.pieces:
        where = placed.place(piece.path) if placed.is_about(piece.part) else None
        caliper = piece.stock.caliper.value if piece.stock.caliper is not None else Fraction(0)
        for one in where.folded.fields if where is not None and caliper else ():
            if len(piece.runs) > 1 and is_cut_away(piece, one):
                continue
            ends = [
                one.frame.point(one.left, one.tail, -caliper),
                one.frame.point(one.right, one.head, Fraction(0)),
            ]
            unit = lcm(unit, *(part.denominator for end in ends for part in end))
            assert where is not None
            found.append((where, one, ends))
    plates = []
    for where, one, ends in found:
        parts = [sorted(int(end[axis] * unit) for end in ends) for axis in range(3)]
        low, high = ((parts[0][at], parts[1][at], parts[2][at]) for at in range(2))
        plates.append(_Plate(where, one, low, high))
    return plates, unit


def _meeting(plates: list[_Plate]) -> Iterator[tuple[_Plate, _Plate]]:
    """All pairs that share some room: swept along one direction, so that what lies apart is not compared. Of very many
    plates in one place the first MOST_COMPARED pairs."""
    sweep, *others = sorted(range(3), key=lambda at: _crowding(plates, at))
    open_plates: list[_Plate] = []
    compared = 0
    for plate in sorted(plates, key=lambda plate: plate.low[sweep]):
        start = plate.low[sweep]
        open_plates = [one for one in open_plates if one.high[sweep] > start]
        compared += len(open_plates)
        if compared > MOST_COMPARED:
            return
        for one in open_plates:
            if all(one.low[at] < plate.high[at] and plate.low[at] < one.high[at] for at in others):
                yield one, plate
        if plate.high[sweep] > start:
            open_plates.append(plate)


def _crowding(plates: list[_Plate], at: int) -> Fraction:
    """How many plates lie abreast along a direction, on average."""
    whole = max(plate.high[at] for plate in plates) - min(plate.low[at] for plate in plates) if plates else 0
    return Fraction(sum(plate.high[at] - plate.low[at] for plate in plates), whole) if whole else Fraction(len(plates))


def _ways_out(one: _Plate, other: _Plate) -> list[int]:
    """How far one plate would have to move along each direction of space to be clear of the other."""
    return [min(one.high[at] - other.low[at], other.high[at] - one.low[at]) for at in range(3)]


def _side(plate: _Plate) -> PlacedSide:
    return side_of(plate.placed, plate.field, "face")


def _like(clash: _Clash, others: list[_Clash]) -> list[str]:
    """What runs through what in the same way: of two pieces the one that the told clash does not name."""
    own = (clash.one.path, clash.other.path)
    named = []
    for other in others:
        paths = sorted((other.one.path, other.other.path), key=natural_key)
        named.append(" with ".join([path for path in paths if path not in own] or paths))
    return list(dict.fromkeys(sorted(named, key=natural_key)))


def _told(clash: _Clash, others: list[_Clash], placed: InPose, ruler: Ruler) -> Diagnostic:
    one, other = sorted((clash.one, clash.other), key=lambda plate: (plate.is_rigid, plate.path))
    when = "When all is made up" if placed.pose is None else f"In the pose {placed.pose.path}"
    more = write(at_least(mm(clash.depth), ruler), ruler)
    bends = turned_bends_between(_side(one), _side(other), placed)
    way_out = f"Make {bends[0]} wider by {more} or more." if bends else f"Leave {more} more room between the two."
    joins = {join.what.faces[0][0]: join for join in placed.model.joins if not join.closes}
    carried = [joins[plate.path] for plate in (one, other) if plate.path in joins]
    span = placed.pose.span if placed.pose is not None else carried[0].span
    labels = tuple(Label(join.span, "carried by this") for join in carried if join.span != span)
    return error(
        "runs-through",
        span,
        f"{when}, {one.path} and {other.path} are in one place: {write(mm(clash.depth), ruler)} of them "
        f"run through one another.{the_same_goes_for(_like(clash, others))}",
        labels=labels,
        reason="On the table it jams, or it crushes and tears there.",
        way_out=way_out,
        missing=clash.depth,
    )
