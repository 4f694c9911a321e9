"""The cut list: every piece to cut, grouped by the stock it is cut from, as text, as CSV and as JSON."""

from pastedown.outputs.csv_text import csv_file, exact_inches, exact_millimetres
from pastedown.outputs.in_words import ACROSS, GRAIN_WORDS, counted, measure, prose, sentence
from pastedown.outputs.json_piece import json_sized_piece
from pastedown.outputs.json_value import FORMAT_VERSION, Json, json_file, json_ruler
from pastedown.outputs.marks_text import moved_text
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.plan.plan import CutPiece, Plan
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write, write_text

CUT_LIST_FORMAT = "pastedown-cut-list"

_NOTE = (
    "Height is measured between tail and head, width between the left edge and the right edge, with the face towards "
    "you and the head up. The two are never swapped, whichever is the longer."
)
_COLUMNS = (
    Column("id", 18, whole=True),
    Column("piece", 20),
    Column("count", 6, to_the_right=True),
    Column("height", 18, measures=True),
    Column("width", 18, measures=True),
    Column("grain", 16),
    Column("face", 16),
)
_CSV_TITLES = (
    "id", "piece", "count", "stock", "stock kind", "height", "width", "height in", "width in", "height mm",
    "width mm", "grain", "left edge", "right edge", "face", "cuts",
)  # fmt: skip


def make(plan: Plan) -> dict[str, bytes]:
    """cut-list.txt, cut-list.csv and cut-list.json"""
    return {
        "cut-list.txt": text_file(_text(plan)),
        "cut-list.csv": _csv(plan),
        "cut-list.json": json_file(_json(plan)),
    }


def _by_stock(pieces: tuple[CutPiece, ...]) -> list[tuple[tuple[str, str], list[CutPiece]]]:
    """The pieces grouped by name and kind of their stock; stocks and pieces keep the plan's order."""
    groups: dict[tuple[str, str], list[CutPiece]] = {}
    for piece in pieces:
        groups.setdefault((piece.stock, piece.stock_kind), []).append(piece)
    return list(groups.items())


def _text(plan: Plan) -> list[str]:
    groups = _by_stock(plan.pieces)
    lines = [*heading(f"Cut list: {plan.title}"), "", *wrapped(_NOTE)]
    for (stock, kind), pieces in groups:
        lines += ["", "", *heading(f"{stock} ({kind})", "-"), ""]
        lines += table(_COLUMNS, [_row(piece, plan.ruler) for piece in pieces])
        lines += ["", *wrapped(f"{_total(pieces)} of {stock}.")]
        notes = [line for piece in pieces for line in _notes(piece, plan.ruler)]
        lines += ["", *notes] if notes else []
    total = f"{_total(plan.pieces)} in all, of {counted(len(groups), 'stock')}."
    return [*lines, *moved_text(plan), "", "", *wrapped(total)]


def _total(pieces: tuple[CutPiece, ...] | list[CutPiece]) -> str:
    return counted(sum(piece.count for piece in pieces), "piece")


def _row(piece: CutPiece, ruler: Ruler) -> tuple[str, ...]:
    return (
        piece.id,
        piece.name,
        str(piece.count),
        measure(piece.height, ruler),
        measure(piece.width, ruler),
        GRAIN_WORDS[piece.grain_as_cut],
        piece.face_up,
    )


def _notes(piece: CutPiece, ruler: Ruler) -> list[str]:
    """What the row does not tell: the maker's words, named edges, a shape that is no rectangle, cuts inside."""
    said = [sentence(piece.doc)] if piece.doc else []
    edges = [
        f"{side} edge is the {name}"
        for side, name in (("left", piece.left), ("right", piece.right))
        if name != side
    ]
    if edges:
        said.append(sentence(f"the {' and the '.join(edges)}"))
    if piece.lies_across:
        said.append(ACROSS)
    if piece.bought:
        said.append("Bought in this size: it is not cut.")
    if piece.cuts:
        said.append(f"Cut the rectangle first, then by these measures or by the template: {_cuts(piece, ruler)}.")
    return wrapped(f"{piece.id}: {' '.join(said)}", rest="    ") if said else []


def _cuts(piece: CutPiece, ruler: Ruler) -> str:
    return "; ".join(prose(cut.text, ruler) for cut in piece.cuts)


def _csv(plan: Plan) -> bytes:
    grouped = [piece for _, pieces in _by_stock(plan.pieces) for piece in pieces]
    return csv_file(_CSV_TITLES, [_csv_row(piece, plan.ruler) for piece in grouped])


def _csv_row(piece: CutPiece, ruler: Ruler) -> tuple[str | int, ...]:
    sides = (piece.height, piece.width)
    return (
        piece.id,
        piece.name,
        piece.count,
        piece.stock,
        piece.stock_kind,
        *(write(side, ruler) for side in sides),
        *(exact_inches(side) for side in sides),
        *(exact_millimetres(side) for side in sides),
        GRAIN_WORDS[piece.grain_as_cut],
        piece.left,
        piece.right,
        piece.face_up,
        "; ".join(write_text(cut.text, ruler) for cut in piece.cuts),
    )


def _json(plan: Plan) -> Json:
    return {
        "format": CUT_LIST_FORMAT,
        "format_version": FORMAT_VERSION,
        "name": plan.name,
        "title": plan.title,
        "ruler": json_ruler(plan.ruler),
        "pieces": sum(piece.count for piece in plan.pieces),
        "stocks": [
            {"stock": stock, "kind": kind, "pieces": [json_sized_piece(piece, plan.ruler) for piece in pieces]}
            for (stock, kind), pieces in _by_stock(plan.pieces)
        ],
    }
