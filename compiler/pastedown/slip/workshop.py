"""Works a design out with what lies on the bench, and holds it against the design.

Most of what is tried mends nothing, and mostly it fails by a requirement that something tried before failed by. So
these are worked out alone, first: a glance. Only what passes it is worked out and judged as a whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from attrs import define, field

from pastedown.fit.on_marks import Judged
from pastedown.geometry.actual import Asked
from pastedown.geometry.natural_order import without_number
from pastedown.quantity.quantity import Length
from pastedown.slip.bench import AsOn, Bench
from pastedown.slip.compare import AsJudged, Compared, compared, fits_of, readings_of
from pastedown.slip.report import Fit, ReadNow

# So often a design is worked out for one report before no more repairs are looked for; a glance counts as a part of it.
MOST_RUNS = 36
_GLANCES = 48

Fits = dict[tuple[str, str], Fit]


@define(eq=False)
class Workshop:
    """`designed` is the design as it goes together; `runs` counts how often it was worked out anew, of `most`. `lost`
    are the requirements and `pairs` the panels that something tried failed by. `tell` is called each time
    the whole is worked out. Without `in_space` nothing is ever placed, for what is placed afterwards anyway."""

    designed: Judged
    runs: int = 0
    most: int = MOST_RUNS
    glances: int = 0
    lost: set[str] = field(factory=set)
    pairs: set[tuple[str, str, str]] = field(factory=set)
    tell: Callable[[], None] = lambda: None
    in_space: bool = True

    def another(self, most: int, *, in_space: bool = True) -> Workshop:
        """One for the same design that begins anew, for so many runs."""
        return Workshop(self.designed, most=most, tell=self.tell, in_space=in_space)

    @property
    def mark(self) -> Length:
        """The distance between two marks of the maker's ruler."""
        assert self.designed.worked_out.model is not None
        return self.designed.worked_out.model.ruler.marks

    @property
    def is_used_up(self) -> bool:
        return self.runs + self.glances // _GLANCES >= self.most

    def judged(self, bench: Bench, *, in_space: bool = True) -> tuple[AsJudged, ...]:
        """The design with what lies on the bench: once for each of several lengths that should be one and came out
        unlike, as a rule about them has to hold for each. The pieces are the same each time, so all but the first are
        only asked for requirements."""
        return tuple(self._one_by_one(bench, in_space))

    def _one_by_one(
        self, bench: Bench, in_space: bool, only: frozenset[str] | None = None, asked: Asked | None = None
    ) -> Iterator[AsJudged]:
        asks = only
        for as_on in bench.unlike:
            turn, turns = 0, 1
            while turn < turns:
                judged = self._judged(bench, turn, as_on, in_space, asks, asked)
                root = judged.worked_out.root
                turn, turns = turn + 1, root.work.turns if root is not None else 1
                yield AsJudged(judged, as_on.parts, as_on.lengths)
                asks = self._asked_of_each(bench) if only is None else only

    def _asked_of_each(self, bench: Bench) -> frozenset[str]:
        """The requirements that may come out otherwise with another of several lengths. How thick things lie upon one
        another does not, for all pieces stay as they are; but it may be held against such a length."""
        model = self.designed.worked_out.model
        assert model is not None
        parts = {path.rpartition(".")[0] for as_on in bench.unlike for path in as_on.lengths}
        return frozenset(
            without_number(each.path) for each in model.requirements if not each.stacks or each.part in parts
        )

    def _judged(
        self, bench: Bench, turn: int, as_on: AsOn, in_space: bool, only: frozenset[str] | None, asked: Asked | None
    ) -> Judged:
        if only is None:
            self.runs += 1
            self.tell()
        else:
            self.glances += 1
        chosen, actual = bench.root.work.marks.chosen, bench.actual(turn, as_on)
        if asked is not None:
            actual = asked.noting(actual)
        trial, in_space = self.designed.trial, in_space and self.in_space
        return trial.judged(0, on_marks=False, chosen=chosen, actual=actual, in_space=in_space, only=only)

    def compared(self, bench: Bench, *, in_space: bool = True) -> Compared | None:
        """What is otherwise than designed with what lies on the bench; None where it cannot be worked out."""
        now = self.judged(bench, in_space=in_space)
        if not all(map(_is_whole, now)):
            return None
        told = {path: as_read.reading for path, as_read in bench.read_as.items()}
        return compared(self.designed, now, {**told, **bench.readings})

    def readings(self, bench: Bench, paths: Iterable[str] | None = None) -> tuple[ReadNow, ...]:
        """What the ruler will read otherwise than the steps say, with what lies on the bench; at some steps or all."""
        before = self.designed.worked_out.model
        assert before is not None
        steps = (step.path for step in before.steps if step.reads is not None) if paths is None else paths
        now = next(self._one_by_one(bench, False, frozenset(map(without_number, steps)))).judged.worked_out
        return () if now.model is None or now.broken_off else tuple(readings_of(before, now.model, bench.readings))

    def fits(self, bench: Bench, paths: Iterable[str], asked: Asked | None = None) -> Fits | None:
        """The verdicts on some requirements with what lies on the bench; None where they cannot be worked out. What
        they hang on is noted in `asked`."""
        assert self.designed.worked_out.model is not None
        now = tuple(self._one_by_one(bench, False, frozenset(map(without_number, paths)), asked))
        return fits_of(self.designed.worked_out.model, now) if all(map(_is_whole, now)) else None

    def heed(self, found: Compared) -> None:
        """Remember what something failed by."""
        self.lost |= {fit.path for fit in found.fits if fit.strict and fit.held and not fit.holds}
        self.pairs |= {(pair.piece, pair.one, pair.other) for pair in found.pairs}

    def fails_at_a_glance(self, bench: Bench) -> bool:
        """Whether something is lost with what lies on the bench that was lost before."""
        if any(_is_uneven(bench, *pair) for pair in self.pairs):
            return True
        fits = self.fits(bench, self.lost) if self.lost else {}
        return any(fit.strict and fit.held and not fit.holds for fit in (fits or {}).values())

    def mends(self, bench: Bench, *, in_space: bool = True) -> bool:
        """Whether all that held as designed holds with what lies on the bench; no more is worked out than it takes."""
        if self.fails_at_a_glance(bench):
            return False
        for now in self._one_by_one(bench, in_space):
            if not _is_whole(now):
                return False
            found = compared(self.designed, (now,))
            if not found.holds:
                self.heed(found)
                return False
        return True


def _is_whole(now: AsJudged) -> bool:
    return now.judged.worked_out.model is not None and not now.judged.worked_out.broken_off


def _is_uneven(bench: Bench, piece: str, one: str, other: str) -> bool:
    """Whether two panels of a piece are of unlike sizes."""
    sizes = {
        name: shape.size(shape.panels.index(name))
        for side, shape in bench.now.items()
        for name in (one, other)
        if side[0] == piece and name in shape.panels
    }
    return len(sizes) == 2 and sizes[one] != sizes[other]
