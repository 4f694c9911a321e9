"""Templates at true size as SVG, for a printer or for a machine that cuts: one drawing a sheet of printer paper."""

from pastedown.outputs.template.sheets import FOLDER, sheets_of
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan


def make(plan: Plan) -> dict[str, bytes]:
    """templates/<piece>.svg, or templates/<piece>-1-of-4.svg and so on for a piece that takes several sheets.
    What is bought in its size needs none."""
    taken = {piece.id for piece in plan.pieces}
    files: dict[str, bytes] = {}
    for piece in (piece for piece in plan.pieces if not piece.bought):
        sheets = sheets_of(piece, plan)
        for number, sheet in enumerate(sheets, 1):
            name = piece.id if len(sheets) == 1 else _free(f"{piece.id}-{number}-of-{len(sheets)}", taken)
            files[f"{FOLDER}/{name}.svg"] = svg_of(sheet).encode()
    return files


def _free(name: str, taken: set[str]) -> str:
    """A sheet of "strip" must not overwrite a piece whose id is "strip-1-of-2"."""
    while name in taken:
        name += "-sheet"
    return name
