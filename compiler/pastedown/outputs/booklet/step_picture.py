"""The one place where the picture of a step is asked for: in three dimensions where there is something to show.

A step without such a picture shows the flat pieces it is about: before it is scored for cutting, with its lines for
scoring, folding and creasing, and which way it lies for all else.
"""

from collections.abc import Iterator

from attrs import evolve

from pastedown.outputs.booklet.blocks import Picture, Pictures
from pastedown.outputs.drawings.flat_drawing import View, flat_drawing
from pastedown.outputs.drawings.flat_words import flat_words
from pastedown.outputs.pictures.kinds import IN_LEGEND, IN_SENTENCES, KINDS
from pastedown.outputs.pictures.picture import picture_of
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.template.drawing import Sheet
from pastedown.plan.plan import BuildStep, CutPiece, Plan

_VIEWS = {"cut": View.SIZE, "score": View.LINES, "fold": View.LINES}
# In millimetres: two steps with their texts find room on most sheets then. A choice.
_HIGHEST = 62.0
# More drawings side by side show nothing any more: a choice, no source.
_MOST = 6


def _caption(scene: Scene, sheet: Sheet) -> Iterator[str]:
    """The notes of the scene, then what the lines that are to be seen in it stand for."""
    yield from scene.notes
    drawn = {stroke.part for stroke in sheet.strokes}
    for kind in IN_LEGEND:
        if kind in IN_SENTENCES and KINDS[kind].name in drawn:
            yield IN_SENTENCES[kind]


def booklet_picture(scene: Scene, highest: float = _HIGHEST) -> Sheet:
    """The drawing alone: its heading stands right above it, and what is said of it right below in letters that are as
    large as any other on the screen of a telephone."""
    return picture_of(evolve(scene, title="", ending="", notes=()), legend=False, highest=highest)


class StepPictures:
    """The pictures of a plan's steps. A piece is drawn once a view, however many steps show it."""

    def __init__(self, plan: Plan) -> None:
        self._ruler = plan.ruler
        self._scenes = step_pictures(plan).scenes
        self._pieces = {piece.id: piece for piece in plan.pieces}
        self._drawn: dict[tuple[str, View], Picture] = {}

    def of(self, step: BuildStep) -> Pictures | None:
        """What the step shows; None where it is about no piece, or about so many that none is meant."""
        scene = self._scenes.get(step.number)
        if scene is not None and scene.plates:
            sheet = booklet_picture(scene)
            return Pictures((Picture(f"step-{step.number}", sheet, scene.words, tuple(_caption(scene, sheet))),))
        pieces = [self._pieces[name] for name in step.pieces if name in self._pieces]
        if not 0 < len(pieces) <= _MOST:
            return None
        view = _VIEWS.get(step.kind, View.PLAIN)
        return Pictures(tuple(self._flat(piece, view) for piece in pieces))

    def _flat(self, piece: CutPiece, view: View) -> Picture:
        key = piece.id, view
        if key not in self._drawn:
            sheet = flat_drawing(piece, self._ruler, view)
            self._drawn[key] = Picture(f"{piece.id}-{view.name.lower()}", sheet, flat_words(piece, self._ruler, view))
        return self._drawn[key]
