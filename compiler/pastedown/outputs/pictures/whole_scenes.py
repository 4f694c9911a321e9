"""The design as a whole: made up, and in each of its own poses.

Which views there are follows from the poses that the design has. What nothing holds is left out: the views show the
design as it is without it. A pose in which sheets that lie on one another run through one another is left out as well:
there paper gives way, and where it lies is not known well enough to say which sheet hides which.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from itertools import combinations, islice

from attrs import frozen

from pastedown.outputs.in_words import counted
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.workshop import MOST_PLATES, Workshop
from pastedown.plan.space import FLAT, MADE_UP, Posture
from pastedown.plan.words import is_of_part, spoken

# So many poses are drawn; a choice.
MOST_POSES = 12
_MADE_UP = "made-up"
# Of what is left off a picture so many names are told.
_MOST_NAMES = 6
_EVERYTHING = 10**9
# By so much, in millimetres, parallel plates may seem to run through one another.
_PLAY = 0.01
_PARALLEL = 0.999


@frozen
class WholePose:
    """A pose that is shown: a name fit for a file, words, where everything lies, and the pieces of the largest whole.
    `left_out` are those that belong to it and that nothing holds."""

    name: str
    words: str
    posed: Posed
    pieces: list[str]
    left_out: frozenset[str]


def whole_scenes(workshop: Workshop) -> Iterator[tuple[str, Scene]]:
    """The views with the names of their files. The first says which poses are not among them."""
    if workshop.plan.poses:
        shown, missing = list(whole_poses(workshop)), ""
    else:
        told = list(_own_poses(workshop))
        shown, missing = [whole for whole, is_shown in told if is_shown], _missing(workshop, told)
    for number, whole in enumerate(shown):
        note = missing if not number else ""
        blank = without_optional(workshop, whole.pieces)
        if not blank or len(blank) == len(whole.pieces):
            yield whole.name, _scene(workshop, whole, whole.words, whole.pieces, note)
        else:
            yield whole.name, _scene(workshop, whole, f"{whole.words}, loaded", whole.pieces, note)
            yield f"{whole.name}-blank", _scene(workshop, whole, f"{whole.words}, blank", blank)


def first_scenes(workshop: Workshop, most: int) -> Iterator[tuple[str, str, Scene]]:
    """What is shown to who wants to know what is made: made up, and the first of its own poses, so many in all, with
    all that the design carries. Each with the name of its file and the pose in words."""
    for whole in islice(whole_poses(workshop), most):
        yield whole.name, whole.words, _scene(workshop, whole, whole.words, whole.pieces)


def without_optional(workshop: Workshop, pieces: Iterable[str]) -> list[str]:
    """The pieces less those that are optional, and less all that stands on one of these."""

    def is_optional(path: str) -> bool:
        seen: set[str] = set()
        here = path
        while here not in seen:
            seen.add(here)
            if workshop.piece(here).optional:
                return True
            seat = workshop.pieces[here].seat
            here = seat.on.piece if seat is not None else here
        return False

    return [path for path in pieces if not is_optional(path)]


def whole_poses(workshop: Workshop) -> Iterator[WholePose]:
    """Made up, and each pose of the design itself that can be shown; or those that were asked for."""
    if workshop.plan.poses:
        if workshop.plan.space.pieces:
            yield from _asked_for(workshop)
        return
    yield from (whole for whole, is_shown in _own_poses(workshop) if is_shown)


def _own_poses(workshop: Workshop) -> Iterator[tuple[WholePose, bool]]:
    """Made up, and each pose of the design itself, with whether it is shown unasked."""
    if not workshop.plan.space.pieces:
        return
    for name, words, state in _states(workshop):
        posed, pieces = _standing_up(workshop, state)
        whole = WholePose(name, words, posed, pieces, frozenset(workshop.pieces).difference(pieces))
        yield whole, name == _MADE_UP or not run_through(workshop.plates(posed, pieces))


def _missing(workshop: Workshop, told: Iterable[tuple[WholePose, bool]]) -> str:
    """Which poses of the design are not shown unasked, and how to see them; empty where all are."""
    shown = {whole.words for whole, is_shown in told if is_shown}
    own = [spoken(posture.path) for posture in workshop.plan.space.postures if not posture.part]
    names = [name for name in own if name not in shown]
    if not names:
        return ""
    rest = f" and {counted(len(names) - _MOST_NAMES, 'other')}" if len(names) > _MOST_NAMES else ""
    return f"Not among the views, but shown by --pose: {', '.join(names[:_MOST_NAMES])}{rest}."


def _asked_for(workshop: Workshop) -> Iterator[WholePose]:
    """The poses that a maker asked to see, whatever they are like. That of a part shows the part alone."""
    done = workshop.progress.before(_EVERYTHING)
    postures = {posture.path: posture for posture in workshop.plan.space.postures}
    taken = Counter[str]()
    for path in workshop.plan.poses:
        posture = workshop.plan.space.made_up if path == MADE_UP else postures.get(path, Posture(FLAT, "", {}))
        own = {piece.path for piece in workshop.plan.space.pieces if is_of_part(piece.path, posture.part)}
        made = {
            name: number
            for name, number in done.made.items()
            if all(face.piece in own for pair in workshop.contacts[name].pairs for face in pair)
        }
        angles = {key: float(angle) for key, angle in posture.angles.items()}
        posed, pieces = _standing_up(workshop, State(made, angles), own)
        name = _file_name(path)
        taken[name] += 1
        name = name if taken[name] == 1 else f"{name}-{taken[name]}"
        yield WholePose(name, spoken(path), posed, pieces, frozenset(own).difference(pieces))


def _file_name(path: str) -> str:
    return path.replace("[", "-").replace("]", "").replace("_", "-").replace(".", "-")


def _states(workshop: Workshop) -> Iterator[tuple[str, str, State]]:
    done = workshop.progress.before(_EVERYTHING)
    made_up = {key: float(angle) for key, angle in workshop.plan.space.made_up.angles.items()}
    yield _MADE_UP, "made up", State(done.made, made_up)
    taken = {_MADE_UP}
    own = [posture for posture in workshop.plan.space.postures if not posture.part]
    for posture in own[:MOST_POSES]:
        name = _file_name(posture.path)
        if name not in taken:
            taken.add(name)
            angles = {key: float(angle) for key, angle in posture.angles.items()}
            yield name, spoken(posture.path), State(done.made, angles)


def _standing_up(
    workshop: Workshop, state: State, own: Collection[str] | None = None
) -> tuple[Posed, list[str]]:
    """The pieces in a state, those of the largest whole with what stands on it upwards; of some `own` pieces alone
    where these are told."""
    posed = workshop.posed(state)
    roots = list(dict.fromkeys(root for path, root in posed.roots.items() if own is None or path in own))
    root = max(roots, key=lambda one: len(posed.together(one)))
    heights = [corner[2] for plate in workshop.plates(posed, posed.together(root)) for corner in plate.corners()]
    if heights and max(heights) < -min(heights):
        posed = workshop.posed(state, [root])
    return posed, posed.together(root)


def run_through(plates: list[Plate]) -> bool:
    """Whether parallel plates of different pieces are in one place. Told by boxes, so only of plates that lie square to
    the directions of space; of very many plates nothing is said."""
    if len(plates) > MOST_PLATES:
        return False
    boxes = []
    for plate in plates:
        axis = max(range(3), key=lambda at: abs(plate.frame.z[at]))
        if abs(plate.frame.z[axis]) >= _PARALLEL:
            corners = list(plate.corners())
            low, high = ([most(corner[at] for corner in corners) for at in range(3)] for most in (min, max))
            boxes.append((plate.path, axis, low, high))
    return any(
        one[0] != other[0]
        and one[1] == other[1]
        and all(min(one[3][at], other[3][at]) - max(one[2][at], other[2][at]) > _PLAY for at in range(3))
        for one, other in combinations(boxes, 2)
    )


def _named(workshop: Workshop, paths: Iterable[str]) -> str:
    """The pieces by the names under which they are cut, each with how many they are."""
    names = Counter(workshop.piece(path).name for path in sorted(paths))
    told = [f"{count} x {name}" for name, count in names.most_common(_MOST_NAMES)]
    rest = names.total() - sum(count for _, count in names.most_common(_MOST_NAMES))
    return ", ".join([*told, f"and {counted(rest, 'other piece')}"] if rest else told)


def _scene(workshop: Workshop, whole: WholePose, words: str, pieces: list[str], note: str = "") -> Scene:
    plates = workshop.plates(whole.posed, pieces)
    ending = f": {words}"
    title = f"{workshop.plan.title}{ending}"
    unloaded = set(whole.pieces).difference(pieces)
    notes = []
    if workshop.plan.poses and run_through(plates):
        notes.append("Some sheets are in one place here: there paper gives way, and it lies a little otherwise.")
    if whole.left_out:
        it = "it" if len(whole.left_out) == 1 else "them"
        notes.append(f"Left out, for nothing holds {it}: {_named(workshop, whole.left_out)}.")
    if unloaded:
        notes.append(f"Drawn without {_named(workshop, unloaded)}.")
    if note:
        notes.append(note)
    if len(plates) > MOST_PLATES:
        told = f"Not drawn: there are {len(plates)} plates, and a picture shows {MOST_PLATES} at most."
        return Scene(title, (), told, notes=(told,), ending=ending)
    creases = {path for path, _ in workshop.plan.space.creases}
    return Scene(
        title=title,
        plates=tuple(plates),
        words=f"Picture of the whole, {words}, with {counted(len(pieces), 'piece')}.",
        notes=tuple(notes),
        lines=frozenset(creases),
        ending=ending,
    )
