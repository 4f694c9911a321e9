"""Every measurement of a part by its path: its facts, the sides of its pieces, the positions of their scores."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pastedown.design.stock import Stock
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Description
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.model import Measurement
from pastedown.geometry.value import MakeableValue, TextValue, Word
from pastedown.quantity.quantity import Quantity
from pastedown.tree.expression import Expression, Literal, Path, Rounded, SheetSize, Text
from pastedown.tree.statement import Fact, Piece, Takes

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


def measurements_of(instance: Instance) -> list[Measurement]:
    """The measurements of one part and its pieces; what failed is left out. Works out every fact, so that every fault
    is told."""
    found: list[Measurement] = []
    for name in instance.names():
        if instance.work.is_used_up:
            break
        kind = instance.kind_of(name)
        try:
            if kind is None or kind is Takes:
                found.extend(_fact(instance, name))
            elif kind is Piece and not instance.is_removed(name):
                for piece in each_of(instance.lookup(name, instance.span)):
                    if isinstance(piece, PieceMaker):
                        found.extend(_piece(piece))
        except Fault as fault:
            instance.work.tell(fault.diagnostic)
        except Spoilt:
            pass
    return found


def _fact(instance: Instance, name: str) -> Iterator[Measurement]:
    if name in ("edition", "ruler", "show"):
        return
    value = instance.lookup(name, instance.span)
    setting = instance.setting(name)
    doc = _doc_of(instance, name)
    path = instance.path_of(name, None)
    span = setting.span if setting is not None else instance.span
    moved = path in instance.work.marks.moves
    origin = "rounded" if moved else origin_of(setting.value if setting is not None else None)
    match value:
        case Quantity() | bool():
            yield Measurement(path, value, origin, doc, span)
        case Word(text=text):
            yield Measurement(path, text, origin, doc, span)
        case TextValue(pieces=pieces):
            if all(isinstance(piece, str) for piece in pieces):
                yield Measurement(path, "".join(piece for piece in pieces if isinstance(piece, str)), origin, doc, span)
        case Description() | MakeableValue():
            instance.work.described.append(((instance, name), path, span))
        case Stock():
            if value.caliper is not None:
                yield Measurement(f"{path}.caliper", value.caliper, "stock", doc, span)


def _piece(piece: PieceMaker) -> Iterator[Measurement]:
    span = piece.statement.family.span
    for axis in AXES:
        setting = piece.setting(axis)
        yield Measurement(
            f"{piece.path}.{axis}", piece.side(axis), origin_of(setting[0]) if setting else "derived", "", span
        )
        run = piece.run(axis)
        if run is not None:
            for score in run.scores:
                yield Measurement(
                    f"{piece.path}.{score.name}", score.at, "derived", f"from {run.first_edge}", score.span or span
                )


def origin_of(expression: Expression | None) -> str:
    """Where a value comes from, told from how it is written: "default", "chosen", "rounded" or "derived"."""
    match expression:
        case None:
            return "default"
        case Literal() | Text() | SheetSize():
            return "chosen"
        case Path(head="yes" | "no", trailers=()):
            return "chosen"
        case Rounded():
            return "rounded"
        case _:
            return "derived"


def _doc_of(instance: Instance, name: str) -> str:
    for layer in reversed(instance.layers):
        for entry in layer.entries(name):
            doc = getattr(entry.statement, "doc", None)
            if len(entry.path) == 1 and isinstance(entry.statement, Fact | Takes) and doc is not None:
                return "".join(piece for piece in doc.pieces if isinstance(piece, str))
    return ""
