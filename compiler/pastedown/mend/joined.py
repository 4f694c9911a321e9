"""Joins changes of single numbers, each of which mends some faults, to changes that mend all of them.

That is choosing sets that cover a set: few numbers first, and of as many those that cost least. There are few faults
and few numbers that mend one, so they are gone through, within a bound.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import combinations, islice

from attrs import frozen

from pastedown.mend.numbers import Number
from pastedown.mend.state import Key, Setting
from pastedown.quantity.quantity import Quantity

# So many choices for one fault are joined with those for others, and so many joints are put in order.
_MOST_CHOICES = 4
_MOST_ORDERED = 4096
# More sets than so many are not looked through for the fewest that cover everything.
_MOST_COVERING = 4


@frozen(eq=False)
class Offer:
    """A change of one number, the faults that it mends, and what it costs, compared as it stands."""

    setting: Setting
    mends: frozenset[Key]
    cost: tuple[object, ...]


def joined(faults: Collection[Key], offers: Sequence[Offer], most: int, so_many: int) -> Iterator[Setting]:
    """The settings of at most `most` numbers that mend every fault, if what each does it does beside the others too:
    those of the fewest numbers first, then by where their offers stand in order of cost. At most `so_many`."""
    ranked = sorted(offers, key=lambda each: each.cost)
    found: dict[frozenset[int], tuple[object, ...]] = {}
    for choice in islice(_choices(ranked, frozenset(faults), (), most), _MOST_ORDERED):
        at = frozenset(choice)
        found.setdefault(at, (len(at), sum(choice), sorted(at)))
    for at in islice(sorted(found, key=lambda each: found[each]), so_many):
        setting: dict[Number, Quantity] = {}
        for index in sorted(at):
            setting.update(ranked[index].setting)
        yield setting


def _choices(
    ranked: Sequence[Offer], left: frozenset[Key], chosen: tuple[int, ...], most: int
) -> Iterator[tuple[int, ...]]:
    if not left:
        yield chosen
        return
    if len(chosen) == most:
        return
    # What has fewest choices is chosen for first: a dead end is seen soon.
    choices = {key: [at for at, each in enumerate(ranked) if key in each.mends] for key in left}
    key = min(sorted(left), key=lambda each: len(choices[each]))
    taken = {id(number) for at in chosen for number in ranked[at].setting}
    for at in choices[key][:_MOST_CHOICES]:
        if not any(id(number) in taken for number in ranked[at].setting):
            yield from _choices(ranked, left - ranked[at].mends, (*chosen, at), most)


def fewest_for(faults: Iterable[Key], reached: Iterable[Collection[Key]]) -> int:
    """How few numbers can reach all faults at least, each of them reaching those of one of the collections. What
    nothing reaches is left out; where it takes more than a few, as many as were looked for and none did it."""
    sets = sorted({frozenset(each) for each in reached if each}, key=sorted)
    reachable = frozenset(faults) & frozenset().union(*sets)
    for count in range(_MOST_COVERING):
        if any(reachable <= frozenset().union(*some) for some in combinations(sets, count)):
            return count
    return _MOST_COVERING
