"""What stands on a sheet of printer paper, in millimetres from its upper left corner, y downwards."""

from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from pastedown.outputs.template.line_kind import LineKind
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.shape import FloatSpot, Move, Round, Spot, Straight


@frozen
class Stroke:
    """A line. `part` is the group of the drawing it belongs to. `dashes` is its pattern in millimetres, empty for a
    continuous line, and `gone` how far the pattern has run where the line begins."""

    part: str
    kind: LineKind
    moves: tuple[Move, ...]
    closed: bool = False
    dashes: tuple[Fraction, ...] = ()
    gone: Fraction = Fraction(0)

    @property
    def has_dots(self) -> bool:
        """Whether its pattern has dots, which are shorter than the line is wide: with round ends they are three times
        as long and are seen on a screen too. Where the pattern is so shrunk that round ends would close its gaps, it
        is left as it is."""
        drawn, left_out = self.dashes[::2], self.dashes[1::2]
        return bool(drawn) and min(drawn) < self.kind.width and min(left_out) > 2 * self.kind.width


@frozen
class Patch:
    """An area filled with black, by its corners."""

    part: str
    corners: tuple[FloatSpot, ...]


@frozen
class Words:
    """One line of writing. `x`, `y` is a spot on its base line: its start, its middle or its end, as `anchor` says
    ("start", "middle", "end"). `size` is the size of the letters, `angle` is in degrees, anticlockwise. `inches` and
    `metric` are the same in one system of units alone, for readers that can switch; empty where it has no measure."""

    text: str
    x: float
    y: float
    size: float
    anchor: str = "start"
    angle: float = 0.0
    inches: str = ""
    metric: str = ""


@frozen
class Sheet:
    """A sheet of printer paper and all that is drawn on it. `title` is for readers of the file, not printed."""

    title: str
    paper: Paper
    strokes: tuple[Stroke, ...]
    patches: tuple[Patch, ...]
    words: tuple[Words, ...]


@frozen
class OnSheet:
    """Where a piece lies on the sheet: its left edge at `left`, its tail at `tail`, in millimetres of the sheet."""

    left: Fraction
    tail: Fraction

    def spot(self, place: Spot) -> Spot:
        """The place of the piece as a place of the sheet: the head is up, and the sheet's y runs down."""
        return self.left + place[0], self.tail - place[1]

    def float_spot(self, place: Spot) -> FloatSpot:
        """Likewise, for what is only laid out and not measured."""
        x, y = self.spot(place)
        return float(x), float(y)

    def move(self, move: Move) -> Move:
        """The move of the piece as a move of the sheet; `clockwise` stays what the eye sees."""
        start, end = self.spot(move.start), self.spot(move.end)
        if isinstance(move, Straight):
            return Straight(start, end)
        return Round(start, end, self.spot(move.centre), move.radius, move.clockwise)


def line(part: str, kind: LineKind, *spots: tuple[float | Fraction, float | Fraction]) -> Stroke:
    """A continuous line through the spots, or the pattern of its kind in full size."""
    exact = [(Fraction(x), Fraction(y)) for x, y in spots]
    moves = tuple(Straight(a, b) for a, b in pairwise(exact))
    return Stroke(part, kind, moves, dashes=tuple(element * kind.width for element in kind.pattern))
