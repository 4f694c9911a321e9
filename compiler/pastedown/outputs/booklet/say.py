"""Texts of the plan as running text of a booklet."""

from pastedown.outputs.booklet.blocks import Said
from pastedown.outputs.two_systems import in_two_systems
from pastedown.plan.plan import PlanText
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler


def said(text: PlanText, ruler: Ruler) -> Said:
    """The text with its values in both systems of units."""
    return tuple(in_two_systems(part, ruler) if isinstance(part, Quantity) else part for part in text)


def sized(value: Quantity | None, ruler: Ruler) -> Said:
    """One value alone; nothing where it is not known."""
    return () if value is None else (in_two_systems(value, ruler),)
