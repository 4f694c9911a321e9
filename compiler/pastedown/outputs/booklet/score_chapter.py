"""The score charts: each mark from both edges, and the sum that shows whether the piece is right."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Paragraph, Said, Section, Table
from pastedown.outputs.booklet.say import sized
from pastedown.outputs.in_words import counted
from pastedown.plan.plan import CutPiece, Plan, ScoreChart
from pastedown.quantity.ruler import Ruler

_INTRODUCTION = (
    "Lay each piece face up with the edge named first against the left stop, and score the lines from the face. Then "
    "turn it over, the same edge still at the left stop, and score those from the back. So the ridge that a score "
    "raises on the other side lies inside its fold. Score by the one column of measures and check by the other. V is a "
    "valley: as you look at the face, the panels come towards you and the face ends up inside. M is a mountain: they "
    "go away from you and the face ends up outside. A line that is not scored is drawn alone, on the side "
    "named beside it, where it will not show: there the piece bends."
)
_FOLDS = {"valley": "V valley, from the back", "mountain": "M mountain, from the face"}


def score_chapter(plan: Plan) -> tuple[Block, ...]:
    """A section for each piece that is scored or marked."""
    marked = [piece for piece in plan.pieces if piece.score_charts or piece.bend_charts]
    if not marked:
        return (Paragraph(("No piece is scored.",)),)
    return (Paragraph((_INTRODUCTION,)), *(_section(piece, plan.ruler) for piece in marked))


def _section(piece: CutPiece, ruler: Ruler) -> Section:
    face = f"Face up: {piece.face_up}. " if piece.face_up else ""
    size = (*sized(piece.height, ruler), " high, ", *sized(piece.width, ruler), " wide.")
    blocks: list[Block] = [Paragraph((f"{face}{counted(piece.count, 'piece')} of {piece.stock}, ", *size))]
    for chart in (*piece.score_charts, *piece.bend_charts):
        blocks += _chart(piece, chart, ruler)
    return Section((piece.name,), tuple(blocks))


def _chart(piece: CutPiece, chart: ScoreChart, ruler: Ruler) -> Iterator[Block]:
    first, last = _edge(chart.first_edge), _edge(chart.last_edge)
    rows = tuple(
        (
            (f"{number} {mark.name}",),
            (_FOLDS.get(mark.kind, f"not scored, on the {mark.drawn_on}"),),
            sized(mark.from_first, ruler),
            sized(mark.from_last, ruler),
            sized(mark.gap, ruler),
        )
        for number, mark in enumerate(chart.marks, 1)
    )
    columns = ("Line", "Fold", f"From the {first}", f"From the {last}", "Gap")
    title = f"{piece.name}, along the {chart.axis}, the {first} at the left stop"
    yield Table(title, columns, rows, frozenset((2, 3, 4)))
    yield Paragraph(_closing_check(chart, ruler))


def _edge(name: str) -> str:
    return f"{name} edge" if name in ("left", "right") else name


def _closing_check(chart: ScoreChart, ruler: Ruler) -> Said:
    """The sum is worked out here and not copied, so that the equation is true of the numbers above it."""
    mark = chart.marks[-1].from_first
    sum_of_both = mark + chart.last_panel
    terms = (*sized(mark, ruler), " + ", *sized(chart.last_panel, ruler), " = ", *sized(sum_of_both, ruler))
    return ("Check: ", *terms, f". The last line and the last panel make up the whole {chart.axis}.")
