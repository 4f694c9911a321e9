"""Compares a design with the same as it was really done: lengths, pairs of panels, fits and faults."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve, frozen

from pastedown.diagnostic import Diagnostic, Severity
from pastedown.fit.on_marks import Judged
from pastedown.geometry.model import Join, Model, Requirement
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.report import Changed, Fit, Pair


@frozen(eq=False)
class Compared:
    """A design as designed and as done."""

    changes: tuple[Changed, ...]
    pairs: tuple[Pair, ...]
    fits: tuple[Fit, ...]
    faults: tuple[Diagnostic, ...]

    @property
    def holds(self) -> bool:
        broken = any(fit.strict and fit.held and not fit.holds for fit in self.fits)
        return not broken and not self.pairs and not self.faults


def compared(designed: Judged, now: Judged) -> Compared:
    """What is otherwise than designed. Both must have a model."""
    before, after = designed.worked_out.model, now.worked_out.model
    assert before is not None and after is not None
    return Compared(
        changes=tuple(_changes(before, after)),
        pairs=tuple(_pairs(before, after)),
        fits=tuple(_fits(before, after)),
        faults=tuple(_new_faults(designed, now)),
    )


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
    old = {(run.axis, score.name): score.at for run in before.runs for score in run.scores}
    for run in after.runs:
        for score in run.scores:
            at = old.get((run.axis, score.name), score.at)
            if at != score.at:
                yield Changed(f"{after.path}.{score.name}", "fold", at, score.at)


def _panels(before: FlatPiece, after: FlatPiece) -> Iterator[Changed]:
    old = {(run.axis, panel.name): panel.size for run in before.runs for panel in run.panels}
    for run in after.runs:
        for panel in run.panels:
            size = old.get((run.axis, panel.name), panel.size)
            if size != panel.size:
                yield Changed(f"{after.path}.{panel.name}", "panel", size, panel.size)


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


def _fits(before: Model, after: Model) -> Iterator[Fit]:
    old = {requirement.path: requirement for requirement in before.requirements}
    for requirement in after.requirements:
        other = old.get(requirement.path)
        if other is not None:
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


def faults_of(judged: Judged) -> set[tuple[str, str]]:
    """The errors of a design other than requirements, and the paths of requirements that are not met."""
    found = {
        (each.id, each.sentence)
        for each in judged.diagnostics
        if each.severity is Severity.ERROR and each.id != "requirement-fails"
    }
    return found | {("", each.path) for each in judged.requirements if each.strict and not each.holds}


def _new_faults(designed: Judged, now: Judged) -> Iterator[Diagnostic]:
    """Errors of checks that were none before; of what is measured at a step, too."""
    known = {(each.id, each.span) for each in designed.diagnostics}
    for diagnostic in now.diagnostics:
        told_as_fit = diagnostic.id == "requirement-fails"
        if diagnostic.severity is Severity.ERROR and not told_as_fit and (diagnostic.id, diagnostic.span) not in known:
            yield diagnostic


def with_scales(fits: tuple[Fit, ...], scale: Fraction) -> tuple[Fit, ...]:
    """The fits with the scales between which they hold, told from their margins at full size and at `scale`: a margin
    is a sum of lengths, so it changes evenly."""
    return tuple(_with_scale(fit, scale) for fit in fits)


def _with_scale(fit: Fit, scale: Fraction) -> Fit:
    full, scaled = _margin(fit, fit.designed), _margin(fit, fit.now)
    if full is None or scaled is None or full == scaled or scale == 1:
        return fit
    slope = (full - scaled) / (1 - scale)
    nought = 1 - full / slope
    if nought <= 0:
        return fit
    return evolve(fit, holds_from=nought) if slope > 0 else evolve(fit, holds_to=nought)


def _margin(fit: Fit, sides: tuple[Quantity | str | bool, Quantity | str | bool]) -> Fraction | None:
    """How much is left until a fit fails; below nought where it has failed. None for what has no margin."""
    left, right = sides
    if not isinstance(left, Quantity) or not isinstance(right, Quantity) or fit.operator == "is":
        return None
    return (left - right).value if fit.operator in (">=", ">") else (right - left).value


def margin_of(requirement: Requirement) -> Fraction | None:
    """How much is left until a requirement fails; None for what has no margin."""
    left, right = requirement.left, requirement.right
    if not isinstance(left, Quantity) or not isinstance(right, Quantity) or requirement.operator == "is":
        return None
    return (left - right).value if requirement.operator in (">=", ">") else (right - left).value
