"""Values as the maker asked for them and in each system of units alone, for outputs that can switch."""

from __future__ import annotations

from collections.abc import Callable

from attrs import evolve, frozen

from pastedown.outputs.in_words import measure, measure_beside_mark, measure_on_ruler
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import INCH_RULER, METRIC_RULER, Ruler, Show


@frozen
class TwoSystems:
    """`text` is what the recipe asks for, `inches` and `metric` the same in one system alone."""

    text: str
    inches: str
    metric: str

    @property
    def differ(self) -> bool:
        """Whether there is anything to switch: a count reads the same in every system."""
        return self.inches != self.metric

    @property
    def each(self) -> tuple[str, str, str]:
        """As asked for, in inches, and in metric units."""
        return self.text, self.inches, self.metric

    def behind(self, words: str) -> TwoSystems:
        """The same with these words before it."""
        return TwoSystems(words + self.text, words + self.inches, words + self.metric)


def as_written(text: str) -> TwoSystems:
    """A text that reads the same in every system."""
    return TwoSystems(text, text, text)


def in_two_systems(value: Quantity, ruler: Ruler) -> TwoSystems:
    """The value, each time held together so that a line never ends between a number and its unit."""
    return told_in_two_systems(lambda one: measure(value, one), ruler)


def told_in_two_systems(tell: Callable[[Ruler], str], ruler: Ruler) -> TwoSystems:
    """Words with values among them: what `tell` says with the maker's ruler and with one of each system alone."""
    text, inches, metric = (tell(one) for one in (ruler, *_alone(ruler)))
    return TwoSystems(text, inches, metric)


def on_ruler_in_two_systems(value: Length, ruler: Ruler) -> TwoSystems:
    """The length by the mark of the ruler it lies next to, as `measure_on_ruler` has it: the maker's own ruler, and in
    the other system the usual one of it."""
    return told_in_two_systems(lambda one: measure_on_ruler(value, one), ruler)


def beside_mark_in_two_systems(value: Length, ruler: Ruler) -> TwoSystems:
    """The same in few words, as `measure_beside_mark` has it."""
    return told_in_two_systems(lambda one: measure_beside_mark(value, one), ruler)


def _alone(ruler: Ruler) -> tuple[Ruler, Ruler]:
    if ruler.in_inches:
        return evolve(ruler, show=Show.INCHES), METRIC_RULER
    return INCH_RULER, evolve(ruler, show=Show.METRIC)
