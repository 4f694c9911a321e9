"""Parts that turn on panels that bend, laid flat and seen from above: widths of what is rigid, and gaps between."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from pastedown.outputs.in_words import measure
from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.scene import Dimension, Scene
from pastedown.outputs.pictures.view import FROM_ABOVE
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import Length, mm

_RIGID = "board"
_LEAST_GAP = 0.01
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_EXACT = 10**6


def flat_part_scenes(workshop: Workshop) -> Iterator[tuple[str, Scene]]:
    """A view of each part with panels that bend, with the name of its file."""
    parts = dict.fromkeys(
        piece.part
        for piece in workshop.plan.space.pieces
        if any(strip.bends for strips in (piece.columns, piece.rows) for strip in strips.strips)
    )
    for number, part in enumerate(parts, 1):
        scene = _scene(workshop, part)
        if scene is not None:
            yield f"flat-{number}", scene


def _scene(workshop: Workshop, part: str) -> Scene | None:
    own = [piece.path for piece in workshop.plan.space.pieces if piece.part == part]
    made = {
        path: number
        for path, number in workshop.progress.made_at.items()
        if all(face.piece in own for pair in workshop.contacts[path].pairs for face in pair)
    }
    angles = {key: float(angle) for key, angle in workshop.plan.space.made_up.angles.items()}
    posed = workshop.posed(State(made, angles))
    root = max(dict.fromkeys(posed.roots[path] for path in own), key=lambda one: len(posed.together(one)))
    posed = workshop.posed(State(made, angles), [root])
    plates = workshop.plates(posed, [path for path in own if posed.roots[path] == root])
    boards = sorted(_extents(plates), key=lambda one: one[0])
    if len(boards) < 2 or len(boards) * 2 > len(_LETTERS) or any(one[1] > other[0] for one, other in pairwise(boards)):
        return None
    dimensions, notes = _measured(workshop, posed, boards, plates)
    name = spoken(part.rpartition(".")[2]) or "the whole"
    return Scene(
        title=f"{workshop.plan.title}: {name} laid flat",
        ending=f": {name} laid flat",
        plates=tuple(plates),
        words=f"The {name} laid flat, seen from above with its inside up. {' '.join(notes)}",
        dimensions=tuple(dimensions),
        notes=("Seen from above, inside up.", *notes),
        view=FROM_ABOVE,
    )


_Extent = tuple[float, float, str]


def _extents(plates: list[Plate]) -> Iterator[_Extent]:
    """From where to where each rigid plate reaches from left to right."""
    for plate in plates:
        if plate.piece.stock_kind == _RIGID:
            xs = [corner[0] for corner in plate.corners()]
            yield min(xs), max(xs), plate.path


def _measured(
    workshop: Workshop, posed: Posed, boards: list[_Extent], plates: list[Plate]
) -> tuple[list[Dimension], list[str]]:
    """What is measured along the tail, each with a letter, and what the letters stand for."""
    ruler = workshop.plan.ruler
    tail = min(corner[1] for plate in plates for corner in plate.corners())
    dimensions: list[Dimension] = []
    told: list[str] = []
    for place, (left, right, path) in enumerate(boards):
        letter = _LETTERS[len(dimensions)]
        dimensions.append(_level(left, right, tail, letter, 0))
        told.append(f"{letter} {workshop.name(path)}, {measure(workshop.piece(path).width, ruler)}")
        if place + 1 < len(boards) and boards[place + 1][0] - right > _LEAST_GAP:
            letter = _LETTERS[len(dimensions)]
            end = boards[place + 1][0]
            dimensions.append(_level(right, end, tail, letter, 0))
            told.append(f"{letter} gap, {measure(_length(end - right), ruler)}")
    first, last = boards[0][0], max(board[1] for board in boards)
    dimensions.append(_level(first, last, tail, measure(_length(last - first), ruler), 1))
    return dimensions, [f"{'; '.join(told)}."]


def _level(left: float, right: float, tail: float, text: str, row: int) -> Dimension:
    start: Vector = (left, tail, 0.0)
    return Dimension(start, (right, tail, 0.0), text, True, row)


def _length(value: float) -> Length:
    """Sums of exact lengths come back from decimals exact to a millionth of a millimetre."""
    return mm(Fraction(round(value * _EXACT), _EXACT))
