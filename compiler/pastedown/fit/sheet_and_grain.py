"""Pieces against the sheets and rolls they are cut from, with the grain the way the piece wants it.

Paper folds and wraps best with its grain along the fold and, in a book, head to tail (Roberts and Etherington,
"Bookbinding and the Conservation of Books", Library of Congress 1982, entry "against the grain"). Grain long means
along the longer side of the sheet.
"""

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve

from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, Label, error, warning
from pastedown.fit.grain_cures import GrainCures
from pastedown.fit.made_here import made_here
from pastedown.fit.sheets_on_offer import sheets_on_offer
from pastedown.geometry.model import Model
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.enough import at_most
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.quantity.ruler import INCH_RULER, Ruler
from pastedown.quantity.write import write


def look(model: Model) -> Iterator[Diagnostic]:
    """Each kind of piece once: like pieces of like parts are told about as one; each stock once, at its first piece."""
    told: set[tuple[str, str, Length, Length, Stock]] = set()
    stocks: set[Stock] = set()
    cures = GrainCures(model.pieces, _lies_well, model.ruler)
    for piece in model.pieces:
        if piece.stock not in stocks:
            stocks.add(piece.stock)
            yield from sheets_on_offer(piece, model.ruler)
        key = (piece.component, piece.name, piece.height, piece.width, piece.stock)
        if key in told:
            continue
        told.add(key)
        if piece.stock.sheet is not None:
            yield from _on_sheets(piece, piece.stock.sheet, cures)
        elif piece.stock.roll_width is not None:
            yield from _on_roll(piece, piece.stock.roll_width, model.ruler)
        elif piece.stock.height is not None and piece.stock.width is not None:
            yield from _out_of_one(piece, piece.stock.height, piece.stock.width, model.ruler)
        else:
            yield warning(
                "stock-incomplete",
                piece.span,
                f"{piece.stock.words} says neither what its sheets measure nor how wide its roll is, "
                f"so {piece.path} could not be checked against it.",
                way_out="Add sheet: 12 in x 12 in, or roll_width: ..., to the stock.",
            )


def _on_sheets(piece: FlatPiece, sheet: tuple[Length, Length], cures: GrainCures) -> Iterator[Diagnostic]:
    """Another size of the stock will do as well; what is told, if none will, is told of the stock itself."""
    told = list(_on_sheet(piece, _trimmed(sheet, piece.stock.trim), cures.ruler))
    for other in piece.stock.also if told else ():
        in_size = evolve(piece, stock=other)
        if other.sheet is not None and not any(_on_sheet(in_size, _trimmed(other.sheet, other.trim), cures.ruler)):
            return
    for each in told:
        if each.id == "against-grain":
            each = evolve(each, way_out=cures.of(piece))
        yield each


def _lies_well(piece: FlatPiece) -> bool:
    """Whether a piece comes out of a sheet of its stock, of one size or another, along its grain."""
    sizes = (piece.stock, *piece.stock.also)
    return any(
        stock.sheet is not None
        and not any(_on_sheet(evolve(piece, stock=stock), _trimmed(stock.sheet, stock.trim), INCH_RULER))
        for stock in sizes
    )


def _within(stock: Stock) -> str:
    return " within its raw edges" if stock.trim > NO_LENGTH else ""


def _trimmed(sheet: tuple[Length, Length], trim: Length) -> tuple[Length, Length]:
    """What is left of a sheet within its raw edges; all of it, where they would meet."""
    return (sheet[0] - trim * 2, sheet[1] - trim * 2) if min(sheet) > trim * 2 else sheet


def _on_sheet(piece: FlatPiece, sheet: tuple[Length, Length], ruler: Ruler) -> Iterator[Diagnostic]:
    long_side, short_side = max(sheet, key=lambda side: side.value), min(sheet, key=lambda side: side.value)
    upright = piece.height <= long_side and piece.width <= short_side
    across = piece.height <= short_side and piece.width <= long_side
    if not upright and not across:
        yield error(
            "sheet-too-small",
            piece.span,
            f"{piece.path} is {in_words(piece, ruler)}, and a sheet of {piece.stock.words} is "
            f"{write(long_side, ruler)} by {write(short_side, ruler)}{_within(piece.stock)}.",
            reason="A piece has to come out of one sheet: from this one it comes out short.",
            way_out=_smaller(piece, long_side, short_side, ruler),
            labels=_too_large_made(piece, long_side, short_side, ruler),
            missing=_over(piece, long_side, short_side),
        )
        return
    if (
        piece.grain == "any"
        or piece.stock.grain in ("none", "marked")
        or (long_side == short_side and piece.stock.grain != "unknown")
    ):
        return
    if piece.stock.grain == "unknown":
        yield warning(
            "grain-unknown",
            piece.span,
            f"{piece.path} wants its grain along its {piece.grain}, and nothing says which way the "
            f"grain of {piece.stock.words} runs.",
            reason="Paper folded across its grain cracks, and boards across it warp.",
            way_out=(
                "Bend a sheet both ways: it gives more easily with the grain. Then add grain: long, "
                "short or marked to the stock."
            ),
        )
        return
    grain_side, other_side = (long_side, short_side) if piece.stock.grain == "long" else (short_side, long_side)
    along, beside = (piece.height, piece.width) if piece.grain == "height" else (piece.width, piece.height)
    if along <= grain_side and beside <= other_side:
        return
    tell = warning if piece.against_grain == "warn" else error
    yield tell(
        "against-grain",
        piece.span,
        f"{piece.path} ({in_words(piece, ruler)}) comes out of a sheet of {piece.stock.words} only with "
        f"the grain along its {'width' if piece.grain == 'height' else 'height'}.",
        reason=harm(piece),
        way_out="Use sheets of the other grain.",
        labels=made_here(ruler, piece.height_made, piece.width_made),
    )


def harm(piece: FlatPiece) -> str:
    """What comes of a piece that lies the other way than its grain should: its folds that would have lain along the
    grain lie across it."""
    folds = sum(len(run.scores) for run in piece.runs if run.axis != piece.grain)
    if not folds:
        return "Folds across the grain crack and show a white core; boards and leaves across it warp."
    lie = f"All {folds} folds that belong along the grain then lie" if folds > 1 else "Its fold then lies"
    return f"{lie} across it: they crack and show a white core." if folds > 1 else f"{lie} across the grain and cracks."


def _on_roll(piece: FlatPiece, roll_width: Length, ruler: Ruler) -> Iterator[Diagnostic]:
    length = piece.stock.roll_length
    if min(piece.height, piece.width, key=lambda side: side.value) > roll_width:
        yield error(
            "sheet-too-small",
            piece.span,
            f"{piece.path} is {in_words(piece, ruler)}, and {piece.stock.words} is {write(roll_width, ruler)} wide.",
            reason="A piece has to come off the roll in one: from this one it comes out short.",
            way_out=f"Make one side {write(at_most(roll_width, ruler), ruler)} or less, or use a wider roll.",
            labels=made_here(ruler, piece.height_made, piece.width_made),
        )
    elif length is not None and max(piece.height, piece.width, key=lambda side: side.value) > length:
        yield error(
            "sheet-too-small",
            piece.span,
            f"{piece.path} is {in_words(piece, ruler)}, and a roll of {piece.stock.words} is {write(length, ruler)} "
            "long.",
            reason="A piece has to come off the roll in one: from this one it comes out short.",
            way_out="Use a longer roll.",
            labels=made_here(ruler, piece.height_made, piece.width_made),
        )


def _out_of_one(piece: FlatPiece, height: Length, width: Length, ruler: Ruler) -> Iterator[Diagnostic]:
    """What is bought in its own size may be trimmed and turned; it cannot grow."""
    upright = piece.height <= height and piece.width <= width
    across = piece.height <= width and piece.width <= height
    if not upright and not across:
        yield error(
            "sheet-too-small",
            piece.span,
            f"{piece.path} is {in_words(piece, ruler)}, and {piece.stock.words} is bought {write(height, ruler)} high "
            f"and {write(width, ruler)} wide.",
            reason="A piece has to come out of one: from this one it comes out short.",
            way_out=_smaller(piece, height, width, ruler).replace("larger sheets", "a larger one"),
            labels=_too_large_made(piece, height, width, ruler),
        )


def in_words(piece: FlatPiece, ruler: Ruler) -> str:
    """Its size: "7 in high and 5 in wide"."""
    return f"{write(piece.height, ruler)} high and {write(piece.width, ruler)} wide"


def _room(piece: FlatPiece, one_side: Length, other_side: Length) -> tuple[Length, Length]:
    """How high and how wide the sheet is, lying the way in which less is missing."""

    def missing(high: Length, wide: Length) -> Length:
        over = [side - room for side, room in ((piece.height, high), (piece.width, wide)) if side > room]
        return over[0] + over[1] if len(over) == 2 else over[0]

    upright, across = missing(one_side, other_side), missing(other_side, one_side)
    return (one_side, other_side) if upright <= across else (other_side, one_side)


def _too_large_made(piece: FlatPiece, one_side: Length, other_side: Length, ruler: Ruler) -> tuple[Label, ...]:
    """Where the sides were given that have to change."""
    high, wide = _room(piece, one_side, other_side)
    sides = ((piece.height > high, piece.height_made), (piece.width > wide, piece.width_made))
    return made_here(ruler, *(made for too_large, made in sides if too_large))


def _over(piece: FlatPiece, long_side: Length, short_side: Length) -> Fraction:
    """By how much a piece is too large both ways together, laid the better way round."""
    ways = ((piece.height, piece.width), (piece.width, piece.height))
    return min(
        max(one.value - long_side.value, Fraction(0)) + max(other.value - short_side.value, Fraction(0))
        for one, other in ways
    )


def _smaller(piece: FlatPiece, one_side: Length, other_side: Length, ruler: Ruler) -> str:
    """The least change that would let it out of the sheet, lying the way in which less is missing."""
    high, wide = _room(piece, one_side, other_side)
    cures = []
    if piece.height > high:
        cures.append(f"its height to {write(at_most(high, ruler), ruler)} at most")
    if piece.width > wide:
        cures.append(f"its width to {write(at_most(wide, ruler), ruler)} at most")
    return f"Bring {' and '.join(cures)}, or use larger sheets."
