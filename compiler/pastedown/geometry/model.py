"""The design with everything worked out: what the checks, the plan and the outputs read."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import field, frozen

from pastedown.design.stock import Stock
from pastedown.geometry.layer_stack import LayerStack
from pastedown.geometry.making import Making
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.spread import Spread
from pastedown.source import Span

# A text of the maker's with its slots filled: plain words and exact values, so that every output writes the one value
# in its own units.
WorkedText = tuple[str | Quantity, ...]


@frozen
class Part:
    """A component made once. `path` is "" for the album itself; `doc` is the component's own text."""

    path: str
    component: str
    doc: str


@frozen
class Side:
    """One side of a join: `path` as the maker wrote it, and the `faces` it means, one at least, each as (path of a
    piece of the model, panel name or "" for the whole piece, "face" or "back"). `span` are the maker's words.
    """

    path: str
    faces: tuple[tuple[str, str, str], ...]
    span: Span | None = field(default=None, eq=False, repr=False)


@frozen
class Line:
    """A line of a flat piece: `at` is its place along `axis`, from the left edge or from the tail. `is_middle` says
    that it is the middle of the whole piece, which wanders when the piece is folded."""

    piece: str
    axis: str
    at: Length
    is_middle: bool


@frozen
class Alignment:
    """Two lines brought together; `inside` is how far the first stays inside the second (nought when they meet). `what`
    and `to` are the lines as the maker calls them."""

    what: str
    to: str
    inside: Length
    axis: str
    what_line: Line | None = field(default=None, eq=False)
    to_line: Line | None = field(default=None, eq=False)
    span: Span | None = field(default=None, eq=False, repr=False)


@frozen
class Join:
    """A join (carries `what` onto `to`) or, with `closes`, the closing of two things already placed.

    `by` is the stock that holds it, None where only the rule of the trade speaks; `adhesive` is "tape", "glue",
    or "itself" where what is joined is cut from a tape and sticks by itself.
    `tip`, `caution` and `doc` are the maker's words. `after` and `before` are paths of joins, steps, creases, pieces
    or parts.
    """

    path: str
    part: str
    component: str
    name: str
    closes: bool
    what: Side
    to: Side
    alignments: tuple[Alignment, ...]
    by: Stock | None
    adhesive: str
    moving: bool
    doc: WorkedText
    tip: WorkedText
    caution: WorkedText
    after: tuple[str, ...]
    before: tuple[str, ...]
    span: Span = field(eq=False, repr=False)


@frozen
class Crease:
    """A fold made in place, over an edge of something the piece already lies on: on no score chart, but in the
    steps. `follows` is the fold or the bending panel by which it turns in other poses, as (path of its piece, name)."""

    path: str
    part: str
    component: str
    name: str
    on: Side
    over: str
    tip: WorkedText
    caution: WorkedText
    after: tuple[str, ...]
    before: tuple[str, ...]
    span: Span = field(eq=False, repr=False)
    follows: tuple[str, str] | None = None


@frozen
class AllHolds:
    """From `least` to `most` a reading keeps all that is required, where that is less than what still goes together;
    past the one the requirement `below` is lost first, past the other `above`, and `less` and `more` say what it is
    then about. None, "" and () where nothing is lost before."""

    least: Length | None = None
    below: str = ""
    less: WorkedText = ()
    most: Length | None = None
    above: str = ""
    more: WorkedText = ()


@frozen
class Step:
    """A step that the maker wrote. With `reads` it is a measurement to check before going on: the nominal reading
    and, where given, the least and the most it may be; `give` is how far off the errors of the hand may bring it,
    either way, None where it is no made length. `after` and `before` name joins, steps, creases, pieces or parts by
    path; a part means everything that makes it. `gathered` is work that is told in this step: "cuts", "scores", "folds"
    or "gathers", each with the path of what it is done to. `shown` is the path of the pose in which it is drawn, ""
    where nothing is said. `all_holds` is the band of readings in which all holds."""

    path: str
    part: str
    component: str
    name: str
    text: WorkedText
    reads: Length | None
    least: Length | None
    most: Length | None
    tip: WorkedText
    caution: WorkedText
    after: tuple[str, ...]
    before: tuple[str, ...]
    span: Span = field(eq=False, repr=False)
    give: Length | None = None
    gathered: tuple[tuple[str, str], ...] = ()
    shown: str = ""
    all_holds: AllHolds = AllHolds()


@frozen
class Safer:
    """One number moved to another mark: `path` is what to set, `value` to what, `before` what it is. `score` is that of
    the requirement afterwards, worked out afresh."""

    path: str
    before: Length
    value: Length
    score: Fraction


@frozen(eq=False)
class Stack:
    """Things whose thickness together the design asks for: `path` is the fact or the requirement that does, in `words`.
    `count` of like things were named first; `blank` says that nothing on or in them counts. Of what lies between two
    sides `between` are the pieces of the things that move there."""

    path: str
    words: str
    count: int
    blank: bool
    layers: LayerStack
    between: frozenset[str] = frozenset()


@frozen
class Requirement:
    """A requirement with both sides worked out. `holds` is the verdict; `strict` ones refuse the design.

    `margin` is by how much it holds, with the errors of the hand; None where it compares nothing that was made.
    `change` is the one number that buys it the most safety, None where none was looked for or found.
    `stacks` are those whose thickness it hangs on.
    `meant` is the maker's reason why one that does not hold may stay so; it is not strict then.
    Of one that does not hold, or only on paper, `made` says where the maker's own file makes its part, and on which of
    the values given there it hangs; None for a requirement of that file.
    """

    path: str
    part: str
    operator: str
    left: Quantity | str | bool
    right: Quantity | str | bool
    left_words: str
    right_words: str
    holds: bool
    strict: bool
    because: WorkedText
    ways_out: tuple[WorkedText, ...]
    span: Span = field(eq=False, repr=False)
    made: Making | None = field(default=None, eq=False, repr=False)
    margin: Spread | None = None
    change: Safer | None = None
    meant: WorkedText = ()
    stacks: tuple[Stack, ...] = field(default=(), eq=False, repr=False)

    @property
    def likeness(self) -> tuple[object, ...]:
        """What it has in common with those that are the same for the maker: their words and their margin."""
        margin, span = self.margin, self.span
        amounts = () if margin is None else (margin.nominal, margin.rss, margin.worst)
        return span.source.name, span.start, span.end, amounts


@frozen
class Measurement:
    """A fact of the finished design by its path, for the outputs and for `why`.

    `origin` is "chosen" (a value was written), "default" (left as the component has it), "derived" (worked out from
    others), "rounded" (moved to a mark) or "stock" (it comes from what was bought). `doc` is the documentation beside
    it.
    """

    path: str
    value: Quantity | str | bool
    origin: str
    doc: str
    span: Span = field(eq=False, repr=False)


@frozen
class Move:
    """A length that a part takes, moved to a mark of the maker's ruler: from `written` to `mark`. `path` says which,
    `way` is "down", "up" or "nearest". `further` says that it is not the mark it would have gone to by itself. `lost`
    is in words what does not hold with that one or as written, and `as_written` says that it does not as written."""

    path: str
    part: str
    component: str
    name: str
    way: str
    written: Length
    mark: Length
    further: bool
    span: Span = field(eq=False, repr=False)
    lost: WorkedText = ()
    as_written: bool = False


@frozen
class KeptOffMarks:
    """A `fixed` length between two marks, which nothing moves. `nearest` is the mark nearest to it."""

    path: str
    value: Length
    nearest: Length
    span: Span = field(eq=False, repr=False)


@frozen
class Change:
    """A length that a part with pieces takes and that is another one since lengths were moved to marks. `written` is
    what it would be without."""

    path: str
    written: Length
    mark: Length


@frozen
class Pose:
    """A pose of one part, "" for the design itself: the angle of every fold and bending panel it speaks of, by piece
    path and name. `flat` are the paths of parts that it lays flat as a whole."""

    path: str
    part: str
    angles: Mapping[tuple[str, str], str] = field(eq=False)
    flat: frozenset[str]
    span: Span = field(eq=False, repr=False)


@frozen
class Model:
    """A whole design, worked out. Everything is sorted by path, never by the order of lines.

    `moves` are the lengths that were moved to marks, `kept_off_marks` those that are fixed between two; `changes` are
    all lengths that parts take and that are others for it. `ruler_stated` is False where no ruler is named, and `ruler`
    is the one that holds then.
    `some_join_failed` says that what holds what is not wholly known, because a join has a fault of its own, and
    `some_pose_failed` the same of how parts are folded when they are made up;
    `read_whole` is False where some statement of the recipe could not be read and may be what a check would miss.
    `made_up` has the angle of every fold, by piece path and fold, when every part is in its pose of that name; `poses`
    are all other poses, by path. `stacks` are the things whose thickness together was asked for; `added` are the paths
    of pieces that are no part of the component they stand in, but were added to it from outside.
    """

    name: str
    title: str
    doc: WorkedText
    ruler: Ruler
    parts: tuple[Part, ...]
    stocks: tuple[Stock, ...]
    pieces: tuple[FlatPiece, ...]
    joins: tuple[Join, ...]
    creases: tuple[Crease, ...]
    steps: tuple[Step, ...]
    requirements: tuple[Requirement, ...]
    measurements: tuple[Measurement, ...]
    moves: tuple[Move, ...] = ()
    kept_off_marks: tuple[KeptOffMarks, ...] = ()
    changes: tuple[Change, ...] = ()
    ruler_stated: bool = True
    some_join_failed: bool = False
    some_pose_failed: bool = False
    read_whole: bool = True
    made_up: Mapping[tuple[str, str], str] = field(factory=dict)
    poses: tuple[Pose, ...] = ()
    stacks: tuple[Stack, ...] = ()
    added: frozenset[str] = frozenset()

    @property
    def can_be_placed(self) -> bool:
        """Whether all is known that places the pieces; else what seems to miss may be held by what is unknown."""
        return self.read_whole and not self.some_join_failed and not self.some_pose_failed
