"""Works a design out with what lies on the bench, and holds it against the design."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import define

from pastedown.fit.on_marks import Judged
from pastedown.quantity.quantity import Length
from pastedown.slip.bench import AsOn, Bench
from pastedown.slip.compare import AsJudged, Compared, compared
from pastedown.slip.report import ReadNow

# So often a design is worked out for one report before no more repairs are looked for.
MOST_RUNS = 120


@define(eq=False)
class Workshop:
    """`designed` is the design as it goes together; `runs` counts how often it was worked out anew, of `most`."""

    designed: Judged
    runs: int = 0
    most: int = MOST_RUNS

    @property
    def mark(self) -> Length:
        """The distance between two marks of the maker's ruler."""
        assert self.designed.worked_out.model is not None
        return self.designed.worked_out.model.ruler.marks

    @property
    def is_used_up(self) -> bool:
        return self.runs >= self.most

    def judged(self, bench: Bench, *, in_space: bool = True) -> tuple[AsJudged, ...]:
        """The design with what lies on the bench: once for each of several lengths that should be one and came out
        unlike, as a rule about them has to hold for each."""
        return tuple(self._one_by_one(bench, in_space))

    def _one_by_one(self, bench: Bench, in_space: bool) -> Iterator[AsJudged]:
        for as_on in bench.unlike:
            turn, turns = 0, 1
            while turn < turns:
                judged = self._judged(bench, turn, as_on, in_space)
                root = judged.worked_out.root
                turn, turns = turn + 1, root.work.turns if root is not None else 1
                yield AsJudged(judged, as_on.parts)

    def _judged(self, bench: Bench, turn: int, as_on: AsOn, in_space: bool) -> Judged:
        self.runs += 1
        chosen, actual = bench.root.work.marks.chosen, bench.actual(turn, as_on)
        return self.designed.trial.judged(0, on_marks=False, chosen=chosen, actual=actual, in_space=in_space)

    def compared(self, bench: Bench, *, in_space: bool = True) -> Compared | None:
        """What is otherwise than designed with what lies on the bench; None where it cannot be worked out."""
        now = self.judged(bench, in_space=in_space)
        if any(each.judged.worked_out.model is None or each.judged.worked_out.broken_off for each in now):
            return None
        return compared(self.designed, now, bench.readings)

    def readings(self, bench: Bench) -> tuple[ReadNow, ...]:
        """What the ruler will read otherwise than the steps say, with what lies on the bench."""
        now = next(self._one_by_one(bench, in_space=False))
        if now.judged.worked_out.model is None or now.judged.worked_out.broken_off:
            return ()
        return compared(self.designed, (now,), bench.readings).readings

    def mends(self, bench: Bench, *, in_space: bool = True) -> bool:
        """Whether all that held as designed holds with what lies on the bench; no more is worked out than it takes."""
        for now in self._one_by_one(bench, in_space):
            worked_out = now.judged.worked_out
            if worked_out.model is None or worked_out.broken_off or not compared(self.designed, (now,)).holds:
                return False
        return True
