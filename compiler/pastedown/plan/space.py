"""Where the pieces of a design lie in space: what the pictures and the model of it are drawn from.

A piece is cut by its lines into fields, which are told by their column and their row, counted from the left edge and
from the tail. Its own coordinates are those of the flat piece: x from the left edge, y from the tail, z out of its
face, which lies at z = 0, while its back lies at z = minus its caliper. All lengths are millimetres.
"""

from collections.abc import Mapping
from fractions import Fraction

from attrs import field, frozen

Vector = tuple[Fraction, Fraction, Fraction]
# A field by its column and its row.
FieldNumber = tuple[int, int]
# A fold or a panel that bends, by the path of its piece and its name there.
Turning = tuple[str, str]
# The name of the pose in which all is put together, and the last name of the pose that every part has without saying
# so, in which nothing is folded.
MADE_UP = "made_up"
FLAT = "flat"


@frozen
class Strip:
    """What lies between two neighbouring lines, from `start` to `end` along one direction of the piece. `bends` is
    "mountain" or "valley" where the panel bends to that side, "yes" where the side is not told, else ""."""

    start: Fraction
    end: Fraction
    panel: str
    bends: str = ""


@frozen
class LineBetween:
    """The line between a strip and the next one. `kind` is "valley" or "mountain" for a fold, "mark" for the edge of
    a panel that bends, "crease" for one that is made in place, and "" for one that is not to be seen."""

    name: str
    kind: str


@frozen
class Strips:
    """The strips along one direction of a piece, in order, and the lines between them."""

    strips: tuple[Strip, ...]
    lines: tuple[LineBetween, ...]


@frozen
class Face:
    """One side, "face" or "back", of one field of a piece."""

    piece: str
    field: FieldNumber
    side: str


@frozen
class Seat:
    """How a piece is carried: by which face of another, by which join, and where. `origin` is the piece's own origin
    and `x`, `y`, `z` its own directions, in the coordinates of the carrying field."""

    on: Face
    join: str
    origin: Vector
    x: Vector
    y: Vector
    z: Vector


@frozen
class Follower:
    """Strips that are held by another piece beyond a joint: from strip `first` to `last` along `axis` a piece goes
    where the `anchor` field goes when `follows` turns. The strip `slack` beside them has no place then."""

    axis: str
    first: int
    last: int
    slack: int
    anchor: tuple[str, FieldNumber]
    follows: Turning
    crease: str


@frozen
class SpatialPiece:
    """A piece in space. `name` is what a maker calls this one piece; `handle` is the id of its cut piece; `part` the
    path of the part it belongs to. It is carried by its field `base`. `seat` is None where nothing carries it."""

    path: str
    part: str
    name: str
    handle: str
    caliper: Fraction
    stock_kind: str
    columns: Strips
    rows: Strips
    base: FieldNumber
    seat: Seat | None
    followers: tuple[Follower, ...] = ()
    loose: bool = False


@frozen
class Contact:
    """A join or a closing: the faces that it brings together by twos, and the thickness of what holds them."""

    path: str
    closes: bool
    pairs: tuple[tuple[Face, Face], ...]
    thickness: Fraction


@frozen
class Posture:
    """A pose: the angle in degrees of each fold and panel that it turns, 0 for flat and 180 for shut."""

    path: str
    part: str
    angles: Mapping[Turning, Fraction] = field(eq=False)


@frozen
class Space:
    """All pieces that have a place, by path, all contacts, by path, and all poses. `made_up` is the pose in which
    everything is put together; `creases` are the creases made in place, each with the face it is made on."""

    pieces: tuple[SpatialPiece, ...]
    contacts: tuple[Contact, ...]
    made_up: Posture
    postures: tuple[Posture, ...]
    creases: tuple[tuple[str, Face], ...] = ()


NOTHING_IN_SPACE = Space((), (), Posture("", "", {}), ())
