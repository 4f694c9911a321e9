"""The booklet set on sheets of printer paper."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import pairwise, takewhile, zip_longest

from attrs import evolve

from pastedown.outputs.booklet.blocks import (
    Block,
    Booklet,
    Chapter,
    Glossary,
    Listing,
    Paragraph,
    Picture,
    Pictures,
    Said,
    Section,
    StepSection,
    Table,
    plain_said,
)
from pastedown.outputs.booklet.drawn_between import drawn_between
from pastedown.outputs.booklet.leaf import Foot, Leaves
from pastedown.outputs.booklet.typeset_table import set_table
from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.template.line_kind import CUT, SLIT
from pastedown.outputs.template.paper import Paper
from pastedown.outputs.template.wrap import lines_of

_BODY, _TITLE, _CHAPTER, _SECTION, _CAPTION = 3.3, 8.0, 5.6, 4.0, 2.9
_LEADING = 1.4
# A heading is not left alone at the foot of a sheet: as many millimetres go with it.
_WITH_HEADING = 24.0
_INDENT = 5.0
# So short a list is not divided, nor parted from the words that lead to it.
_SHORT_LISTING = 8
_ABOVE_SECTION = 4.0
_BETWEEN_PICTURES, _ABOVE_PICTURE, _BELOW_PICTURE = 4.0, 2.5, 2.0
_BARRED = ("Caution", "Reading")


def sheets_of_booklet(booklet: Booklet, paper: Paper) -> Iterator[Sheet]:
    """All sheets in order, each with title, number and stamp at its foot."""
    leaves = Leaves(paper, Foot(booklet.title, booklet.stamp))
    _lines(leaves, booklet.title, _TITLE)
    leaves.skip(2)
    _lines(leaves, f"Release word and fingerprint: {booklet.stamp}", _BODY)
    for chapter in booklet.chapters:
        leaves.skip(8)
        _keep_together(leaves, partial(_opening, chapter=chapter))
        _heading(leaves, chapter.title, _CHAPTER)
        leaves.rule(CUT, (0, 0), (leaves.room, 0))
        leaves.skip(2)
        _all(leaves, chapter.blocks)
    yield from leaves.sheets()


def _set(leaves: Leaves, block: Block) -> None:
    match block:
        case Paragraph():
            _paragraph(leaves, block)
        case Listing():
            for entry in block.entries:
                _entry(leaves, entry)
        case Table():
            _heading(leaves, block.title, _BODY)
            set_table(leaves, block)
        case Pictures():
            for row in _rows(block, leaves.room):
                _row_of_pictures(leaves, row)
        case Section():
            leaves.skip(_ABOVE_SECTION)
            _together(leaves, plain_said(block.title), block.blocks)
        case StepSection():
            leaves.skip(5)
            _together(leaves, f"{block.number}. {plain_said(block.title)}", block.blocks)
        case Glossary():
            for word in block.words:
                _entry(leaves, (f"{word.word}: ", *word.meaning))


def _together(leaves: Leaves, title: str, blocks: tuple[Block, ...]) -> None:
    """A section that is longer than a sheet has at least its first picture or table below its heading."""

    _keep_together(leaves, partial(_section, title=title, blocks=_beginning(blocks)))
    _keep_together(leaves, partial(_section, title=title, blocks=blocks))
    _section(leaves, title, blocks)


def _section(leaves: Leaves, title: str, blocks: tuple[Block, ...]) -> None:
    _heading(leaves, title, _SECTION)
    _all(leaves, blocks)


def _opening(leaves: Leaves, chapter: Chapter) -> None:
    _heading(leaves, chapter.title, _CHAPTER)
    leaves.skip(2)
    _all(leaves, _beginning(chapter.blocks))


def _beginning(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """The first paragraphs and what they lead to."""
    words = sum(1 for _ in takewhile(lambda block: isinstance(block, Paragraph), blocks))
    return blocks[: words + 1]


def _keep_together(leaves: Leaves, set_it: Callable[[Leaves], None]) -> None:
    """What is read while the hands are busy begins on a new sheet rather than be divided, if it fits on one."""
    trial = leaves.trial()
    before = trial.y
    set_it(trial)
    height = trial.y - before
    if height <= leaves.most:
        leaves.need(height)


def _all(leaves: Leaves, blocks: tuple[Block, ...]) -> None:
    """A section of words alone leads to the section after it, and stands right above it: on one sheet with all of it,
    or with its beginning where that is not possible."""
    led = False
    for block, after in zip_longest(blocks, blocks[1:]):
        leads = False
        if isinstance(block, Section) and isinstance(after, Section) and _is_of_words(block):
            leads = True
            for then in (evolve(after, blocks=_beginning(after.blocks)), after):
                _keep_together(leaves, partial(_both, first=block, then=then))
        if isinstance(block, Paragraph) and isinstance(after, Listing) and len(after.entries) <= _SHORT_LISTING:
            _keep_together(leaves, partial(_all_of, blocks=(block, after)))
        if led and isinstance(block, Section):
            leaves.skip(_ABOVE_SECTION)
            _section(leaves, plain_said(block.title), block.blocks)
        else:
            _set(leaves, block)
        led = leads


def _all_of(leaves: Leaves, blocks: tuple[Block, ...]) -> None:
    for block in blocks:
        _set(leaves, block)


def _is_of_words(section: Section) -> bool:
    return all(isinstance(block, Paragraph) for block in section.blocks)


def _both(leaves: Leaves, first: Section, then: Section) -> None:
    for each in (first, then):
        leaves.skip(_ABOVE_SECTION)
        _section(leaves, plain_said(each.title), each.blocks)


def _heading(leaves: Leaves, text: str, size: float) -> None:
    leaves.need(len(lines_of(text, size, leaves.room)) * size * _LEADING + _WITH_HEADING)
    _lines(leaves, text, size)
    leaves.skip(1)


def _paragraph(leaves: Leaves, block: Paragraph) -> None:
    """Behind its role, if it has one; what must not be overlooked has a bar at its left."""
    text = plain_said(block.text)
    barred = block.role in _BARRED
    _lines(leaves, f"{block.role}: {text}" if block.role else text, _BODY, at=_INDENT if barred else 0.0, bar=barred)
    leaves.skip(1.5)


def _entry(leaves: Leaves, entry: Said) -> None:
    leaves.need(_BODY * _LEADING)
    leaves.write("•", _BODY, _BODY, 1.0)
    _lines(leaves, plain_said(entry), _BODY, at=_INDENT)
    leaves.skip(0.6)


def _lines(leaves: Leaves, text: str, size: float, at: float = 0.0, bar: bool = False) -> None:
    step = size * _LEADING
    for text_of_line in lines_of(text, size, leaves.room - at):
        leaves.need(step)
        leaves.write(text_of_line, size, size, at)
        if bar:
            leaves.rule(SLIT, (_INDENT / 3, 0), (_INDENT / 3, step))
        leaves.y += step


def _rows(block: Pictures, room: float) -> Iterator[list[Picture]]:
    row: list[Picture] = []
    for picture in block.pictures:
        if row and sum(map(_width, row)) + _width(picture) + _BETWEEN_PICTURES * len(row) > room:
            yield row
            row = []
        row.append(picture)
    if row:
        yield row


def _row_of_pictures(leaves: Leaves, row: list[Picture]) -> None:
    reach = [drawn_between(picture.sheet) for picture in row]
    height = max(bottom - top for top, bottom in reach)
    told = [line for picture in row for line in lines_of(" ".join(picture.caption), _CAPTION, leaves.room)]
    leaves.need(_ABOVE_PICTURE + height + _BELOW_PICTURE + len(told) * _CAPTION * _LEADING)
    places = [0.0]
    for before, _ in pairwise(row):
        places.append(places[-1] + _width(before) + _BETWEEN_PICTURES)
    leaves.skip(_ABOVE_PICTURE)
    for picture, at, (top, _) in zip(row, places, reach, strict=True):
        leaves.draw(picture.sheet, at, raised=top)
    leaves.y += height + _BELOW_PICTURE
    for picture in row:
        if picture.caption:
            _lines(leaves, " ".join(picture.caption), _CAPTION)
    leaves.skip(2)


def _width(picture: Picture) -> float:
    return float(picture.sheet.paper.width.millimetres)
