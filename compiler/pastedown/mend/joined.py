"""Joins changes of single numbers, each of which mends some faults, to changes that mend all of them.

That is choosing sets that cover a set: few numbers first, and of as many those that cost least. There are few faults
and few numbers that mend one, so they are gone through, within a bound.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice

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
    choices = {key: [at for at, each in enumerate(ranked) if key in each.mends] for key in faults}
    found: dict[frozenset[int], tuple[object, ...]] = {}
    for choice in islice(_choices(ranked, choices, frozenset(faults), (), most), _MOST_ORDERED):
        at = frozenset(choice)
        found.setdefault(at, (len(at), sum(choice), sorted(at)))
    for at in islice(sorted(found, key=lambda each: found[each]), so_many):
        setting: dict[Number, Quantity] = {}
        for index in sorted(at):
            setting.update(ranked[index].setting)
        yield setting


def _choices(
    ranked: Sequence[Offer],
    choices: Mapping[Key, Sequence[int]],
    left: frozenset[Key],
    chosen: tuple[int, ...],
    most: int,
) -> Iterator[tuple[int, ...]]:
    if not left:
        yield chosen
        return
    if len(chosen) == most:
        return
    # What has fewest choices is chosen for first: a dead end is seen soon.
    key = min(left, key=lambda each: (len(choices[each]), each))
    taken = {id(number) for at in chosen for number in ranked[at].setting}
    for at in choices[key][:_MOST_CHOICES]:
        if not any(id(number) in taken for number in ranked[at].setting):
            yield from _choices(ranked, choices, left - ranked[at].mends, (*chosen, at), most)


def fewest_for(faults: Iterable[Key], reached: Iterable[Collection[Key]]) -> int:
    """How few numbers can reach all faults at least, each of them reaching those of one of the collections. What
    nothing reaches is left out; where it takes more than a few, as many as were looked for and none did it."""
    sets = {frozenset(each) for each in reached}
    reachable = frozenset(faults) & frozenset().union(*sets)
    known = Counter(key for each in sets for key in each if key in reachable)
    # As bits, the rarest lowest: of many sets there are far more choices than can be gone through as sets.
    bit = {key: 1 << at for at, key in enumerate(sorted(known, key=lambda each: (known[each], each)))}
    masks = sorted({sum(bit.get(key, 0) for key in each) for each in sets})
    reaching = [[mask for mask in masks if mask & one] for one in bit.values()]
    largest = max((mask.bit_count() for mask in masks), default=0)
    return next(
        (count for count in range(_MOST_COVERING) if _can(count, (1 << len(bit)) - 1, reaching, largest)),
        _MOST_COVERING,
    )


def _can(count: int, left: int, reaching: Sequence[Sequence[int]], largest: int) -> bool:
    """Whether so many sets cover all the bits that are left, none of them more than the `largest`. One of them has to
    have the rarest, the lowest bit."""
    if not left or left.bit_count() > count * largest:
        return not left
    rarest = (left & -left).bit_length() - 1
    return any(_can(count - 1, left & ~mask, reaching, largest) for mask in reaching[rarest])
