"""What carries what, read off the joins alone: which pieces lie on a thing, and by what things hang together.

Nothing but names is worked out for it, so a thickness hangs only on the pieces that lie there and on those between
them, and may feed any other part of the design.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from attrs import field, frozen

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.make_join import JoinMaker
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.place import faces_at
from pastedown.geometry.value import FaceValue
from pastedown.geometry.work import WORK_OF_A_READING, Work
from pastedown.tree.statement import Join, Part, Piece

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


@frozen(eq=False)
class Held:
    """A join or a closing, and the sides that it brings together."""

    maker: JoinMaker
    what: tuple[FaceValue, ...]
    to: tuple[FaceValue, ...]


@frozen(eq=False)
class Carrying:
    """All joins of a design. `carrier` is the join that carries a piece, by its path; `carried` are the joins that
    carry something onto a piece. `is_whole` is False where some were left out for faults of their own."""

    joins: tuple[Held, ...]
    is_whole: bool = True
    carrier: dict[str, Held] = field(factory=dict)
    carried: dict[str, list[Held]] = field(factory=dict)
    pieces: dict[str, PieceMaker] = field(factory=dict)

    def __attrs_post_init__(self) -> None:
        for held in self.joins:
            for face in (*held.what, *held.to):
                self.pieces.setdefault(face.piece.path, face.piece)
            if not held.maker.statement.closes:
                self.carrier.setdefault(held.what[0].piece.path, held)
                self.carried.setdefault(held.to[0].piece.path, []).append(held)

    def upon(self, pieces: Iterable[PieceMaker], begins_at: Callable[[FaceValue], bool]) -> list[PieceMaker]:
        """The pieces that are carried by some, or by what these carry, each once. Of what lies on the first ones
        themselves only what is joined where `begins_at` says so."""
        found: dict[str, PieceMaker] = {}
        first = {piece.path: piece for piece in pieces}
        waiting = list(first.values())
        while waiting:
            piece = waiting.pop()
            for held in self.carried.get(piece.path, ()):
                on = held.what[0].piece
                if on.path not in first and on.path not in found and (piece.path not in first or begins_at(held.to[0])):
                    found[on.path] = on
                    waiting.append(on)
        return list(found.values())

    def down_from(self, piece: PieceMaker) -> Iterator[PieceMaker]:
        """The piece, what carries it, what carries that, and so on."""
        seen: set[str] = set()
        at: PieceMaker | None = piece
        while at is not None and at.path not in seen:
            seen.add(at.path)
            yield at
            held = self.carrier.get(at.path)
            at = held.to[0].piece if held is not None else None


def carrying_in(work: Work) -> Carrying:
    """Everything that is joined in the design. A join that has a fault of its own is left out; it is told when it is
    made."""
    root = work.root
    assert root is not None
    return work.once("what carries what", "what carries what", root.span, lambda: _carrying(root))


def _carrying(root: Instance) -> Carrying:
    left_out: list[str] = []
    joins = tuple(_joins(root, left_out))
    return Carrying(joins, not left_out)


def _joins(part: Instance, left_out: list[str]) -> Iterator[Held]:
    """The joins of a part and of the parts in it; the names of what cannot be read go to `left_out`."""
    for name in part.names():
        kind = part.kind_of(name)
        if kind not in (Join, Part):
            continue
        try:
            if part.is_removed(name):
                continue
            if kind is Part:
                yield from (held for child in parts_called(part, name) for held in _joins(child, left_out))
                continue
            declared = part.declared(name)
        except (Fault, Spoilt):
            left_out.append(name)
            continue
        for index, entry, scope in declared:
            try:
                maker = JoinMaker(part, name, index, entry, scope)
                what, to = faces_at(maker.statement.what, scope), faces_at(maker.statement.to, scope)
                part.work.spend(maker.span, WORK_OF_A_READING * (len(what) + len(to)))
            except (Fault, Spoilt):
                left_out.append(name)
                continue
            if what and to:
                yield Held(maker, what, to)


def parts_called(part: Instance, name: str) -> list[Instance]:
    """The parts that a name of a part stands for."""
    from pastedown.geometry.instance import Instance

    return [child for child in each_of(part.lookup(name, part.span)) if isinstance(child, Instance)]


def pieces_in(part: Instance, *, only_its_own: bool) -> Iterator[PieceMaker]:
    """The pieces of a part and of the parts in it; `only_its_own` leaves out what others added to it, from outside or
    in the braces of a `with`, and what lies in it loose."""
    for name in part.names():
        kind = part.kind_of(name)
        if kind not in (Piece, Part) or part.is_removed(name):
            continue
        if only_its_own and not _says_itself(part, name):
            continue
        if kind is Part:
            for child in parts_called(part, name):
                yield from pieces_in(child, only_its_own=only_its_own)
            continue
        for piece in each_of(part.lookup(name, part.span)):
            if isinstance(piece, PieceMaker) and not (only_its_own and is_loose(piece)):
                yield piece


def _says_itself(part: Instance, name: str) -> bool:
    """Whether the component's own text declares a name."""
    own = part.layers[-1].entries(name)
    return bool(own) and any(entry is mine for _, entry, _ in part.declared(name) for mine in own)


def is_added(piece: PieceMaker) -> bool:
    """Whether a piece, or a part that it lies in, was added to the part around it by others than its component."""
    part, name = piece.instance, piece.name
    while part.parent is not None:
        if not _says_itself(part, name):
            return True
        part, name = part.parent, part.name
    return False


def is_loose(piece: PieceMaker) -> bool:
    return piece.word("loose", ("yes", "no"), "no") == "yes"


