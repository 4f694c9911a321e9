"""Values as JSON: one shape for every length, one for every other quantity, one for every text with values in it.

The shapes are described, property by property, in album.schema.json.
"""

import json
import re
from fractions import Fraction

from pastedown.outputs.safe_text import HIDDEN
from pastedown.plan.plan import PlanText
from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MASS, NUMBER, VOLUME, Dimension
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.unit import UNITS
from pastedown.quantity.write import write, write_text

Json = dict[str, object]

# Of every JSON file but the diagnostics: raised when a property is taken away or comes to mean something else.
FORMAT_VERSION = 1

# Numbers are given in millionths.
_MILLION = 1_000_000
# The largest whole number up to which every reader of JSON keeps whole numbers exactly (RFC 8259, section 6).
_EXACT_IN_JSON = 2**53 - 1
_REPLACEMENT = "\ufffd"

# Names of dimensions, the unit they are given in, and how many of the model's own units that unit is.
_DIMENSIONS: dict[Dimension, tuple[str, str, Fraction]] = {
    NUMBER: ("number", "", Fraction(1)),
    AREA: ("area", "mm2", Fraction(1)),
    VOLUME: ("volume", "mm3", Fraction(1)),
    ANGLE: ("angle", "deg", Fraction(1)),
    MASS: ("mass", "g", Fraction(1)),
    GRAMMAGE: ("grammage", "gsm", UNITS["gsm"].value),
}


def json_file(value: Json) -> bytes:
    """The value as a file: keys sorted, two blanks a level. Letters of every script stay as they are; characters that
    cannot be seen are escaped, and halves of surrogate pairs, which no text can have, are replaced by U+FFFD."""
    text = json.dumps(value, ensure_ascii=False, indent=2, sort_keys=True, allow_nan=False)
    return HIDDEN.sub(_escaped, text).encode() + b"\n"


def json_length(length: Length, ruler: Ruler) -> Json:
    """The shape `length` of the schema."""
    return {
        "exact_mm": str(length.millimetres),
        "mm": json_decimal(length.millimetres),
        "inches": json_decimal(length.inches),
        "text": write(length, ruler),
    }


def json_length_or_null(length: Length | None, ruler: Ruler) -> Json | None:
    return None if length is None else json_length(length, ruler)


def json_value(value: Quantity | str | bool, ruler: Ruler) -> Json | str | bool:
    """The shape `value` of the schema: a length, another quantity, a text, or true and false."""
    if not isinstance(value, Quantity):
        return value
    return json_length(value, ruler) if value.dimension == LENGTH else _quantity(value, ruler)


def json_value_or_null(value: Quantity | None, ruler: Ruler) -> Json | str | bool | None:
    return None if value is None else json_value(value, ruler)


def json_text(text: PlanText, ruler: Ruler) -> Json:
    """The shape `text_with_values` of the schema."""
    return {"text": write_text(text, ruler), "parts": [json_value(part, ruler) for part in text]}


def json_ruler(ruler: Ruler) -> Json:
    """The shape `ruler` of the schema."""
    return {"marks": json_length(ruler.marks, ruler), "show": ruler.show.value}


def json_decimal(value: Fraction) -> int | float:
    """The value as a number of at most six decimal places; whole numbers have none."""
    scaled = round(value * _MILLION)
    if scaled % _MILLION == 0 or abs(scaled) > _EXACT_IN_JSON * _MILLION:
        return scaled // _MILLION
    return float(Fraction(scaled, _MILLION))


def _quantity(value: Quantity, ruler: Ruler) -> Json:
    name, unit, size = _DIMENSIONS.get(value.dimension) or _other(value.dimension)
    exact = value.value / size
    return {
        "dimension": name,
        "exact": str(exact),
        "decimal": json_decimal(exact),
        "unit": unit,
        "text": write(value, ruler),
    }


def _other(dimension: Dimension) -> tuple[str, str, Fraction]:
    """Money, and compounds that have no name: their unit is written out with its exponents ("mm^2 EUR^-1")."""
    currency = dimension.currency or "money"
    if dimension == Dimension(money=1, currency=dimension.currency):
        return ("money", currency, Fraction(1))
    powers = (("mm", dimension.length), ("g", dimension.mass), ("deg", dimension.angle), (currency, dimension.money))
    return ("compound", " ".join(f"{unit}^{power}" for unit, power in powers if power), Fraction(1))


def _escaped(match: re.Match[str]) -> str:
    """A line feed is the file's own; any within a text has been escaped before."""
    code = ord(match[0])
    if match[0] == "\n":
        return match[0]
    if 0xD800 <= code <= 0xDFFF:
        return _REPLACEMENT
    units = match[0].encode("utf-16-be")
    return "".join(f"\\u{units[n]:02x}{units[n + 1]:02x}" for n in range(0, len(units), 2))
