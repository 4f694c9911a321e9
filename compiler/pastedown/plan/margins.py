"""The margins of a design: by how much each requirement on what is made holds, what fails first standing first."""

import re
from fractions import Fraction

from pastedown.geometry.model import Model, Requirement, Safer
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.plan import Margin, SaferNumber
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.spread import Spread

_NUMBER = re.compile(r"\[[0-9]+\]")
# The family of the first member of one that an error is called after: leaf, of "leaf[1].sheet, cut to its height".
_MEMBER = re.compile(r"([a-z0-9_.]+)\[[0-9]+\]")


def margins(model: Model) -> tuple[Margin, ...]:
    """One entry for each kind of requirement that compares what hands make, the lowest score first."""
    alike: dict[object, list[tuple[Requirement, Spread]]] = {}
    for requirement in model.requirements:
        if requirement.margin is not None:
            alike.setdefault(requirement.likeness, []).append((requirement, requirement.margin))
    ranked = sorted(alike.values(), key=lambda group: (group[0][1].order, natural_key(group[0][0].path)))
    members = _members(model)
    return tuple(_margin(group, members) for group in ranked)


def _members(model: Model) -> dict[str, set[str]]:
    """The members of each family of parts, pieces and joins, by the path of the family."""
    found: dict[str, set[str]] = {}
    for path in (each.path for things in (model.pieces, model.joins) for each in things):
        for at in (match.end() for match in _NUMBER.finditer(path)):
            member = path[:at]
            found.setdefault(member.rpartition("[")[0], set()).add(member)
    return found


def _things(group: list[tuple[Requirement, Spread]], members: dict[str, set[str]]) -> tuple[int, frozenset[str]]:
    """How many things of an album a margin is one of, and which of its errors they have in common. Where every thing
    has its requirement, the errors that all of these name. Where one requirement speaks for a whole family by one
    member of it, as for "the pages", the errors of no member; families of one size belong together, as each page and
    its join do."""
    named = [frozenset(name for name, _ in margin.terms) for _, margin in group]
    if len(group) > 1:
        return len(group), frozenset.intersection(*named)
    sizes = {name: len(members.get(match[1], ())) for name in named[0] if (match := _MEMBER.match(name)) is not None}
    things = max(sizes.values(), default=1)
    return max(1, things), frozenset(name for name in named[0] if sizes.get(name) != things)


def _margin(group: list[tuple[Requirement, Spread]], members: dict[str, set[str]]) -> Margin:
    requirement, margin = group[0]
    things, shared = _things(group, members)
    score = margin.score
    assert score is not None
    return Margin(
        path=requirement.path,
        alike=tuple(each.path for each, _ in group),
        words=f"{requirement.left_words} {requirement.operator} {requirement.right_words}",
        strict=requirement.strict,
        nominal=margin.nominal,
        worst=margin.worst,
        # To a millionth of the model's units, so that what is written of it is exact.
        rss=Quantity(Fraction(round(margin.rss.value * 1_000_000), 1_000_000), margin.rss.dimension),
        score=score,
        one_in=margin.one_in,
        things=things,
        album_one_in=margin.one_in_of_any(things, shared),
        errors=margin.terms,
        change=_safer(requirement.change),
        because=requirement.because,
    )


def _safer(change: Safer | None) -> SaferNumber | None:
    return None if change is None else SaferNumber(change.path, change.before, change.value, change.score)
