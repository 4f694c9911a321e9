"""The first chapter: what it is, how large and how heavy it gets, and what can be measured on the way."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph, Picture, Pictures, Said
from pastedown.outputs.booklet.say import said, sized
from pastedown.outputs.booklet.step_picture import booklet_picture
from pastedown.outputs.bought_words import weighed
from pastedown.outputs.in_words import counted, sentence
from pastedown.outputs.pictures.whole_scenes import first_scenes
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.two_systems import on_ruler_in_two_systems
from pastedown.plan.plan import Plan
from pastedown.quantity.dimension import MASS
from pastedown.quantity.quantity import Quantity

_BOARD = "board"
# Made up, and one of its own poses: both stand on the first sheet that is printed.
_VIEWS = 2
_HIGHEST = 48.0


def what_you_make(plan: Plan) -> tuple[Block, ...]:
    """The maker's own words first."""
    return tuple(_blocks(plan))


def _blocks(plan: Plan) -> Iterator[Block]:
    own_words = [part.doc for part in plan.parts if not part.path and part.doc]
    for text in own_words:
        yield Paragraph((sentence(text),))
    if plan.doc:
        yield Paragraph(said(plan.doc, plan.ruler))
    yield Listing(tuple(_at_a_glance(plan)))
    readings = tuple(_readings(plan))
    if readings:
        yield Paragraph(("Sizes that you can measure while you build:",))
        yield Listing(readings)
    views = tuple(_views(plan))
    if views:
        yield Pictures(views)


def _at_a_glance(plan: Plan) -> Iterator[Said]:
    pieces, steps = sum(piece.count for piece in plan.pieces), len(plan.steps)
    yield (f"{counted(pieces, 'piece')} of {counted(len(plan.materials), 'material')}, {counted(steps, 'step')}.",)
    yield from _finished_size(plan)
    yield from _weight(plan)


def _finished_size(plan: Plan) -> Iterator[Said]:
    """Nothing is larger than the largest board: it sets the size of what lies shut on the table."""
    boards = [piece for piece in plan.pieces if piece.stock_kind == _BOARD]
    if boards:
        largest = max(boards, key=lambda piece: (piece.height * piece.width).value)
        height, width = sized(largest.height, plan.ruler), sized(largest.width, plan.ruler)
        yield ("Finished size, by its largest board: ", *height, " high and ", *width, " wide when it is shut.")


def _weight(plan: Plan) -> Iterator[Said]:
    masses = [each.mass for each in plan.materials if each.mass is not None and each.mass.dimension == MASS]
    if not masses:
        yield ("Weight: not known, since no stock states how heavy it is.",)
        return
    unknown = [each.stock for each in plan.materials if each.mass is None]
    total: Quantity = sum(masses[1:], masses[0])
    rest = f", without {', '.join(unknown)}, whose weight is not known" if unknown else ""
    yield (f"Weight of the pieces: {weighed(total)}{rest}.",)


def _views(plan: Plan) -> Iterator[Picture]:
    """The whole as it will be, with all that it carries."""
    for name, words, scene in first_scenes(workshop_of(plan), _VIEWS):
        yield Picture(f"view-{name}", booklet_picture(scene, _HIGHEST), scene.words, (sentence(words), *scene.notes))


def _readings(plan: Plan) -> Iterator[Said]:
    for step in plan.steps:
        for reading in step.readings:
            nominal = on_ruler_in_two_systems(reading.nominal, plan.ruler)
            yield (f"Step {step.number}, ", *said(step.title, plan.ruler), ": ", nominal, ".")
