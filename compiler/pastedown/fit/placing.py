"""The placing tree: every piece is carried by at most one join, what is joined is one heap, what is loose says so.

A join carries one thing onto another. Followed from piece to piece, joins have to make one tree: a piece carried
twice would have two places, and a ring has none.
"""

from collections.abc import Iterator

from attrs import evolve

from pastedown.diagnostic import Diagnostic, Label, error, warning
from pastedown.fit.made_here import made_here
from pastedown.geometry.making import Making
from pastedown.geometry.model import Join, Model
from pastedown.geometry.piece import FlatPiece

# So many pieces of a heap are named.
MOST_NAMED = 4


def look(model: Model) -> Iterator[Diagnostic]:
    """Pieces carried twice, rings of joins, pieces that nothing holds, and heaps apart from the rest."""
    carried: dict[str, Join] = {}
    # In the order in which they are written, so that the second one is the one told off.
    for join in sorted((join for join in model.joins if not join.closes), key=_written_at):
        piece = join.what.faces[0][0]
        target = join.to.faces[0][0]
        if piece == target:
            yield error(
                "join-ring",
                join.span,
                f"{join.path} carries {piece} onto itself.",
                way_out="What already lies there is brought together with close, not with join.",
            )
        elif piece in carried:
            yield error(
                "joined-twice",
                join.span,
                f"{piece} is carried by two joins, {carried[piece].path} and {join.path}.",
                reason="A piece has one place; a second join cannot put it elsewhere.",
                way_out="Make the second one a close: it is then checked instead of placed.",
                labels=(Label(carried[piece].span, "the first join"),),
            )
        else:
            carried[piece] = join
    yield from _rings(carried)
    if model.read_whole and not model.some_join_failed:
        yield from _unjoined(model)
        yield from _heaps(model)


def _written_at(join: Join) -> tuple[str, int]:
    return join.span.source.name, join.span.start


def _rings(carried: dict[str, Join]) -> Iterator[Diagnostic]:
    settled: set[str] = set()
    for start in carried:
        walk: list[str] = []
        at = start
        while at in carried and at not in settled and at not in walk:
            walk.append(at)
            at = carried[at].to.faces[0][0]
        if at in walk:
            ring = walk[walk.index(at) :]
            join = carried[ring[0]]
            yield error(
                "join-ring",
                join.span,
                f"These joins carry one another in a ring: {', onto '.join([*ring, ring[0]])}.",
                way_out="One of them has to be a close.",
                labels=[Label(carried[piece].span, "in the ring") for piece in ring[1:]],
            )
        settled.update(walk)


def _unjoined(model: Model) -> Iterator[Diagnostic]:
    targets = {face[0] for join in model.joins for side in (join.what, join.to) for face in side.faces}
    pieces = [piece for piece in model.pieces if not piece.loose]
    if len(pieces) < 2:
        return
    told: set[tuple[str, str]] = set()
    for piece in pieces:
        if piece.path in targets or (piece.component, piece.name) in told:
            continue
        told.add((piece.component, piece.name))
        yield warning(
            "joined-to-nothing",
            piece.span,
            f"{piece.path} is not joined to anything.",
            way_out="Join it, or say loose: yes where it lies loose.",
        )


def _heaps(model: Model) -> Iterator[Diagnostic]:
    """What is joined together, but to nothing of the largest heap. A heap with a loose piece is meant to lie apart, and
    heaps like the largest one are a series: several cards of one kind."""
    pieces = {piece.path: piece for piece in model.pieces}
    heaps = [[pieces[path] for path in heap] for heap in _tied(model) if all(path in pieces for path in heap)]
    heaps.sort(key=len, reverse=True)
    alike: dict[tuple[tuple[str, str], ...], list[list[FlatPiece]]] = {}
    for heap in heaps:
        apart = len(heap) > 1 and not any(piece.loose for piece in heap)
        if apart and _kinds(heap) != _kinds(heaps[0]):
            alike.setdefault(_kinds(heap), []).append(heap)
    for heap, *others in alike.values():
        yield warning(
            "two-heaps",
            heap[0].span,
            f"{_named(heap)} are joined together, but to nothing else of the design.{_more(others)}",
            reason="When everything is put together, they lie beside it as a heap of their own.",
            way_out="Join one of them to the rest, leave them out, or say loose: yes of one that is to lie apart.",
            labels=made_here(model.ruler, _only_place(heap[0].height_made)),
        )


def _kinds(heap: list[FlatPiece]) -> tuple[tuple[str, str], ...]:
    return tuple((piece.component, piece.name) for piece in heap)


def _tied(model: Model) -> list[list[str]]:
    """The paths of pieces that joins and closings tie together, heap by heap, in the order of the pieces."""
    tied: dict[str, list[str]] = {}
    for join in model.joins:
        first, *others = dict.fromkeys(face[0] for side in (join.what, join.to) for face in side.faces)
        tied.setdefault(first, []).extend(others)
        for other in others:
            tied.setdefault(other, []).append(first)
    order = {piece.path: at for at, piece in enumerate(model.pieces)}
    heaps: list[list[str]] = []
    met: set[str] = set()
    for piece in model.pieces:
        if piece.path not in tied or piece.path in met:
            continue
        heap = [piece.path]
        met.add(piece.path)
        for path in heap:  # grows while it is walked through
            others = [other for other in dict.fromkeys(tied[path]) if other not in met]
            met.update(others)
            heap.extend(others)
        heaps.append(sorted(heap, key=lambda path: order.get(path, 0)))
    return heaps


def _named(heap: list[FlatPiece]) -> str:
    paths = [piece.path for piece in heap[:MOST_NAMED]]
    if len(heap) > MOST_NAMED:
        paths.append(f"{len(heap) - MOST_NAMED} more")
    return f"{', '.join(paths[:-1])} and {paths[-1]}"


def _more(heaps: list[list[FlatPiece]]) -> str:
    if not heaps:
        return ""
    return f" The same goes for {'one more such heap' if len(heaps) == 1 else f'{len(heaps)} more such heaps'}."


def _only_place(making: Making | None) -> Making | None:
    return evolve(making, given=()) if making is not None else None
