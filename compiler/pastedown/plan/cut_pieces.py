"""The pieces to cut, like ones together.

Takes the flat pieces of the model, gives them grouped, named and sorted for a cut list. Every piece stands in exactly
one group, and the order never depends on the order of lines.
"""

from collections import Counter
from collections.abc import Hashable

from pastedown.design.stock import Stock
from pastedown.geometry.natural_order import natural_key, without_indexes
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.blank import blank_key
from pastedown.plan.cut_words import plan_cuts
from pastedown.plan.distinct_names import distinct
from pastedown.plan.flat_pattern import bend_lines, fold_lines, inner_cuts, plan_path
from pastedown.plan.materials import is_bought_whole
from pastedown.plan.names import members, owner_and_name, plain_name
from pastedown.plan.plan import CutPiece
from pastedown.plan.score_charts import bend_charts, score_charts
from pastedown.plan.words import spoken


def cut_pieces(pieces: tuple[FlatPiece, ...], stock_names: dict[Stock, str]) -> tuple[CutPiece, ...]:
    """Like pieces as one entry. Sorted by stock, then larger area first, then handle."""
    groups = _grouped(pieces)
    ids = distinct([_wished_id(group) for group in groups], "{}-{}")
    family_sizes = Counter(without_indexes(piece.path) for piece in pieces)
    cut = [
        _cut_piece(group, id, stock_names[group[0].stock], family_sizes)
        for group, id in zip(groups, ids, strict=True)
    ]
    return tuple(sorted(cut, key=_place_in_cut_list))


def _grouped(pieces: tuple[FlatPiece, ...]) -> list[list[FlatPiece]]:
    groups: dict[Hashable, list[FlatPiece]] = {}
    for piece in sorted(pieces, key=lambda piece: natural_key(piece.path)):
        groups.setdefault(blank_key(piece), []).append(piece)
    return list(groups.values())


def _cut_piece(group: list[FlatPiece], id: str, stock: str, family_sizes: dict[str, int]) -> CutPiece:
    piece = group[0]
    return CutPiece(
        id=id,
        name=_name(group, family_sizes),
        doc=piece.doc,
        paths=tuple(each.path for each in group),
        count=len(group),
        stock=stock,
        stock_kind=piece.stock.kind,
        height=piece.height,
        width=piece.width,
        left=spoken(piece.left),
        right=spoken(piece.right),
        grain=piece.grain,
        face_up=piece.face_up,
        outline=plan_path(piece.outline),
        inner_cuts=inner_cuts(piece),
        folds=fold_lines(piece),
        score_charts=score_charts(piece),
        bend_lines=bend_lines(piece),
        bend_charts=bend_charts(piece),
        cuts=plan_cuts(piece),
        bought=_is_used_as_bought(piece),
    )


def _is_used_as_bought(piece: FlatPiece) -> bool:
    """Whether it is bought in the very size in which it is used, whichever way it lies."""
    stock = piece.stock
    bought = {(stock.height, stock.width), (stock.width, stock.height)}
    uncut = not piece.cuts and not piece.inner_cuts
    return is_bought_whole(stock) and uncut and (piece.height, piece.width) in bought


def _wished_id(group: list[FlatPiece]) -> str:
    return "-".join(owner_and_name(group)).replace("_", "-")


def _name(group: list[FlatPiece], family_sizes: dict[str, int]) -> str:
    families = {without_indexes(piece.path) for piece in group}
    if len(families) == 1 and family_sizes[families.pop()] == len(group):
        return plain_name(group)
    return f"{plain_name(group)} ({members([piece.path for piece in group])})"


def _place_in_cut_list(piece: CutPiece) -> tuple[object, ...]:
    area = piece.height * piece.width
    return natural_key(piece.stock), -area.value, natural_key(piece.id), piece.id
