"""What is cut out of a piece says so, and slits have their names beside them."""

from collections.abc import Iterator
from itertools import product

from attrs import evolve

from pastedown.outputs.template.drawing import OnSheet, Words
from pastedown.outputs.template.ground import GAP, Ground, as_read, beside_line, first_on_piece
from pastedown.outputs.template.letter_width import ASCENT, shortened, width_of
from pastedown.outputs.template.piece_shape import InnerCut, PieceShape
from pastedown.outputs.template.shape import Bounds, corners_of

_SIZE = 2.1
_WIDEST = 60.0
# A slit is drawn wider than a cut.
_GAP_AT_SLIT = GAP + 0.3
# Beyond this many, names would only hide the lines, and looking for room would take long: a choice, no source.
_MOST_NAMED = 150


def cut_out_names(shape: PieceShape, window: Bounds, on_sheet: OnSheet, ground: Ground) -> Iterator[Words]:
    """For each opening and slit the sheet shows, its name, unless there is no room."""
    for cut in shape.inner_cuts[:_MOST_NAMED]:
        shown = cut.bounds.common(window)
        yield from _opening(cut, shown, on_sheet, ground) if cut.closed else _slit(cut, on_sheet, ground)


def _opening(cut: InnerCut, shown: Bounds, on_sheet: OnSheet, ground: Ground) -> tuple[Words, ...]:
    x, y = on_sheet.float_spot(((shown.left + shown.right) / 2, (shown.bottom + shown.top) / 2))
    waste = evolve(ground, outline=corners_of(tuple(map(on_sheet.move, cut.moves))), openings=[])
    name = shortened(cut.name, _SIZE, _WIDEST)
    middle = ASCENT * _SIZE / 2
    ways = ((t, x, y + middle, _SIZE, "middle", 0.0) for t in (f"{name}: cut out", "cut out"))
    turned = ((t, x + middle, y, _SIZE, "middle", 90.0) for t in (f"{name}: cut out", "cut out"))
    return first_on_piece(waste, ((Words(*way),) for way in (*ways, *turned)))


def _slit(cut: InnerCut, on_sheet: OnSheet, ground: Ground) -> tuple[Words, ...]:
    first = cut.moves[0]
    line = as_read(on_sheet.float_spot(first.start), on_sheet.float_spot(first.end))
    name = shortened(cut.name, _SIZE, _WIDEST)
    ways = []
    for text, share in product((f"{name}: slit", "slit"), (0.5, 0.0, 1.0)):
        along = (line.length - width_of(text, _SIZE)) * share
        ways += [(words,) for words in beside_line(text, _SIZE, line, along, _GAP_AT_SLIT)]
    return first_on_piece(ground, ways)
