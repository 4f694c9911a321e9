"""The types a component may ask for, and the dimensions of those that are quantities."""

from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MONEY, NUMBER, Dimension

DIMENSION_OF: dict[str, Dimension] = {
    "length": LENGTH,
    "area": AREA,
    "angle": ANGLE,
    "count": NUMBER,
    "number": NUMBER,
    "weight": GRAMMAGE,
    "money": MONEY,
}
TYPE_NAMES = (*DIMENSION_OF, "text", "yes_no", "sheet", "choice", "stock")
