"""The kind of what can be read of a piece, a panel or a side of the paper."""

from __future__ import annotations

from pastedown.design.inference import Inference
from pastedown.design.kind import (
    A_LENGTH,
    AN_AREA,
    LINE,
    UNKNOWN,
    FaceOf,
    Kind,
    PanelOf,
    PieceOf,
    Several,
)
from pastedown.design.piece_names import edge_names, misnamed
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import meant_or_one_of
from pastedown.source import Span


def kind_in_piece(
    inference: Inference,
    kind: PieceOf | FaceOf | PanelOf,
    name: str,
    span: Span,
    place: str = "",
    lines: tuple[str, ...] = (),
) -> Kind:
    """The kind of `.name` after a piece, or after a `place` that has `lines` of its own."""
    piece = kind if isinstance(kind, PieceOf) else kind.piece
    edges = edge_names(piece.statement)
    if name in ("height", "width") or (name == "size" and isinstance(kind, PanelOf)):
        return A_LENGTH
    if name in (*edges, "mid_height", "mid_width"):
        return LINE
    if name in ("face", "back"):
        return FaceOf(piece) if not isinstance(kind, PanelOf) else PanelOf(piece, True)
    panels, folds = piece.panels, piece.folds
    if not isinstance(kind, PanelOf):
        if name == "area":
            return AN_AREA
        if name in panels:
            return Several(PanelOf(piece)) if panels[name] else PanelOf(piece)
        if name in folds:
            return Several(LINE) if folds[name] else LINE
    if name in misnamed(piece.statement):
        return UNKNOWN
    if len([*piece.view.placed(piece.statement.family.name)]) > 1:
        return UNKNOWN
    known = [
        *lines,
        *edges,
        "height",
        "width",
        "face",
        "back",
        "mid_height",
        "mid_width",
        *([] if isinstance(kind, PanelOf) else [*panels, *folds, "area"]),
    ]
    what = "This panel" if isinstance(kind, PanelOf) else f"The piece {piece.statement.family.name}"
    if place:
        what = f"The place {place}"
    return inference.tell_name(
        error("no-such-member", span, f"{what} has no {name}.", way_out=meant_or_one_of(name, known, "It has")),
        piece.statement.family.span,
    )
