"""What tape is laid before two faces are brought together, in words."""

from collections.abc import Sequence
from itertools import groupby

from pastedown.design.stock import Stock
from pastedown.plan.bonded_zones import Zone
from pastedown.plan.plan import PlanText
from pastedown.plan.sentence import sentence
from pastedown.quantity.quantity import Length, number

# How many, how long each, and along what.
_Strips = tuple[int, Length, str]
# More kinds of places than that are told by the materials alone.
_MOST = 4


def strips_text(stock: Stock, name: str, zones: Sequence[Zone]) -> PlanText:
    """How many strips of a tape that is called `name` are laid, and how long they are; the same rows of which the
    materials count the length. Nothing of what comes off no roll."""
    if not zones or stock.sheet is not None or stock.kind != "tape":
        return ()
    alike = [(one, len([*same])) for one, same in groupby(_strips(zone, stock) for zone in zones)]
    if len(alike) > _MOST:
        return ()
    told = [_told(one, places, f" of {name}" if at == 0 else "") for at, (one, places) in enumerate(alike)]
    first, *others = told
    rows = sum(zone.rows(stock.roll_width) for zone in zones)
    where = _where(len(zones), rows)
    return sentence("Lay ", first, *(part for other in others for part in (", then ", other)), f", {where}.")


def _strips(zone: Zone, stock: Stock) -> _Strips:
    way = "from head to tail" if zone.height >= zone.width else "from side to side"
    return zone.rows(stock.roll_width), zone.long_side, way


def _told(strips: _Strips, places: int, of: str) -> PlanText:
    rows, length, way = strips
    count = rows * places
    each = ", " if count == 1 else ", each "
    return sentence(number(count), f" strip{'s' if count > 1 else ''}{of}{each}", length, f" long {way}")


def _where(places: int, rows: int) -> str:
    if places == 1:
        return "where the two will meet"
    if rows == places:
        return f"one for each of the {places} places where they will meet"
    return f"shared between the {places} places where they will meet"
