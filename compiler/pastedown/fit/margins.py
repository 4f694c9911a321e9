"""Requirements that hold on paper and may not hold at the table: the errors of the hand against the margin.

A requirement on what is made has a margin, and each cut, score, fold and placing in it may take something of it. Where
the root-sum-square of all these errors takes the whole margin, it is told, with the errors that take most and the one
number that helps most. How many albums go wrong follows from the normal distribution; see `quantity/spread.py` for what
is assumed.
"""

from collections.abc import Iterator
from fractions import Fraction

from pastedown.diagnostic import Diagnostic, warning
from pastedown.diagnostic.capital import capital
from pastedown.fit.made_here import made_here
from pastedown.fit.safest_number import is_tight
from pastedown.geometry.model import Model, Requirement
from pastedown.geometry.natural_order import natural_key
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.spread import Spread
from pastedown.quantity.write import write, write_text

# So many errors are named, and so many like parts.
MOST_NAMED = 4


def look(model: Model) -> Iterator[Diagnostic]:
    """Each kind of tight requirement once; nothing of a part that is refused, for its numbers will change."""
    refused = {each.part for each in model.requirements if each.strict and not each.holds}
    alike: dict[object, list[Requirement]] = {}
    for requirement in model.requirements:
        if is_tight(requirement) and requirement.part not in refused:
            alike.setdefault(requirement.likeness, []).append(requirement)
    for requirement, *others in alike.values():
        margin = requirement.margin
        assert margin is not None
        yield warning(
            "margin-thin",
            requirement.span,
            f"{requirement.path} holds on paper, and {how_often(margin)} will not: its margin is "
            f"{write(margin.nominal, model.ruler)}, and the errors of the hand come to "
            f"{write(margin.rss, model.ruler)}." + _the_same_goes_for(others),
            reason=_reason(requirement, margin, model.ruler),
            way_out=_way_out(requirement, model.ruler),
            labels=made_here(model.ruler, requirement.made),
        )


def least_safe(model: Model) -> str:
    """The requirement that the errors of the hand break first, in words; "" where none is on what is made."""
    counted = [(each.margin.order, each) for each in model.requirements if each.strict and each.margin is not None]
    if not counted:
        return ""
    _, least = min(counted, key=lambda pair: (pair[0], natural_key(pair[1].path)))
    return f"Least sure: {how_sure(least, model.ruler)}."


def how_sure(requirement: Requirement, ruler: Ruler) -> str:
    """How much a requirement on what is made has to spare, and how often the hand takes it."""
    margin = requirement.margin
    assert margin is not None
    often = "hardly any fails" if margin.one_in is None else f"{how_often(margin)} fails"
    return f"{requirement.path}, with {write(margin.nominal, ruler)} to spare; {often} there"


def how_often(margin: Spread) -> str:
    """How often the hand breaks what has this margin: "about one in 320"."""
    return f"about one in {max(2, margin.one_in or 2)}"


def _reason(requirement: Requirement, margin: Spread, ruler: Ruler) -> str:
    named = [f"{name} ({write(_size(term), ruler)})" for name, term in margin.terms[:MOST_NAMED]]
    rest = len(margin.terms) - len(named)
    named += [f"{rest} more"] if rest else []
    words = f"{', '.join(named[:-1])} and {named[-1]}" if len(named) > 1 else named[0]
    return f"{capital(write_text(requirement.because, ruler))}. What it hangs on most: {words}."


def _size(term: Quantity) -> Quantity:
    return term if term.value >= 0 else -term


def _way_out(requirement: Requirement, ruler: Ruler) -> str:
    change = requirement.change
    if change is None:
        ways = [write_text(way, ruler) for way in requirement.ways_out] or ["leave more room"]
        exactly = "or work more exactly and say so: cut_error, score_error, fold_error, place_error."
        return f"{capital(', or '.join(ways))}, {exactly}"
    assert requirement.margin is not None
    return (
        f"Let {change.path} be {write(change.value, ruler)} instead of {write(change.before, ruler)}: that lifts its "
        f"score, the margin counted in such errors, from {rounded_decimal(requirement.margin.score or Fraction(0), 2)} "
        f"to {rounded_decimal(change.score, 2)}."
    )


def _the_same_goes_for(others: list[Requirement]) -> str:
    if not others:
        return ""
    paths = [other.path for other in others[:MOST_NAMED]]
    if len(others) > MOST_NAMED:
        paths.append(f"{len(others) - MOST_NAMED} more")
    return f" The same goes for {', '.join(paths[:-1])}{' and ' if len(paths) > 1 else ''}{paths[-1]}."
