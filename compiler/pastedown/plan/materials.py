"""What to buy, and how much of it the pieces and joins take.

Takes pieces and joins, gives one material for each stock. Amounts are floors: blanks without waste between them. How
much tape and glue a join takes is told by `bonded_zones.py`.
"""

from fractions import Fraction
from math import ceil

from attrs import frozen

from pastedown.design.stock import Stock
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.bonded_zones import Bonds, Zone
from pastedown.plan.cautions import caution_of_kind
from pastedown.plan.material import Material, OtherSize
from pastedown.plan.plan import PlanText
from pastedown.plan.roll_rows import RollRows, roll_rows
from pastedown.plan.sentence import sentence
from pastedown.quantity.dimension import AREA, GRAMMAGE, MASS
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, number

_ROLLED_KINDS = ("tape", "ribbon")
_NO_AREA = Quantity(number(0).value, AREA)


@frozen
class _Use:
    """What one stock is used for."""

    pieces: tuple[FlatPiece, ...]
    zones: tuple[Zone, ...]


def materials(model: Model, stock_names: dict[Stock, str], bonds: Bonds) -> tuple[Material, ...]:
    """One entry for each stock in use, sorted by name."""
    uses = _uses(model, bonds)
    in_order = sorted(stock_names.items(), key=lambda item: (natural_key(item[1]), item[1]))
    return tuple(_material(stock, name, uses[stock]) for stock, name in in_order)


def is_bought_whole(stock: Stock) -> bool:
    """Whether it is bought as it is, like a photograph or a magnet, and not cut from a sheet or a roll."""
    return stock.sheet is None and stock.roll_width is None and stock.height is not None and stock.width is not None


def _uses(model: Model, bonds: Bonds) -> dict[Stock, _Use]:
    uses: dict[Stock, tuple[list[FlatPiece], list[Zone]]] = {}
    for piece in model.pieces:
        uses.setdefault(piece.stock, ([], []))[0].append(piece)
    for join in model.joins:
        if join.by is not None:
            uses.setdefault(join.by, ([], []))[1].extend(bonds.zones(join))
    return {stock: _Use(tuple(pieces), tuple(zones)) for stock, (pieces, zones) in uses.items()}


def _material(stock: Stock, name: str, use: _Use) -> Material:
    on_roll = _on_roll(stock, use) if _is_rolled(stock) else None
    amount = _amount(stock, use)
    return Material(
        stock=name,
        kind=stock.kind,
        size=_size(stock),
        caliper=stock.caliper,
        weight=stock.weight,
        grain=stock.grain,
        pieces=len(use.pieces),
        amount=amount,
        sheets_at_least=_sheets_at_least(stock, use),
        price=stock.price,
        pack=stock.pack,
        use=_use_in_words(stock, use),
        mass=_mass(stock, use),
        sheet=stock.sheet,
        decorated=stock.decorated,
        zones=len(use.zones),
        roll_length=stock.roll_length if _is_rolled(stock) else None,
        roll_width=stock.roll_width if _is_rolled(stock) else None,
        strips=_strips(on_roll, _rows(stock, use)) if on_roll is not None else (),
        least_length=amount if on_roll is not None and on_roll.narrow else None,
        least_rolls=on_roll.rolls if on_roll is not None else Fraction(0),
        cut_at_once=stock.cut_at_once,
        trim=stock.trim,
        caution=stock.caution or caution_of_kind(stock.kind),
        spare=stock.spare,
        on_hand=stock.on_hand,
        offcuts=stock.offcuts,
        coverage=stock.coverage,
        also=tuple(
            OtherSize(each.words, each.sheet, each.grain, each.price, max(each.pack, 1), each.trim, each.cut_at_once)
            for each in stock.also
            if each.sheet is not None
        ),
    )


def _size(stock: Stock) -> PlanText:
    if stock.sheet is not None:
        return sentence(stock.sheet[0], " x ", stock.sheet[1])
    if stock.roll_width is not None:
        on_roll = sentence(", ", stock.roll_length, " on a roll") if stock.roll_length is not None else ()
        return sentence(stock.roll_width, " wide", on_roll)
    if stock.height is not None and stock.width is not None:
        return sentence(stock.height, " high, ", stock.width, " wide")
    return ()


def _amount(stock: Stock, use: _Use) -> Quantity:
    """A count of things bought as they are, a length from a roll, otherwise an area."""
    if is_bought_whole(stock):
        return number(len(use.pieces))
    if _is_rolled(stock):
        return sum(_rows(stock, use), start=_on_roll(stock, use).least)
    return _area(use)


def _is_rolled(stock: Stock) -> bool:
    return stock.sheet is None and (stock.roll_width is not None or stock.kind in _ROLLED_KINDS)


def _on_roll(stock: Stock, use: _Use) -> RollRows:
    sides = ((piece.height, piece.width) for piece in use.pieces)
    return roll_rows(sides, stock.kind, stock.roll_width, stock.roll_length)


def _strips(rows: RollRows, zones: list[Length]) -> tuple[Length, ...]:
    """What pieces and zones take off the roll in one, right across it; the longest first."""
    return tuple(sorted([*rows.lengths, *zones], reverse=True))


def _rows(stock: Stock, use: _Use) -> list[Length]:
    """Every row of tape."""
    return [zone.long_side for zone in use.zones for _ in range(zone.rows(stock.roll_width))]


def _area(use: _Use) -> Quantity:
    return sum((zone.area for zone in use.zones), start=_area_of_pieces(use))


def _area_of_pieces(use: _Use) -> Quantity:
    """Of their rectangles: corners and windows are cut out of a rectangle, and nothing is got from what falls off."""
    return sum((piece.height * piece.width for piece in use.pieces), start=_NO_AREA)


def _sheets_at_least(stock: Stock, use: _Use) -> int | None:
    if stock.sheet is None:
        return None
    sheet = stock.sheet[0] * stock.sheet[1]
    return ceil((_area(use) / sheet).value) if sheet > _NO_AREA else None


def _mass(stock: Stock, use: _Use) -> Quantity | None:
    """Of the cut pieces, and of what sticks; None where the stock's weight is not known."""
    if stock.weight is None:
        return None
    if stock.weight.dimension == GRAMMAGE:
        return _weighed_area(stock, use) * stock.weight
    if not use.pieces:
        return None
    return stock.weight * len(use.pieces) if stock.weight.dimension == MASS else None


def _weighed_area(stock: Stock, use: _Use) -> Quantity:
    """What sticks is as wide as its roll, or covers its zones."""
    if not _is_rolled(stock):
        return _area(use)
    if stock.roll_width is None:
        return _area_of_pieces(use)
    return _area_of_pieces(use) + sum(_rows(stock, use), start=NO_LENGTH) * stock.roll_width


def _use_in_words(stock: Stock, use: _Use) -> PlanText:
    pieces = sentence(number(len(use.pieces)), " pieces" if len(use.pieces) > 1 else " piece") if use.pieces else ()
    if not use.zones:
        return pieces
    many = len(use.zones)
    zones = sentence(number(many), " bonded zones" if many > 1 else " bonded zone")
    if _is_rolled(stock):
        rows = len(_rows(stock, use))
        zones = sentence(zones, " in ", number(rows), " rows" if rows > 1 else " row")
    return sentence(pieces, "; ", zones) if pieces else zones
