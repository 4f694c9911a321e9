"""The state of the work in a pose that a step names, and how what turns came there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pastedown.outputs.pictures.fold_ways import FOLDED_PART
from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.places import MOVED, differs, rims, span
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.space import FLAT
from pastedown.plan.words import is_of_part, last_name, spoken

_STEPS = 10
_MOST_ARROWS = 2


def part_of_pose(shown: str) -> str:
    """The path of the part that a pose belongs to, "" for the design itself."""
    return shown.rpartition(".")[0]


def state_in_pose(workshop: Workshop, shown: str, before: State) -> State | None:
    """All that is made before, with the folds of the pose's part as the pose has them; None for a pose there is not."""
    posture = next((one for one in workshop.plan.space.postures if one.path == shown), None)
    if posture is None and last_name(shown) != FLAT:
        return None
    part = part_of_pose(shown)
    angles = {key: angle for key, angle in before.angles.items() if not is_of_part(key[0], part)}
    if posture is not None:
        angles |= {key: float(angle) for key, angle in posture.angles.items() if is_of_part(key[0], part)}
    return State(before.made, angles, before.thicker)


def words_of_pose(shown: str) -> str:
    """A pose as one speaks of it: "the pose closed of the case"."""
    part = part_of_pose(shown)
    return f"the pose {spoken(last_name(shown))}" + (f" of the {spoken(part)}" if part else "")


def ways_into(
    workshop: Workshop, before: State, after: State, pieces: Iterable[str], over: Iterable[str]
) -> dict[str, tuple[Vector, ...]]:
    """How the pieces that move furthest come into a pose: the last part of their ways, by piece, two at most."""
    laid = tuple(over)
    poses = [workshop.posed(state, laid) for state in _between(before, after)]
    start, end = workshop.posed(before, laid), poses[-1]
    found = [(span(way), path, way) for path in pieces for way in _ways_of(workshop, path, start, end, poses)]
    longest: dict[str, tuple[Vector, ...]] = {}
    for length, path, way in sorted(found, key=lambda each: (-round(each[0], 6), each[1])):
        if length > MOVED and len(longest) < _MOST_ARROWS:
            longest.setdefault(path, way)
    return longest


def _between(before: State, after: State) -> Iterator[State]:
    keys = {*before.angles, *after.angles}
    for number in range(_STEPS + 1):
        part = FOLDED_PART + (1 - FOLDED_PART) * number / _STEPS
        angles = {
            key: before.angles.get(key, 0.0) * (1 - part) + after.angles.get(key, 0.0) * part for key in sorted(keys)
        }
        yield State(after.made, angles, after.thicker)


def _ways_of(
    workshop: Workshop, path: str, start: Posed, end: Posed, poses: list[Posed]
) -> Iterator[tuple[Vector, ...]]:
    """The ways of the middles of all sides of the fields of a piece that are turned."""
    piece = workshop.pieces[path]
    for number, frame in end.frames[path].items():
        if differs(frame, start.frames[path].get(number)) and all(number in each.frames[path] for each in poses):
            for rim in rims(piece, number):
                yield tuple(each.frames[path][number].point(*rim, 0.0) for each in poses)
