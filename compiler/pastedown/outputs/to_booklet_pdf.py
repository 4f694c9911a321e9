"""The booklet as a PDF to print, on the paper that goes with the maker's ruler."""

from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.booklet.typeset import sheets_of_booklet
from pastedown.outputs.pdf_file import Wanted, pdf_of
from pastedown.outputs.template.paper import paper_for
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

_WANTED = Wanted("The booklet as PDF is drawn with", "The booklet as HTML needs neither: it prints from a browser.")


def make(plan: Plan) -> dict[str, bytes]:
    """booklet.pdf. Raises MissingLibrary where cairo is not installed."""
    sheets = sheets_of_booklet(booklet_of(plan), paper_for(plan.ruler))
    return {"booklet.pdf": pdf_of(plan.title, map(svg_of, sheets), _WANTED)}
