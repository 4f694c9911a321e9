"""Takes what was read at a step; gives how much the folded pieces have swollen for it to read so.

The lines lie where they were scored, so what a folded piece measures more or less than it should is taken up by its
folds: by so many times the thickness of its paper and of what sticks it together. A reading is the sum of the bare
panels and of that thickness, hence even in it. Where no fold lies in what was read, and it is of one length of the
design, that length came out otherwise; where it is of several, nothing can be told from it but whether the design bears
it.
"""

from __future__ import annotations

from fractions import Fraction

from pastedown.diagnostic import error
from pastedown.fit.bearing import bearings
from pastedown.quantity.quantity import Length
from pastedown.quantity.write import write, write_on_ruler
from pastedown.slip.bench import AsRead, Bench, length_of
from pastedown.slip.lay_over import SlipFault
from pastedown.slip.length_read import lay_as_read, length_read, reads
from pastedown.slip.workshop import Workshop


def swell(workshop: Workshop, bench: Bench) -> None:
    """Let the pieces of each part at whose steps something was read be as thick in their folds as that takes, or the
    length that was read be as it was read. Raises
    SlipFault for a reading that no thickness explains."""
    for path, reading in tuple(bench.readings.items()):
        pieces = _pieces(bench, path)
        thick = reads(workshop, bench, path, dict.fromkeys(pieces, Fraction(1)))
        bare = reads(workshop, bench, path, dict.fromkeys(pieces, Fraction(0)))
        if thick is None or bare is None:
            continue
        if thick == bare and reading != thick:
            # No fold takes it up, so something in it was cut or placed otherwise.
            fact = length_read(workshop, bench, path)
            size = None if fact is None else length_of(fact.instance, fact.name)
            if fact is None or size is None or fact.path in bench.told:
                _refuse_past_bearing(bench, path, reading)
                continue
            lay_as_read(bench, path, AsRead(fact, size + reading - thick, reading))
            continue
        times = Fraction(1) if thick == bare else (reading - bare).value / (thick - bare).value
        if times < 0:
            why = "It is less than the bare panels add up to, so some of them are smaller than designed."
            raise _cannot_be(path, why, "Measure where the folds lie, and say so: score 5 of strip at 4 1/2 in.")
        bench.swollen.update(dict.fromkeys(pieces, times))


def _refuse_past_bearing(bench: Bench, path: str, reading: Length) -> None:
    """Raises SlipFault for a reading past which something fails, whatever it was that came out otherwise."""
    (step,) = [each for each in bench.model.steps if each.path == path]
    (bears,), ruler = bearings(bench.model, [step]), bench.model.ruler
    least, below = max(_ends((bears.least, bears.below), (step.least, "")), default=(None, ""))
    most, above = min(_ends((bears.most, bears.above), (step.most, "")), default=(None, ""))
    if least is not None and reading < least:
        way, word, end, then = "down", "least", least, below
    elif most is not None and reading > most:
        way, word, end, then = "up", "most", most, above
    else:
        return
    limit = write_on_ruler(end, ruler)
    why = f"everything goes together for sure only {way} to {limit}, and beyond that {then} may fail"
    if not then:
        why = f"the {word} its step lets it read is {limit}"
    sentence = f"{path} reads {write(reading, ruler)}: {why}. The reading alone does not tell what is off."
    way_out = "Measure each thing in it by itself, put right what is off, and say here how long each is."
    raise SlipFault(error("slip-out-of-place", None, sentence, way_out=way_out))


def _ends(*ends: tuple[Length | None, str]) -> list[tuple[Length, str]]:
    return [(end, then) for end, then in ends if end is not None]


def _pieces(bench: Bench, path: str) -> list[str]:
    part = path.rpartition(".")[0]
    return [piece.path for piece in bench.model.pieces if piece.path.rpartition(".")[0] == part]


def _cannot_be(path: str, why: str, way_out: str) -> SlipFault:
    return SlipFault(error("slip-out-of-place", None, f"What was read at {path} cannot be. {why}", way_out=way_out))
