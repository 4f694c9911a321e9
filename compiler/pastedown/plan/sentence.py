"""Sentences of plain words and exact values. No value is written out here: outputs do that in the maker's units."""

from collections.abc import Iterable, Sequence

from pastedown.plan.plan import PlanText
from pastedown.quantity.quantity import Quantity


def sentence(*parts: "str | Quantity | PlanText") -> PlanText:
    """The parts in a row, with neighbouring words drawn together and empty ones left out."""
    joined: list[str | Quantity] = []
    for part in _laid_out(parts):
        if isinstance(part, str) and joined and isinstance(joined[-1], str):
            joined[-1] += part
        elif part != "":
            joined.append(part)
    return tuple(joined)


def _laid_out(parts: "Iterable[str | Quantity | PlanText]") -> Iterable[str | Quantity]:
    for part in parts:
        if isinstance(part, tuple):
            yield from part
        else:
            yield part


def paragraph(*sentences: PlanText) -> PlanText:
    """Sentences with a blank between them; empty ones are left out."""
    told = [text for text in sentences if text]
    spaced = [part for text in told for part in (" ", text)]
    return sentence(*spaced[1:])


def listed_values(values: Sequence[Quantity]) -> PlanText:
    """The values as one reads them out: "a", "a and b", "a, b and c"."""
    parts: list[str | Quantity] = [values[0]]
    for place, value in enumerate(values[1:], start=2):
        parts += [" and " if place == len(values) else ", ", value]
    return tuple(parts)
