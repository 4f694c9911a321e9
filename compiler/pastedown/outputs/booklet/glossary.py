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
    "back": (r"back", "The side of a piece that is turned away when its face lies up."),
    "bone folder": (r"bone folder", "A smooth flat tool for pressing scores into paper and folds flat."),
    "burnish": (r"burnish\w*", "To rub down hard with something smooth."),
    "crease": (r"creas\w+", "To press a fold into paper where it already lies."),
    "face": (r"face", "The side of a piece that is named as lying up; folds are told as they look from it."),
    "fore edge": (r"fore edge", "The side across from the one where the album is bound."),
    "grain": (r"grain", "The direction in which the fibres of paper or board lie. Folds and boards are best along it."),
    "gsm": (r"gsm", "Grams in a square metre: how heavy a paper is."),
    "head": (r"head", "The upper end of a piece, and of the album."),
    "mitre": (r"mitre\w*", "A corner cut off slantwise."),
    "mountain": (r"mountains?", "A fold that rises towards you, seen from the face."),
    "panel": (r"panels?", "The stretch of a piece between two folds, or between a fold and an edge."),
    "score": (r"scor\w+", "A line pressed into paper so that it folds there; to press one."),
    "square": (r"square", "At a right angle."),
    "tail": (r"tail", "The lower end of a piece, and of the album."),
    "template": (r"templates?", "A drawing at true size that is laid on the paper to cut by."),
    "valley": (r"valleys?", "A fold that sinks away from you, seen from the face."),
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
