"""Words of the trade: those that the booklet uses, and what the parts of the design are.

Meanings are the project's own words for general trade usage.
"""

import re
from collections.abc import Iterable, Iterator

from pastedown.outputs.booklet.blocks import (
    Block,
    Chapter,
    Glossary,
    Listing,
    Paragraph,
    Pictures,
    Section,
    StepSection,
    Table,
    Word,
    plain_said,
)
from pastedown.outputs.in_words import sentence
from pastedown.plan.plan import PartOfAlbum, Plan
from pastedown.plan.words import spoken

# Each with the pattern by which it is found.
_WORDS: dict[str, tuple[str, str]] = {
    "askew": (r"askew", "Not at a right angle: one end is further out than the other."),
    "back": (r"back", "The side of a piece that is turned away when its face lies up."),
    "backing": (r"backing", "The paper that double-sided tape lies on until it is peeled off."),
    "bonded zone": (r"bonded zones?", "A place where two faces stick to one another."),
    "bone folder": (r"bone folder", "A smooth flat tool for pressing scores into paper and folds flat."),
    "burnish": (r"burnish\w*", "To rub down hard with something smooth."),
    "crease": (r"creas\w+", "To press a fold into paper where it already lies."),
    "dummy": (r"dummy", "Anything as thick as what will be there later, held in its place for a trial."),
    "face": (r"face", "The side of a piece that is named as lying up; folds are told as they look from it."),
    "fence": (r"fence", "The stop on a trimmer that the sheet is pushed against; it says how wide a strip comes off."),
    "fore edge": (r"fore edge", "The side across from the one where the album is bound."),
    "grain": (r"grain", "The direction in which the fibres of paper or board lie. Folds and boards are best along it."),
    "gsm": (r"gsm", "Grams in a square metre: how heavy a paper is."),
    "guillotine": (r"guillotine", "A machine whose long blade goes straight down through a whole stack."),
    "head": (r"head", "The upper end of a piece, and of the album."),
    "level": (r"level", "Of a cut: from side to side, as the sheet lies in its drawing."),
    "mitre": (r"mitre\w*", "A corner cut off slantwise."),
    "mountain": (
        r"mountains?",
        "A fold whose panels go away from you as you look at the face: the face comes outside.",
    ),
    "offcut": (r"offcuts?", "What is left over of a sheet, large enough to be kept."),
    "panel": (r"panels?", "The stretch of a piece between two folds, or between a fold and an edge."),
    "score": (r"scor\w+", "A line pressed into paper so that it folds there; to press one."),
    "setting": (r"settings?", "The fence at one place: all that is cut so is cut before it is moved."),
    "square": (r"square", "At a right angle."),
    "stop": (r"left stop", "The edge of a scoring board that a piece is pushed against."),
    "stroke": (r"strokes?", "The blade going through once."),
    "tail": (r"tail", "The lower end of a piece, and of the album."),
    "template": (r"templates?", "A drawing at true size that is laid on the paper to cut by."),
    "trimmer": (r"trimmer", "A board with a fence and a guided blade for straight cuts."),
    "upright": (r"upright", "Of a cut: from the bottom of the sheet to its top, as it lies in its drawing."),
    "valley": (
        r"valleys?",
        "A fold whose panels come towards you as you look at the face: the face comes inside.",
    ),
}


def glossary_of(chapters: Iterable[Chapter], plan: Plan) -> tuple[Block, ...]:
    """The words used, and each kind of part with what its component says of itself."""
    text = "\n".join(words for chapter in chapters for block in chapter.blocks for words in _texts(block))
    used = {
        word: meaning for word, (pattern, meaning) in _WORDS.items()
        if re.search(rf"\b{pattern}\b", text, re.IGNORECASE)
    }  # fmt: skip
    parts = {spoken(part.component): sentence(part.doc) for part in plan.parts if part.doc and _has_pieces(part, plan)}
    words = sorted({**parts, **used}.items(), key=lambda word: (word[0].casefold(), word[0]))
    return (Glossary(tuple(Word(word, (meaning,)) for word, meaning in words)),)


def _has_pieces(part: PartOfAlbum, plan: Plan) -> bool:
    """Rules are parts too, but there is nothing of them to see."""
    return bool(part.path) and any(path.startswith(f"{part.path}.") for piece in plan.pieces for path in piece.paths)


def _texts(block: Block) -> Iterator[str]:
    match block:
        case Paragraph():
            yield plain_said(block.text)
        case Listing():
            yield from map(plain_said, block.entries)
        case Table():
            yield from (block.title, *block.columns, *(plain_said(cell) for row in block.rows for cell in row))
        case Section() | StepSection():
            yield plain_said(block.title)
            for inner in block.blocks:
                yield from _texts(inner)
        case Glossary() | Pictures():
            return
