"""Drawings of the flat pieces as SVG: to scale, with sizes, and with every line's distance from both edges."""

from pastedown.outputs.drawings.flat_drawing import flat_drawing
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

FOLDER = "drawings"


def make(plan: Plan) -> dict[str, bytes]:
    """drawings/<piece>.svg for every piece, those that are bought in their size too."""
    drawn = ((piece.id, flat_drawing(piece, plan.ruler, cuts_told=True)) for piece in plan.pieces)
    return {f"{FOLDER}/{name}.svg": svg_of(sheet).encode() for name, sheet in drawn}
