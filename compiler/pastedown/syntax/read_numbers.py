"""Takes a number with its unit, or a bought size, as written. Gives its exact value."""

import re

from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.quantity.literal import LiteralError, metric_fraction, read_quantity
from pastedown.syntax.token import Token
from pastedown.tree.expression import Literal, SheetSize

_BY = re.compile(r"\s*[xX\u00d7]\s*(?=[0-9.\u00bc-\u00be\u2150-\u215e])")
_AMOUNT = re.compile(r"[^A-Za-z\"\u201d\u2033]*[^A-Za-z\"\u201d\u2033\s]")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")


def read_number(token: Token) -> tuple[Literal | SheetSize | None, tuple[Diagnostic, ...]]:
    """What the token stands for; None, and why, if it cannot be read. A readable one may have a warning."""
    sides = _BY.split(token.text)
    found = _commas_and_points(token, sides)
    if found is not None:
        return None, (found,)
    try:
        if len(sides) == 2:
            return _sheet(token, *sides)
        return Literal(read_quantity(token.text), token.span), _metric_fraction(token, sides)
    except LiteralError as unreadable:
        return None, (error(unreadable.id, token.span, unreadable.reason, way_out=unreadable.way_out),)


def _commas_and_points(token: Token, sides: list[str]) -> Diagnostic | None:
    for side in sides:
        comma = _COMMA.match(side)
        if comma:
            return decimal_comma(token, side)
        if side.startswith("."):
            return error(
                "leading-point",
                token.span,
                f"`{_short(side)}` begins with its point.",
                reason="A point is easily lost in copying, and ten times the measure is left.",
                way_out=f"Write `0{_short(side)}`.",
            )
    return None


def decimal_comma(token: Token, written: str) -> Diagnostic:
    """What to say about `written`, a number with a comma between its digits."""
    whole, part = _COMMA.match(written).groups()  # type: ignore[union-attr]
    way_out = f"Write `{_short(written.replace(',', '.', 1))}`"
    if len(part) == 3 and len(whole) <= 3 and whole != "0":
        way_out += f", or `{_short(written.replace(',', '', 1))}` if thousands are meant"
    return error(
        "decimal-comma",
        token.span,
        f"`{_short(written)}` has a comma inside the number.",
        reason="A comma sets two values apart here; decimals are written with a point.",
        way_out=f"{way_out}; if these are two values, put a blank after the comma.",
    )


def _sheet(token: Token, first: str, second: str) -> tuple[SheetSize | None, tuple[Diagnostic, ...]]:
    """A side without a unit has the unit of the other."""
    first_unit, second_unit = _unit(first), _unit(second)
    if not first_unit and not second_unit:
        return None, (_sheet_without_unit(token, first, second),)
    one = read_quantity(first if first_unit else first + second_unit)
    other = read_quantity(second if second_unit else second + first_unit)
    return SheetSize(one, other, token.span), _metric_fraction(token, [first, second])


def _unit(side: str) -> str:
    amount = _AMOUNT.match(side)
    return side[amount.end() :] if amount else ""


def _sheet_without_unit(token: Token, first: str, second: str) -> Diagnostic:
    return error(
        "missing-unit",
        token.span,
        f"The size `{_short(token.text)}` has no unit.",
        reason="A sheet of so many inches and one of so many centimetres are two different sheets.",
        way_out=f"Write `{_short(first)} in x {_short(second)} in`, or `mm`, `cm` or another unit in place of `in`.",
    )


def _metric_fraction(token: Token, sides: list[str]) -> tuple[Diagnostic, ...]:
    if not any(metric_fraction(side) for side in sides):
        return ()
    return (
        warning(
            "metric-fraction",
            token.span,
            f"`{_short(token.text)}` is a fraction of a metric unit.",
            reason="Rulers in millimetres show no such fractions; perhaps inches were meant.",
            way_out="Write the unit that is meant, and metric measures as decimals, such as `7.5 mm`.",
        ),
    )


def _short(text: str) -> str:
    """A number as it is quoted in a sentence: on one line, and cut where nobody would read on."""
    single = " ".join(text.split())
    return single if len(single) <= 40 else f"{single[:40]}..."
