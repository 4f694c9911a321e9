"""The whole booklet on one screen: which chapters it has, and from what they are made."""

from pastedown.outputs.booklet.blocks import Booklet, Chapter
from pastedown.outputs.booklet.cutting_chapter import cutting_chapter
from pastedown.outputs.booklet.glossary import glossary_of
from pastedown.outputs.booklet.materials_chapter import materials_chapter
from pastedown.outputs.booklet.meant_chapter import meant_chapter
from pastedown.outputs.booklet.score_chapter import score_chapter
from pastedown.outputs.booklet.sheets_chapter import sheets_chapter
from pastedown.outputs.booklet.stamp import stamp_of
from pastedown.outputs.booklet.steps_chapter import steps_chapter
from pastedown.outputs.booklet.thickness_chapter import thickness_chapter
from pastedown.outputs.booklet.what_you_make import what_you_make
from pastedown.plan.plan import Plan


def booklet_of(plan: Plan) -> Booklet:
    """The booklet of one design."""
    chapters: tuple[Chapter, ...] = (
        Chapter("make", "What you will make", what_you_make(plan)),
        Chapter("materials", "Materials and tools", materials_chapter(plan)),
        Chapter("pieces", "Pieces to cut", cutting_chapter(plan)),
        Chapter("sheets", "Cutting the sheets", sheets_chapter(plan)),
        Chapter("scores", "Score charts", score_chapter(plan)),
        *_thickness(plan),
        Chapter("steps", "Steps", steps_chapter(plan)),
    )
    meant = meant_chapter(plan)
    if meant:
        chapters = (*chapters, Chapter("meant", "What is meant so", meant))
    words = glossary_of(chapters, plan)
    return Booklet(plan.title, stamp_of(plan), (*chapters, Chapter("words", "Words of the trade", words)))


def _thickness(plan: Plan) -> tuple[Chapter, ...]:
    """Nothing is told where everything is as thick everywhere and nothing is shut."""
    blocks = thickness_chapter(plan)
    return (Chapter("thickness", "How thick it gets", blocks),) if blocks else ()
