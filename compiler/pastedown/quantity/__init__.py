"""Exact quantities with dimensions: reading them, rounding them to the marks of a ruler, and writing them."""

from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MASS, MONEY, NUMBER, VOLUME, Dimension
from pastedown.quantity.literal import UNIT_NAMES, LiteralError, metric_fraction, read_quantity
from pastedown.quantity.quantity import NO_LENGTH, DimensionError, Length, Quantity, degrees, inches, mm, money, number
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show
from pastedown.quantity.spoken import spoken
from pastedown.quantity.weight import BASIC_SIZES, grammage
from pastedown.quantity.write import csv_decimal, write, write_length, write_on_ruler

__all__ = [
    "ANGLE", "AREA", "BASIC_SIZES", "GRAMMAGE", "INCH_RULER", "LENGTH", "MASS", "MONEY", "NO_LENGTH", "NUMBER",
    "UNIT_NAMES", "VOLUME", "Dimension", "DimensionError", "Length", "LiteralError", "Quantity", "Ruler", "Show",
    "csv_decimal", "degrees", "grammage", "inches", "is_on_mark", "metric_fraction", "mm", "money", "number",
    "read_quantity", "round_to", "spoken", "write", "write_length", "write_on_ruler",
]  # fmt: skip
