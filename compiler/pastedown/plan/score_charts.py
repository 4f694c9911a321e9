"""The ladders of a piece: where it is scored, and where a panel begins and ends that bends without a score."""

from pastedown.geometry.piece import FlatPiece, Run, Score
from pastedown.plan.flat_pattern import bend_edges, runs_in_order, side_of_bend_edge
from pastedown.plan.plan import Mark, ScoreChart
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import NO_LENGTH


def score_charts(piece: FlatPiece) -> tuple[ScoreChart, ...]:
    """One chart for each run with scores. A panel that merely bends is no mark."""
    return tuple(_chart(run, run.scores) for run in runs_in_order(piece) if run.scores)


def bend_charts(piece: FlatPiece) -> tuple[ScoreChart, ...]:
    """One chart for each run with panels that bend, of marks that are drawn and not scored. Joints are set by them."""
    return tuple(_chart(run, edges) for run in runs_in_order(piece) if (edges := bend_edges(run)))


def closes(chart: ScoreChart) -> bool:
    """What must hold of every chart: the marks climb, the ladder from either edge tells one place, the gaps and the
    last panel make up the side, and so do the panels."""
    positions = [NO_LENGTH, *(mark.from_first for mark in chart.marks), chart.side]
    gaps = [*(mark.gap for mark in chart.marks), chart.last_panel]
    climbs = all(before + gap == after for before, gap, after in zip(positions, gaps, positions[1:], strict=False))
    same_place = all(mark.from_first + mark.from_last == chart.side for mark in chart.marks)
    panels = sum((size for _, size in chart.panels), start=NO_LENGTH)
    return climbs and same_place and panels == chart.side and all(gap > NO_LENGTH for gap in gaps)


def _chart(run: Run, scores: tuple[Score, ...]) -> ScoreChart:
    marks = []
    before = NO_LENGTH
    for score in scores:
        side = side_of_bend_edge(run, score.at) if score.kind == "mark" else ""
        marks.append(Mark(spoken(score.name), score.kind, score.at, run.side - score.at, score.at - before, side))
        before = score.at
    return ScoreChart(
        axis=run.axis,
        first_edge=spoken(run.first_edge),
        last_edge=spoken(run.last_edge),
        marks=tuple(marks),
        panels=tuple((spoken(panel.name), panel.size) for panel in run.panels),
        side=run.side,
        last_panel=run.side - before,
    )
