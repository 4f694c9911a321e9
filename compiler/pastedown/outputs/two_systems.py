"""Values as the maker asked for them and in each system of units alone, for outputs that can switch."""

from attrs import evolve, frozen

from pastedown.outputs.in_words import measure, measure_on_ruler
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler, Show


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


def in_two_systems(value: Quantity, ruler: Ruler) -> TwoSystems:
    """The value, each time held together so that a line never ends between a number and its unit."""
    inches, metric = _alone(ruler)
    return TwoSystems(measure(value, ruler), measure(value, inches), measure(value, metric))


def on_ruler_in_two_systems(value: Length, ruler: Ruler) -> TwoSystems:
    """The length by the mark of the maker's ruler it lies next to, as `measure_on_ruler` has it."""
    inches, metric = _alone(ruler)
    return TwoSystems(*(measure_on_ruler(value, one) for one in (ruler, inches, metric)))


def _alone(ruler: Ruler) -> tuple[Ruler, Ruler]:
    return evolve(ruler, show=Show.INCHES), evolve(ruler, show=Show.METRIC)
