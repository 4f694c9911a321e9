"""Finds the cuts and scores of a piece that the maker's ruler has no mark for, and the facts they come from.

A side as it was bought is cut by nobody; one that was measured on something else is cut against it. Cuts within a side
are measured from either end of it or from its middle.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from attrs import evolve, frozen

from pastedown.geometry.layer import Scope
from pastedown.geometry.marks import is_measured, source_of
from pastedown.geometry.piece import ArcTo, CutPath, OffMark, Point, Run
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.value import PanelValue
from pastedown.quantity.quantity import Length
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.source import Span
from pastedown.tree.expression import Expression, Path

if TYPE_CHECKING:
    from pastedown.geometry.make_piece import PieceMaker

# Plain names lead on to other plain names; no recipe for paper needs more of them.
_LONGEST_WAY = 40


@frozen
class _Source:
    """What a length comes from: the fact by its name, the words that state it, and where they stand."""

    fact: str
    words: str
    span: Span


def off_marks_of(
    piece: PieceMaker, runs: tuple[Run, ...], outline: CutPath, inner_cuts: tuple[CutPath, ...]
) -> tuple[OffMark, ...]:
    """One for each source of what lies off the marks: sides first, then scores, then cuts."""
    found: dict[Span, OffMark] = {}
    for each in (*_sides(piece), *_scores(piece, runs), *_cuts(piece, outline, inner_cuts)):
        known = found.get(each.span)
        found[each.span] = each if known is None else evolve(known, count=known.count + each.count)
    return tuple(found.values())


def _sides(piece: PieceMaker) -> Iterator[OffMark]:
    marks = ruler_of(piece.instance).marks
    for axis in ("height", "width"):
        side, setting = piece.side(axis), piece.setting(axis)
        if is_on_mark(side, marks) or side in _as_bought(piece):
            continue
        if setting is None:
            continue  # its panels are to blame, and the scores between them tell of it
        if not is_measured(*setting):
            source = _source(*setting, f"the {axis} of {piece.path}")
            yield OffMark(axis, side, "", _nearest(side, marks), source.fact, side, source.words, 1, source.span)


def _scores(piece: PieceMaker, runs: tuple[Run, ...]) -> Iterator[OffMark]:
    """The scores of a run, and its far edge where the run gives that side, each blamed on the first panel off marks."""
    marks = ruler_of(piece.instance).marks
    for run in runs:
        uneven = next((panel for panel in run.panels if not is_on_mark(panel.size, marks)), None)
        if uneven is None:
            continue
        found = piece.panel_source(PanelValue(piece, run.axis, uneven.name))
        if found is None:
            continue
        source = _source(*found, f"the panel {uneven.name} of {piece.path}")
        off = [(f"fold {score.name}", score.at) for score in run.scores if not is_on_mark(score.at, marks)]
        if not is_on_mark(run.side, marks) and piece.setting(run.axis) is None and run.side not in _as_bought(piece):
            off.append((f"edge {run.last_edge}", run.side))
        if off:
            what, at = off[0]
            yield OffMark(
                what, at, run.first_edge, _nearest(at, marks),
                source.fact, uneven.size, source.words, len(off), source.span,
            )  # fmt: skip


def _cuts(piece: PieceMaker, outline: CutPath, inner_cuts: tuple[CutPath, ...]) -> Iterator[OffMark]:
    marks = ruler_of(piece.instance).marks
    for cut in (outline, *inner_cuts):
        name = "" if cut is outline else cut.name
        for along, edge, side in ((0, piece.edge_name("left"), "width"), (1, "tail", "height")):
            off = [at for at in _places(cut, along) if not _is_measurable(at, piece.side(side), marks)]
            if not off:
                continue
            setting = piece.cut(name) if name else None
            span = setting[0].span if setting is not None else piece.statement.family.span
            fact = f"the cut {name} of {piece.path}" if name else f"what is cut off {piece.path}"
            what = f"cut {name}" if name else "outer cut"
            words = span.text if setting is not None else ""
            yield OffMark(what, off[0], edge, _nearest(off[0], marks), fact, None, words, len(off), span)


def _places(cut: CutPath, along: int) -> list[Length]:
    """How far the ends of straight cuts lie from the left edge (`along` 0) or from the tail (1), each once. The ends
    of round ones are where the tool leaves them."""
    ends: list[Point] = [cut.start, *(move.end for move in cut.moves)]
    round_ends: set[Point] = set()
    for start, move in zip(ends, cut.moves, strict=False):
        if isinstance(move, ArcTo):
            round_ends |= {start, move.end}
    return sorted({(end.x, end.y)[along] for end in ends if end not in round_ends}, key=lambda at: at.value)


def _is_measurable(at: Length, side: Length, marks: Length) -> bool:
    return at == side or any(is_on_mark(place, marks) for place in (at, side - at, at - side / 2))


def _as_bought(piece: PieceMaker) -> set[Length]:
    stock = piece.stock()
    sides = (*(stock.sheet or ()), stock.roll_width, stock.roll_length, stock.height, stock.width)
    return {side for side in sides if side is not None}


def _nearest(at: Length, marks: Length) -> Length:
    return round_to(at, "nearest", marks)


def _source(expression: Expression, scope: Scope, fact: str) -> _Source:
    """Follows plain names to the words that state a length."""
    for _ in range(_LONGEST_WAY):
        behind = source_of(expression, scope) if isinstance(expression, Path) else None
        if behind is None or not isinstance(expression, Path) or scope.part is None:
            break
        fact = scope.part.path_of(expression.head, None)
        expression, scope = behind
    return _Source(fact, " ".join(expression.span.text.split()), expression.span)
