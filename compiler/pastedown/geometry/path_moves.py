"""The moves of a cut, rid of those that cut nothing."""

from __future__ import annotations

from collections.abc import Sequence

from pastedown.geometry.piece import ArcTo, LineTo, Point

Move = LineTo | ArcTo


def without_stops(start: Point, moves: Sequence[Move]) -> tuple[Move, ...]:
    """The moves without those that go nowhere."""
    kept: list[Move] = []
    at = start
    for move in moves:
        if move.end != at:
            kept.append(move)
            at = move.end
    return tuple(kept)


def without_whiskers(start: Point, moves: tuple[Move, ...]) -> tuple[Point, tuple[Move, ...]]:
    """The closed path without stretches that go out and come back over themselves, as they do where a notch takes a
    corner away."""
    kept: list[Move] = []
    for move in moves:
        kept.append(move)
        while len(kept) > 1 and _turns_back(kept[-3].end if len(kept) > 2 else start, kept[-2], kept[-1]):
            del kept[-2]
            before = kept[-2].end if len(kept) > 1 else start
            if kept[-1].end == before:
                kept.pop()
    while len(kept) > 2 and _turns_back(kept[-2].end, kept[-1], kept[0]):
        start = kept[-2].end
        kept.pop()
        if kept[0].end == start:
            del kept[0]
    return start, tuple(kept)


def _turns_back(before: Point, out: Move, back: Move) -> bool:
    """Whether one goes straight out and comes back the same way."""
    if isinstance(out, ArcTo) or isinstance(back, ArcTo):
        return False
    x1, y1 = out.end.x.value - before.x.value, out.end.y.value - before.y.value
    x2, y2 = back.end.x.value - out.end.x.value, back.end.y.value - out.end.y.value
    return x1 * y2 == x2 * y1 and x1 * x2 + y1 * y2 < 0
