"""The one sheet for a piece that is too large to be pieced together from printer paper."""

from pastedown.outputs.template.drawing import Sheet, Words
from pastedown.outputs.template.head_strip import facts_of, title_of
from pastedown.outputs.template.layout import Layout
from pastedown.outputs.template.letter_width import shortened
from pastedown.outputs.template.tiling import MOST_SHEETS, Tiling
from pastedown.plan.plan import CutPiece, Plan

_TITLE_SIZE = 4.2
_SIZE = 3.0
_STEP = 5.0


def sheet_instead(piece: CutPiece, plan: Plan, tiling: Tiling) -> Sheet:
    """What the piece is, why it is not drawn, and what to do."""
    layout = Layout(tiling.paper)
    left, top, room = float(layout.left), float(layout.head_top), float(layout.drawing_width)
    count = str(tiling.count) if tiling.count < 10_000 else "more than 10000"
    lines = (
        *facts_of(piece, plan.ruler),
        "",
        f"True to size this piece takes {count} sheets of {tiling.paper.name}; a template has {MOST_SHEETS} at most.",
        "Mark it out with ruler and square: the cut list has its size, the score chart its folds.",
        "",
        plan.title,
    )
    title = shortened(title_of(piece), _TITLE_SIZE, room)
    words = [Words(title, left, top + _TITLE_SIZE, _TITLE_SIZE)]
    for n, text in enumerate(lines, 2):
        words.append(Words(shortened(text, _SIZE, room), left, top + _TITLE_SIZE + n * _STEP, _SIZE))
    return Sheet(f"{piece.name}, too large for a template", tiling.paper, (), (), tuple(words))
