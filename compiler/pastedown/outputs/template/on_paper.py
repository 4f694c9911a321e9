"""How far a line right across a piece lies on its paper: notches, corners and openings leave gaps in it."""

from fractions import Fraction
from itertools import pairwise

from pastedown.outputs.template.clip import other_leg
from pastedown.outputs.template.shape import FloatSpot, Move, Round, Straight, corners_of, holds

# Paper has to lie on both sides of a line, so far off: along a cut there is nothing to fold. In millimetres.
_BESIDE = 1e-3
# Less than a tenth of a millimetre cannot be seen as a line.
_SHORTEST = Fraction(1, 10)


def stretches_on_paper(
    line: Straight, outline: tuple[Move, ...], openings: tuple[tuple[Move, ...], ...]
) -> tuple[Straight, ...]:
    """The stretches of an upright or level line that lie inside the outline and in no opening, from its start on."""
    level = line.start[1] == line.end[1]
    at, first, last = _seen(line, level)
    gaps = [_gap(opening, at, level) for opening in openings]
    cuts = {first, last, *(place for gap in gaps for place in gap)}
    cuts |= {place for move in outline for place in _met_by(move, at, level)}
    corners = corners_of(outline)
    kept: list[tuple[Fraction, Fraction]] = []
    waste = sorted(gap for gap in gaps if gap)
    reached = first
    for begin, end in pairwise(sorted(place for place in cuts if first <= place <= last)):
        while waste and waste[0][0] <= begin:
            reached = max(reached, waste.pop(0)[1])
        if end <= reached or not _is_paper(corners, at, (begin + end) / 2, level):
            continue
        if kept and kept[-1][1] == begin:
            kept[-1] = (kept[-1][0], end)
        else:
            kept.append((begin, end))
    return tuple(
        Straight((begin, at), (end, at)) if level else Straight((at, begin), (at, end))
        for begin, end in kept
        if end - begin >= _SHORTEST
    )


def _is_paper(outline: list[FloatSpot], at: Fraction, along: Fraction, level: bool) -> bool:
    spots = [(float(along), float(at) + off) for off in (_BESIDE, -_BESIDE)]
    return all(holds(outline, *(spot if level else spot[::-1])) for spot in spots)


def _gap(opening: tuple[Move, ...], at: Fraction, level: bool) -> tuple[Fraction, ...]:
    """From where to where the line lies in the opening or along its rim, if it does. Windows are convex."""
    met = [place for move in opening for place in _met_by(move, at, level)]
    return (min(met), max(met)) if met else ()


def _seen(line: Straight, level: bool) -> tuple[Fraction, Fraction, Fraction]:
    """Where the line lies across its direction, and where it begins and ends along it."""
    (x1, y1), (x2, y2) = line.start, line.end
    return (y1, min(x1, x2), max(x1, x2)) if level else (x1, min(y1, y2), max(y1, y2))


def _met_by(move: Move, at: Fraction, level: bool) -> set[Fraction]:
    """Where the move meets the line, along the line: a stretch that lies on it, by its ends."""
    (a1, b1), (a2, b2) = (spot if level else spot[::-1] for spot in (move.start, move.end))
    if not min(b1, b2) <= at <= max(b1, b2):
        return set()
    if b1 == b2:
        return {a1, a2}
    if isinstance(move, Round):
        across, up = move.centre if level else move.centre[::-1]
        return {across + other_leg(move.radius, at - up, a1 + a2 >= 2 * across)}
    return {a1 + (a2 - a1) * (at - b1) / (b2 - b1)}
