"""How far a reading may be off before a requirement fails that hangs on the same cuts, scores, folds and placings.

Derived. With s the factor times half-width of an error in what is read, and m that in a margin M, a reading that is off
by d through that error alone takes d m / s of the margin. Several errors that all bring the reading to one side take no
more than the worst of them would by itself; those that make up for one another are not seen in a reading at all. So as
long as d stays below M s / m for each error that both share, the requirement holds, everything else being as designed.

Things of one family are read alike and have one band, the narrowest of them all: a requirement may speak for all of a
family by one of it.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from attrs import frozen

from pastedown.geometry.model import Model, Step
from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.quantity.spread import Spread, spread_of

# The least and the largest of some errors, by their size.
Extremes = tuple[Fraction, Fraction]
# A requirement's path, its margin, and the errors in that by family and by the way they go.
_Margin = tuple[str, Fraction, Mapping[str, Mapping[int, Extremes]]]


@frozen
class Bearing:
    """Between which readings everything goes together, and the requirement that fails first past each, as that of its
    family; None and "" where none does."""

    least: Length | None = None
    below: str = ""
    most: Length | None = None
    above: str = ""


def bearings(model: Model, steps: Iterable[Step]) -> tuple[Bearing, ...]:
    """What a design bears of the reading of each of some steps."""
    margins = [
        (without_indexes(each.path), each.margin.nominal.value, _by_family(each.margin))
        for each in model.requirements
        if each.strict and each.holds and each.margin is not None
    ]
    return tuple(_bearing(model, step, margins) for step in steps)


def _bearing(model: Model, step: Step, margins: Sequence[_Margin]) -> Bearing:
    spread = None if step.reads is None else spread_of(step.reads)
    if spread is None:
        return Bearing()
    ends: dict[int, list[tuple[Fraction, str]]] = {-1: [], 1: []}
    read = _by_family(spread)
    for path, margin, families in margins:
        for name, terms in families.items():
            for sign, share in _shares(terms, read.get(name, {})):
                ends[sign].append((margin / share, path))
    half = model.ruler.marks / 2
    least, below = _end(spread.nominal, -1, ends[-1], half)
    most, above = _end(spread.nominal, 1, ends[1], half)
    return Bearing(least, below, most, above)


def _end(nominal: Length, sign: int, found: list[tuple[Fraction, str]], half: Length) -> tuple[Length | None, str]:
    """The last half mark of the ruler before something fails, as near as a hand can read."""
    if not found:
        return None, ""
    off, path = min(found)
    end = round_to(Quantity(nominal.value + sign * off, nominal.dimension), "up" if sign < 0 else "down", half)
    return (min(end, nominal) if sign < 0 else max(end, nominal)), path


def _shares(terms: Mapping[int, Extremes], read: Mapping[int, Extremes]) -> Iterator[tuple[int, Fraction]]:
    """To which side of a reading the errors of a family take of a margin, and how much for so much at most."""
    for way, (_, most) in terms.items():
        for other, (least, _) in read.items():
            yield (-1 if way == other else 1), most / least


def _by_family(spread: Spread) -> Mapping[str, dict[int, Extremes]]:
    """The errors of things of one family together, as the least and the largest of those each way: by the path of what
    is made without its numbers, and what is done to it."""
    found: dict[str, dict[int, Extremes]] = defaultdict(dict)
    for name, term in spread.terms:
        path, comma, what = name.partition(",")
        ways = found[f"{without_indexes(path)}{comma}{what}"]
        way, size = (1, term.value) if term.value > 0 else (-1, -term.value)
        least, most = ways.get(way, (size, size))
        ways[way] = min(least, size), max(most, size)
    return found
