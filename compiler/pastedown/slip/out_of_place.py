"""Says why what was told of a piece cannot be, and what was probably meant by a name that is not there."""

from __future__ import annotations

from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.geometry.actual import Side
from pastedown.geometry.natural_order import natural_key, without_number
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.slip.bench import Bench
from pastedown.slip.paths import together
from pastedown.slip.shapes import Shape

# So many pieces of a part are named at most.
_MOST_NAMED = 6


def out_of_place(side: Side, shape: Shape, ruler: Ruler) -> str:
    """Why a side of which a panel has no size left cannot be so."""
    names = {number: name for name, number in shape.scores.items()}
    long = f"{side[0]} is {write(shape.side, ruler)} {'high' if side[1] == 'height' else 'wide'}"
    for number, name in sorted(names.items()):
        if shape.ends[number] >= shape.side:
            return f"{long}, and {name} would lie {write(shape.ends[number], ruler)} from {shape.first_edge}."
    for number, panel in enumerate(shape.panels):
        size = shape.size(number)
        if size.value > 0:
            continue
        end = names.get(number, f"the end of {panel}")
        before = names.get(number - 1, shape.first_edge)
        return f"Nothing is left of {panel}: {end} would lie no farther from {shape.first_edge} than {before}."
    return f"Nothing would be left of {side[0]}."


def larger_than_bought(bench: Bench, side: Side) -> str:
    """Why a side cannot be so long that it comes out of no sheet or roll; "" where it can be."""
    (piece,) = [each for each in bench.model.pieces if each.path == side[0]]
    stocks = [piece.stock, *piece.stock.also]
    sheets = [*(each.sheet for each in stocks if each.sheet is not None), *piece.stock.offcuts]
    rolls = any(each.roll_width is not None for each in stocks)
    longest = max((max(sheet) for sheet in sheets), default=None)
    long = bench.now[side].side
    if rolls or longest is None or long <= longest:
        return ""
    ruler, how = bench.model.ruler, "high" if side[1] == "height" else "wide"
    return (
        f"No sheet of {piece.stock.words} is longer than {write(longest, ruler)}, so {side[0]} cannot be "
        f"{write(long, ruler)} {how}."
    )


def meant(bench: Bench, path: str) -> str:
    """What was probably meant by a path of which some name is not there; "" where nothing is near."""
    pieces = {piece.path for piece in bench.model.pieces}
    parts = {part.path for part in bench.model.parts if part.path}
    names = path.split(".")
    known = sorted(pieces | parts, key=natural_key)
    for length in range(len(names), 0, -1):
        start = ".".join(names[:length])
        if start in known:
            within = [each for each in pieces if each.rpartition(".")[0] == start]
            told = together(within[:_MOST_NAMED]) if within and start in parts else ""
            return f"The pieces of {start} are {told}." if told and len(within) > 1 else f"Say {told}." if told else ""
        near = _nearest(start, known)
        if near:
            return f"Did you mean {'.'.join((near, *names[length:]))}?"
    return ""


def _nearest(start: str, known: list[str]) -> str:
    """The known path that is nearest, by the whole of it or by its last name alone."""
    whole = nearest_name(start, known)
    if whole is not None:
        return whole
    if "." in start:
        return ""
    number = start[len(without_number(start)) :]
    last = {without_number(each.rpartition(".")[2]): each for each in reversed(known)}
    near = nearest_name(without_number(start), last)
    return "" if near is None else f"{without_number(last[near])}{number}"
