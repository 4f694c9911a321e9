"""Templates at true size as PDF: one document a piece, with all its sheets as pages, ready to print.

The pages are the drawings of `to_template_svg`.
"""

from pastedown.outputs.missing_library import files_wanting
from pastedown.outputs.pdf_file import Wanted, letters_lacking, pdf_of
from pastedown.outputs.template.sheets import FOLDER, sheets_of
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

_WANTED = Wanted(
    "The PDF templates are drawn with", "The templates as SVG need neither: they print from a browser at 100 %."
)


def make(plan: Plan) -> dict[str, bytes]:
    """templates/<piece>.pdf for every piece that is cut. Raises MissingLibrary where cairo is not installed."""
    files: dict[str, bytes] = {}
    letters: dict[str, None] = {}
    for piece in plan.pieces:
        if not piece.bought:
            drawings = [svg_of(sheet) for sheet in sheets_of(piece, plan)]
            files[f"{FOLDER}/{piece.id}.pdf"] = pdf_of(piece.name, drawings, _WANTED)
            letters |= dict.fromkeys("".join(drawings))
    return files_wanting(files, letters_lacking(letters))
