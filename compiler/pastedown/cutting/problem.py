"""What is asked of the planner: sheets on offer, pieces wanted, and how hard to try.

All lengths of one problem are exact numbers in one unit of the caller's choice; so are prices. Width runs from the left
edge to the right, height from the bottom edge to the top. Grain is the caller's business: a piece whose grain, or whose
pattern, forbids a quarter turn has `may_turn` false.
"""

from fractions import Fraction
from typing import Any

from attrs import field, frozen

from pastedown.cutting.budget import USUAL_EFFORT

Exact = Fraction | int


def plain(value: Exact) -> Exact:
    """A whole number as int, whichever way it was worked out."""
    fraction = Fraction(value)
    return int(fraction) if fraction.denominator == 1 else fraction


def _positive(instance: object, attribute: object, value: Any) -> None:
    if value is not None and value <= 0:
        raise ValueError(f"{getattr(attribute, 'name', 'value')} must be above 0, not {value}")


def _not_negative(instance: object, attribute: object, value: Any) -> None:
    if value is not None and value < 0:
        raise ValueError(f"{getattr(attribute, 'name', 'value')} must not be below 0, not {value}")


@frozen
class Trim:
    """What is cut off the raw edges of a sheet before anything else, a length for each edge."""

    left: Exact = field(default=0, validator=_not_negative)
    right: Exact = field(default=0, validator=_not_negative)
    bottom: Exact = field(default=0, validator=_not_negative)
    top: Exact = field(default=0, validator=_not_negative)


@frozen
class Sheet:
    """One size of sheet.

    With `on_hand` a number, so many are there already and cost nothing: offcuts. Without, it is bought: in packs of
    `pack` sheets, at `price` a pack. Either every size that is bought has a price or none has; without prices the
    fewest sheets are sought, and where several sizes are on offer the smallest area.
    """

    name: str
    width: Exact = field(validator=_positive)
    height: Exact = field(validator=_positive)
    price: Exact | None = field(default=None, validator=_positive)
    pack: int = field(default=1, validator=_positive)
    on_hand: int | None = field(default=None, validator=_not_negative)
    trim: Trim = Trim()


@frozen
class Piece:
    """`count` pieces of one size, as they lie on an unturned sheet."""

    label: str
    width: Exact = field(validator=_positive)
    height: Exact = field(validator=_positive)
    count: int = field(validator=_not_negative)
    may_turn: bool = False


@frozen
class Problem:
    """Pieces of one stock, and the sheets of that stock they may be cut from. Raises ValueError where some sizes that
    are bought have a price and others have none."""

    sheets: tuple[Sheet, ...]
    pieces: tuple[Piece, ...]

    def __attrs_post_init__(self) -> None:
        priced = {sheet.price is None for sheet in self.sheets if sheet.on_hand is None}
        if len(priced) > 1:
            raise ValueError("either every sheet that is bought has a price or none has")


@frozen
class Effort:
    """How hard to try. `work` counts steps of the methods, not seconds, so that every machine comes to the same plan; a
    thousand take about a second; each choice among several sizes that are bought may take so many. `libraries`
    false: do as if numpy and highspy were not installed."""

    work: int = field(default=USUAL_EFFORT, validator=_not_negative)
    libraries: bool = True
