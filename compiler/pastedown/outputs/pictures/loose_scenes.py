"""Pictures of putting in what nothing holds: half way into the place that takes it, or beside what it belongs to."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve, frozen

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.piece_scenes import FOLDS_AND_MARKS, first_piece, notes_of_piece, words_of_piece
from pastedown.outputs.pictures.places import moved_by
from pastedown.outputs.pictures.places_between import place_for
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.seats import pushed_in
from pastedown.outputs.pictures.workshop import MOST_PLATES, Workshop
from pastedown.plan.plan import BuildStep
from pastedown.plan.space import SpatialPiece
from pastedown.plan.words import is_of_part, read_inside_out

# What is put in lies so far beside what it belongs to: a part of that one's width, or in millimetres.
_APART, _LEAST_APART = 0.12, 10.0
_MADE = "what is made so far"


def loose_scene(workshop: Workshop, step: BuildStep, title: str, turned_over: Sequence[str]) -> Scene | None:
    """What is put in slides into the largest place that takes it, in the part that it belongs to; where there is none,
    it lies beside that, in one scale with it. Nothing says where in it goes."""
    piece = first_piece(workshop, step)
    if piece is None:
        return None
    posed = workshop.posed(workshop.progress.before(step.number), turned_over)
    home = _home(workshop, posed, piece)
    around = workshop.plates(posed, home.together)
    if len(around) > MOST_PLATES:
        home, around = _Home((), (), ""), []
    laid = workshop.plates(posed, [piece.path])
    cut = workshop.piece(piece.path)
    called = home.where if home.where != _MADE else workshop.name(home.own[0]) if home.own else ""
    names = ((piece.path, workshop.name(piece.path)), *((path, called) for path in home.own[:1]))
    goes = f"It goes into {home.where}; nothing holds it there." if home.where not in ("", _MADE) else ""
    between = place_for(laid[0], around, home.own) if len(laid) == 1 and goes else None
    if between is not None:
        return Scene(
            title=title,
            plates=(*around, moved_by(between.laid, between.way)),
            words=words_of_piece(cut, step, f"half way into {home.where}; an arrow shows how it goes on"),
            new=frozenset((len(around),)),
            inside=(between.outline,),
            moves=(pushed_in(between.outline, between.way),),
            names=(names[0], (between.on, called)),
            notes=(goes, f"Drawn half way into the largest place in {home.where} that takes it."),
            lines=FOLDS_AND_MARKS,
        )
    plates = _beside(around, laid)
    return Scene(
        title=title,
        plates=(*around, *plates),
        words=words_of_piece(cut, step, f"that nothing holds, beside {home.where}" if around else "that nothing holds"),
        new=frozenset(range(len(around), len(around) + len(plates))),
        names=names if around else (),
        notes=(*((goes,) if goes and around else ()), *notes_of_piece(cut, step)),
        lines=FOLDS_AND_MARKS,
    )


@frozen
class _Home:
    """What a loose piece belongs to: all pieces that hold `together`, those of the part itself, and what that is
    called."""

    together: tuple[str, ...]
    own: tuple[str, ...]
    where: str


def _home(workshop: Workshop, posed: Posed, piece: SpatialPiece) -> _Home:
    """All that holds together with the innermost part around a loose piece that has more in it, and what that is
    called; of the design itself the largest thing that was made so far."""
    part = piece.part
    while True:
        own = [
            path
            for path, other in workshop.pieces.items()
            if not other.loose and posed.roots[path] != posed.roots[piece.path] and is_of_part(path, part)
        ]
        if own or not part:
            break
        part = part.rpartition(".")[0]
    if not own:
        return _Home((), (), "")
    root = max(dict.fromkeys(posed.roots[path] for path in own), key=lambda one: len(posed.together(one)))
    of_part = tuple(path for path in own if posed.roots[path] == root)
    return _Home(tuple(posed.together(root)), of_part, read_inside_out(part) if part else _MADE)


def _beside(around: list[Plate], plates: list[Plate]) -> list[Plate]:
    """The plates on the table to the right of what lies there, with their tail in one line with it."""
    if not around or not plates:
        return plates
    low, high = _reach(around)
    own_low, _ = _reach(plates)
    apart = max((high[0] - low[0]) * _APART, _LEAST_APART)
    by: Vector = (high[0] + apart - own_low[0], low[1] - own_low[1], low[2] - own_low[2])
    return [evolve(plate, frame=plate.frame.moved(by)) for plate in plates]


def _reach(plates: list[Plate]) -> tuple[Vector, Vector]:
    corners = [corner for plate in plates for corner in plate.corners()]
    low, high = ((most(c[0] for c in corners), most(c[1] for c in corners), most(c[2] for c in corners))
                 for most in (min, max))
    return low, high


