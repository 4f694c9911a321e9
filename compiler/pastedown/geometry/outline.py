"""The outer cut of a piece and the cuts inside it, from what is done to its corners, its edges and its inside.

The outline runs clockwise as seen from the face, from the tail end of the left edge: up the left edge, along the
head, down the right edge, back along the tail. Every edge is drawn by one function in coordinates of its own: s along
the edge in the direction of travel, d from the edge into the piece.
"""

from pastedown.diagnostic import Label, error
from pastedown.geometry.cut_edges import Edge, cut_along, region_of
from pastedown.geometry.cut_regions import Region, keep_apart, region
from pastedown.geometry.cuts_asked import CORNERS, EDGES, as_asked, corner_called, cuts_asked
from pastedown.geometry.fault import Fault
from pastedown.geometry.inner_cut import Said, inner_cut, inner_region, written
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.path_moves import Move, without_stops, without_whiskers
from pastedown.geometry.piece import ArcTo, Cut, CutPath, LineTo, Point
from pastedown.geometry.value import Treatment
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span

# What it costs to tell two cuts apart, in steps of working out.
_STEPS_TO_TELL_APART = 30


def outline_of(piece: PieceMaker) -> tuple[CutPath, tuple[CutPath, ...], tuple[Cut, ...]]:
    """The outer cut and the inner cuts of a piece, and what was asked for. Raises Fault where a cut would leave the
    paper or meet another one."""
    found = cuts_asked(piece)
    edges, corners, inside = found.edges, found.corners, found.inside
    height, width = piece.side("height"), piece.side("width")
    asked = as_asked(piece, found, height, width)
    _tapers_to_corners(edges, corners, height, width)
    sizes = {"left": height, "head": width, "right": height, "tail": width}
    moves: list[Move] = []
    start: Point | None = None
    taken: list[tuple[Region, Span]] = []
    for number, edge in enumerate(EDGES):
        before, after = EDGES[number - 1], EDGES[(number + 1) % 4]
        here = Edge(piece, edge, sizes[edge], height, width)
        begin = _corner_leg(corners.get((before, edge)), edge)
        end = _corner_leg(corners.get((edge, after)), edge)
        _fits_along(here, begin + end, corners, edge, (before, after))
        if start is None:
            start = here.point(begin, NO_LENGTH)
        if edge in edges:
            cut = cut_along(here, edges[edge], begin, here.size - end)
            moves.extend(cut)
            taken.append((region_of(here, edges[edge], cut), edges[edge].span))
        moves.append(LineTo(here.point(here.size - end, NO_LENGTH)))
        corner = corners.get((edge, after))
        if corner is not None:
            following = Edge(piece, after, sizes[after], height, width)
            moves.append(_corner_move(corner, here, following))
            points = (here.point(here.size - end, NO_LENGTH), here.point(here.size, NO_LENGTH), moves[-1].end)
            name = f"the {corner.treatment.kind} of {'_'.join(corner_called(piece, (edge, after)))}"
            taken.append((region(name, points, (edge, after)), corner.span))
    assert start is not None
    cuts = [inner_cut(piece, name, said, height, width) for name, said in inside]
    taken += [(inner_region(cut), said.span) for cut, (_, said) in zip(cuts, inside, strict=True)]
    _keep_apart(piece, taken)
    return CutPath("outline", *without_whiskers(start, without_stops(start, moves)), True), tuple(cuts), asked


def _keep_apart(piece: PieceMaker, taken: list[tuple[Region, Span]]) -> None:
    """Raises Fault where two cuts leave no paper between them."""
    in_turn = sorted(taken, key=lambda cut: cut[0].left)
    for number, (one, first) in enumerate(in_turn):
        for other, second in in_turn[number + 1 :]:
            if other.left > one.right:
                break
            piece.instance.work.spend(second)
            if other.bottom > one.top or one.bottom > other.top:
                continue
            piece.instance.work.spend(second, _STEPS_TO_TELL_APART)
            if not keep_apart(one, other):
                raise Fault(
                    error(
                        "cuts-meet",
                        second,
                        f"No paper is left between {one.name} and {other.name} of {piece.path}.",
                        reason="One cut would run into the other, and what is between them falls off.",
                        way_out="Make one of them smaller, or move it: at: ... along an edge, from_left: ... and "
                        "from_tail: ... inside.",
                        labels=() if first == second else (Label(first, f"{one.name}"),),
                    )
                )


def _tapers_to_corners(
    edges: dict[str, Said], corners: dict[tuple[str, str], Said], height: Length, width: Length
) -> None:
    """A tapered edge is shorter than the paper by twice the taper: both of its corners are cut off from there to the
    opposite edge, so that the two neighbouring edges slope along their whole length."""
    for edge in [edge for edge in EDGES if edge in edges and edges[edge].treatment.kind == "taper"]:
        said = edges.pop(edge)
        by = said.treatment.length("by") or NO_LENGTH
        upright = edge in ("left", "right")
        neighbour = width if upright else height
        legs = (("along_height", by), ("size", neighbour)) if upright else (("along_height", neighbour), ("size", by))
        for ends in CORNERS:
            if edge in ends:
                if ends in corners or any(other in edges for other in ends if other != edge):
                    raise Fault(
                        error(
                            "cut-outside",
                            said.span,
                            f"The {edge} edge cannot be tapered where its corners or neighbours are cut too.",
                            way_out="Keep one of the two.",
                        )
                    )
                corners[ends] = Said(Treatment("mitre", legs), said.span)


def _corner_leg(said: Said | None, edge: str) -> Length:
    """How much of an edge a corner takes."""
    if said is None:
        return NO_LENGTH
    if said.treatment.kind == "round":
        return said.treatment.length("radius") or NO_LENGTH
    along_height = said.treatment.length("along_height")
    if along_height is not None and edge in ("left", "right"):
        return along_height
    return said.treatment.length("size") or NO_LENGTH


def _fits_along(
    edge: Edge, taken: Length, corners: dict[tuple[str, str], Said], name: str, around: tuple[str, str]
) -> None:
    if taken <= edge.size:
        return
    said = corners.get((around[0], name)) or corners[(name, around[1])]
    raise Fault(
        error(
            "cut-outside",
            said.span,
            f"The corners take {written(edge.piece, taken)} of the {name} edge of {edge.piece.path}, which is "
            f"{written(edge.piece, edge.size)} long.",
            way_out=f"Make them smaller: together {written(edge.piece, edge.size)} at most.",
        )
    )


def _corner_move(said: Said, here: Edge, following: Edge) -> Move:
    leg = _corner_leg(said, following.name)
    end = following.point(leg, NO_LENGTH)
    if said.treatment.kind == "mitre":
        return LineTo(end)
    radius = said.treatment.length("radius") or NO_LENGTH
    return ArcTo(end, here.point(here.size - radius, radius), radius, True)
