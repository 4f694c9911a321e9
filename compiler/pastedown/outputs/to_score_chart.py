"""The score charts: for every scored piece, where to score, counted from the left stop of a scoring board."""

from pastedown.outputs.in_words import counted, measure
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.plan.plan import CutPiece, Plan, ScoreChart
from pastedown.quantity.ruler import Ruler

_INTRODUCTION = (
    "Lay each piece face up with the edge named first against the left stop, and score what is scored from the face. "
    "Then turn it over, the same edge still at the left stop, and score what is scored from the back. So the ridge "
    "that a score raises on the other side lies inside its fold. Every mark is given from both edges: score by the "
    "one, check by the other. The gap is the distance from the mark before, or from the edge. V is a valley: as you "
    "look at the face, the panels come towards you and the face ends up inside. M is a mountain: they go away from you "
    "and the face ends up outside. A line that is marked as not scored is drawn alone, on the side named "
    "beside it, where it will not show: there the piece bends."
)
_LETTERS = {"valley": "V", "mountain": "M"}


def make(plan: Plan) -> dict[str, bytes]:
    """score-chart.txt"""
    lines = [*heading(f"Score charts: {plan.title}"), "", *wrapped(_INTRODUCTION)]
    scored = [piece for piece in plan.pieces if piece.score_charts or piece.bend_charts]
    if not scored:
        lines += ["", "No piece is scored."]
    for piece in scored:
        lines += ["", "", *_piece(piece, plan.ruler)]
    return {"score-chart.txt": text_file(lines)}


def _piece(piece: CutPiece, ruler: Ruler) -> list[str]:
    lines = heading(f"{piece.name} ({piece.id}): {counted(piece.count, 'piece')} of {piece.stock}", "-")
    size = f"{measure(piece.height, ruler)} high, {measure(piece.width, ruler)} wide"
    lines += wrapped(f"{size}. Face up: {piece.face_up}." if piece.face_up else f"{size}.")
    for chart in (*piece.score_charts, *piece.bend_charts):
        lines += ["", *_chart(chart, ruler)]
    return lines


def _chart(chart: ScoreChart, ruler: Ruler) -> list[str]:
    first, last = _edge(chart.first_edge), _edge(chart.last_edge)
    drawn = not any(mark.kind in _LETTERS for mark in chart.marks)
    columns = (
        Column("no.", 6, to_the_right=True),
        Column("mark", 24),
        Column(f"from the {first}", 18, measures=True),
        Column(f"from the {last}", 18, measures=True),
        Column("gap", 18, measures=True),
        Column("fold", 10),
        Column("draw on" if drawn else "score from", 10),
    )
    rows = [
        (
            str(number),
            mark.name,
            measure(mark.from_first, ruler),
            measure(mark.from_last, ruler),
            measure(mark.gap, ruler),
            f"{_LETTERS[mark.kind]} {mark.kind}" if mark.kind in _LETTERS else "not scored",
            mark.scored_from or mark.drawn_on,
        )
        for number, mark in enumerate(chart.marks, 1)
    ]
    count = counted(len(chart.marks), "line") + (" to draw, not to score" if drawn else "")
    return [
        *wrapped(f"Along the {chart.axis}, the {first} at the left stop: {count}."),
        "",
        *table(columns, rows),
        "",
        *([] if drawn else _side_view(chart, first, last)),
        *_closing_check(chart, ruler),
    ]


def _edge(name: str) -> str:
    return f"{name} edge" if name in ("left", "right") else name


def _side_view(chart: ScoreChart, first: str, last: str) -> list[str]:
    """The folds in the order in which they lie, as the letters one calls out while folding."""
    letters = " -- ".join(_LETTERS[mark.kind] for mark in chart.marks)
    return wrapped(f"{first} |-- {letters} --| {last}", first="Folds: ")


def _closing_check(chart: ScoreChart, ruler: Ruler) -> list[str]:
    """The sum is worked out here and not copied, so that the equation is true of the numbers above it."""
    mark = chart.marks[-1].from_first
    terms = " + ".join(measure(length, ruler) for length in (mark, chart.last_panel))
    total = measure(mark + chart.last_panel, ruler)
    whole = f"the last mark and the last panel make the whole {chart.axis}"
    if mark + chart.last_panel != chart.side:
        whole = f"this should be the whole {chart.axis}, {measure(chart.side, ruler)}, and is not"
    return wrapped(f"{terms} = {total}: {whole}.", first="Check: ")
