"""What was really done, laid over a design: pieces as they were cut and scored, and lengths as they turned out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TypeVar

from attrs import evolve, field, frozen

from pastedown.geometry.piece import Panel, Score
from pastedown.quantity.quantity import NO_LENGTH, Length

# A piece by its path, and "height" or "width".
Side = tuple[str, str]


@frozen(eq=False)
class Actual:
    """`sides` are the real lengths of sides; `ends` where each panel of the run along a side really ends, measured from
    the run's first edge, in order. `facts` are lengths by path that hold whatever the recipe says. `swollen` says how
    many times the thickness of its paper a piece really takes up in its folds.

    Where things of one kind came out unlike, what is asked of them all is asked of the first that differs, of the next
    one on `turn` 1, and so on: `Work.turns` says how many turns there are.
    """

    sides: Mapping[Side, Length] = field(factory=dict)
    ends: Mapping[Side, tuple[Length, ...]] = field(factory=dict)
    facts: Mapping[str, Length] = field(factory=dict)
    swollen: Mapping[str, Fraction] = field(factory=dict)
    turn: int = 0

    def laid(
        self, side: Side, panels: tuple[Panel, ...], scores: tuple[Score, ...]
    ) -> tuple[tuple[Panel, ...], tuple[Score, ...]]:
        """A run as it was really scored. A run with other panels than the one that was scored stays as designed."""
        ends = self.ends.get(side)
        if ends is None or len(ends) != len(panels):
            return panels, scores
        starts = (NO_LENGTH, *ends[:-1])
        moved = {panel.end: end for panel, end in zip(panels, ends, strict=True)}
        return (
            tuple(evolve(panel, start=start, end=end) for panel, start, end in zip(panels, starts, ends, strict=True)),
            tuple(evolve(score, at=moved[score.at]) for score in scores),
        )


AS_DESIGNED = Actual()

_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


class Noted(Mapping[_Key, _Value]):
    """What was really done, of which it is noted down what was asked for: `asked` has the keys."""

    def __init__(self, done: Mapping[_Key, _Value], asked: set[_Key]) -> None:
        self._done = done
        self._asked = asked

    def __getitem__(self, key: _Key) -> _Value:
        self._asked.add(key)
        return self._done[key]

    def __iter__(self) -> Iterator[_Key]:
        return iter(self._done)

    def __len__(self) -> int:
        return len(self._done)


@frozen(eq=False)
class Asked:
    """What was asked for of what was really done, while something was worked out: lengths by path, and sides."""

    facts: set[str] = field(factory=set)
    sides: set[Side] = field(factory=set)

    def noting(self, actual: Actual) -> Actual:
        """The same that was done, noting here what is asked for."""
        return evolve(
            actual,
            facts=Noted(actual.facts, self.facts),
            sides=Noted(actual.sides, self.sides),
            ends=Noted(actual.ends, self.sides),
        )
