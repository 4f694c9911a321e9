"""A length as it is written on a drawing, also as it reads in one system of units alone."""

from attrs import frozen

from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import width_of
from pastedown.outputs.two_systems import TwoSystems, in_two_systems
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler

SIZE = 2.6


@frozen
class Label:
    """What is written, in the maker's units or in those that a reader switches to."""

    written: TwoSystems

    @property
    def width(self) -> float:
        """The most room it takes along its base line in any units, in millimetres."""
        return max(width_of(text, SIZE) for text in self.written.each)

    def words(self, x: float, y: float, anchor: str, angle: float = 0.0) -> Words:
        """The label on a sheet, as `Words` are placed."""
        return Words(self.written.text, x, y, SIZE, anchor, angle, self.written.inches, self.written.metric)


def label_of(length: Length, ruler: Ruler, letter: str = "") -> Label:
    """The length, behind the letter of a fold if there is one."""
    return Label(in_two_systems(length, ruler).behind(f"{letter} " if letter else ""))
