"""The booklet as a PDF to print, on the paper that goes with the maker's ruler."""

from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.booklet.typeset import sheets_of_booklet
from pastedown.outputs.missing_library import files_wanting
from pastedown.outputs.pdf_file import Wanted, letters_lacking, pdf_of
from pastedown.outputs.template.paper import paper_for
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

_WANTED = Wanted("The booklet as PDF is drawn with", "The booklet as HTML needs neither: it prints from a browser.")


def make(plan: Plan) -> dict[str, bytes]:
    """booklet.pdf. Raises MissingLibrary where cairo is not installed."""
    drawings = [svg_of(sheet) for sheet in sheets_of_booklet(booklet_of(plan), paper_for(plan.ruler))]
    return files_wanting({"booklet.pdf": pdf_of(plan.title, drawings, _WANTED)}, letters_lacking(drawings))
