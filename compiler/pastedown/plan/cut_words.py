"""The cuts of a piece in words and numbers: what kind, how large, and where."""

from pastedown.geometry.piece import Cut, FlatPiece
from pastedown.plan.plan import PlanCut, PlanText
from pastedown.plan.sentence import sentence
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import NO_LENGTH, Length

_SIDES = ("left", "right")


def plan_cuts(piece: FlatPiece) -> tuple[PlanCut, ...]:
    """Edges first, then corners, then what is inside, as the model has them."""
    return tuple(_plan_cut(cut, piece) for cut in piece.cuts)


def _plan_cut(cut: Cut, piece: FlatPiece) -> PlanCut:
    edges = tuple(spoken(edge) for edge in cut.edges)
    sizes = tuple((spoken(label), length) for label, length in sorted(cut.lengths))
    return PlanCut(cut.kind.replace("_", " "), spoken(cut.name), edges, sizes, _text(cut, piece))


def _text(cut: Cut, piece: FlatPiece) -> PlanText:
    if len(cut.edges) == 2:
        return _corner(cut)
    if not cut.edges:
        return _inside(cut, piece)
    edge = _edge(cut.edges[0])
    if cut.kind == "taper":
        return sentence(f"taper to the {edge}, which is ", _length(cut, "by"), " shorter at each end")
    upright = cut.edges[0] in (piece.left, piece.right)
    start = "tail" if upright else _left(piece)
    ends = ", ending in a half round" if cut.kind == "thumb_notch" else ""
    size = sentence(_length(cut, "width"), " wide and ", _length(cut, "depth"), " deep")
    name = cut.kind.replace("_", " ")
    return sentence(f"{name} in the {edge}, ", size, f"{ends}, its middle ", _length(cut, "at"), f" from the {start}")


def _corner(cut: Cut) -> PlanText:
    level, upright = (_edge(edge) for edge in cut.edges)
    where = f"corner of {level} and {upright}"
    if cut.kind == "round":
        return sentence(f"{where} rounded to a radius of ", _length(cut, "radius"))
    along, up = _length(cut, "size"), cut.length("along_height")
    if up is None or up == along:
        return sentence(f"{where} cut off slantwise, ", along, " along either edge")
    return sentence(f"{where} cut off slantwise, ", along, f" along the {level} and ", up, f" along the {upright}")


def _inside(cut: Cut, piece: FlatPiece) -> PlanText:
    across = sentence(_length(cut, "from_left"), f" from the {_left(piece)}")
    places = sentence(across, " and ", _length(cut, "from_tail"), " from the tail")
    if cut.kind == "slit":
        way = "from tail to head" if cut.along == "height" else "from side to side"
        return sentence(f"slit {spoken(cut.name)}, ", _length(cut, "length"), f" long {way}, begun ", places)
    size = sentence(_length(cut, "height"), " high and ", _length(cut, "width"), " wide, ", places)
    radius = cut.length("radius")
    corners = sentence(", its corners rounded to a radius of ", radius) if radius and radius != NO_LENGTH else ()
    return sentence(f"window {spoken(cut.name)}, ", size, corners)


def _length(cut: Cut, label: str) -> Length:
    return cut.length(label) or NO_LENGTH


def _edge(name: str) -> str:
    return f"{name} edge" if name in _SIDES else spoken(name)


def _left(piece: FlatPiece) -> str:
    """The left edge by its name, and that it is the left one."""
    return "left edge" if piece.left == "left" else f"{spoken(piece.left)} (left edge)"
