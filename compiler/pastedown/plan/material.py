"""A stock to buy as the plan tells it, its other sizes on offer, and how hard to look for few sheets of it."""

from collections.abc import Callable
from fractions import Fraction

from attrs import field, frozen

from pastedown.plan.ledger import PlanText
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity


@frozen
class PlanningEffort:
    """How hard to look for few sheets: `work` is counted in steps, of which a thousand take about a second for each
    stock, and for each choice among several sizes of it. Without `libraries` the plan is the same whatever is
    installed. `tell` is told in words how far it has come, where that takes long; it changes no plan."""

    work: int = 1_000
    libraries: bool = False
    tell: Callable[[str], None] | None = field(default=None, eq=False)


@frozen
class OtherSize:
    """A sheet of the same stock in another size, on offer too."""

    name: str
    sheet: tuple[Length, Length]
    grain: str
    price: Quantity | None
    pack: int
    trim: Length
    cut_at_once: int = 1


@frozen
class Material:
    """One stock to buy. `use` says in words what for; `amount` is how much the pieces take: sheets' area, a length of
    tape, or a count of things bought as they are. `sheets_at_least` is the number of sheets that the area alone asks
    for (a floor, not a cutting plan); None for what is not sold in sheets. `weight` is the stock's own (a grammage),
    `mass` that of its cut pieces together, None where it cannot be told. `sheet` and `roll_length` are the stock's own,
    `strips` the lengths that come off a roll in one, and `zones` counts the places that it sticks. `cut_at_once` sheets
    may be cut together; `trim` is cut off each raw edge, `spare` the share that is bought and cut on top. `on_hand`
    sheets and `offcuts`, the side along the grain first, are there already; `also` are other sizes on offer. `effort`
    is how hard to look for few sheets; `caution` what is said of it in every kit. A pack of glue is enough
    for the area `coverage`, None where that is not said. Where `strips` hold pieces side by side, no cutting takes less
    than `least_length` nor fewer than `least_rolls` rolls; None where each strip is a piece and speaks for itself."""

    stock: str
    kind: str
    size: PlanText
    caliper: Length | None
    weight: Quantity | None
    grain: str
    pieces: int
    amount: Quantity
    sheets_at_least: int | None
    price: Quantity | None
    pack: int
    use: PlanText = ()
    mass: Quantity | None = None
    sheet: tuple[Length, Length] | None = None
    decorated: str = "none"
    zones: int = 0
    roll_length: Length | None = None
    roll_width: Length | None = None
    strips: tuple[Length, ...] = ()
    cut_at_once: int = 1
    trim: Length = NO_LENGTH
    spare: Fraction = Fraction(0)
    on_hand: int = 0
    offcuts: tuple[tuple[Length, Length], ...] = ()
    also: tuple[OtherSize, ...] = ()
    effort: PlanningEffort = PlanningEffort()
    caution: str = ""
    coverage: Quantity | None = None
    least_length: Length | None = None
    least_rolls: Fraction = Fraction(0)
