"""A length as it is written on a drawing, also as it reads in one system of units alone."""

from attrs import frozen

from pastedown.outputs.in_words import measure
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import width_of
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.write import write_length

SIZE = 2.6


@frozen
class Label:
    """`text` in the maker's units, `inches` and `metric` for readers that can switch."""

    text: str
    inches: str
    metric: str

    @property
    def width(self) -> float:
        """The most room any of the three takes along its base line, in millimetres."""
        return max(width_of(text, SIZE) for text in (self.text, self.inches, self.metric))

    def words(self, x: float, y: float, anchor: str, angle: float = 0.0) -> Words:
        """The label on a sheet, as `Words` are placed."""
        return Words(self.text, x, y, SIZE, anchor, angle, self.inches, self.metric)


def label_of(length: Length, ruler: Ruler, letter: str = "") -> Label:
    """The length, behind the letter of a fold if there is one."""
    before = f"{letter} " if letter else ""
    return Label(
        before + measure(length, ruler),
        before + write_length(length, Show.INCHES),
        before + write_length(length, Show.METRIC),
    )
