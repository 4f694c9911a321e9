"""The errors of the hand: how far off a cut, a score, a fold or a placing may come out, and where each enters.

A length that is asked for has none: it is an instruction. A length that was made has one error for each cut edge, each
score, each turned fold and each placing that it reaches over, each by its own name. A piece is measured from one edge,
the first one of its run, which lies against the stop of the scoring board, otherwise the left one and the tail; the
opposite edge is off by the error of one cut.

Half-widths are facts of the album, read like its ruler.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve, frozen

from pastedown.diagnostic import error
from pastedown.geometry.fault import Spoilt
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, inches

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.work import Work

# A hand that is further off than this is no hand that builds albums, and the fact is a slip.
MOST_ERROR = inches(1)


@frozen
class HandErrors:
    """How far off each kind of work may come out, either way."""

    cut: Length
    score: Length
    fold: Length
    place: Length


# Common practice, no source: half of the finest mark on an inch ruler each for what is set out by it, half of that for
# paper folded over in its own score. They keep within what trade standards allow: boards cut to less than 1 mm (CY/T
# 7.9-91, 4.2.1), placed to 1 mm along and 2 mm across (CY/T 7.6-91, 4.3.2), scored to 1 mm (CY/T 28-1999).
USUAL_HAND = HandErrors(cut=inches("1/32"), score=inches("1/32"), fold=inches("1/64"), place=inches("1/32"))
NO_ERRORS = HandErrors(NO_LENGTH, NO_LENGTH, NO_LENGTH, NO_LENGTH)
# The facts of an album that state them.
FACTS = {"cut": "cut_error", "score": "score_error", "fold": "fold_error", "place": "place_error"}


def read_hand(root: Instance) -> HandErrors:
    """What the album says of the hand that builds it, and the usual where it says nothing. To be read before anything
    is made: lengths that were made while the hand is being read have no errors."""
    return HandErrors(**{kind: _stated(root, fact, getattr(USUAL_HAND, kind)) for kind, fact in FACTS.items()})


def _stated(root: Instance, fact: str, usual: Length) -> Length:
    try:
        stated = root.fact_or_none(fact)
    except Spoilt:
        return usual
    if not isinstance(stated, Quantity) or stated.dimension != LENGTH:
        return usual
    if NO_LENGTH <= stated <= MOST_ERROR:
        return stated.exact
    setting = root.setting(fact)
    nearest = "nought" if stated < NO_LENGTH else "1 in"
    root.work.tell(
        error(
            "out-of-range",
            setting.value.span if setting is not None and setting.value is not None else root.span,
            f"{fact} says how far off the hand may be, either way: from nought to 1 in.",
            way_out=f"The nearest that passes is {nearest}; 1/32 in is usual.",
        )
    )
    return usual


def cut_name(path: str, axis: str) -> str:
    """What the error of a cut is called."""
    return f"{path}, cut to its {axis}"


def score_name(path: str, score: str) -> str:
    """What the error of a score is called."""
    return f"{path}, score {score}"


def cut_to(length: Length, path: str, axis: str, hand: HandErrors) -> Length:
    """A side of a piece once it is cut."""
    return length.exact.with_error(cut_name(path, axis), hand.cut)


def laid(
    path: str, axis: str, panels: tuple[Panel, ...], scores: tuple[Score, ...], hand: HandErrors
) -> tuple[tuple[Panel, ...], tuple[Score, ...]]:
    """The panels and scores of a run once it is cut and scored: each score is off by itself, for all of them are
    measured from the first edge."""
    scored = {score.at: score.at.with_error(score_name(path, score.name), hand.score) for score in scores}
    lines = {**scored, panels[-1].end: cut_to(panels[-1].end, path, axis, hand)}
    made = tuple(
        evolve(panel, start=lines.get(panel.start, panel.start), end=lines.get(panel.end, panel.end))
        for panel in panels
    )
    return made, tuple(evolve(score, at=scored[score.at]) for score in scores)


def folded(run: Run, path: str, angles: dict[str, str], hand: HandErrors) -> Run:
    """A run with its folds turned: paper never folds quite in its score."""
    turned = {
        score.at: score.at.with_error(f"{path}, fold {score.name}", hand.fold)
        for score in run.scores
        if angles.get(score.name, "flat") != "flat"
    }
    panels = tuple(
        evolve(panel, start=turned.get(panel.start, panel.start), end=turned.get(panel.end, panel.end))
        for panel in run.panels
    )
    scores = tuple(evolve(score, at=turned.get(score.at, score.at)) for score in run.scores)
    return evolve(run, panels=panels, scores=scores)


def placed_along(path: str, axis: str, hand: HandErrors) -> Length:
    """How far off the place a join gives lies along an axis: nought, give or take the hand's error."""
    return NO_LENGTH.with_error(f"{path}, placed along the {axis}", hand.place)


def skewed(path: str, held: Length, hand: HandErrors) -> Quantity:
    """How far a join turns what it places, as so much to one side for so much along: nought, give or take. Each end of
    the length `held` may be off by the hand's error, and the two ends opposite ways (2 e / length)."""
    return (NO_LENGTH / held).with_error(f"{path}, set askew", hand.place * 2 / held.exact)


def hand_of(work: Work) -> HandErrors:
    """The hand of a run of working out."""
    return work.hand if work.hand is not None else NO_ERRORS
