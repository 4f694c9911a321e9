"""How the pieces of one stock are cut from its sheets; worked out only when an output asks for it.

Takes a material and the pieces of the plan, gives a cutting plan in the unit of `Length.value`. Sheets lie with their
grain upright, and pieces keep to it where they want a grain. A stock whose grain is not known, or is marked on each
sheet, is taken to run one way on all sheets: that way in which fewer pieces come to lie across.
"""

from functools import lru_cache

from pastedown.cutting.cutting_plan import CuttingPlan
from pastedown.cutting.make_plan import make_plan
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet
from pastedown.plan.plan import CutPiece, Material
from pastedown.quantity.quantity import NO_LENGTH, Length

_Sides = tuple[Length, Length]
# One album is a small problem. Without libraries, so that the count is the same whether they are installed or not.
_EFFORT = Effort(work=1_000, libraries=False)


def sheet_plan(material: Material, pieces: tuple[CutPiece, ...]) -> CuttingPlan | None:
    """The cutting plan of one stock; its pieces are named by their ids. None for what is not cut from sheets, and for
    sheets that stick faces together, since how these are cut is not known."""
    sheet = material.sheet
    own = [piece for piece in pieces if (piece.stock, piece.stock_kind) == (material.stock, material.kind)]
    if sheet is None or material.zones or not own or min(sheet) <= NO_LENGTH:
        return None
    long_side, short_side = max(sheet), min(sheet)
    ways = [(long_side, short_side), (short_side, long_side)]
    if material.grain in ("long", "short"):
        ways = ways[:1] if material.grain == "long" else ways[1:]
    along, beside = min(ways, key=lambda way: _across(material, own, way))
    return _planned(
        Problem(
            (Sheet(material.stock, beside.value, along.value, pack=max(material.pack, 1)),),
            tuple(_piece(material, piece, (along, beside)) for piece in own),
        )
    )


@lru_cache(maxsize=32)
def _planned(problem: Problem) -> CuttingPlan:
    """Several outputs ask for the same plan."""
    return make_plan(problem, _EFFORT)


def _laid(material: Material, piece: CutPiece) -> _Sides | None:
    """The piece's side along the sheet's grain and the one beside it; None where it may lie either way. A pattern
    keeps its direction, so pieces of decorated stock that want no grain lie with their heads alike."""
    if piece.grain == "width" and material.grain != "none":
        return piece.width, piece.height
    if material.decorated != "none" or (piece.grain == "height" and material.grain != "none"):
        return piece.height, piece.width
    return None


def _fits(sides: _Sides, way: _Sides) -> bool:
    return sides[0] <= way[0] and sides[1] <= way[1]


def _across(material: Material, pieces: list[CutPiece], way: _Sides) -> int:
    laid = [(piece.count, _laid(material, piece)) for piece in pieces]
    return sum(count for count, sides in laid if sides is not None and not _fits(sides, way))


def _piece(material: Material, piece: CutPiece, way: _Sides) -> Piece:
    """A piece that comes out of the sheet only across its grain lies across: whether that will do is judged before."""
    sides = _laid(material, piece)
    along, beside = sides or (piece.height, piece.width)
    if sides is not None and not _fits(sides, way) and _fits((beside, along), way):
        along, beside = beside, along
    return Piece(piece.id, beside.value, along.value, piece.count, may_turn=sides is None)
