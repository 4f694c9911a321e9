"""The maker's ruler, and in which units lengths are shown."""

from enum import Enum

from attrs import frozen

from pastedown.quantity.quantity import Length, inches, mm


class Show(Enum):
    """In which units a maker wants to read lengths."""

    INCHES = "inches"
    METRIC = "metric"
    BOTH = "both"


@frozen
class Ruler:
    """`marks` is the distance between the finest marks the maker can cut to. `show` says how lengths are written."""

    marks: Length
    show: Show

    @property
    def in_inches(self) -> bool:
        """Whether the marks are those of an inch rule: they are rounder numbers in their own system than in the other,
        1/16 in but 127/80 mm."""
        return self.marks.inches.denominator <= self.marks.millimetres.denominator


# The usual rulers, each with what it shows.
INCH_RULER = Ruler(inches("1/16"), Show.INCHES)
METRIC_RULER = Ruler(mm(1), Show.METRIC)
