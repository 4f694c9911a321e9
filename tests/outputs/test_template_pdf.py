"""Templates as PDF, measured by two other readers."""

import builtins
from io import BytesIO
from re import fullmatch
from types import ModuleType

import cairosvg
import pdfplumber
import pypdf
import pytest
from attrs import evolve
from PIL import Image

from outputs.template_pieces import (
    EVERY_PIECE,
    METRIC_RULER,
    Drawn,
    drawn,
    ends,
    ladder_strip,
    notched_tag,
    piece,
    plan_of,
)
from outputs.test_strangers_text import NASTY
from pastedown.outputs.missing_library import MissingLibrary
from pastedown.outputs.to_template_pdf import make
from pastedown.outputs.to_template_svg import make as make_svg
from pastedown.plan.plan import CutPiece
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler
from test_examples import plan_of as plan_of_example


def pdf_of(shape: CutPiece, ruler: Ruler = INCH_RULER) -> bytes:
    (made,) = make(plan_of(shape, ruler=ruler)).values()
    return made


def pages_of(made: bytes) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(BytesIO(made), strict=True).pages)


def points(millimetres: float) -> float:
    return millimetres / 25.4 * 72


@pytest.mark.parametrize(("ruler", "size"), [(INCH_RULER, (612, 792)), (METRIC_RULER, (595.276, 841.890))])
def test_the_page_is_the_paper(ruler: Ruler, size: tuple[float, float]) -> None:
    """FMT-12: a unit is 1/72 in, US Letter is 612 x 792, A4 595.276 x 841.890, the limit 14 400 (ISO 32000, by library
    references). FMT-10: letter in millimetres becomes exactly 612 x 792 (cairosvg 2.9.1)."""
    (page,) = pages_of(pdf_of(notched_tag(), ruler))
    assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.001)
    assert page.user_unit == 1
    assert max(size) <= 14_400


def test_a_rectangle_measures_what_it_should() -> None:
    """FMT-13: 100 x 50 mm is 283.465 x 141.732 pt, read within 0.01 pt (cairosvg, pdfplumber 0.11.10)."""
    with pdfplumber.open(BytesIO(pdf_of(piece("plate", mm(100), mm(50))))) as document:
        (page,) = document.pages
        closed = page.curves + page.rects
        (outline,) = [shape for shape in closed if shape["linewidth"] == pytest.approx(points(0.35), abs=0.01)]
        assert outline["width"] == pytest.approx(283.465, abs=0.01)
        assert outline["height"] == pytest.approx(141.732, abs=0.01)
        assert outline["x0"] == pytest.approx(points(215.9 / 2 - 50), abs=0.01)


def test_outline_and_check_bars_are_true_within_a_twentieth_of_a_millimetre() -> None:
    with pdfplumber.open(BytesIO(pdf_of(notched_tag()))) as document:
        (page,) = document.pages
        lengths = [line["width"] for line in page.lines if line["height"] == pytest.approx(0, abs=0.001)]
        for length in (432.0, points(150)):
            assert min(abs(found - length) for found in lengths) < 0.01
        widest = max((shape for shape in page.curves), key=lambda shape: shape["height"])
        assert widest["width"] == pytest.approx(108, abs=points(0.05))
        assert widest["height"] == pytest.approx(216, abs=points(0.05))


@pytest.mark.parametrize("name", ["harbour_walk", "almanac"])
def test_every_line_of_an_example_lies_in_the_pdf_where_the_drawing_has_it(name: str) -> None:
    """Within 0.05 mm, on US Letter and on A4: what sheets laid together show as drawings (test_template_tiles.py), they
    show as pages. Both check bars, 6 in and 150 mm, are on every page."""
    plan, compared = plan_of_example(name), 0
    drawings = make_svg(plan)
    for file, made in make(plan).items():
        stem = file.removesuffix(".pdf")
        sheets = [text.decode() for other, text in drawings.items() if fullmatch(rf"{stem}(-\d+-of-\d+)?\.svg", other)]
        with pdfplumber.open(BytesIO(made)) as document:
            assert len(document.pages) == len(sheets), file
            for page, text in zip(document.pages, sheets, strict=True):
                found = [tuple(shape[side] for side in ("x0", "top", "x1", "bottom")) for shape in (*page.lines, *page.curves, *page.rects)]
                sheet = Drawn(file, text)
                for path in (path for kind in ("cut", "valley", "mountain", "register") for path in sheet.paths(kind)):
                    spots = ends(path)
                    box = [most(spot[side] for spot in spots) for most in (min, max) for side in (0, 1)]
                    off = min(max(abs(a - points(b)) for a, b in zip(shape, box, strict=True)) for shape in found)
                    assert off < points(0.05), (file, path)
                    compared += 1
                levels = [right - left for left, top, right, bottom in found if bottom - top < 0.01]
                for bar in (432.0, points(150)):
                    assert min(abs(level - bar) for level in levels) < points(0.05), file
    assert compared > 100


def test_all_sheets_of_a_piece_are_pages_of_one_document() -> None:
    made = make(plan_of(*EVERY_PIECE))
    assert list(made) == [f"templates/{each.id}.pdf" for each in EVERY_PIECE]
    for each, document in zip(EVERY_PIECE, made.values(), strict=True):
        sheets = drawn(each)
        pages = pages_of(document)
        assert len(pages) == len(sheets)
        for page, sheet in zip(pages, sheets, strict=True):
            found = page.extract_text()
            assert "measure me: 6 in" in found
            assert ("sheet 1 of" in found) == any(words.startswith("sheet 1 of") for words in sheet.words())


def test_lying_paper_is_a_lying_page() -> None:
    for page in pages_of(pdf_of(piece("board", inches(8), inches(11)))):
        assert (float(page.mediabox.width), float(page.mediabox.height)) == (792, 612)


def test_the_document_names_its_piece_and_neither_day_nor_program() -> None:
    made = pdf_of(ladder_strip())
    found = pypdf.PdfReader(BytesIO(made), strict=True).metadata
    assert found is not None
    assert set(found) == {"/Title"}
    assert found.title == "hinge strip"
    assert not [word for word in (b"CreationDate", b"ModDate", b"Producer", b"cairographics", b"2000") if word in made]


def test_like_plans_give_like_bytes() -> None:
    assert make(plan_of(*EVERY_PIECE)) == make(plan_of(*EVERY_PIECE))


@pytest.mark.parametrize("words", NASTY)
def test_a_strangers_text_breaks_no_document(words: str) -> None:
    made = pdf_of(evolve(notched_tag(), name=words, stock=words, face_up=words))
    (page,) = pages_of(made)
    assert "measure me: 150 mm" in page.extract_text()
    assert b"/JavaScript" not in made
    assert b"/URI" not in made


@pytest.mark.parametrize("name", ["/Producer (me) /CreationDate (D:1)", "endobj trailer /Info 1 0 R", "(((", "\\)"])
def test_a_title_that_looks_like_a_stamp_is_kept(name: str) -> None:
    made = pdf_of(evolve(notched_tag(), name=name))
    found = pypdf.PdfReader(BytesIO(made), strict=True).metadata
    assert found is not None
    assert set(found) == {"/Title"}
    assert found.title == name


@pytest.mark.parametrize(("dpi", "size"), [(96, (816, 1056)), (300, (2550, 3300))])
def test_a_picture_of_the_drawing_has_the_size_of_the_paper(dpi: int, size: tuple[int, int]) -> None:
    """FMT-11: letter is 816 x 1056 px at 96 px to the inch, 2550 x 3300 at 300 (cairosvg 2.9.1; 215.9 / 25.4 x 96)."""
    (sheet,) = drawn(notched_tag())
    png = cairosvg.svg2png(sheet.text.encode(), scale=dpi / 96)
    assert Image.open(BytesIO(png)).size == size


@pytest.mark.parametrize(
    ("fault", "package"), [(OSError("no library called cairo"), "libcairo2"), (ImportError(), "cairosvg")]
)
def test_without_cairo_it_says_what_to_install(
    fault: Exception, package: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def import_without_cairo(name: str, *rest: object, **named: object) -> ModuleType:
        if name.startswith("cairo"):
            raise fault
        return real(name, *rest, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(builtins, "__import__", import_without_cairo)
    with pytest.raises(MissingLibrary) as raised:
        make(plan_of(notched_tag()))
    assert package in str(raised.value)
    assert "SVG" in str(raised.value)
