"""Between which readings all requirements hold, where what is read is one length of the design.

`fit/bearing.py` looks at what hangs on the errors of the hand: there a design still goes together. Requirements of the
length itself, such as how much cover has to stay in sight, may be lost before. All things of one family are taken to
have come out alike, so that one working out asks what is required of each. A margin is taken to go evenly with the
length from one look to the next, and the end that is told was looked at itself.
"""

from __future__ import annotations

from fractions import Fraction

from attrs import evolve, frozen

from pastedown.fit.bearing import Bearing, bearings
from pastedown.fit.on_marks import Judged
from pastedown.geometry.model import AllHolds, Model, Step, WorkedText
from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.slip.bench import Bench, bench_of, length_of
from pastedown.slip.compare import short
from pastedown.slip.length_read import lay, length_read
from pastedown.slip.report import Fit
from pastedown.slip.shapes import CutTo
from pastedown.slip.workshop import Workshop

# So many families of readings are looked at, each end of a band so often; none where the design itself took more steps
# of work than MOST_SPENT, and no more where all looks may have taken MOST_SPENT_LOOKING. Where no requirement of what
# is made bounds a reading, so many marks away is looked.
MOST_FAMILIES = 6
MOST_SPENT = 200_000
MOST_SPENT_LOOKING = 2_000_000
_LOOKS = 4
_MARKS_AWAY = 4
_JUST_BEFORE = Fraction(999, 1000)


def with_reading_bands(judged: Judged, model: Model, spent: int) -> Model:
    """The model with steps that say between which readings all holds, where that is less than what the design bears.
    `judged` is the same design, which goes together, and `spent` what it took to work it out once."""
    root = judged.worked_out.root
    families: dict[tuple[str, Length], list[Step]] = {}
    for step in model.steps:
        if step.reads is not None and step.give is not None:
            families.setdefault((without_indexes(step.path), step.reads), []).append(step)
    if root is None or judged.worked_out.model is None or not families or spent > MOST_SPENT:
        return model
    workshop, bench = Workshop(judged), bench_of(root, judged.worked_out.model)
    found: dict[str, AllHolds] = {}
    for steps in list(families.values())[:MOST_FAMILIES]:
        if workshop.glances * spent > MOST_SPENT_LOOKING:
            break
        fact = length_read(workshop, bench, steps[0].path)
        if fact is None:
            continue
        paths = {f"{step.part}.{fact.name}" if step.part else fact.name for step in steps}
        facts = [each for each in bench.facts if each.path in paths and not each.handed_down]
        (bears,) = bearings(model, steps[:1])
        band = _Band(workshop, bench, model, facts, steps[0], bears)
        found |= dict.fromkeys((step.path for step in steps), AllHolds(*band.end(-1), *band.end(1)))
    return evolve(model, steps=tuple(evolve(each, all_holds=found.get(each.path, AllHolds())) for each in model.steps))


@frozen(eq=False)
class _Band:
    workshop: Workshop
    bench: Bench
    model: Model
    facts: list[CutTo]
    step: Step
    bears: Bearing

    def end(self, sign: int) -> tuple[Length | None, str, WorkedText]:
        """The last reading to one side at which all holds, with the requirement that fails past it and in words what it
        is about; None where nothing fails before what the design bears does."""
        nominal = self.step.reads
        assert nominal is not None
        borne = self.bears.least if sign < 0 else self.bears.most
        marks = self.model.ruler.marks
        at = marks.value * _MARKS_AWAY if borne is None else abs((borne - nominal).value)
        nearest: Fit | None = None
        for look in range(_LOOKS):
            crossings = [(where, each) for each in self._fits(sign * at) if (where := _crossing(each, at)) is not None]
            lost = [each for each in crossings if each[0] < at or (look == 0 and borne is None)]
            if not lost:
                break
            where, nearest = min(lost, key=lambda each: (each[0], each[1].path))
            end = round_to(_moved(nominal, sign * where), "up" if sign < 0 else "down", marks / 2)
            at = max(Fraction(0), sign * (end - nominal).value)
        else:
            at = Fraction(0)
        if nearest is None:
            return None, "", ()
        return _moved(nominal, sign * at), without_indexes(nearest.path), self._about(nearest)

    def _fits(self, by: Fraction) -> list[Fit]:
        """The verdicts on what held as designed, with all that is read so much longer than designed."""
        if not by:
            return []
        tried = self.bench.again()
        for fact in self.facts:
            size = length_of(fact.instance, fact.name)
            if size is not None:
                lay(tried, fact, _moved(size, by))
        asked = [each.path for each in self.model.requirements if each.strict and each.holds and not each.stacks]
        found = self.workshop.fits(tried, asked) or {}
        return [fit for fit in found.values() if fit.strict and fit.held]

    def _about(self, fit: Fit) -> WorkedText:
        """What is more or less than it has to be, where one side of the requirement is a name and the other stays."""
        (left, right), part = fit.words, fit.path.rpartition(".")[0]
        less = fit.operator in (">=", ">")
        if fit.operator == "is" or not isinstance(fit.now[0], Quantity) or not isinstance(fit.now[1], Quantity):
            return ()
        if fit.now[1] == fit.designed[1] and left.isidentifier():
            return f"the {self._named(part, left)} is {'less' if less else 'more'} than ", fit.now[1]
        if fit.now[0] == fit.designed[0] and right.isidentifier():
            return f"the {self._named(part, right)} is {'more' if less else 'less'} than ", fit.now[0]
        return ()

    def _named(self, part: str, name: str) -> str:
        path = f"{part}.{name}" if part else name
        doc = next((each.doc for each in self.model.measurements if each.path == path), "")
        return f"{name.replace('_', ' ')} {doc}".strip()


def _crossing(fit: Fit, at: Fraction) -> Fraction | None:
    """How far from the design a requirement just holds, taken to go evenly up to `at`; None where it never fails."""
    before, now = short(fit, fit.designed), short(fit, fit.now)
    if before is None or now is None or fit.operator == "is":
        return None if fit.holds else Fraction(0)
    if now <= before:
        return None
    where = max(Fraction(0), -before) * at / (now - before)
    # Where it does not hold there although it is not crossed before, it is no sum of lengths.
    return where if fit.holds or where < at else at * _JUST_BEFORE


def _moved(length: Length, by: Fraction) -> Length:
    return Quantity(length.value + by, length.dimension)
