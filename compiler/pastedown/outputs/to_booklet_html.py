"""The booklet as one HTML file, for a telephone, a screen or a printer."""

from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.booklet.html_text import html_of
from pastedown.plan.plan import Plan


def make(plan: Plan) -> dict[str, bytes]:
    """booklet.html"""
    return {"booklet.html": html_of(booklet_of(plan))}
