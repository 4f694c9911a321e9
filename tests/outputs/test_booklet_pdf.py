"""The booklet as PDF: read by another library, and its sheets looked over for words that lie over anything."""

import sys
from collections.abc import Iterator
from functools import cache
from io import BytesIO

import pypdf
import pytest
from attrs import evolve

from outputs.sample_plan import sample_plan, with_words
from outputs.template_pieces import METRIC_RULER, Drawn
from outputs.test_drawings import boxes, check, lines
from outputs.test_strangers_text import NASTY
from pastedown.outputs.booklet.blocks import (
    Block,
    Booklet,
    Chapter,
    Listing,
    Paragraph,
    Pictures,
    Section,
    StepSection,
    Table,
    plain_said,
)
from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.booklet.drawn_between import drawn_between
from pastedown.outputs.booklet.typeset import sheets_of_booklet
from pastedown.outputs.in_words import prose
from pastedown.outputs.missing_library import FilesWanting, MissingLibrary
from pastedown.outputs.pdf_file import letters_lacking
from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.template.letter_width import width_of
from pastedown.outputs.template.paper import A4, US_LETTER, paper_for
from pastedown.outputs.template.svg_text import svg_of
from pastedown.outputs.template.wrap import lines_of
from pastedown.outputs.to_booklet_pdf import make
from pastedown.plan.plan import Plan
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example

EXAMPLES = [name.removesuffix(".album") for name in DESIGNS]


def squeezed(text: str) -> str:
    return "".join(text.replace("\u00a0", " ").split())


@cache
def drawn(name: str) -> list[Drawn]:
    plan = plan_of_example(name)
    return sheets(booklet_of(plan), plan)


def sheets(booklet: Booklet, plan: Plan) -> list[Drawn]:
    made = sheets_of_booklet(booklet, paper_for(plan.ruler))
    return [Drawn(f"sheet {number}", svg_of(sheet)) for number, sheet in enumerate(made, 1)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_word_lies_over_anything_on_any_sheet_of_any_example(name: str) -> None:
    """FMT-05: 20 mm free where a sheet is bound and 10 mm at its other edges (ISO 5457, from memory)."""
    for sheet in drawn(name):
        check(sheet, 216, 298)
        width, height = (float(side) for side in sheet.root.get("viewBox", "").split()[2:])
        for words, (left, top, right, bottom) in boxes(sheet):
            # The hook of a J reaches 5 hundredths of its size to the left of where the letter stands.
            assert left > 19.8 and top > 10 and right < width - 10 and bottom < height - 10, words
        for part, (x1, y1, x2, y2) in lines(sheet):
            assert min(x1, x2) > 19.9 and max(x1, x2) < width - 10 and max(y1, y2) < height - 10, part


@pytest.mark.parametrize("name", ["harbour_walk", "almanac"])
def test_every_sheet_has_title_number_and_stamp(name: str) -> None:
    plan = plan_of_example(name)
    (made,) = make(plan).values()
    pages = pypdf.PdfReader(BytesIO(made), strict=True).pages
    stamp = booklet_of(plan).stamp
    assert len(pages) == len(drawn(name))
    paper = paper_for(plan.ruler)
    for number, page in enumerate(pages, 1):
        told = squeezed(page.extract_text())
        for text in (plan.title, f"page {number} of {len(pages)}", stamp):
            assert squeezed(text) in told
        size = float(paper.width.millimetres) / 25.4 * 72, float(paper.height.millimetres) / 25.4 * 72
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_step_is_there_and_undivided_where_a_sheet_holds_it(name: str) -> None:
    plan = plan_of_example(name)
    told = [squeezed("".join(sheet.words())) for sheet in drawn(name)]
    for step in plan.steps:
        heading = squeezed(f"{step.number}. {prose(step.title, plan.ruler)}")
        text = squeezed(prose(step.text, plan.ruler))
        assert [words for words in told if heading in words and text in words], step.number


def led_by_headings(blocks: tuple[Block, ...]) -> Iterator[tuple[str, bool]]:
    """Every heading, and whether a drawing or a table stands under it."""
    for block in blocks:
        if isinstance(block, Section | StepSection):
            number = f"{block.number}. " if isinstance(block, StepSection) else ""
            shows = any(isinstance(one, Pictures | Table) for one in block.blocks)
            words = all(isinstance(one, Paragraph) for one in block.blocks)
            yield f"{number}{plain_said(block.title)}", shows or (words and isinstance(block, Section))
            yield from led_by_headings(block.blocks)


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_heading_is_left_without_what_it_leads_to(name: str) -> None:
    booklet = booklet_of(plan_of_example(name))
    leads = {squeezed(title): shown for chapter in booklet.chapters for title, shown in led_by_headings(chapter.blocks)}
    seen = 0
    for sheet in drawn(name):
        large = [element for element in sheet.group("words") if float(element.get("font-size", "")) > 3.5]
        headings = [(float(element.get("y", "")), squeezed(element.text or "")) for element in large]
        bottom, last = max(headings, default=(0.0, ""))
        if leads.get(last):
            seen += 1
            foot = float(sheet.root.get("viewBox", "").split()[3]) - 16
            below = [line for _, line in lines(sheet) if bottom < min(line[1], line[3]) < foot]
            assert len(below) > 1, (sheet.name, last)
    assert seen > 20


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_first_sheet_shows_what_is_made(name: str) -> None:
    first, *_ = drawn(name)
    told = [words for words in first.words() if words.startswith(("Made up.", "Closed."))]
    assert len(told) == 2 and len(first.group("edge")) > 10, "with what is said below them"


def test_the_whole_is_no_longer_than_it_need_be() -> None:
    """Most sheets of steps hold two: a maker prints them at home."""
    plan = plan_of_example("harbour_walk")
    assert len(drawn("harbour_walk")) < 0.8 * len(plan.steps)


def test_it_asks_for_nothing_and_runs_nothing() -> None:
    (made,) = make(plan_of_example("harbour_walk")).values()
    for word in (b"/JavaScript", b"/JS", b"/Launch", b"/URI", b"/OpenAction", b"/EmbeddedFile", b"CreationDate", b"cairo"):
        assert word not in made


@pytest.mark.parametrize("words", NASTY)
def test_strangers_words_stay_on_their_sheets(words: str) -> None:
    plan = with_words(words)
    for sheet in sheets(booklet_of(plan), plan)[:6]:
        check(sheet, 216, 298)


def test_a_metric_ruler_has_a4() -> None:
    assert {sheet.root.get("width") for sheet in sheets(booklet_of(sample_plan(METRIC_RULER)), sample_plan(METRIC_RULER))} == {"210mm"}


def test_a_long_table_goes_on_with_its_titles() -> None:
    rows = tuple(((f"row {n}",), ("x" * 60,)) for n in range(200))
    booklet = Booklet("Long", "oat · 0000", (Chapter("a", "A", (Table("Rows", ("Name", "Value"), rows),)),))
    made = [Drawn(str(n), svg_of(sheet)) for n, sheet in enumerate(sheets_of_booklet(booklet, US_LETTER))]
    assert len(made) > 3
    for sheet in made:
        check(sheet, 216, 298)
        assert "Name" in sheet.words()
    assert [words for sheet in made for words in sheet.words() if words.startswith("row ")] == [f"row {n}" for n in range(200)]


def test_a_cell_longer_than_a_sheet_goes_on_over_several() -> None:
    booklet = Booklet("Long", "oat · 0000", (Chapter("a", "A", (Table("Rows", ("Name", "Value"), ((("one",), ("folded " * 9000,)),)),)),))
    made = [Drawn(str(n), svg_of(sheet)) for n, sheet in enumerate(sheets_of_booklet(booklet, A4))]
    for sheet in made:
        check(sheet, 216, 298)
    assert sum(words.count("folded") for sheet in made for words in sheet.words()) == 9000


@pytest.mark.parametrize("before", range(30, 38))
def test_a_short_list_stays_with_the_words_that_lead_to_it(before: int) -> None:
    filling = tuple(Paragraph((f"Line {number}.",)) for number in range(before))
    listing = Listing(tuple((f"Entry {number}.",) for number in range(6)))
    booklet = Booklet("A", "B", (Chapter("c", "C", (*filling, Paragraph(("What is left:",)), listing)),))
    found = [
        sheet
        for sheet, made in enumerate(sheets_of_booklet(booklet, A4))
        for words in made.words
        if words.text.startswith(("Entry", "What"))
    ]
    assert len(found) == 7
    assert len(set(found)) == 1


def test_only_what_is_drawn_of_a_picture_takes_room() -> None:
    """Empty rims of a picture would push the next step onto a sheet of its own."""
    sheet = next(iter(booklet_pictures("almanac")))
    top, bottom = drawn_between(sheet)
    inked = [y for _, (_, y, _, _) in boxes(Drawn("", svg_of(sheet)))]
    assert 0 < top < bottom < float(sheet.paper.height.millimetres) - 3
    assert top <= min(inked)


def booklet_pictures(name: str) -> Iterator[Sheet]:
    for chapter in booklet_of(plan_of_example(name)).chapters:
        for section in chapter.blocks:
            if isinstance(section, StepSection):
                yield from (one.sheet for block in section.blocks if isinstance(block, Pictures) for one in block.pictures)


def test_an_empty_booklet_is_a_sheet() -> None:
    made = list(sheets_of_booklet(Booklet("", "oat · 0000", ()), A4))
    assert len(made) == 1


@pytest.mark.parametrize("text", ["", " ", "a", "two words", "x" * 400, "no\u00a0break at\u00a0all", "a  b", "\t\n"])
def test_lines_fit_and_lose_nothing(text: str) -> None:
    lines = lines_of(text, 3, 40)
    assert all(width_of(line, 3) <= 40.001 for line in lines)
    assert "".join(lines).replace(" ", "") == "".join(text.split(" ")).replace("\t", "").replace("\n", "")


def test_what_must_not_be_overlooked_has_a_bar() -> None:
    def bars(role: str) -> int:
        booklet = Booklet("T", "oat · 0000", (Chapter("a", "A", (Paragraph(("Mind the blade.",), role),)),))
        (sheet,) = [Drawn("one", svg_of(sheet)) for sheet in sheets_of_booklet(booklet, A4)]
        return sum(element.get("stroke-width") == "0.7" for element in sheet.group("rule"))

    assert (bars(""), bars("Tip"), bars("Caution"), bars("Reading")) == (0, 0, 1, 1)


def test_without_cairo_it_says_what_serves_instead(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "cairosvg.parser", None)
    with pytest.raises(MissingLibrary, match=r"The booklet as PDF .* cairosvg.* The booklet as HTML needs neither"):
        make(sample_plan())


def test_like_plans_give_like_bytes() -> None:
    assert make(sample_plan()) == make(evolve(sample_plan()))


def test_letters_that_the_font_has_not_are_told() -> None:
    """Cairo puts an empty box there; what only changes other letters, and what the font has, is not told."""
    made = make(with_words("\u8336\u306e\u672c \u0416\u00e9\u200d\ufe0f x\u00b2"))
    assert isinstance(made, FilesWanting)
    assert "has no \u306e, \u672c, \u8336: empty boxes" in made.wanting
    assert make(with_words("quiet")) and not isinstance(make(with_words("quiet")), FilesWanting)
    assert "and 8 more: empty" in letters_lacking(["".join(map(chr, range(0x8336, 0x8336 + 20)))])
