"""What a maker is told of the cutting of sheets.

Lengths of places run from a sheet's left edge and from its bottom edge; the sheet lies with its grain, or where it has
none its pattern, upright.
"""

from attrs import frozen

from pastedown.quantity.quantity import Length, Quantity


@frozen
class SheetPart:
    """What one part of a sheet ends as: `kind` is "piece", "offcut" or "trim". `name` is the id of the piece that it
    becomes, or of all that come out in this size, "offcut 1" (one number for each size), or "left raw edge"."""

    x: Length
    y: Length
    width: Length
    height: Length
    kind: str
    name: str


@frozen
class SheetStroke:
    """One stroke of the blade, from `x`, `y` upwards or to the right."""

    x: Length
    y: Length
    length: Length
    upright: bool


@frozen
class SheetCut:
    """One row of cuts at one setting of the fence. `what` is cut: "sheet", "strip A", or the rest of one, and so are
    all `alike` of them on the sheet. The cut runs upright or level; `fence` is the size of each of the `strips` that
    come off. `taken` and `rest` name what comes off and what is left; `strokes` are drawn where they lie on the whole
    sheet, and `blade` says how often the blade comes down for them on all sheets of the pattern."""

    number: int
    what: str
    alike: int
    upright: bool
    fence: Length
    strips: int
    taken: str
    rest: str
    strokes: tuple[SheetStroke, ...]
    blade: int


@frozen
class PieceOnSheet:
    """`count` pieces of one entry of the cut list on each sheet, as sized there."""

    id: str
    name: str
    count: int
    height: Length
    width: Length


@frozen
class OffcutUse:
    """An offcut holds `count` pieces of this entry of the cut list, if nothing else is cut from it. `instead_of` is the
    stock that the design has for them, where that is another one."""

    id: str
    count: int
    instead_of: str = ""


@frozen
class Offcut:
    """What is left of each sheet: `count` pieces so wide and so high, as the sheet lies. `uses` are proposed: each by
    itself, of pieces that the design could have more of. `raw` are its edges that were not trimmed: "right", "top"."""

    name: str
    width: Length
    height: Length
    count: int
    uses: tuple[OffcutUse, ...] = ()
    raw: tuple[str, ...] = ()


@frozen
class SheetRun:
    """`times` sheets that become just these pieces: two kinds of one size may share a place on different sheets."""

    times: int
    pieces: tuple[PieceOnSheet, ...]


@frozen
class SheetPattern:
    """One way to cut a sheet, done `times` times, in runs. `settings` counts how often the fence is moved: cuts in a
    row at one distance are one setting. `strokes` counts how often the blade comes down for all of
    them, with `at_once` sheets or strips together, as the stock of that size allows."""

    number: int
    times: int
    sheet: str
    on_hand: bool
    width: Length
    height: Length
    parts: tuple[SheetPart, ...]
    cuts: tuple[SheetCut, ...]
    runs: tuple[SheetRun, ...]
    offcuts: tuple[Offcut, ...]
    settings: int
    strokes: int
    at_once: int = 1


@frozen
class SheetsBought:
    """How many sheets of one size are cut, in how many packs they come, what these cost, and how many whole sheets are
    over. `grain` is what the stock says of that size, and `at_once` of its sheets may be cut together. An
    offcut is on hand too."""

    sheet: str
    width: Length
    height: Length
    on_hand: bool
    used: int
    packs: int
    pack: int
    cost: Quantity | None
    left: int
    grain: str = "unknown"
    at_once: int = 1
    is_offcut: bool = False


@frozen
class NotCut:
    """`count` pieces that are not cut: none of the sheets can hold one, or (with no shortfall) no sheet is left.
    `short_width` and `short_height` say what the sheet lacks that lacks least, as it lies."""

    id: str
    name: str
    count: int
    sheet: str
    short_width: Length
    short_height: Length


@frozen
class TakenGrain:
    """Of the sheets of one size: the plan holds if their grain runs along the `along` side, "longer" or "shorter", or
    any way where it is empty. `marked` says that the maker finds the grain and marks it; otherwise nobody has said how
    it runs."""

    sheet: str
    along: str
    marked: bool


@frozen
class StockCutting:
    """How one stock is cut. `upright` says what runs upwards on its sheets: "grain", "pattern", "grain and pattern", or
    nothing that matters. `taken` says how the grain of sizes is taken to run of which nobody has said it; `across` and
    `sideways` are the ids of pieces that lie across the grain though they want it along, and across the pattern.
    Without prices and with one size bought, no way takes fewer sheets than `least`; with prices none costs less than
    `least_cost`. `proven` is said only where the plan needs no more. `spares` are the ids of pieces of which some are
    cut to spare, and how many. `unpriced` says that several sizes are on offer whose prices cannot be compared, so that
    little paper was sought instead; `advice` what would bring better plans, empty where nothing would. `kept_upright`
    says that pieces which want no grain are not turned because the stock is decorated."""

    stock: str
    kind: str
    upright: str
    patterns: tuple[SheetPattern, ...]
    bought: tuple[SheetsBought, ...]
    sheets: int
    least: int | None
    cost: Quantity | None
    least_cost: Quantity | None
    proven: bool
    not_cut: tuple[NotCut, ...]
    spares: tuple[tuple[str, int], ...] = ()
    unpriced: bool = False
    kept_upright: bool = False
    advice: str = ""
    taken: tuple[TakenGrain, ...] = ()
    across: tuple[str, ...] = ()
    sideways: tuple[str, ...] = ()

    @property
    def gap(self) -> int | None:
        """How many sheets more than the bound; None where there is no bound in sheets."""
        return None if self.least is None else self.sheets - self.least
