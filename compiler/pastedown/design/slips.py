"""Slips of words that are seen before as well as while working out: told in the same words by both."""

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.quantity.dimension import Dimension
from pastedown.tree.expression import Expression, Rounded, RulerMarks
from pastedown.tree.statement import Statement

WAYS = ("down", "up", "nearest")
METRIC_RULERS = ("millimetres", "millimetre", "mm")
UNITS_OF_RULER = (*METRIC_RULERS, "inches", "inch")


def wrong_way(rounded: Rounded) -> Diagnostic:
    """Of `rounded donw to`."""
    sentence = f"A length is rounded down, up or nearest, not {rounded.way}."
    way_out = did_you_mean(rounded.way, WAYS) or "Write rounded down to, rounded up to, or rounded nearest to."
    return error("unknown-choice", rounded.way_span, sentence, way_out=way_out)


def wrong_unit_of_ruler(ruler: RulerMarks) -> Diagnostic:
    """Of `inhces to 1/16`."""
    sentence = f"A ruler shows inches or millimetres, not {ruler.unit}."
    way_out = did_you_mean(ruler.unit, ("inches", "millimetres")) or "Write inches to 1/16, or millimetres to 1."
    return error("unknown-choice", ruler.unit_span, sentence, way_out=way_out)


def list_in_list(item: Expression) -> Diagnostic:
    """Of `[1 in, [2 in, 3 in]]`."""
    sentence = "A list holds single values, and this is a list."
    return error("wrong-kind", item.span, sentence, way_out="Write its values out, or keep the two apart.")


def not_of_a_stock(statement: Statement) -> Diagnostic:
    """Of anything but a field in the braces of `kraft with { ... }`."""
    sentence = "In the braces of a stock only its own fields are set, as in grain = long."
    return error("wrong-kind", statement.span, sentence, way_out="Move it out of these braces.")


def no_square_root(value: Expression, dimension: Dimension) -> Diagnostic:
    """Of `square_root(3 in)`."""
    sentence = f"square_root takes an area or a plain number, and this is {dimension.words}."
    way_out = "The root of an area is a length: multiply one length by another, as in square_root(height * slip)."
    return error("wrong-dimension", value.span, sentence, way_out=way_out)


def whole_of_no_number(value: Expression, dimension: Dimension) -> Diagnostic:
    """Of `whole(3 in)`."""
    sentence = f"whole takes a plain number, and this is {dimension.words}."
    way_out = "Divide one length by another, or use rounded down to."
    return error("wrong-dimension", value.span, sentence, way_out=way_out)


def follows_nothing(value: Expression, what: str) -> Diagnostic:
    """Of `follows: 3 in`; `what` is what the value is, in words."""
    sentence = f"A crease follows a fold or a panel that bends, and this is {what}."
    way_out = "Name what turns there, as in follows: case.front_tape.gap."
    return error("wrong-kind", value.span, sentence, way_out=way_out)


def not_a_panel(value: Expression, what: str) -> Diagnostic:
    """Of `fold crease: in_place, on: 3 in`; `what` is what the value is, in words."""
    sentence = f"A crease lies on a panel, and this is {what}."
    return error("wrong-kind", value.span, sentence, way_out="Name a panel of a run, as in on: sheet.body.")
