"""Templates at true size as DXF: one file a piece, whole, for cutting machines and drawing programs."""

from pastedown.outputs.template.dxf_text import dxf_of
from pastedown.outputs.template.piece_shape import shape_of
from pastedown.outputs.template.sheets import FOLDER
from pastedown.plan.plan import Plan


def make(plan: Plan) -> dict[str, bytes]:
    """templates/<piece>.dxf for every piece that is cut."""
    return {
        f"{FOLDER}/{piece.id}.dxf": dxf_of(shape_of(piece), piece.name, plan.title)
        for piece in plan.pieces
        if not piece.bought
    }
