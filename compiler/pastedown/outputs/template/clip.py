"""What of a shape lies in a window. Not all cutting software heeds a clipping path, so lines really end there."""

from fractions import Fraction
from itertools import pairwise
from math import cos, pi, sin, sqrt

from pastedown.outputs.template.shape import Bounds, Move, Round, Spot, Straight, turning

Chain = tuple[Move, ...]


def chains_within(moves: tuple[Move, ...], window: Bounds) -> tuple[Chain, ...]:
    """The parts of the moves that lie in the window, each unbroken."""
    chains: list[list[Move]] = []
    for move in moves:
        for part in _part_within(move, window):
            if chains and chains[-1][-1].end == part.start:
                chains[-1].append(part)
            else:
                chains.append([part])
    return tuple(tuple(chain) for chain in chains)


def straight_within(line: Straight, window: Bounds) -> Straight | None:
    """The stretch of the line in the window, exactly; None if there is none. Method of Liang and Barsky (1984)."""
    if _inside(line.start, window) and _inside(line.end, window):
        return line
    (x1, y1), (x2, y2) = line.start, line.end
    enter, leave = Fraction(0), Fraction(1)
    for way, room in (
        (x1 - x2, x1 - window.left),
        (x2 - x1, window.right - x1),
        (y1 - y2, y1 - window.bottom),
        (y2 - y1, window.top - y1),
    ):
        if way == 0 and room < 0:
            return None
        if way < 0:
            enter = max(enter, room / way)
        elif way > 0:
            leave = min(leave, room / way)
    if enter >= leave:
        return None
    return Straight(_along(line, enter), _along(line, leave))


def _part_within(move: Move, window: Bounds) -> list[Move]:
    if isinstance(move, Straight):
        part = straight_within(move, window)
        return [] if part is None else [part]
    if _inside(move.start, window) and _inside(move.end, window):
        return [move]
    if _beside(move, window):
        return []
    cuts = [move.start, *sorted(_crossings(move, window), key=lambda at: _way_gone(move, at)), move.end]
    pieces = [Round(a, b, move.centre, move.radius, move.clockwise) for a, b in pairwise(cuts) if a != b]
    return [piece for piece in pieces if _inside(_middle(piece), window)]


def _along(line: Straight, share: Fraction) -> Spot:
    (x1, y1), (x2, y2) = line.start, line.end
    return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share


def _inside(place: Spot, window: Bounds) -> bool:
    return window.left <= place[0] <= window.right and window.bottom <= place[1] <= window.top


def _beside(move: Round, window: Bounds) -> bool:
    (x1, y1), (x2, y2) = move.start, move.end
    across = max(x1, x2) < window.left or min(x1, x2) > window.right
    return across or max(y1, y2) < window.bottom or min(y1, y2) > window.top


def _crossings(move: Round, window: Bounds) -> list[Spot]:
    """Where the arc crosses the lines of the window: once each, as it stays on one side of both axes."""
    (x1, y1), (x2, y2) = move.start, move.end
    cx, cy = move.centre
    found: list[Spot] = []
    for x in (window.left, window.right):
        if min(x1, x2) < x < max(x1, x2):
            found.append((x, cy + other_leg(move.radius, x - cx, y1 + y2 >= 2 * cy)))
    for y in (window.bottom, window.top):
        if min(y1, y2) < y < max(y1, y2):
            found.append((cx + other_leg(move.radius, y - cy, x1 + x2 >= 2 * cx), y))
    return found


def other_leg(radius: Fraction, leg: Fraction, positive: bool) -> Fraction:
    """The leg of a right triangle whose longest side is the radius, with the sign wanted."""
    other = Fraction(sqrt(max(Fraction(0), radius * radius - leg * leg)))
    return other if positive else -other


def _way_gone(move: Round, place: Spot) -> Fraction:
    """Grows along the arc: it goes one way only in x and in y."""
    return abs(place[0] - move.start[0]) + abs(place[1] - move.start[1])


def _middle(move: Round) -> Spot:
    start, turn = turning(move)
    if turn == 0 or abs(turn) > pi:
        return move.start
    angle = start + turn / 2
    radius = float(move.radius)
    return move.centre[0] + Fraction(radius * cos(angle)), move.centre[1] + Fraction(radius * sin(angle))
