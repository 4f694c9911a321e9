"""How far the work has come before and after each step: what is joined, and which folds are turned for good.

A fold that was scored and folded lies flat again until something holds it. What holds it is a closing whose two faces
it brings together; folds beside it that are neither flat nor shut when all is made up have to turn with it. What no
closing holds is turned when its piece is first joined to anything.
"""

from collections.abc import Iterable, Iterator, Mapping

from attrs import frozen

from pastedown.outputs.pictures.posed import State
from pastedown.plan.plan import BuildStep
from pastedown.plan.space import Contact, Face, FieldNumber, Space, SpatialPiece, Strips, Turning

JOINING = ("join", "close")
_SHUT = 180


@frozen(eq=False)
class Progress:
    """The number of the step that makes each contact, and of the one that turns each fold; folds that nothing turns
    are left out."""

    space: Space
    made_at: Mapping[str, int]
    turned_at: Mapping[Turning, int]

    def before(self, step: int, *, thicker: float = 1.0) -> State:
        """All that is done before a step."""
        made = {path: number for path, number in self.made_at.items() if number < step}
        made_up = self.space.made_up.angles
        angles = {key: float(made_up[key]) for key, number in self.turned_at.items() if number < step}
        return State(made, angles, thicker)

    def turned_by(self, step: int) -> dict[Turning, float]:
        """The folds that a step turns, and how far."""
        made_up = self.space.made_up.angles
        return {key: float(made_up[key]) for key, number in self.turned_at.items() if number == step}


def progress_of(space: Space, steps: Iterable[BuildStep]) -> Progress:
    """When everything is done."""
    known = {contact.path for contact in space.contacts}
    made_at = {
        path: step.number
        for step in steps
        if step.kind in JOINING or step.actions
        for path in step.refers
        if path in known
    }
    tree = _Tree(space)
    holds: dict[Turning, int] = {}
    for contact in space.contacts:
        number = made_at.get(contact.path)
        for one, other in contact.pairs:
            if number is None or tree.carries(contact, one, other):
                continue
            turned = [key for key in tree.folds_between(one, other) if space.made_up.angles.get(key)]
            # What goes round many folds turns none of them by itself.
            if any(space.made_up.angles[key] == _SHUT for key in turned) and len(turned) <= _MOST_AT_ONCE:
                for key in turned:
                    holds[key] = min(number, holds.get(key, number))
    turned_at: dict[Turning, int] = {}
    first = _first_joined(space, made_at)
    for piece in space.pieces:
        for strips in (piece.columns, piece.rows):
            turned_at.update(_of_run(piece, strips, space, holds, first.get(piece.path)))
    return Progress(space, made_at, turned_at)


_MOST_AT_ONCE = 4


def _of_run(
    piece: SpatialPiece, strips: Strips, space: Space, holds: Mapping[Turning, int], first: int | None
) -> Iterator[tuple[Turning, int]]:
    keys = [(piece.path, line.name) for line in strips.lines if line.name]
    keys += [(piece.path, strip.panel) for strip in strips.strips if strip.bends]
    angled = [key for key in keys if space.made_up.angles.get(key)]
    for place, key in enumerate(angled):
        beside = [holds[near] for near in angled[max(place - 1, 0) : place + 2] if near in holds]
        if key in holds:
            yield key, holds[key]
        elif beside and space.made_up.angles[key] != _SHUT:
            yield key, min(beside)
        elif first is not None:
            yield key, first


def _first_joined(space: Space, made_at: Mapping[str, int]) -> dict[str, int]:
    found: dict[str, int] = {}
    for contact in space.contacts:
        number = made_at.get(contact.path)
        for face in (face for pair in contact.pairs for face in pair):
            if number is not None:
                found[face.piece] = min(number, found.get(face.piece, number))
    return found


class _Tree:
    """Who carries whom when all is joined, and which folds lie on the way."""

    def __init__(self, space: Space) -> None:
        self._pieces = {piece.path: piece for piece in space.pieces}

    def carries(self, contact: Contact, one: Face, other: Face) -> bool:
        """Whether it is by this very contact that one lies on the other."""
        piece = self._pieces[one.piece]
        return piece.seat is not None and piece.seat.join == contact.path and piece.seat.on == other

    def folds_between(self, one: Face, other: Face) -> list[Turning]:
        """The names of the lines and bending panels that are crossed on the way from one field to another; none where
        nothing holds the two together."""
        ways = [list(self._down(face)) for face in (one, other)]
        shared = {path for path, _, _ in ways[0]} & {path for path, _, _ in ways[1]}
        found: list[Turning] = []
        ends: list[FieldNumber] = []
        for way in ways:
            for path, start, end in way:
                if path in shared:
                    ends.append(start)
                    common = path
                    break
                found += _crossed(self._pieces[path], start, end)
        if len(ends) < len(ways):
            return []
        return [*found, *_crossed(self._pieces[common], *ends)]

    def _down(self, face: Face) -> Iterator[tuple[str, FieldNumber, FieldNumber]]:
        """From a field down to the piece on which all stands: each piece, the field one comes from, and its base."""
        path, number = face.piece, face.field
        seen: set[str] = set()
        while path not in seen:
            seen.add(path)
            piece = self._pieces[path]
            yield path, number, piece.base
            if piece.seat is None:
                return
            path, number = piece.seat.on.piece, piece.seat.on.field


def _crossed(piece: SpatialPiece, start: FieldNumber, end: FieldNumber) -> Iterator[Turning]:
    for strips, one, other in zip((piece.columns, piece.rows), start, end, strict=True):
        low, high = sorted((one, other))
        for number in range(low, high):
            name = strips.lines[number].name
            if name:
                yield piece.path, name
            elif strips.strips[number + 1].bends and number + 1 < high:
                yield piece.path, strips.strips[number + 1].panel
