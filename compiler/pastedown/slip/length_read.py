"""Finds the designed length that a reading is of: one that pieces of its part are cut to by its name, and which moves
the reading by as much as it is moved itself while no other does. What was read there was then cut to another length,
and is judged as that.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from pastedown.quantity.quantity import Length
from pastedown.slip.bench import AsRead, Bench, length_of
from pastedown.slip.shapes import CutTo
from pastedown.slip.workshop import Workshop


def length_read(workshop: Workshop, bench: Bench, path: str) -> CutTo | None:
    """The length that the reading at a step is of, by the step's path; None where it hangs on none or on several."""
    part, by = path.rpartition(".")[0], bench.model.ruler.marks
    before = reads(workshop, bench, path, {})
    found: list[CutTo] = []
    for fact in bench.facts:
        size = length_of(fact.instance, fact.name)
        if fact.instance.path != part or fact.handed_down or size is None or before is None:
            continue
        tried = bench.again()
        lay(tried, fact, size + by)
        now = reads(workshop, tried, path, {})
        if now is None or now == before:
            continue
        if now - before != by:
            return None
        found.append(fact)
    # What is folded from a whole sheet is read on a panel, and the sheet moves with that.
    panels = [fact for fact in found if all(panel is not None for _, panel in fact.places)]
    only = panels if len(found) > 1 else found
    return only[0] if len(only) == 1 else None


def lay(bench: Bench, fact: CutTo, size: Length) -> None:
    """Let what is cut to a length have come out so."""
    bench.resize(fact, size)
    bench.told[fact.path] = size


def lay_as_read(bench: Bench, path: str, as_read: AsRead) -> None:
    """Let the length that a reading is of have come out as it was read: it is no more than that length from here on."""
    bench.read_as[path] = as_read
    bench.readings.pop(path, None)
    lay(bench, as_read.fact, as_read.size)


def reads(workshop: Workshop, bench: Bench, path: str, swollen: Mapping[str, Fraction]) -> Length | None:
    """What the ruler reads at a step with what lies on the bench; None where nothing is read there."""
    tried = bench.again()
    tried.readings.clear()
    tried.swollen.update(swollen)
    designed = next((step.reads for step in bench.model.steps if step.path == path), None)
    return next((each.now for each in workshop.readings(tried, [path]) if each.path == path), designed)
