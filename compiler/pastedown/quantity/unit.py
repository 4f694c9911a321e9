"""The units of the language, each as the quantity that one of it is. Unit factors stand here and nowhere else."""

from fractions import Fraction

from pastedown.quantity.dimension import ANGLE, GRAMMAGE, LENGTH, MASS, NUMBER
from pastedown.quantity.quantity import Quantity, inches

# 1 ft = 12 in and 1 yd = 36 in: international yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
# 1 pt = 0.001 in: in papermaking and binding a point of thickness is one thousandth of an inch (PrintWiki, 'Point'). It
# is not the typographer's point of 1/72 in.
# A grammage is held in grams for each square millimetre, so one gram for each square metre is 1/1 000 000 of that.
UNITS: dict[str, Quantity] = {
    "in": inches(1),
    "ft": inches(12),
    "yd": inches(36),
    "pt": inches("1/1000"),
    "mm": Quantity(Fraction(1), LENGTH),
    "cm": Quantity(Fraction(10), LENGTH),
    "m": Quantity(Fraction(1000), LENGTH),
    "g": Quantity(Fraction(1), MASS),
    "kg": Quantity(Fraction(1000), MASS),
    "gsm": Quantity(Fraction(1, 1_000_000), GRAMMAGE),
    "deg": Quantity(Fraction(1), ANGLE),
}

METRIC_UNITS = frozenset({"mm", "cm", "m", "g", "kg", "gsm"})

UNIT_SIGNS: dict[str, Quantity] = {
    "": Quantity(Fraction(1), NUMBER),
    "%": Quantity(Fraction(1, 100), NUMBER),
    "\N{DEGREE SIGN}": UNITS["deg"],
    '"': UNITS["in"],
    "\N{RIGHT DOUBLE QUOTATION MARK}": UNITS["in"],
    "\N{DOUBLE PRIME}": UNITS["in"],
}

# `lb` is a unit only together with a basic size (weight.py). `t` means nothing: it is kept free, because both "tonne"
# and "thickness" would be guessed.
UNIT_NAMES: tuple[str, ...] = (*UNITS, "lb", "t")
