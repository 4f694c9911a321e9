"""The names of folds, small, along the folds themselves."""

from collections.abc import Iterator
from itertools import chain

from pastedown.outputs.template.clip import straight_within
from pastedown.outputs.template.drawing import OnSheet, Words
from pastedown.outputs.template.ground import GAP, Ground, as_read, beside_line, first_on_piece
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.piece_shape import Fold, PieceShape
from pastedown.outputs.template.shape import Bounds, Straight

_SIZE = 2.1
_WIDEST = 90.0
# Beyond this many, names would only hide the lines, and looking for room would take long: a choice, no source.
_MOST_NAMED = 150
_STEP = 4.0
_MOST_STEPS = 12
_UPRIGHT = 45.0


def fold_names(shape: PieceShape, window: Bounds, on_sheet: OnSheet, ground: Ground) -> tuple[tuple[Words, ...], ...]:
    """For each fold the sheet shows, its name beside it, or nothing where there is no room."""
    shown = [(fold, straight_within(fold.line, window)) for fold in shape.folds]
    seen = [(fold, line) for fold, line in shown if line is not None]
    named = tuple(first_on_piece(ground, _ways(fold, line, on_sheet)) for fold, line in seen[:_MOST_NAMED])
    return named + ((),) * len(seen[_MOST_NAMED:])


def _ways(fold: Fold, shown: Straight, on_sheet: OnSheet) -> Iterator[tuple[Words, ...]]:
    """With its kind if there is room; near the end at the head or at the left first; above the line, then below it."""
    line = as_read(on_sheet.float_spot(shown.start), on_sheet.float_spot(shown.end))
    name = shortened(fold.name, _SIZE, _WIDEST)
    for text in (f"{name} ({fold.kind.name})", name):
        room = line.length - width_of(text, _SIZE)
        steps = [(n + 1) * _STEP for n in range(min(_MOST_STEPS, int(room // _STEP)))]
        places = [room - gone if line.angle > _UPRIGHT else gone for gone in [*steps, room / 2] if room > 0]
        ways = [beside_line(text, _SIZE, line, along, GAP) for along in places]
        yield from ((words,) for words in chain((upper for upper, _ in ways), (lower for _, lower in ways)))
