"""Takes a number with its unit, or a bought size, as written. Gives its exact value."""

import re

from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.diagnostic.nearest_name import equally_near
from pastedown.quantity.literal import UNIT_WORDS, LiteralError, metric_fraction, read_quantity
from pastedown.quantity.unit import UNITS
from pastedown.source import Span
from pastedown.syntax.shortened import shortened
from pastedown.syntax.token import Token
from pastedown.tree.expression import Literal, SheetSize

_BETWEEN_SIDES = re.compile(r"(?:[xX\u00d7] ?| [xX\u00d7] )(?=[0-9.\u00bc-\u00be\u2150-\u215e])")
_BETWEEN_SIDES_AS_WRITTEN = re.compile(r"(?:[xX\u00d7]\s*|\s+[xX\u00d7]\s+)(?=[0-9.\u00bc-\u00be\u2150-\u215e])")
_WITH_X = re.compile(r"([0-9][^xX]*?) ?[xX]([0-9].*)", re.DOTALL)
_AMOUNT = re.compile(r"[^A-Za-z\"\u201d\u2033]*[^A-Za-z\"\u201d\u2033\s]")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_WITH_HYPHEN = re.compile(r"([0-9]+)[-\u2010\u2011]([0-9]+[/\u2044][0-9]+|[\u00bc-\u00be\u2150-\u215e])")
# The codes that makers are likely to write in small letters, and the words that they write instead (ISO 4217).
_CODES = frozenset({
    "AED", "ARS", "AUD", "BRL", "CAD", "CHF", "CLP", "CNY", "COP", "CZK", "DKK", "EGP", "EUR", "GBP", "HKD",
    "HUF", "IDR", "ILS", "INR", "ISK", "JPY", "KES", "KRW", "MXN", "MYR", "NGN", "NOK", "NZD", "PEN", "PHP",
    "PKR", "PLN", "RON", "RSD", "RUB", "SAR", "SEK", "SGD", "THB", "TRY", "TWD", "UAH", "USD", "UYU", "VND",
    "ZAR",
})  # fmt: skip
_MONEY_WORDS = frozenset(code.lower() for code in _CODES) | {
    "dollar", "dollars", "buck", "bucks", "cent", "cents", "euro", "euros", "pound", "pounds", "pence", "penny",
    "franc", "francs", "krona", "kronor", "krone", "kroner", "yen", "yuan", "peso", "pesos", "rupee", "rupees",
    "zloty", "koruna",
}  # fmt: skip


def read_number(token: Token) -> tuple[Literal | SheetSize | None, tuple[Diagnostic, ...]]:
    """What the token stands for; None, and why, if it cannot be read. A readable one may have a warning."""
    sides = sides_of(token.text)
    found = _commas_and_points(token, sides) or _mixed_or_minus(token)
    if found is not None:
        return None, (found,)
    try:
        if len(sides) == 2:
            return _sheet(token, *sides)
        return Literal(read_quantity(token.text), token.span), _metric_fraction(token, sides)
    except LiteralError as unreadable:
        meant = _misspelt_unit(sides) if unreadable.id == "unknown-unit" else ""
        return None, (error(unreadable.id, token.span, unreadable.reason, way_out=meant or unreadable.way_out),)


def sides_of(text: str) -> list[str]:
    """The two sides of the size of a sheet, or a number alone, with single blanks."""
    return _BETWEEN_SIDES.split(" ".join(text.split()))


def with_nearest_unit(number: str, word: str) -> str:
    """What to write for a number with a word behind it that is no unit, but nearly one; empty if it is none at all.

    Of several units that are as near all are offered, the smallest first: paper cut too small shows the slip with less
    of it lost. Three capitals are a currency.
    """
    if word.isupper():
        return ""
    # Letters that changed places are the likeliest slip.
    swapped = [known for known in UNIT_WORDS if sorted(known) == sorted(word)]
    near = swapped or equally_near(word, sorted(UNIT_WORDS))
    units = sorted({UNIT_WORDS[known] for known in near}, key=lambda unit: (UNITS[unit].value, unit))
    offers = [f"`{shortened(number)} {unit}`" for unit in units]
    return f"Write {' or '.join(offers)}{', whichever is meant' if len(offers) > 1 else ''}." if offers else ""


def currency_in_other_letters(amount: Token, word: Token) -> Diagnostic | None:
    """What to say of `9.50 usd` and `9.50 dollars`: a word for money behind a number without a unit. None for another.
    """
    if not amount.text[-1].isdigit() or word.text.lower() not in _MONEY_WORDS or word.text in _CODES:
        return None
    code = word.text.upper()
    shown = code if code in _CODES else "USD"
    as_in = "Write" if code in _CODES else "Write the code of your currency, as in"
    return error(
        "unknown-unit",
        word.span,
        f"`{shortened(word.text)}` is not a unit: a currency has three capital letters.",
        reason="A dollar or a pound is that of several countries; the three letters mean one.",
        way_out=f"{as_in} `{shortened(amount.text)} {shown}`.",
    )


def _misspelt_unit(sides: list[str]) -> str:
    """What to write for the first unit that is nearly one; empty if there is none, or a habit has an answer already."""
    for side in sides:
        unit = _unit(side).strip()
        if unit.isalpha() and unit.lower() not in UNIT_WORDS:
            meant = with_nearest_unit(side.removesuffix(unit).strip(), unit)
            if meant:
                return meant
    return ""


def _commas_and_points(token: Token, sides: list[str]) -> Diagnostic | None:
    for side in sides:
        comma = _COMMA.match(side)
        if comma:
            return decimal_comma(token, side)
        if side.startswith("."):
            return error(
                "leading-point",
                token.span,
                f"`{shortened(side)}` begins with its point.",
                reason="A point is easily lost in copying, and ten times the measure is left.",
                way_out=f"Write `0{shortened(side)}`.",
            )
    return None


def _mixed_or_minus(token: Token) -> Diagnostic | None:
    """`2-1/2`: with a unit the hyphen can only join, for a number less a length is none; alone it might subtract."""
    hyphened = _WITH_HYPHEN.fullmatch(token.text)
    if hyphened is None:
        return None
    whole, part = map(shortened, hyphened.groups())
    return error(
        "missing-unit",
        token.span,
        f"`{shortened(token.text)}` has no unit, so its hyphen may join a whole and a fraction or be a minus.",
        reason="The two are different numbers, and it is not guessed which one was meant.",
        way_out=f"Write the unit behind it, `{whole} {part}` for a mixed number, or `{whole} - {part}` to subtract.",
    )


def decimal_comma(token: Token, written: str) -> Diagnostic:
    """What to say about `written`, a number with a comma between its digits."""
    whole, part = _COMMA.match(written).groups()  # type: ignore[union-attr]
    way_out = f"Write `{shortened(written.replace(',', '.', 1))}`"
    if len(part) == 3 and len(whole) <= 3 and whole != "0":
        way_out += f", or `{shortened(written.replace(',', '', 1))}` if thousands are meant"
    return error(
        "decimal-comma",
        token.span,
        f"`{shortened(written)}` has a comma inside the number.",
        reason="A comma sets two values apart here; decimals are written with a point.",
        way_out=f"{way_out}; if these are two values, put a blank after the comma.",
    )


def point_after_name(token: Token, written: str, instead: str) -> Diagnostic:
    """What to say about a digit directly after a name and a dot, `written` for `instead`."""
    return error(
        "unexpected-word",
        token.span,
        f"`{shortened(written)}` has a number where a name should follow the dot.",
        reason="After a dot stands the name of a part; one of several is picked by its number in square brackets.",
        way_out=f"Write `{shortened(instead)}`.",
    )


def range_with_points(span: Span) -> Diagnostic:
    """What to say about two points between numbers, as in `[1..3]`."""
    return error(
        "unexpected-word",
        span,
        "Two points stand for no range.",
        reason="A point belongs to one number or to a path.",
        way_out="Write `[k from 1 to 3]` for a new family, `[1 to 3]` for some of one that is there.",
    )


def sides_run_together(first: Token, second: Token) -> Diagnostic | None:
    """What to say about two sides of a sheet of which the `x` touches only one: `first` ends with it, or `second` is a
    word that begins with it. None if these are no such sides."""
    in_one = _WITH_X.fullmatch(f"{first.text} {second.text}" if second.type == "NAME" else f"{first.text}{second.text}")
    if in_one is None:
        return None
    return error(
        "unexpected-word",
        first.span.to(second.span),
        "The `x` between two sides touches only one of them.",
        reason="It stands between blanks, or touches both.",
        way_out=f"Write `{shortened(in_one[1])} x {shortened(in_one[2])}`, each side with its unit.",
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
        f"The size `{shortened(token.text)}` has no unit.",
        reason="A sheet of so many inches and one of so many centimetres are two different sheets.",
        way_out=f"Write `{shortened(first)} in x {shortened(second)} in`, or another unit in place of `in`.",
    )


def _metric_fraction(token: Token, sides: list[str]) -> tuple[Diagnostic, ...]:
    """A warning of the first side that is a fraction of a metric unit. A side without a unit has that of the other."""
    if token.text.isascii() and "/" not in token.text:
        return ()
    units = [_unit(side) for side in sides]
    for at, side in enumerate(sides):
        whole = side if units[at] else side + next(filter(None, units), "")
        if metric_fraction(whole):
            return (_fraction_of_a_metric_unit(_span_of_side(token, at, len(sides)), whole),)
    return ()


def _span_of_side(token: Token, side: int, sides: int) -> Span:
    """Where one side of a sheet stands; a number alone is all of its token."""
    between = _BETWEEN_SIDES_AS_WRITTEN.search(token.text) if sides == 2 else None
    if between is None:
        return token.span
    if side == 0:
        return Span(token.source, token.start, token.start + between.start())
    return Span(token.source, token.start + between.end(), token.end)


def _fraction_of_a_metric_unit(span: Span, written: str) -> Diagnostic:
    return warning(
        "metric-fraction",
        span,
        f"`{shortened(written)}` is a fraction of a metric unit.",
        reason="Rulers in millimetres show no such fractions; perhaps inches were meant.",
        way_out="Write the unit that is meant, and metric measures as decimals, such as `7.5 mm`.",
    )
