"""Works a design out with what lies on the bench, and holds it against the design."""

from __future__ import annotations

from attrs import frozen

from pastedown.fit.on_marks import Judged
from pastedown.quantity.quantity import Length
from pastedown.slip.compare import Compared, compared
from pastedown.slip.lay_over import Bench

# Where so many things of one kind came out unlike, the others are taken to be as one of these.
MOST_TURNS = 8


@frozen(eq=False)
class Workshop:
    """`designed` is the design as it goes together."""

    designed: Judged

    @property
    def mark(self) -> Length:
        """The distance between two marks of the maker's ruler."""
        assert self.designed.worked_out.model is not None
        return self.designed.worked_out.model.ruler.marks

    def judged(self, bench: Bench, *, in_space: bool = True) -> tuple[Judged, ...]:
        """The design with what lies on the bench; once more for each of several things of one kind that came out
        unlike, as a rule about them all has to hold for each."""
        first = self._judged(bench, 0, in_space)
        root = first.worked_out.root
        turns = min(root.work.turns, MOST_TURNS) if root is not None else 1
        return (first, *(self._judged(bench, turn, in_space) for turn in range(1, turns)))

    def _judged(self, bench: Bench, turn: int, in_space: bool) -> Judged:
        return self.designed.trial.judged(
            0, on_marks=False, chosen=bench.root.work.marks.chosen, actual=bench.actual(turn), in_space=in_space
        )

    def compared(self, bench: Bench, *, in_space: bool = True) -> Compared | None:
        """What is otherwise than designed with what lies on the bench; None where it cannot be worked out."""
        now = self.judged(bench, in_space=in_space)
        if any(each.worked_out.model is None or each.worked_out.broken_off for each in now):
            return None
        return compared(self.designed, now)
