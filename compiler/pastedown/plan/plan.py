"""The plan: what a person is told, in model units, before any file format. Outputs read only this."""

from fractions import Fraction

from attrs import frozen

from pastedown.geometry.model import AllHolds
from pastedown.plan.ledger import Bulk
from pastedown.plan.ledger import PlanText as PlanText
from pastedown.plan.material import Material
from pastedown.plan.scored_side import scored_from
from pastedown.plan.space import NOTHING_IN_SPACE, Space
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity
from pastedown.quantity.ruler import Ruler


@frozen
class PlanPoint:
    """x from the left edge, y from the tail, seen from the face with the head up."""

    x: Length
    y: Length


@frozen
class PlanLine:
    """A straight stretch of a path, to `end`."""

    end: PlanPoint


@frozen
class PlanArc:
    """A round stretch of a path, to `end` about `centre`; `clockwise` as seen from the face with the head up."""

    end: PlanPoint
    centre: PlanPoint
    radius: Length
    clockwise: bool


@frozen
class PlanPath:
    """A cut. Closed ones return to `start`; an open one is a slit."""

    name: str
    start: PlanPoint
    moves: tuple[PlanLine | PlanArc, ...]
    closed: bool


@frozen
class PlanCut:
    """A cut in words and numbers, for who works without templates. `kind` is "mitre", "round", "notch", "thumb notch",
    "taper", "window" or "slit"; `name` what a window or slit is called; `edges` the one edge or the two edges of the
    corner it is made to. `sizes` are lengths by what they are called; `text` says all of it."""

    kind: str
    name: str
    edges: tuple[str, ...]
    sizes: tuple[tuple[str, Length], ...]
    text: PlanText


@frozen
class FoldLine:
    """A line drawn across the piece: a score, whose `kind` is "mountain" or "valley" as seen from the face, or the edge
    of a panel that bends, whose kind is "mark": it is drawn and not scored."""

    name: str
    kind: str
    start: PlanPoint
    end: PlanPoint

    @property
    def scored_from(self) -> str:
        """ "face" or "back": the side it is pressed into, so that its ridge lies inside the fold; "" for a mark."""
        return scored_from(self.kind)


@frozen
class Mark:
    """One line of a ladder, a score or, of kind "mark", the edge of a panel that bends: from the chart's first edge,
    from its last edge, and the gap since the line before (or the edge). A mark is `drawn_on` the "face" or the "back",
    which of them lies inside the bend; "" for a score."""

    name: str
    kind: str
    from_first: Length
    from_last: Length
    gap: Length
    drawn_on: str = ""

    @property
    def scored_from(self) -> str:
        """ "face" or "back": the side it is pressed into, so that its ridge lies inside the fold; "" for a mark."""
        return scored_from(self.kind)


@frozen
class ScoreChart:
    """The ladder of one run of a piece. The piece lies with `first_edge` at the left stop of the scoring board, face up
    for what is scored from the face, and turned over for the rest; `first_edge` stays at the left stop.

    `side` is the whole length of the run; `last_panel` the panel after the last mark: last mark + last panel = side
    is the closing check.
    """

    axis: str
    first_edge: str
    last_edge: str
    marks: tuple[Mark, ...]
    panels: tuple[tuple[str, Length], ...]
    side: Length
    last_panel: Length


@frozen
class CutPiece:
    """Like pieces, cut alike. `id` is a short handle, unique in the plan and stable ("strip", "front-sheet"), safe as
    a file name; `name` is what a maker reads. `paths` are the pieces meant, `count` how many. `grain` is "height",
    "width" or "any", as the design wants it; what `lies_across` comes out of its sheets only the other way. `folds` and
    `score_charts` tell its scores, `bend_lines` and `bend_charts` the edges of panels that bend without any. What is
    `bought` in the very size in which it is used is not cut. The design could have more or fewer of an `optional` one
    and still hold together.
    """

    id: str
    name: str
    doc: str
    paths: tuple[str, ...]
    count: int
    stock: str
    stock_kind: str
    height: Length
    width: Length
    left: str
    right: str
    grain: str
    face_up: str
    outline: PlanPath
    inner_cuts: tuple[PlanPath, ...]
    folds: tuple[FoldLine, ...]
    score_charts: tuple[ScoreChart, ...]
    bend_lines: tuple[FoldLine, ...] = ()
    bend_charts: tuple[ScoreChart, ...] = ()
    cuts: tuple[PlanCut, ...] = ()
    bought: bool = False
    optional: bool = False
    lies_across: bool = False

    @property
    def grain_as_cut(self) -> str:
        """Along which side the grain of the piece runs once it is cut: "height", "width" or "any"."""
        return {"height": "width", "width": "height"}.get(self.grain, self.grain) if self.lies_across else self.grain

    @property
    def is_rectangle(self) -> bool:
        """Whether the outer cut is nothing but the four sides of the piece's height and width."""
        ends = [self.outline.start, *(move.end for move in self.outline.moves)]
        corners = {(x, y) for x in (NO_LENGTH, self.width) for y in (NO_LENGTH, self.height)}
        straight = all(isinstance(move, PlanLine) for move in self.outline.moves)
        return straight and {(end.x, end.y) for end in ends} == corners


@frozen
class Reading:
    """What a ruler should read: nominal, and the least and the most it may be where stated. `give` is how far off the
    errors of the hand may bring it, either way; None for what is not made by hand. From `bears_least` to `bears_most`
    everything goes together; the requirement `below` fails first past the one, `above` past the other. None and ""
    where none does. `all_holds` is the band in which nothing at all is lost."""

    nominal: Length
    least: Length | None
    most: Length | None
    give: Length | None = None
    bears_least: Length | None = None
    bears_most: Length | None = None
    below: str = ""
    above: str = ""
    all_holds: AllHolds = AllHolds()


@frozen
class StepAction:
    """One piece of work of a step that gathers several: what to do, and what a ruler should read afterwards."""

    text: PlanText
    reading: Reading | None


@frozen
class BuildStep:
    """One step. `kind` is "cut", "score", "fold", "join", "close", "crease", "check", "do" or
    "lay". `title` is a few words; `text` the full instruction, verb first; `times` how often it is done (batched like
    work); `pieces` the ids of cut pieces that take part. `refers` are the paths of what it does (joins, pieces,
    steps). A step that gathers work tells it in `actions`, one after the other, and its `text` is what it is about.
    `shown` is the path of the pose in which it is drawn, "" where the work is drawn as it lies."""

    number: int
    kind: str
    title: PlanText
    text: PlanText
    times: int
    pieces: tuple[str, ...]
    reading: Reading | None
    tips: tuple[PlanText, ...]
    cautions: tuple[PlanText, ...]
    refers: tuple[str, ...]
    actions: tuple[StepAction, ...] = ()
    shown: str = ""

    @property
    def readings(self) -> tuple[Reading, ...]:
        """All that is read in it: its own, and those of its actions."""
        found = (self.reading, *(action.reading for action in self.actions))
        return tuple(reading for reading in found if reading is not None)


@frozen
class Fact:
    """A measurement of the finished design by its path. `origin` as in the model: chosen, default, derived, rounded,
    stock."""

    path: str
    value: Quantity | str | bool
    origin: str
    doc: str


@frozen
class PartOfAlbum:
    """A part by its path, what it is (its component) and the component's own words."""

    path: str
    component: str
    doc: str


@frozen
class Bond:
    """A join of the object graph: what goes onto what, with which adhesive. `kind` is "join" or "close"; `what` and
    `to` are the paths of the faces that meet, from the top of the design, and `alignments` the paths of the lines."""

    path: str
    kind: str
    what: str
    to: str
    alignments: tuple[tuple[str, str, Length], ...]
    adhesive: str
    stock: str
    moving: bool


@frozen
class Verdict:
    """A requirement that was judged, with both sides as numbers. `meant` is the maker's reason where one that does not
    hold is to stay so."""

    path: str
    left: Quantity | str | bool
    operator: str
    right: Quantity | str | bool
    holds: bool
    because: PlanText
    meant: PlanText = ()


@frozen
class MovedLength:
    """A length that was written between two marks of the maker's ruler, and the mark it was moved to. `paths` are all
    that were moved alike; `reason` says why this way."""

    paths: tuple[str, ...]
    written: Length
    mark: Length
    reason: str


@frozen
class ChangedLength:
    """A length that parts take and that is another one since lengths were moved to marks, whether it was moved itself
    or worked out from one that was."""

    paths: tuple[str, ...]
    written: Length
    mark: Length


@frozen
class SaferNumber:
    """One number moved to another mark, and the score that this gives the requirement."""

    path: str
    before: Length
    value: Length
    score: Fraction


@frozen
class Margin:
    """By how much a requirement on what is made holds, and what the errors of the hand may take of it. `alike` are the
    paths of the requirements that have the very same margin, the one at `path` among them; `strict` says that the
    design would be refused without it. `worst` and `rss` are the worst case and the root-sum-square of all errors
    together, `score` is `nominal` counted in `rss`, and `one_in` of how many single things one fails (None for fewer
    than one in a million, and `never` where not even the worst case does). An album has `things` of them, and one in
    `album_one_in` albums has at least one that fails.
    `errors` are named with what each may do to the margin, the largest first."""

    path: str
    alike: tuple[str, ...]
    words: str
    strict: bool
    nominal: Quantity
    worst: Quantity
    rss: Quantity
    score: Fraction
    one_in: int | None
    things: int
    album_one_in: int | None
    errors: tuple[tuple[str, Quantity], ...]
    change: SaferNumber | None
    because: PlanText

    @property
    def never(self) -> bool:
        """Whether not even all errors together, each at its worst, take the margin."""
        return self.nominal.value >= self.worst.value


@frozen
class Plan:
    """Everything a maker is told about one design. `poses` are the paths of the poses in which they asked to
    see it; none where all are shown that can be."""

    name: str
    title: str
    doc: PlanText
    ruler: Ruler
    parts: tuple[PartOfAlbum, ...]
    pieces: tuple[CutPiece, ...]
    steps: tuple[BuildStep, ...]
    materials: tuple[Material, ...]
    bonds: tuple[Bond, ...]
    facts: tuple[Fact, ...]
    verdicts: tuple[Verdict, ...]
    moved: tuple[MovedLength, ...] = ()
    changed: tuple[ChangedLength, ...] = ()
    margins: tuple[Margin, ...] = ()
    bulk: Bulk = Bulk()
    space: Space = NOTHING_IN_SPACE
    poses: tuple[str, ...] = ()
