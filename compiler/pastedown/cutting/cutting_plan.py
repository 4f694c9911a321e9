"""What the planner hands back. Lengths are exact, in the problem's unit; x runs from a sheet's left edge, y from its
bottom edge, raw edges included."""

from fractions import Fraction

from attrs import frozen

from pastedown.cutting.problem import Exact, Problem, Sheet
from pastedown.cutting.task import Misfit


@frozen
class Block:
    """A rectangle of a sheet. `what` is "cut" where it is cut into `parts` along `axis` ("x": side by side, "y": one
    above the other), and else what it ends as: "piece", "offcut" or "trim". Pieces are numbered by `slot`, from 0 in
    the order of cutting; a `Run` says which of the problem's pieces a slot is."""

    x: Exact
    y: Exact
    width: Exact
    height: Exact
    what: str
    axis: str = ""
    parts: tuple["Block", ...] = ()
    slot: int | None = None

    @property
    def area(self) -> Exact:
        return self.width * self.height

    def ends(self) -> tuple["Block", ...]:
        """The blocks within it that are cut no further, in the order of cutting."""
        if self.what != "cut":
            return (self,)
        return tuple(end for part in self.parts for end in part.ends())


@frozen
class Line:
    """Where a blade goes through a sheet: upright or level, from the point `x`, `y` to the right or upwards."""

    x: Exact
    y: Exact
    length: Exact
    upright: bool


@frozen
class Cut:
    """One setting of the fence. `block` is what is cut, and `alike` how many blocks of the sheet are cut just so. The
    fence stands at `fence` from one end of the block, along "x" or "y"; `strips` strips of that width come off, one
    after another: `taken` are those of `block`, and `strip` is the first of them. `rest` is what is left of the block,
    None where nothing is. `lines` are the strokes on the sheet, those of one block after those of another; `again` says
    that the block was cut before and is what was left then."""

    number: int
    block: Block
    axis: str
    fence: Exact
    strips: int
    strip: Block
    rest: Block | None
    alike: int
    taken: tuple[Block, ...] = ()
    lines: tuple[Line, ...] = ()
    again: bool = False

    def strokes(self, sheets: int, stack: int) -> int:
        """Strokes of the blade for so many sheets cut by the pattern, if up to `stack` blocks are cut at once."""
        return self.strips * -(-self.alike * sheets // stack)


@frozen
class Run:
    """`times` sheets of a pattern whose slots are these of the problem's pieces, by index, and which of them lie
    turned. Pieces of one size but of several names may fill the same slot on one sheet and the next."""

    times: int
    pieces: tuple[int, ...]
    turned: tuple[bool, ...]


@frozen
class Pattern:
    """How one sheet is cut, and how many sheets are cut so, in runs. `settings` counts the distances that are set on
    the fence, once for each block that is cut; `cuts` takes like blocks together."""

    sheet: Sheet
    times: int
    block: Block
    cuts: tuple[Cut, ...]
    settings: int
    runs: tuple[Run, ...]

    @property
    def pieces(self) -> tuple[Block, ...]:
        return tuple(end for end in self.block.ends() if end.what == "piece")

    @property
    def offcuts(self) -> tuple[Block, ...]:
        """What is left of one sheet, the largest first."""
        left = [end for end in self.block.ends() if end.what == "offcut"]
        return tuple(sorted(left, key=lambda end: (-end.area, end.x, end.y)))


@frozen
class Bought:
    """How many sheets of one size are cut, how many packs that takes, what these cost, and how many whole sheets are
    over."""

    sheet: Sheet
    used: int
    packs: int
    cost: Fraction | None
    left: int


@frozen
class CuttingPlan:
    """`new_sheets` counts what is bought. `least_sheets` is the bound: where one size is bought, no plan needs fewer
    sheets; `least_cost` bounds the cost where there are prices. `proven` says
    that no plan needs less. `misfits` fit no sheet; `short` are pieces (index, count) for which no sheet was
    left, which happens only where all sheets are on hand. `advice` is what the maker may do for better plans, or
    empty."""

    problem: Problem
    patterns: tuple[Pattern, ...]
    bought: tuple[Bought, ...]
    new_sheets: int
    least_sheets: int | None
    cost: Fraction | None
    least_cost: Fraction | None
    proven: bool
    misfits: tuple[Misfit, ...]
    short: tuple[tuple[int, int], ...]
    advice: str = ""

    @property
    def settings(self) -> int:
        return sum(pattern.settings for pattern in self.patterns)
