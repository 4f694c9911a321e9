"""What a mend comes to: the edits, the new text, and what holds by how much with it."""

from __future__ import annotations

from attrs import evolve, frozen

from pastedown.diagnostic import Diagnostic, Severity
from pastedown.fit import margins
from pastedown.fit.on_marks import Judged, Trial, on_marks
from pastedown.geometry.model import Requirement
from pastedown.mend.edit import Edit, edits_of
from pastedown.mend.numbers import numbers_in
from pastedown.mend.other_way_round import told_root, with_its_root
from pastedown.mend.safety import one_mark_safer
from pastedown.mend.search import Found, search
from pastedown.mend.state import State, asking_about, state_of
from pastedown.mend.ways_out import with_ways_tried
from pastedown.quantity.ruler import Ruler
from pastedown.source import SourceText

# So many of the requirements that come nearest to failing are told.
MOST_NEAREST = 3


@frozen(eq=False)
class MendReport:
    """`faults` are the errors of the design as it is. `edits` mend it, or are none where nothing was found that does
    (or where nothing is wrong); `text` is the file with them. `mended` are the requirements that failed and hold now,
    `nearest` those that come nearest to failing, and `disliked` the preferences that are unmet for it. `tried` counts
    how often the design was worked out, and `sums` are those that were tried. `others` are the edits of another change
    that passes, the one that a check offers; `bought` are those of one that takes another thing to buy, where nothing
    else was found. `safer` is an edit that goes one mark further than the only one and leaves more to spare, and what
    has least then. `warnings` are what is left for the maker to weigh, with the edits or without any. `root` is what
    all the faults follow from where that is no number but a word."""

    name: str
    ruler: Ruler
    faults: tuple[Diagnostic, ...]
    edits: tuple[Edit, ...]
    text: str
    mended: tuple[Requirement, ...]
    nearest: tuple[Requirement, ...]
    disliked: tuple[Requirement, ...]
    tried: int
    sums: tuple[str, ...] = ()
    others: tuple[Edit, ...] = ()
    bought: tuple[Edit, ...] = ()
    safer: tuple[Edit, Requirement] | None = None
    warnings: tuple[Diagnostic, ...] = ()
    root: Diagnostic | None = None

    @property
    def is_mended(self) -> bool:
        return bool(self.edits)


def mend_of(trial: Trial) -> MendReport | None:
    """What mends the design of a trial; None where it could not be worked out at all. Nothing is found for a design
    that passes."""
    judged = with_its_root(on_marks(trial))
    model = judged.worked_out.model
    if model is None:
        return None
    first = state_of({}, judged)
    asking = asking_about(judged, first)
    source = trial.recipe.file.source
    if first.passes:
        return _report(trial, first, Found(None, 0), source)
    root = told_root(judged)
    if root is not None:
        return evolve(_report(trial, first, Found(None, 0), source), root=root)
    found = search(asking, first, numbers_in(trial.recipe.file), model.ruler.marks)
    # What a check offers may take more numbers than the search sets, and may be nearer to what the maker had in mind.
    offered = with_ways_tried(judged)
    found = evolve(found, tried=found.tried + offered.tried)
    if found.state is None:
        if any(each.is_bought for each in offered.edits):
            return evolve(_report(trial, first, found, source), bought=offered.edits)
        return _report(trial, first, evolve(found, state=offered.state), source)
    report = _report(trial, first, found, source)
    safer = one_mark_safer(asking, found.state, first, model.ruler.marks)
    if safer is not None:
        report = evolve(report, safer=(edits_of(safer.state, model.ruler)[0], safer.least))
    return report if set(offered.edits) == set(report.edits) else evolve(report, others=offered.edits)


def _report(trial: Trial, first: State, found: Found, source: SourceText) -> MendReport:
    mended = found.state
    model = first.judged.worked_out.model
    assert model is not None
    setting = {} if mended is None else mended.setting
    ordered = sorted(setting.items(), key=lambda each: each[0].span.start)
    edits = () if mended is None else edits_of(mended, model.ruler)
    text = source.text
    for (number, _), edit in sorted(zip(ordered, edits, strict=True), key=lambda each: -each[0][0].span.start):
        span = number.span
        text = text[: span.start] + edit.after + text[span.end :]
    failed = {each.path for each in first.judged.requirements if each.strict and not each.holds}
    after = () if mended is None else mended.judged.requirements
    return MendReport(
        name=trial.design.name,
        ruler=model.ruler,
        faults=tuple(each for each in first.judged.diagnostics if each.is_error),
        edits=edits,
        text=text,
        mended=tuple(each for each in after if each.path in failed),
        nearest=_nearest(mended.judged) if mended is not None else (),
        disliked=tuple(each for each in after if _is_newly_disliked(each, first)),
        tried=found.tried,
        sums=found.sums,
        warnings=_warnings((mended or first).judged),
    )


def _warnings(judged: Judged) -> tuple[Diagnostic, ...]:
    """The warnings of a design, with those of margins that the hand takes where it goes together."""
    model = judged.worked_out.model
    found = [each for each in judged.diagnostics if each.severity is Severity.WARNING]
    return (*found, *margins.look(model)) if model is not None else tuple(found)


def _is_newly_disliked(each: Requirement, first: State) -> bool:
    return not each.strict and not each.holds and each.path not in first.disliked


def _nearest(judged: Judged) -> tuple[Requirement, ...]:
    counted = [each for each in judged.requirements if each.strict and each.margin is not None]
    counted.sort(key=lambda each: (each.margin.order if each.margin is not None else 0, each.path))
    return tuple(counted[:MOST_NEAREST])
