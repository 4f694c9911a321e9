"""Which pieces a design could have more of, or fewer, and still hold together.

A piece that lies loose; and a plain one, without a fold, that carries nothing but what is used as it is bought:
something to look at is mounted on it. Found by what pieces are joined to, never by what they are called.
"""

from collections.abc import Iterator

from pastedown.geometry.model import Join, Model
from pastedown.plan.materials import is_bought_whole


def optional_pieces(model: Model) -> frozenset[str]:
    """Paths of the optional pieces."""
    pieces = {piece.path: piece for piece in model.pieces}
    carries: set[str] = set()
    held: set[str] = set()
    for join in model.joins:
        own, other = _paths(join, "what"), _paths(join, "to")
        only_mounts = all(is_bought_whole(pieces[path].stock) for path in own if path in pieces)
        if join.moving or join.closes:
            held |= own | other
        elif only_mounts:
            carries |= other
        else:
            held |= other
    mounts = carries - held
    return frozenset(
        piece.path
        for piece in model.pieces
        if not is_bought_whole(piece.stock) and (piece.loose or (piece.path in mounts and not piece.runs))
    )


def _paths(join: Join, side: str) -> set[str]:
    return set(_of(join, side))


def _of(join: Join, side: str) -> Iterator[str]:
    for path, _, _ in (join.what if side == "what" else join.to).faces:
        yield path
