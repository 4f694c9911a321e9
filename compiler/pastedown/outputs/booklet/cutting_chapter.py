"""The pieces, grouped by the stock they are cut from."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph, Said, Section, Table
from pastedown.outputs.booklet.say import said, sized
from pastedown.outputs.in_words import GRAIN_WORDS
from pastedown.plan.plan import CutPiece, Plan
from pastedown.quantity.ruler import Ruler

_NOTE = (
    "Height is measured between tail and head, width between the left edge and the right edge, with the face towards "
    "you and the head up. How they come out of their sheets is told under \"Cutting the sheets\", and each of them in "
    "its step."
)
_COLUMNS = ("Piece", "Count", "Height", "Width", "Grain", "Face")


def cutting_chapter(plan: Plan) -> tuple[Block, ...]:
    """A table for each stock, and below it the cuts that make a piece no rectangle."""
    groups: dict[tuple[str, str], list[CutPiece]] = {}
    for piece in plan.pieces:
        groups.setdefault((piece.stock, piece.stock_kind), []).append(piece)
    sections = [_section(stock, kind, pieces, plan.ruler) for (stock, kind), pieces in groups.items()]
    return (Paragraph((_NOTE,)), *sections)


def _section(stock: str, kind: str, pieces: list[CutPiece], ruler: Ruler) -> Section:
    rows = tuple(_row(piece, ruler) for piece in pieces)
    table = Table(f"Pieces of {stock}", _COLUMNS, rows, frozenset((1, 2, 3)))
    cuts = tuple(_cuts(pieces, ruler))
    more = (Paragraph(("Cut the rectangle first, then what makes it no rectangle:",)), Listing(cuts)) if cuts else ()
    return Section((f"{stock} ({kind})",), (table, *more))


def _row(piece: CutPiece, ruler: Ruler) -> tuple[Said, ...]:
    name = f"{piece.name}, bought in this size" if piece.bought else piece.name
    size = sized(piece.height, ruler), sized(piece.width, ruler)
    return (name,), (str(piece.count),), *size, (GRAIN_WORDS[piece.grain_as_cut],), (piece.face_up,)


def _cuts(pieces: list[CutPiece], ruler: Ruler) -> Iterator[Said]:
    for piece in pieces:
        for cut in piece.cuts:
            yield (f"{piece.name}: ", *said(cut.text, ruler))
