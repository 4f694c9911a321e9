"""Thick folding, exactly, for folds that are flat, square or shut.

Seen along the folds, every panel is a plate of its stock's caliper. A fold turns about the score line as it lies on
the valley side: on the face for a valley, on the back for a mountain. Two panels shut onto one another are held apart
by what bonds them. From this alone a closed standing fold takes two calipers and one layer of adhesive more than its
flat panels say (FLD-20 of the published strip geometry at a neutral line on the inner surface).

Coordinates of the section: x along the first panel from its first edge, y out of its face.
"""

from attrs import frozen

from pastedown.geometry.piece import Run
from pastedown.quantity.quantity import NO_LENGTH, Length

Direction = tuple[int, int]


@frozen
class SectionPoint:
    """x along the first panel as it lies, y out of its face."""

    x: Length
    y: Length

    def moved(self, direction: Direction, by: Length) -> "SectionPoint":
        return SectionPoint(self.x + by * direction[0], self.y + by * direction[1])


@frozen
class Section:
    """Where the lines of a run come to lie: the run's first edge, every fold by name, the run's last edge. `lying`
    says which way each panel runs."""

    first: SectionPoint
    folds: dict[str, SectionPoint]
    last: SectionPoint
    lying: dict[str, Direction]


def fold_section(run: Run, angles: dict[str, str], caliper: Length, gaps: dict[str, Length]) -> Section:
    """The section of a run with its folds turned.

    `angles` gives flat, square or shut by fold name (flat where it is silent), `gaps` how far the two panels of a
    shut fold are held apart. The point of a fold is the line it turns about.
    """
    along: Direction = (1, 0)
    out: Direction = (0, 1)
    at = SectionPoint(NO_LENGTH, NO_LENGTH)
    first = at
    folds: dict[str, SectionPoint] = {}
    lying: dict[str, Direction] = {}
    scores = {score.at.value: score for score in run.scores}
    for panel in run.panels:
        lying[panel.name] = along
        at = at.moved(along, panel.size)
        score = scores.get(panel.end.value)
        if score is None or panel is run.panels[-1]:
            continue
        valley = score.kind == "valley"
        turning = at if valley else at.moved(out, -caliper)
        folds[score.name] = turning
        angle = angles.get(score.name, "flat")
        if angle == "flat":
            continue
        towards = out if valley else _turned_round(out)
        if angle == "square":
            new_along, new_out = towards, (_turned_round(along) if valley else along)
        else:
            new_along, new_out = _turned_round(along), _turned_round(out)
        start = turning if valley else turning.moved(new_out, caliper)
        if angle == "shut":
            start = start.moved(towards, gaps.get(score.name, NO_LENGTH))
        at, along, out = start, new_along, new_out
    return Section(first, folds, at, lying)


def _turned_round(direction: Direction) -> Direction:
    return (-direction[0], -direction[1])
