"""Takes a sound design and what was really done; gives what it does to the design, and the cheapest repair."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import count

from pastedown.diagnostic import Diagnostic, error
from pastedown.fit.on_marks import Judged
from pastedown.slip.bench import Bench, bench_of
from pastedown.slip.lay_over import SlipFault, lay_over
from pastedown.slip.length_read import lay_as_read
from pastedown.slip.read_slip import MOST_SLIPS, Slip, read_slip
from pastedown.slip.repair import repairs
from pastedown.slip.report import SlipReport
from pastedown.slip.scales import with_scales
from pastedown.slip.swelling import swell
from pastedown.slip.workshop import Workshop


def find_slips(
    designed: Judged, texts: Sequence[str], tell: Callable[[str], None] = lambda words: None
) -> tuple[SlipReport | None, tuple[Diagnostic, ...]]:
    """The report on slips as they were typed, or what is wrong with them. The design must have been worked out. `tell`
    is told meanwhile what is being done."""
    root, model = designed.worked_out.root, designed.worked_out.model
    assert root is not None and model is not None
    if len(texts) > MOST_SLIPS:
        sentence = f"These are {len(texts)} slips, and {MOST_SLIPS} are the most."
        return None, (error("slip-unreadable", None, sentence, way_out="Tell those of one piece at a time."),)
    read = [read_slip(text) for text in texts]
    faults = tuple(each for each in read if isinstance(each, Diagnostic))
    if faults:
        return None, faults
    bench, workshop = bench_of(root, model), Workshop(designed, tell=_counted(tell, model.name))
    try:
        lay_over(bench, tuple(each for each in read if isinstance(each, Slip)))
        swell(workshop, bench)
    except SlipFault as fault:
        return None, (fault.diagnostic,)
    found = workshop.compared(bench)
    if found is None:
        return None, tuple(each for now in workshop.judged(bench) for each in now.judged.diagnostics)
    return (
        SlipReport(
            design=model.name,
            ruler=model.ruler,
            done=tuple(bench.done),
            changes=found.changes,
            pairs=found.pairs,
            readings=found.readings,
            fits=with_scales(workshop, bench, found),
            faults=found.faults,
            repairs=repairs(workshop, bench, found, _apart_or_none(bench)),
        ),
        (),
    )


def _counted(tell: Callable[[str], None], design: str) -> Callable[[], None]:
    """Tells how often a design has been worked out."""
    times = count(1)
    return lambda: tell(f"{design}: worked out with what was done and what may mend it, {next(times)}")


def _apart_or_none(bench: Bench) -> list[Bench]:
    try:
        return _apart(bench) if len(bench.slips) > 1 else []
    except SlipFault:
        # Lines that all moved past one another's old places can only be told together.
        return []


def _apart(bench: Bench) -> list[Bench]:
    """What slipped as several benches, none of which touches a piece of another: the slips of each alone."""
    groups: list[tuple[set[str], list[Slip]]] = []
    for slip in bench.slips:
        alone = bench_of(bench.root, bench.model)
        _lay_again(bench, alone, (slip,))
        touched = {*alone.slipped, *alone.readings, *alone.told}
        met = [group for group in groups if group[0] & touched]
        groups = [group for group in groups if not group[0] & touched]
        groups.append((touched.union(*(each for each, _ in met)), [*(each for _, some in met for each in some), slip]))
    found: list[Bench] = []
    for _, some in groups:
        alone = bench_of(bench.root, bench.model)
        _lay_again(bench, alone, tuple(some))
        read = {path.rpartition(".")[0] for path in alone.readings}
        alone.swollen.update({path: by for path, by in bench.swollen.items() if path.rpartition(".")[0] in read})
        found.append(alone)
    return found


def _lay_again(bench: Bench, alone: Bench, slips: tuple[Slip, ...]) -> None:
    """Lay some of the slips of a bench over another, with the lengths that were found out by what was read."""
    lay_over(alone, slips)
    for path in [path for path in bench.read_as if path in alone.readings]:
        lay_as_read(alone, path, bench.read_as[path])
