"""Compares a design with the same as it was really done: lengths, pairs of panels, fits and faults."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from attrs import frozen

from pastedown.diagnostic import Diagnostic
from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.fit.on_marks import Judged
from pastedown.geometry.model import Join, Model
from pastedown.geometry.piece import FlatPiece, Run
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.report import Changed, Fit, Pair, ReadNow

# What is wrong, by what it is and where; by how much, where that is a number.
Wrong = Mapping[tuple[str, str], Fraction | None]


@frozen(eq=False)
class Compared:
    """A design as designed and as done; `model` is the one as done."""

    model: Model
    changes: tuple[Changed, ...]
    pairs: tuple[Pair, ...]
    readings: tuple[ReadNow, ...]
    fits: tuple[Fit, ...]
    faults: tuple[Diagnostic, ...]

    @property
    def holds(self) -> bool:
        """Whether all that held as designed holds."""
        return not self.wrong

    @property
    def wrong(self) -> Wrong:
        """All that held as designed and does not now."""
        lost = [fit for fit in self.fits if fit.strict and fit.held and not fit.holds]
        fits = {("fit", fit.path): short(fit, fit.now) for fit in lost}
        pairs = {("pair", pair.join): pair.step.value for pair in self.pairs}
        faults = {(fault.id, _place(fault)): fault.missing for fault in self.faults}
        return {**fits, **pairs, **faults}


def _place(fault: Diagnostic) -> str:
    return "" if fault.span is None else f"{fault.span.source.name} {fault.span.start}"


@frozen(eq=False)
class AsJudged:
    """A design judged as done; `but_of` are parts whose own requirements are not asked about it, but for those that
    compare one of `lengths`, by its path, with something."""

    judged: Judged
    but_of: frozenset[str] = frozenset()
    lengths: frozenset[str] = frozenset()


def compared(designed: Judged, now: tuple[AsJudged, ...], read: Mapping[str, Length] | None = None) -> Compared:
    """What is otherwise than designed. All must have a model; `now` has one for each of several lengths that should be
    one and came out unlike, the first as far as can be as designed: the lengths that change are its. `read` are the
    steps at which the ruler was read already."""
    before = designed.worked_out.model
    assert before is not None
    first = now[0].judged.worked_out.model
    assert first is not None
    fits = fits_of(before, now)
    pairs, readings = tuple(_pairs(before, first)), tuple(readings_of(before, first, read or {}))
    faults = {(each.id, each.sentence): each for one in now for each in _new_faults(designed, one.judged)}
    # Where two panels that are stuck together do not match, nothing stands where it should.
    told = [each for each in faults.values() if not pairs or each.id not in SEEN_IN_SPACE]
    return Compared(first, tuple(_changes(before, first)), pairs, readings, tuple(fits.values()), tuple(told))


def fits_of(before: Model, now: Iterable[AsJudged]) -> dict[tuple[str, str], Fit]:
    """The worst verdict on each requirement, by its path and how it compares. All must have a model."""
    fits: dict[tuple[str, str], Fit] = {}
    for each in now:
        model = each.judged.worked_out.model
        assert model is not None
        for fit in _fits(before, model, each):
            key = fit.path, fit.operator
            fits[key] = _worse(fits[key], fit) if key in fits else fit
    return fits


def _worse(one: Fit, other: Fit) -> Fit:
    """The one of two verdicts on the same that is the worse."""
    if one.holds != other.holds:
        return other if one.holds else one
    left, right = short(one, one.now), short(other, other.now)
    return other if left is not None and right is not None and right > left else one


def _changes(before: Model, after: Model) -> Iterator[Changed]:
    pieces = {piece.path: piece for piece in before.pieces}
    told: set[str] = set()
    for piece in after.pieces:
        other = pieces.get(piece.path)
        if other is None:
            continue
        for change in (*_folds(other, piece), *_panels(other, piece), *_sides(other, piece)):
            told.add(change.path)
            yield change
    readings = {step.path: step.reads for step in before.steps}
    for step in after.steps:
        reads = readings.get(step.path)
        if reads is not None and step.reads is not None and reads != step.reads:
            yield Changed(step.path, "reading", reads, step.reads)
    facts = {each.path: each.value for each in before.measurements}
    for measurement in after.measurements:
        old, new = facts.get(measurement.path), measurement.value
        if measurement.path in told or _is_of_a_piece(measurement.path, pieces):
            continue
        if isinstance(old, Quantity) and isinstance(new, Quantity) and old.dimension == new.dimension == LENGTH:
            yield from [Changed(measurement.path, "fact", old, new)] if old != new else []


def _is_of_a_piece(path: str, pieces: dict[str, FlatPiece]) -> bool:
    return path.rpartition(".")[0] in pieces


def _folds(before: FlatPiece, after: FlatPiece) -> Iterator[Changed]:
    return _in_runs(before, after, "fold", lambda run: {score.name: score.at for score in run.scores})


def _panels(before: FlatPiece, after: FlatPiece) -> Iterator[Changed]:
    return _in_runs(before, after, "panel", lambda run: {panel.name: panel.size for panel in run.panels})


def _in_runs(
    before: FlatPiece, after: FlatPiece, what: str, lengths_of: Callable[[Run], dict[str, Length]]
) -> Iterator[Changed]:
    """What lies in the runs of a piece and is another length now."""
    old = {(run.axis, name): length for run in before.runs for name, length in lengths_of(run).items()}
    for run in after.runs:
        for name, length in lengths_of(run).items():
            was = old.get((run.axis, name), length)
            if was != length:
                yield Changed(f"{after.path}.{name}", what, was, length)


def _sides(before: FlatPiece, after: FlatPiece) -> Iterator[Changed]:
    for axis, old, new in (("height", before.height, after.height), ("width", before.width, after.width)):
        if old != new:
            yield Changed(f"{after.path}.{axis}", "side", old, new)


def _pairs(before: Model, after: Model) -> Iterator[Pair]:
    """Panels of one piece that are stuck to each other, were alike and are not any more."""
    old, new = _sizes(before), _sizes(after)
    for join in after.joins:
        for piece, one, other in _stuck(join):
            sizes = [table.get((piece, panel)) for table in (old, new) for panel in (one, other)]
            if None in sizes:
                continue
            was_one, was_other, is_one, is_other = sizes
            if was_one == was_other and is_one != is_other and is_one is not None and is_other is not None:
                yield Pair(join.path, piece, one, other, is_one, is_other)


def _stuck(join: Join) -> Iterator[tuple[str, str, str]]:
    for (piece, one, _), (other_piece, other, _) in zip(join.what.faces, join.to.faces, strict=False):
        if piece == other_piece and one and other:
            yield piece, one, other


def _sizes(model: Model) -> dict[tuple[str, str], Length]:
    return {
        (piece.path, panel.name): panel.size for piece in model.pieces for run in piece.runs for panel in run.panels
    }


def _fits(before: Model, after: Model, now: AsJudged) -> Iterator[Fit]:
    old = {requirement.path: requirement for requirement in before.requirements}
    for requirement in after.requirements:
        other = old.get(requirement.path)
        part = f"{requirement.part}." if requirement.part else ""
        compares = {f"{part}{words}" for words in (requirement.left_words, requirement.right_words)}
        if other is not None and (requirement.part not in now.but_of or compares & now.lengths):
            yield Fit(
                path=requirement.path,
                strict=requirement.strict,
                operator=requirement.operator,
                held=other.holds,
                holds=requirement.holds,
                designed=(other.left, other.right),
                now=(requirement.left, requirement.right),
                words=(requirement.left_words, requirement.right_words),
                reason=requirement.because,
            )


def readings_of(before: Model, after: Model, read: Mapping[str, Length]) -> Iterator[ReadNow]:
    """What will be read at the steps, where that is not what they say as designed; what was read there already is as it
    was read."""
    old = {step.path: step for step in before.steps}
    for step in after.steps:
        was = old.get(step.path)
        now = read.get(step.path, step.reads)
        if was is None or was.reads is None or now is None or was.reads == now:
            continue
        yield ReadNow(
            path=step.path,
            designed=was.reads,
            now=now,
            least=was.least,
            most=was.most,
            least_now=step.least,
            most_now=step.most,
            told=step.path in read,
        )


def _new_faults(designed: Judged, now: Judged) -> Iterator[Diagnostic]:
    """Errors of checks that were none before; of what is measured at a step, too."""
    known = {(each.id, each.span) for each in designed.diagnostics}
    for diagnostic in now.diagnostics:
        told_as_fit = diagnostic.id == "requirement-fails"
        if diagnostic.is_error and not told_as_fit and (diagnostic.id, diagnostic.span) not in known:
            yield diagnostic


def short(fit: Fit, sides: tuple[Quantity | str | bool, Quantity | str | bool]) -> Fraction | None:
    """How much is missing for a fit to hold; below nought where there is some left. None for what has no number."""
    left, right = sides
    if not isinstance(left, Quantity) or not isinstance(right, Quantity):
        return None
    if fit.operator == "is":
        return abs((left - right).value)
    return (right - left).value if fit.operator in (">=", ">") else (left - right).value
