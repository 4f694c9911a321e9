"""Drawings as the sheets of one PDF document, by cairosvg one after the other on one surface of cairo.

Letters are kept as letters, so the document can be searched.
"""

import io
import re
import unicodedata
from collections.abc import Iterable
from typing import Any

from attrs import frozen

from pastedown.outputs.missing_library import MissingLibrary
from pastedown.outputs.safe_text import plain
from pastedown.outputs.template.svg_text import FONT

# Pixels in an inch, as CSS and SVG readers count them; it cancels out where lengths are in millimetres.
_DPI = 96
_BEYOND_ASCII = re.compile(r"[^\x00-\x7f]")
# So many letters are named.
_MOST_LETTERS = 12
_DEBIAN = "On Debian and Ubuntu install the packages libcairo2 and fonts-dejavu-core."

# A document has no date and no maker of its own: like plans give like bytes. Cairo writes both, so they are set to a
# fixed date and then blanked out. ISO 32000-1, 14.3.3: all entries of the information dictionary are optional.
_FIXED_DATE = "2000-01-01T00:00:00Z"
_INFORMATION = re.compile(rb"/Info (\d+) 0 R")
_STAMP = re.compile(rb"/(?:Producer|Creator|CreationDate|ModDate) \((?:[^()\\]|\\.|\([^()]*\))*\)")


@frozen
class Wanted:
    """How an output tells that a library is missing: "The PDF templates are drawn with", and what serves instead."""

    what: str
    instead: str


def pdf_of(title: str, drawings: Iterable[str], wanted: Wanted) -> bytes:
    """The drawings, each an SVG text with its size in millimetres, as the sheets of one document. Raises
    MissingLibrary where cairo is not installed."""
    try:
        from cairosvg.parser import Tree
        from cairosvg.surface import PDFSurface, cairo
    except ImportError as missing:
        raise MissingLibrary(f"{wanted.what} the Python package cairosvg. {wanted.instead}") from missing
    except OSError as missing:
        # cairocffi raises it when it finds no shared library of cairo.
        raise MissingLibrary(f"{wanted.what} the library cairo. {_DEBIAN} {wanted.instead}") from missing

    class NextSheet(PDFSurface):  # type: ignore[misc]
        """The next sheet of a document that is already open: cairosvg would begin a new document for each drawing."""

        def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
            self.output.set_size(width, height)
            return self.output, width, height

    file = io.BytesIO()
    document = cairo.PDFSurface(file, 1, 1)
    document.restrict_to_version(cairo.PDF_VERSION_1_4)
    document.set_metadata(cairo.PDF_METADATA_TITLE, plain(title))
    document.set_metadata(cairo.PDF_METADATA_CREATE_DATE, _FIXED_DATE)
    for drawing in drawings:
        NextSheet(Tree(bytestring=drawing.encode()), document, _DPI).context.show_page()
    document.finish()
    return _without_stamp(file.getvalue())


def letters_lacking(drawings: Iterable[str]) -> str:
    """Which letters of the drawings have no shape in the font that their PDF is drawn in, in a sentence; empty where
    all have one. Cairo takes one font for all, and draws an empty box for a letter that is not in it. Without cairo
    nothing is said: `pdf_of` says it."""
    try:
        from cairosvg.surface import cairo
    except (ImportError, OSError):
        return ""
    letters = sorted({letter for drawing in drawings for letter in _BEYOND_ASCII.findall(drawing)})
    name = FONT.partition(",")[0]
    font = cairo.ScaledFont(cairo.ToyFontFace(name))
    lacking = [letter for letter in letters if _is_drawn(letter) and _has_no_shape(font, letter)]
    if not lacking:
        return ""
    named = ", ".join(lacking[:_MOST_LETTERS])
    more = f" and {len(lacking) - _MOST_LETTERS} more" if len(lacking) > _MOST_LETTERS else ""
    return (
        f"The font {name} of the PDFs has no {named}{more}: empty boxes stand there. Templates as SVG and the booklet "
        "as HTML show them in a font of the browser's."
    )


def _is_drawn(letter: str) -> bool:
    """Not what only changes the letters beside it."""
    return letter.isprintable() and not unicodedata.category(letter).startswith("M")


def _has_no_shape(font: Any, letter: str) -> bool:
    return any(glyph[0] == 0 for glyph in font.text_to_glyphs(0, 0, letter, with_clusters=False))


def _without_stamp(pdf: bytes) -> bytes:
    """The document with blanks for what names the program and the day. Lengths stay, so all its offsets hold."""
    found = _INFORMATION.search(pdf, pdf.rfind(b"trailer"))
    if found is None:
        return pdf
    start = pdf.find(b"\n%s 0 obj" % found[1])
    end = pdf.find(b"\nendobj", start)
    if start < 0 or end < 0:
        return pdf
    return pdf[:start] + _STAMP.sub(lambda stamp: b" " * len(stamp[0]), pdf[start:end]) + pdf[end:]
