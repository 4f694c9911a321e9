"""The placing tree: every piece is carried by at most one join, and what lies loose says so.

A join carries one thing onto another. Followed from piece to piece, joins have to make one tree: a piece carried
twice would have two places, and a ring has none.
"""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic, Label, error, warning
from pastedown.geometry.model import Join, Model


def look(model: Model) -> Iterator[Diagnostic]:
    """Pieces carried twice, rings of joins, and pieces that nothing holds."""
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
        yield from _unjoined(model, carried)


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


def _unjoined(model: Model, carried: dict[str, Join]) -> Iterator[Diagnostic]:
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
