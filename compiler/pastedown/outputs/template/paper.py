"""Printer paper: which one a maker is likely to own, upright or lying, and the rim no home printer reaches."""

from attrs import frozen

from pastedown.quantity.quantity import Length, inches, mm
from pastedown.quantity.ruler import Ruler, Show

# Drawing sheets keep 10 mm free on three sides: ISO 5457, from memory. Home printers reach closer, but not all alike.
MARGIN = mm(10)


@frozen
class Paper:
    """A sheet as it is read: `width` from left to right, `height` from top to bottom."""

    name: str
    width: Length
    height: Length

    def turned(self) -> "Paper":
        """The same sheet lying on its long side, or upright again."""
        return Paper(self.name, self.height, self.width)


# ANSI/ASME Y14.1 size A, from memory.
US_LETTER = Paper("US Letter", inches("17/2"), inches(11))
# ISO 216.
A4 = Paper("A4", mm(210), mm(297))


def paper_for(ruler: Ruler) -> Paper:
    """The paper, upright, that goes with the maker's ruler. A maker who reads both units has the paper of the marks."""
    match ruler.show:
        case Show.INCHES:
            return US_LETTER
        case Show.METRIC:
            return A4
        case Show.BOTH:
            return US_LETTER if ruler.in_inches else A4
