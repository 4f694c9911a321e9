"""Amounts for advice: moved to what a maker can set and we can write whole, so that following it is never a hair short.

An amount off every mark is written rounded to the nearest, which may be too little. Advice takes the next one on the
safe side instead.
"""

from fractions import Fraction

from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MASS, NUMBER, VOLUME, Dimension
from pastedown.quantity.quantity import Quantity, inches, mm
from pastedown.quantity.rounding import round_to
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.unit import UNITS
from pastedown.quantity.write import MONEY_PLACES, is_written_whole

# Steps that are written whole in either system, or in the one that has no other. What has no name is written to four
# decimals.
_STEPS = {ANGLE: Fraction(1, 100), GRAMMAGE: UNITS["gsm"].value, MASS: Fraction(1, 100)}
_OTHER_STEP = Fraction(1, 10_000)


def at_least(q: Quantity, ruler: Ruler) -> Quantity:
    """The least amount that is no less than `q`: a length on a mark of the ruler, a plain number as it is if it can be
    written whole, anything else in the last decimal that is written."""
    if q.dimension != LENGTH and is_written_whole(q, ruler):
        return q
    return round_to(q, "up", _step(q.dimension, ruler))


def more_than(q: Quantity, ruler: Ruler) -> Quantity:
    """The least amount that is more than `q`, likewise; a whole number is followed by the next one."""
    if q.dimension == NUMBER and q.value.denominator == 1:
        return Quantity(q.value + 1, NUMBER)
    step = _step(q.dimension, ruler)
    return round_to(q, "down", step) + step


def at_most(q: Quantity, ruler: Ruler) -> Quantity:
    """`q` itself if it can be written whole, or else the next amount below it, likewise."""
    return q if is_written_whole(q, ruler) else round_to(q, "down", _step(q.dimension, ruler))


def _step(dimension: Dimension, ruler: Ruler) -> Quantity:
    """A step of which every multiple is written whole in the system that leads."""
    inches_lead = ruler.show is Show.INCHES or (ruler.show is Show.BOTH and ruler.in_inches)
    if dimension == LENGTH:
        finest = inches("1/1000") if inches_lead else mm("1/100")
        return ruler.marks if is_written_whole(ruler.marks, ruler) else finest
    if dimension == AREA:
        return inches("1/10") * inches("1/10") if inches_lead else mm(1) * mm(1)
    if dimension == VOLUME:
        return inches("1/10") * inches("1/10") * inches(1) if inches_lead else mm(1) * mm(1) * mm(10)
    if dimension == Dimension(money=1, currency=dimension.currency):
        return Quantity(Fraction(1, 10 ** MONEY_PLACES.get(dimension.currency, 2)), dimension)
    return Quantity(_STEPS.get(dimension, _OTHER_STEP), dimension)
