"""Looks for the fewest pieces that have to be made again, of those that slipped.

Of a few pieces all sets are tried, the smallest first. Of many, one family after the other is taken out of the whole,
the one of most pieces and most paper first, and stays out where the design goes together without it; then one piece
after the other of what is left of each, until the first that is needed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import chain, combinations

from attrs import frozen

from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.geometry.natural_order import natural_key, without_indexes
from pastedown.slip.bench import Bench
from pastedown.slip.compare import Compared
from pastedown.slip.workshop import Workshop

# Of so many pieces all sets are tried.
MOST_PIECES_APART = 6
# So often pieces are left out at a glance before each is looked at as a whole.
_MOST_GLANCED = 6

Pieces = tuple[str, ...]


def fewest_anew(workshop: Workshop, bench: Bench, found: Compared) -> Pieces | None:
    """The pieces; None where not even all that slipped mend it when they are made again as designed."""
    search = _Search(workshop, bench, any(id in SEEN_IN_SPACE for id, _ in found.wrong))
    slipped = tuple(bench.slipped)
    if len(slipped) <= MOST_PIECES_APART:
        return next((some for some in _fewest_first(slipped) if search.mends(some, thorough=True)), None)
    if not search.mends(slipped, thorough=True):
        return None
    # Each that passes at a glance and fails as a whole is one more thing to glance at.
    for _ in range(_MOST_GLANCED if workshop.lost or workshop.pairs else 0):
        known = len(workshop.lost), len(workshop.pairs)
        kept = search.without_needless(slipped, search.passes_at_a_glance)
        if search.mends(kept, thorough=True):
            return kept
        if known == (len(workshop.lost), len(workshop.pairs)):
            break
    kept = search.without_needless(slipped, search.mends)
    if search.mends(kept, thorough=True):
        return kept
    return search.without_needless(slipped, search.mends_thoroughly)


def anew(bench: Bench, pieces: Iterable[str]) -> Bench:
    """What lies there once pieces were made again as designed."""
    after = bench.again()
    after.cut_anew(pieces)
    return after


def cost(bench: Bench, pieces: Iterable[str]) -> tuple[int, Fraction]:
    """How many pieces, and how much paper they take."""
    areas = {piece.path: piece.height.value * piece.width.value for piece in bench.model.pieces}
    some = list(pieces)
    return len(some), sum((areas[path] for path in some), Fraction(0))


@frozen(eq=False)
class _Search:
    workshop: Workshop
    bench: Bench
    in_space: bool

    def passes_at_a_glance(self, pieces: Pieces) -> bool:
        if not pieces or self.workshop.is_used_up:
            return False
        return not self.workshop.fails_at_a_glance(anew(self.bench, pieces))

    def mends_thoroughly(self, pieces: Pieces) -> bool:
        return self.mends(pieces, thorough=True)

    def mends(self, pieces: Pieces, *, thorough: bool = False) -> bool:
        if pieces and self._is_as_designed(anew(self.bench, pieces)):
            return True
        if not pieces or self.workshop.is_used_up:
            return False
        return self.workshop.mends(anew(self.bench, pieces), in_space=thorough or self.in_space)

    def _is_as_designed(self, bench: Bench) -> bool:
        """Whether all that lies there is as designed, which need not be worked out."""
        return not (bench.slipped or bench.told or bench.readings or bench.swollen or bench.numbers)

    def without_needless(self, pieces: Pieces, mends: Callable[[Pieces], bool]) -> Pieces:
        families: dict[str, list[str]] = {}
        for piece in pieces:
            families.setdefault(without_indexes(piece), []).append(piece)
        units = sorted(map(tuple, families.values()), key=self._rank)
        kept = pieces
        for unit in units:
            kept = _without(kept, unit, mends) or kept
        for unit in units:
            for piece in unit if set(unit) <= set(kept) and len(unit) > 1 else ():
                less = _without(kept, (piece,), mends)
                if less is None:
                    break
                kept = less
        return kept

    def _rank(self, unit: Pieces) -> tuple[object, ...]:
        """The dearest first."""
        number, paper = cost(self.bench, unit)
        return -number, -paper, natural_key(unit[0])


def _without(pieces: Pieces, unit: Pieces, mends: Callable[[Pieces], bool]) -> Pieces | None:
    rest = tuple(each for each in pieces if each not in unit)
    return rest if rest != pieces and mends(rest) else None


def _fewest_first(pieces: Pieces) -> Iterator[Pieces]:
    return chain.from_iterable(combinations(pieces, some) for some in range(1, len(pieces) + 1))
