"""Writes a derivation as an indented list: value, where it comes from, the words and the line they stand on."""

from pastedown.geometry.derive import Derivation
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_ORIGINS = {
    "chosen": "chosen",
    "fixed": "fixed by the component",
    "default": "left as the component has it",
    "derived": "worked out",
    "rounded": "moved to a mark",
    "stock": "as bought",
}


def write_derivation(derivation: Derivation, ruler: Ruler) -> str:
    """The derivation as text, one line for each value and one for the words it was written with."""
    lines: list[str] = []

    def put(each: Derivation, depth: int) -> None:
        indent = "    " * depth
        times = f"{each.times} x " if each.times > 1 else ""
        origin = _ORIGINS.get(each.origin, each.origin)
        lines.append(f"{indent}{times}{each.path} = {_value(each.value, ruler)}  ({origin})")
        lines.append(f"{indent}  {each.words}  [{each.place}]{'  (derived above)' if each.told_above else ''}")
        for part in each.parts:
            put(part, depth + 1)

    put(derivation, 0)
    return "\n".join(lines) + "\n"


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f'"{value}"'
