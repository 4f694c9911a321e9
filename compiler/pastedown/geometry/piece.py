"""A flat piece with every length worked out.

Coordinates of a piece: seen from its face with the head up, origin at the corner of tail and left edge, x to the right
(along the width), y towards the head (along the height).
"""

from attrs import field, frozen

from pastedown.design.stock import Stock
from pastedown.geometry.making import Making
from pastedown.quantity.quantity import Length
from pastedown.source import Span


@frozen
class Point:
    """x from the left edge, y from the tail, both exact lengths."""

    x: Length
    y: Length


@frozen
class LineTo:
    """A straight cut to `end`."""

    end: Point


@frozen
class ArcTo:
    """A quarter or half round cut to `end` about `centre`; `clockwise` as seen from the face."""

    end: Point
    centre: Point
    radius: Length
    clockwise: bool


@frozen
class CutPath:
    """A continuous cut. `closed` paths return to `start`; an open one is a slit. `name` is what a maker calls it."""

    name: str
    start: Point
    moves: tuple[LineTo | ArcTo, ...]
    closed: bool


@frozen
class Cut:
    """A cut as it was asked for. `kind` is "mitre", "round", "notch", "thumb_notch", "taper", "window" or "slit";
    `name` what a window or slit is called. `edges` are the names of the edges it is made to: one for an edge, head or
    tail and a side for a corner, none for the inside. `lengths` are its sizes and places by their labels; `along` is
    "height" or "width" for a slit."""

    kind: str
    name: str
    edges: tuple[str, ...]
    lengths: tuple[tuple[str, Length], ...]
    along: str = ""

    def length(self, label: str) -> Length | None:
        return dict(self.lengths).get(label)


@frozen
class Panel:
    """A panel of a run: `name` with its index ("rise[2]"), from `start` to `end` measured from the run's first edge.
    `bends` says to which side it turns as a whole: "valley" or "mountain", seen from the face, "yes" where that is not
    said, and "" for a panel that stays flat; `said` are the words that say so."""

    name: str
    start: Length
    end: Length
    bends: str = ""
    said: Span | None = field(default=None, eq=False, repr=False)

    @property
    def size(self) -> Length:
        return self.end - self.start


@frozen
class Score:
    """A fold line of a run. `at` is measured from the run's first edge; `kind` is "mountain" or "valley", seen from
    the face, and `said` are the words that say which."""

    name: str
    at: Length
    kind: str
    span: Span | None = field(default=None, eq=False, repr=False)
    said: Span | None = field(default=None, eq=False, repr=False)


@frozen
class Run:
    """Panels and scores along one direction of a piece.

    `axis` is "width" for a run from side to side and "height" for one between head and tail. `first_edge` and
    `last_edge` are the edges' names as the maker gave them; `reversed` says that positions count from the right edge
    or from the head, that is, against the coordinates of the piece. `panels` and `scores` stand in the order in which
    they lie.
    """

    axis: str
    first_edge: str
    last_edge: str
    reversed: bool
    panels: tuple[Panel, ...]
    scores: tuple[Score, ...]

    @property
    def side(self) -> Length:
        """The whole length of the run."""
        return self.panels[-1].end


@frozen
class OffMark:
    """A cut or a score that the maker's ruler has no mark for.

    `what` says it in words ("height", "fold crest[2]", "cut window"), `at` is its length or how far it lies from
    `edge` ("" for the length of a side), `nearest` the nearest mark. `fact` names what gives it and `size` is the
    value of that; `words` are those it was written with, at `span`. `count` is how many lie off the marks for it.
    """

    what: str
    at: Length
    edge: str
    nearest: Length
    fact: str
    size: Length | None
    words: str
    count: int
    span: Span = field(eq=False, repr=False)


@frozen
class FlatPiece:
    """One piece to be cut. `path` says which ("page[2].front_sheet"), `part` is the path of the part it belongs to, and
    `component` the component it was written in, so that like pieces of like parts can be told.

    `left` and `right` are the names of those edges as seen from the face, head up. `grain` is "height", "width" or
    "any"; `against_grain` is "refuse" or "warn". `face_up` says which side is the face in words ("decorated side").
    `outline` is the outer cut, `inner_cuts` are windows and slits; `cuts` are both as they were asked for. `off_marks`
    are the cuts and scores that the ruler has no mark for. `height_made` and `width_made` say where the maker's own
    file makes the part, and what of the values given there each side hangs on; None for a piece of that file.
    """

    path: str
    part: str
    component: str
    name: str
    doc: str
    stock: Stock
    height: Length
    width: Length
    left: str
    right: str
    grain: str
    against_grain: str
    face_up: str
    loose: bool
    runs: tuple[Run, ...]
    outline: CutPath
    inner_cuts: tuple[CutPath, ...]
    span: Span = field(eq=False, repr=False)
    off_marks: tuple[OffMark, ...] = field(default=(), eq=False, repr=False)
    cuts: tuple[Cut, ...] = ()
    height_made: Making | None = field(default=None, eq=False, repr=False)
    width_made: Making | None = field(default=None, eq=False, repr=False)
