"""What a booklet is made of, before any file format: chapters of headings, paragraphs, tables, pictures and steps."""

from __future__ import annotations

from attrs import frozen

from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.two_systems import TwoSystems

# Running text: words, and values that can be read in either system of units.
Said = tuple[str | TwoSystems, ...]


@frozen
class Paragraph:
    """`role` is "" for plain text, or the word that stands before it: "Caution", "Tip", "Reading"."""

    text: Said
    role: str = ""


@frozen
class Listing:
    """Entries of a list without numbers."""

    entries: tuple[Said, ...]


@frozen
class Table:
    """`title` says what it shows. The first column names the row; `to_the_right` are the columns of measures."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Said, ...], ...]
    to_the_right: frozenset[int] = frozenset()


@frozen
class Picture:
    """A drawing. `name` is its own in the booklet; pictures of one name are one drawing. `words` tell it to who cannot
    see it; `caption` is read below it, in sentences."""

    name: str
    sheet: Sheet
    words: str
    caption: tuple[str, ...] = ()


@frozen
class Pictures:
    """Drawings that belong together, side by side where there is room."""

    pictures: tuple[Picture, ...]


@frozen
class Section:
    """A part of a chapter under a heading of its own."""

    title: Said
    blocks: tuple[Block, ...]


@frozen
class StepSection:
    """A step, which can be ticked off."""

    number: int
    title: Said
    blocks: tuple[Block, ...]


@frozen
class Word:
    """A word of the glossary and what it means."""

    word: str
    meaning: Said


@frozen
class Glossary:
    """Words in the order of the alphabet."""

    words: tuple[Word, ...]


Block = Paragraph | Listing | Table | Pictures | Section | StepSection | Glossary


@frozen
class Chapter:
    """`name` is a short handle, safe in a link."""

    name: str
    title: str
    blocks: tuple[Block, ...]


@frozen
class Booklet:
    """`stamp` is the release word and the fingerprint of the design, which stands on every sheet."""

    title: str
    stamp: str
    chapters: tuple[Chapter, ...]


def plain_said(text: Said) -> str:
    """The text in the maker's own units."""
    return "".join(part.text if isinstance(part, TwoSystems) else part for part in text)
