"""Stock: what is bought to make an album from."""

from fractions import Fraction

from attrs import field, frozen

from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity
from pastedown.source import Span

# The kinds the core tells apart: what is cut from sheets, what comes on a roll, what sticks, and what is bought as it
# is. All terms of the paper trade.
STOCK_KINDS = ("card", "board", "paper", "cloth", "tape", "glue", "magnet", "ribbon", "print")
STOCK_GRAINS = ("long", "short", "marked", "none", "unknown")
DECORATED_SIDES = ("none", "face", "both")
WORDS_OF_STOCK = {"kind": STOCK_KINDS, "grain": STOCK_GRAINS, "decorated": DECORATED_SIDES}


@frozen
class Stock:
    """One thing to buy. Lengths that are None were not given; what needs them says so.

    Sheets have `sheet` (two sides in the order written); rolls have `roll_width` and perhaps `roll_length`; things
    bought as they are (a photograph, a magnet) have `height` and `width`. `grain` is one of STOCK_GRAINS: `long` runs
    along the longer side of the sheet, `marked` means the maker marks an arrow on each sheet. `price` is for one pack
    of `pack` sheets or rolls, or of glue that goes as far as the area `coverage`. `trim` is cut off each raw edge of a
    sheet, `cut_at_once` sheets may be cut together, and `spare` is the share of what is needed that is bought and cut
    on top of it. `on_hand` sheets are there already; `offcuts` are sizes that are, each with the side along its grain
    first. `also` are other sizes of the same on offer. `grain_at`, `trim_at` and `offcuts_at` are where
    these are written.
    """

    name: str
    kind: str
    sheet: tuple[Length, Length] | None = None
    roll_width: Length | None = None
    roll_length: Length | None = None
    height: Length | None = None
    width: Length | None = None
    caliper: Length | None = None
    weight: Quantity | None = None
    grain: str = "unknown"
    decorated: str = "none"
    price: Quantity | None = None
    pack: int = 1
    coverage: Quantity | None = None
    caution: str = ""
    trim: Length = NO_LENGTH
    cut_at_once: int = 1
    spare: Fraction = Fraction(0)
    on_hand: int = 0
    offcuts: tuple[tuple[Length, Length], ...] = ()
    also: tuple["Stock", ...] = ()
    grain_at: Span | None = field(default=None, eq=False, repr=False)
    trim_at: Span | None = field(default=None, eq=False, repr=False)
    offcuts_at: Span | None = field(default=None, eq=False, repr=False)

    @property
    def words(self) -> str:
        """What it is called: its name, or its kind where it was stated only where it is used."""
        return self.name or self.kind

    @property
    def is_adhesive(self) -> bool:
        return self.kind in ("tape", "glue")
