"""At which scales of a print the fits hold that hang on it: each is told only if working it out there proves it."""

from __future__ import annotations

from fractions import Fraction

from attrs import evolve

from pastedown.slip.bench import Bench
from pastedown.slip.compare import Compared, short
from pastedown.slip.lay_over import printed_at
from pastedown.slip.report import Fit
from pastedown.slip.workshop import Workshop

# Nobody's printer is farther off than this, and so many scales are tried.
LEAST, MOST = Fraction(9, 10), Fraction(11, 10)
_MOST_TRIED = 24
_LOOKS = 3


def with_scales(workshop: Workshop, bench: Bench, found: Compared) -> tuple[Fit, ...]:
    """The fits with the scales between which they hold; as they are, where no more than prints of one scale is told."""
    scales = {done.scale for done in bench.done}
    scale = scales.pop() if len(scales) == 1 else None
    if scale is None or scale == 1:
        return found.fits
    worked_out: dict[Fraction, dict[tuple[str, str], Fit]] = {}
    return tuple(_with_scale(workshop, bench, fit, scale, worked_out) for fit in found.fits)


def _with_scale(
    workshop: Workshop, bench: Bench, fit: Fit, scale: Fraction, worked_out: dict[Fraction, dict[tuple[str, str], Fit]]
) -> Fit:
    """What is missing changes evenly with the scale, as it is a sum of lengths; where it does not, it is looked at
    again from nearer by."""
    at_one, there = short(fit, fit.designed), short(fit, fit.now)
    one, other = Fraction(1), scale
    if fit.operator == "is" or there == 0:
        return fit
    for _ in range(_LOOKS):
        if at_one is None or there is None or at_one == there:
            return fit
        slope = (at_one - there) / (one - other)
        nought = one - at_one / slope
        if not LEAST <= nought <= MOST:
            return fit
        if nought not in worked_out:
            if len(worked_out) >= _MOST_TRIED:
                return fit
            worked_out[nought] = {}
        again = worked_out[nought].get((fit.path, fit.operator))
        if again is None:
            worked_out[nought].update(workshop.fits(printed_at(bench, nought), [fit.path]) or {})
            again = worked_out[nought].get((fit.path, fit.operator))
        missing = None if again is None else short(again, again.now)
        if missing == 0:
            return evolve(fit, holds_to=nought) if slope > 0 else evolve(fit, holds_from=nought)
        other, there = nought, missing
    return fit
