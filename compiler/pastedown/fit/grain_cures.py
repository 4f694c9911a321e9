"""What cures a piece that comes out of its sheet only across its grain, each with the words to write."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from attrs import evolve

from pastedown.design.stock import Stock
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.enough import at_most
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.source import Span

_OTHER_WAY = {"long": "short", "short": "long"}
LiesWell = Callable[[FlatPiece], bool]


def grain_cures(piece: FlatPiece, pieces: Iterable[FlatPiece], lies_well: LiesWell, ruler: Ruler) -> str:
    """Ways out, one a line: the same stock with its grain the other way, larger sheets, a smaller piece, or the piece
    as it lies. `pieces` are all of the design, and `lies_well` says whether one comes out of its stock along its
    grain."""
    found = [*_other_grain(piece, pieces, lies_well), *_other_size(piece, ruler)]
    if piece.against_grain == "warn":
        path = without_indexes(piece.path)
        take = "grain: any" if piece.height_made is None else f"{path}.grain = any"
        found.append(f"Take it as it lies, where that does no harm: write {take}.")
    else:
        found.append("Allow it with against_grain: warn.")
    return "\n".join(found)


def _other_grain(piece: FlatPiece, pieces: Iterable[FlatPiece], lies_well: LiesWell) -> list[str]:
    """The stock with its grain the other way, where the piece lies well on it, and what that does to the others."""
    stock = piece.stock
    turned = evolve(stock, grain=_OTHER_WAY[stock.grain])
    if not lies_well(evolve(piece, stock=turned)):
        return []
    alike = [each for each in pieces if each.stock == stock]
    spoilt = [each for each in alike if lies_well(each) and not lies_well(evolve(each, stock=turned))]
    left = [each for each in alike if not lies_well(evolve(each, stock=turned))]
    if spoilt:
        then = f"but then {spoilt[0].path} lies across it"
    elif left:
        then = f"only {left[0].path} lies across it then"
    else:
        all_of_it = f"all {len(alike)} pieces of it lie along their grain then"
        then = all_of_it if len(alike) > 1 else "it lies along it then"
    return [f"Buy {stock.words} with its grain the other way: grain: {turned.grain}{_where(stock, piece)}; {then}."]


def _where(stock: Stock, piece: FlatPiece) -> str:
    """Where the grain of the stock is written, as far as that is a file of the maker's."""
    at = stock.grain_at
    own = _own_file(piece)
    if at is None:
        return ""
    return f" instead of {stock.grain}, line {at.line}" + ("" if at.source is own.source else f" of {at.source.name}")


def _own_file(piece: FlatPiece) -> Span:
    return piece.height_made.span if piece.height_made is not None else piece.span


def _other_size(piece: FlatPiece, ruler: Ruler) -> list[str]:
    """How large a sheet would have to be, and how small the piece."""
    assert piece.stock.sheet is not None
    short_side, long_side = sorted(piece.stock.sheet, key=lambda side: side.value)
    sides = (long_side, short_side) if piece.stock.grain == "long" else (short_side, long_side)
    names = ("height", "width") if piece.grain == "height" else ("width", "height")
    wanted = (piece.height, piece.width) if piece.grain == "height" else (piece.width, piece.height)
    room = [side - piece.stock.trim * 2 for side in sides]
    smaller = [
        f"its {name} to {write(at_most(most, ruler), ruler)} at most"
        for name, size, most in zip(names, wanted, room, strict=True)
        if size > most
    ]
    larger = [write(size + piece.stock.trim * 2, ruler) for size in wanted]
    return [
        f"Use sheets of {larger[0]} or more along the grain and {larger[1]} or more across it.",
        f"Bring {' and '.join(smaller)}.",
    ]
