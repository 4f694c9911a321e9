"""What is cut out of one edge of a piece: notches and thumb notches, each drawn in coordinates of its edge."""

from attrs import frozen

from pastedown.diagnostic import error
from pastedown.geometry.cut_regions import Region, half_round, region
from pastedown.geometry.cuts_asked import edge_called
from pastedown.geometry.fault import Fault
from pastedown.geometry.inner_cut import Said, written
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.path_moves import Move
from pastedown.geometry.piece import ArcTo, LineTo, Point
from pastedown.quantity.quantity import NO_LENGTH, Length


@frozen(eq=False)
class Edge:
    """One edge with its own coordinates: s along the direction of travel, d into the piece."""

    piece: PieceMaker
    name: str
    size: Length
    height: Length
    width: Length

    def point(self, s: Length, d: Length) -> Point:
        match self.name:
            case "left":
                return Point(d, s)
            case "head":
                return Point(s, self.height - d)
            case "right":
                return Point(self.width - d, self.height - s)
            case _:
                return Point(self.width - s, d)

    def place(self, point: Point) -> Length:
        """s of a point."""
        return self.along(point.y if self.name in ("left", "right") else point.x)

    def depth(self, point: Point) -> Length:
        """d of a point."""
        match self.name:
            case "left":
                return point.x
            case "head":
                return self.height - point.y
            case "right":
                return self.width - point.x
            case _:
                return point.y

    def along(self, from_origin: Length) -> Length:
        """s of a position measured from the left edge or from the tail."""
        return from_origin if self.name in ("left", "head") else self.size - from_origin


def cut_along(edge: Edge, said: Said, begin: Length, end: Length) -> list[Move]:
    kind = said.treatment.kind
    width = said.treatment.length("width") or NO_LENGTH
    depth = said.treatment.length("depth") or (width / 2 if kind == "thumb_notch" else NO_LENGTH)
    at = said.treatment.length("at")
    middle = edge.size / 2 if at is None else edge.along(at)
    first, last = middle - width / 2, middle + width / 2
    across = edge.width if edge.name in ("left", "right") else edge.height
    if first < begin or last > end or depth >= across:
        raise Fault(
            error(
                "cut-outside",
                said.span,
                f"This {kind.replace('_', ' ')} is {written(edge.piece, width)} wide and "
                f"{written(edge.piece, depth)} deep, and does not fit on the {edge.name} edge of {edge.piece.path}, "
                f"which is {written(edge.piece, edge.size)} long.",
                way_out=(
                    "Make it smaller, or move it with at: ..., the distance of its middle from the left "
                    "edge or the tail."
                ),
            )
        )
    none = NO_LENGTH
    if kind == "notch":
        return [
            LineTo(edge.point(first, none)),
            LineTo(edge.point(first, depth)),
            LineTo(edge.point(last, depth)),
            LineTo(edge.point(last, none)),
        ]
    half = width / 2
    if first == NO_LENGTH or last == edge.size:
        raise Fault(
            error(
                "cut-outside",
                said.span,
                f"This thumb notch reaches a corner of {edge.piece.path}: its half round would leave a sliver there.",
                way_out="Move its middle with at: ... away from the corner, or use a notch.",
            )
        )
    if depth < half:
        raise Fault(
            error(
                "cut-outside",
                said.span,
                "A thumb notch is at least half as deep as it is wide: it ends in a half round.",
                way_out=f"Make it {written(edge.piece, half)} deep or more, or at most "
                f"{written(edge.piece, depth * 2)} wide.",
            )
        )
    straight = depth - half
    centre = edge.point(middle, straight)
    return [
        LineTo(edge.point(first, none)),
        LineTo(edge.point(first, straight)),
        ArcTo(edge.point(middle, depth), centre, half, False),
        ArcTo(edge.point(last, straight), centre, half, False),
        LineTo(edge.point(last, none)),
    ]


def region_of(edge: Edge, said: Said, cut: list[Move]) -> Region:
    name = f"the {said.treatment.kind.replace('_', ' ')} of {edge_called(edge.piece, edge.name)}"
    if said.treatment.kind == "notch":
        return region(name, [move.end for move in cut], (edge.name,))
    first, last = edge.place(cut[0].end), edge.place(cut[-1].end)
    straight = edge.depth(cut[1].end)
    around = [edge.point(s, d + straight) for s, d in half_round((first + last) / 2, (last - first) / 2)]
    return region(name, [cut[0].end, *around, cut[-1].end], (edge.name,))
