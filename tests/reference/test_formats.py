"""Units of file formats: what a drawing says of its own size is the size that the recipe asks for.

The rows on line notation and formats are checked beside the outputs that they concern, in tests/outputs: FMT-01 to
FMT-03 in test_template_line_kinds.py, FMT-01 and FMT-04 in test_drawings.py, FMT-05 in test_booklet_pdf.py, FMT-06 to
FMT-09 in test_template_dxf.py, FMT-10, 14, 17 and 18 in test_template_svg.py, FMT-10 to FMT-13 in test_template_pdf.py.
FMT-15 and FMT-16 (glTF) belong to the model.
"""

from fractions import Fraction
from io import BytesIO
from xml.etree import ElementTree

import pdfplumber
import pytest

from pastedown.outputs.to_template_pdf import make as make_pdf
from pastedown.outputs.to_template_svg import make as make_svg
from reference.through_the_compiler import plan

# LEN-10: CSS Values and Units, absolute lengths (read in a translation and in a handbook), in millimetres: 96 px,
# 72 pt, 6 pc and 101.6 Q are an inch.
CSS = {"px": "0.26458333", "pt": "0.35277778", "pc": "4.23333333", "Q": "0.25"}
PER_INCH = {"px": "96", "pt": "72", "pc": "6", "Q": "101.6"}
# LEN-11: Debian units 2.22-2 (texpoint, pspoint) and papersize 1.6.1: points to the inch.
POSTSCRIPT, TEX = Fraction(72), Fraction("72.27")
CARD = """
  ruler = inches to 1/16
  stuff = stock(kind: card, sheet: 12 in x 12 in, grain: none)
  piece card from stuff, height: 6 in, width: 4 in, loose: yes
"""


def drawn_size() -> tuple[str, str, str]:
    """Width and height that the drawing of the card states, and its view box."""
    (content,) = make_svg(plan(CARD)).values()
    root = ElementTree.fromstring(content)
    return root.attrib["width"], root.attrib["height"], root.attrib["viewBox"]


@pytest.mark.parametrize("unit", CSS)
def test_a_letter_sheet_in_the_units_of_style_sheets(unit: str) -> None:
    # LEN-10: a letter sheet is 816 x 1056 px, 612 x 792 pt, 51 x 66 pc.
    for stated, inches in zip(drawn_size(), ("8.5", "11"), strict=False):
        assert stated.endswith("mm")
        found = Fraction(stated.removesuffix("mm")) / Fraction(CSS[unit])
        assert abs(found - Fraction(inches) * Fraction(PER_INCH[unit])) < Fraction("0.0001")


def test_a_drawing_counts_in_millimetres_and_not_in_pixels() -> None:
    # LEN-10: a number without a unit would be read as pixels of 0.26458333 mm.
    width, height, view_box = drawn_size()
    assert view_box.split() == ["0", "0", width.removesuffix("mm"), height.removesuffix("mm")]


def test_a_printed_page_counts_in_points_of_a_72nd_of_an_inch() -> None:
    # LEN-11: four inches are 288 points; counted in the printer's points of TeX they would be 289.08.
    (made,) = make_pdf(plan(CARD)).values()
    with pdfplumber.open(BytesIO(made)) as document:
        widths = {round(shape["width"], 2) for shape in document.pages[0].curves + document.pages[0].rects}
    assert float(4 * POSTSCRIPT) in widths
    assert float(4 * TEX) not in widths
