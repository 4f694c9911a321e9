"""Templates at true size as PDF: one document a piece, with all its sheets as pages, ready to print.

The pages are the drawings of `to_template_svg`.
"""

from pastedown.outputs.pdf_file import Wanted, pdf_of
from pastedown.outputs.template.sheets import FOLDER, sheets_of
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

_WANTED = Wanted(
    "The PDF templates are drawn with", "The templates as SVG need neither: they print from a browser at 100 %."
)


def make(plan: Plan) -> dict[str, bytes]:
    """templates/<piece>.pdf for every piece that is cut. Raises MissingLibrary where cairo is not installed."""
    return {
        f"{FOLDER}/{piece.id}.pdf": pdf_of(piece.name, map(svg_of, sheets_of(piece, plan)), _WANTED)
        for piece in plan.pieces
        if not piece.bought
    }
