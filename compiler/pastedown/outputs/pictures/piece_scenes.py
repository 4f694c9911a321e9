"""Pictures of steps that are about one flat piece: cutting, scoring, folding, and putting in what nothing holds."""

from __future__ import annotations

from pastedown.outputs.in_words import counted
from pastedown.outputs.pictures.edge_names import edge_names, grain_arrow, short_name
from pastedown.outputs.pictures.fold_ways import FOLDED_PART, ways_of_folds
from pastedown.outputs.pictures.frame import dot
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.scene import Dimension, Scene
from pastedown.outputs.pictures.view import OBLIQUE, TAIL_TO_THE_LEFT, View
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.outputs.two_systems import in_two_systems
from pastedown.plan.plan import BuildStep, CutPiece
from pastedown.plan.space import SpatialPiece, Turning

_FOLDS = frozenset(("valley", "mountain"))
_MARKS = frozenset(("mark",))
FOLDS_AND_MARKS = _FOLDS | _MARKS
_SHUT = 180.0
_PARALLEL = 1 - 1e-9
_PART_OF_THE_WAY = "Every fold is shown part of the way."
_NO_CORNERS = "The corners between two folds are left out."


def flat_scene(workshop: Workshop, step: BuildStep, title: str) -> Scene | None:
    """A piece as it is cut or scored, from its face; from its back where that is what is drawn on."""
    piece = first_piece(workshop, step)
    if piece is None:
        return None
    cut = workshop.piece(piece.path)
    scored = step.kind == "score"
    on_back = not scored and _is_drawn_on_its_back(cut)
    plates = workshop.plates(workshop.posed(State({}, {}), [piece.path] if on_back else []), [piece.path])
    how = "with its lines" if scored else "cut to size, its back up, with the lines drawn on it" if on_back else ""
    view = _view(cut) if scored else OBLIQUE
    return Scene(
        title=title,
        plates=tuple(plates),
        words=words_of_piece(cut, step, how or "cut to size"),
        dimensions=_sizes(workshop, cut, plates, view, on_back),
        edges=edge_names(cut, plates, view, on_back),
        grain=grain_arrow(cut, plates),
        notes=notes_of_piece(cut, step, view, on_back),
        view=view,
        lines=FOLDS_AND_MARKS if scored else _MARKS,
    )


def _is_drawn_on_its_back(cut: CutPiece) -> bool:
    sides = {mark.drawn_on for chart in cut.bend_charts for mark in chart.marks}
    return sides == {"back"}


def folded_scene(workshop: Workshop, step: BuildStep, title: str) -> Scene | None:
    """A piece while it is folded: every fold part of the way."""
    piece = first_piece(workshop, step)
    if piece is None:
        return None
    whole = _whole_angles(workshop, piece)
    bent = {key: angle * FOLDED_PART for key, angle in whole.items()}
    posed = workshop.posed(State({}, bent))
    plates = [
        plate for plate in workshop.plates(posed, [piece.path]) if not _is_turned_both_ways(plate, piece, posed)
    ]
    left_out = len(posed.frames[piece.path]) - len(plates)
    cut = workshop.piece(piece.path)
    view = _view(cut)
    return Scene(
        title=title,
        plates=tuple(plates),
        words=words_of_piece(cut, step, f"with {counted(len(whole), 'fold')}, each turned part of the way"),
        moves=ways_of_folds(workshop, piece, whole, plates, view),
        some_behind=True,
        view=view,
        notes=(*notes_of_piece(cut, step, view), _PART_OF_THE_WAY, *((_NO_CORNERS,) if left_out else ())),
        lines=FOLDS_AND_MARKS,
        lines_on=frozenset((piece.path,)),
    )


def _is_turned_both_ways(plate: Plate, piece: SpatialPiece, posed: Posed) -> bool:
    """Whether a field hangs at a corner on two folds that are both part of the way: there paper buckles, and where it
    lies nobody knows."""
    frames = posed.frames[piece.path]
    beside = (frames[plate.number[0], piece.base[1]], frames[piece.base[0], plate.number[1]])
    return all(abs(dot(plate.frame.z, frame.z)) < _PARALLEL for frame in beside)


def first_piece(workshop: Workshop, step: BuildStep) -> SpatialPiece | None:
    return next((workshop.pieces[path] for path in step.refers if path in workshop.pieces), None)


def words_of_piece(cut: CutPiece, step: BuildStep, how: str) -> str:
    return f"Picture of step {step.number}: the {cut.name}, {how}, seen from above."


def _view(cut: CutPiece) -> View:
    """As the piece lies on the scoring board: the edge that goes to the left stop is on the left. Where scores cross it
    both ways its head is away from you."""
    axes = {chart.axis for chart in cut.score_charts}
    return TAIL_TO_THE_LEFT if axes == {"height"} else OBLIQUE


def notes_of_piece(
    cut: CutPiece, step: BuildStep, view: View = OBLIQUE, on_back: bool = False
) -> tuple[str, ...]:
    face = f"Its face ({cut.face_up}) is up" if cut.face_up and cut.face_up != "face" else "Its face is up"
    face = "Its back is up" if on_back else face
    times = f" {counted(step.times, 'piece')} alike." if step.times > 1 else ""
    lies = "its head away from you" if view is OBLIQUE else "its tail to the left"
    return (f"{face}, {lies}.{times}",)


def _sizes(
    workshop: Workshop, cut: CutPiece, plates: list[Plate], view: View, on_back: bool
) -> tuple[Dimension, ...]:
    """One size along the edge that is nearest to you, one along the edge on the left."""
    if not plates:
        return ()
    frame, ruler = plates[0].frame, workshop.plan.ruler
    width, height = float(cut.width.millimetres), float(cut.height.millimetres)
    left, right = (width, 0.0) if on_back else (0.0, width)
    tail, head, far = frame.point(left, 0.0, 0.0), frame.point(left, height, 0.0), frame.point(right, 0.0, 0.0)
    across, up = in_two_systems(cut.width, ruler), in_two_systems(cut.height, ruler)
    if view is OBLIQUE:
        on_left = short_name(cut.right if on_back else cut.left)
        return Dimension(tail, far, across, True, edge="tail"), Dimension(tail, head, up, False, edge=on_left)
    nearest = Dimension(far, frame.point(right, height, 0.0), up, True, edge=short_name(cut.right))
    return nearest, Dimension(far, tail, across, False, edge="tail")


def _whole_angles(workshop: Workshop, piece: SpatialPiece) -> dict[Turning, float]:
    """The angle of every fold when all is made up; of one that lies flat then, as if it were shut."""
    made_up = workshop.plan.space.made_up.angles
    return {
        (piece.path, line.name): float(made_up.get((piece.path, line.name), 0)) or _SHUT
        for strips in (piece.columns, piece.rows)
        for line in strips.lines
        if line.kind in _FOLDS
    }
