"""The outer cut of a piece and the cuts inside it, from what is done to its corners, its edges and its inside.

The outline runs clockwise as seen from the face, from the tail end of the left edge: up the left edge, along the
head, down the right edge, back along the tail. Every edge is drawn by one function in coordinates of its own: s along
the edge in the direction of travel, d from the edge into the piece.
"""

from __future__ import annotations

from typing import TypeVar

from attrs import frozen

from pastedown.design.brackets import TREATMENTS
from pastedown.design.piece_names import misnamed
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.cut_regions import Region, half_round, keep_apart, region
from pastedown.geometry.evaluate import evaluate
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.inner_cut import Said, inner_cut, inner_region, written
from pastedown.geometry.layer import set_twice
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.path_moves import Move, without_stops, without_whiskers
from pastedown.geometry.piece import ArcTo, Cut, CutPath, LineTo, Point
from pastedown.geometry.value import Treatment
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span
from pastedown.tree.expression import Path

Place = TypeVar("Place")
# What it costs to tell two cuts apart, in steps of working out.
_STEPS_TO_TELL_APART = 30
EDGES = ("left", "head", "right", "tail")
# Each corner by the edge that ends there and the edge that begins there, in the direction of travel.
CORNERS = {
    ("left", "head"): "head_left",
    ("head", "right"): "head_right",
    ("right", "tail"): "tail_right",
    ("tail", "left"): "tail_left",
}


def outline_of(piece: PieceMaker) -> tuple[CutPath, tuple[CutPath, ...], tuple[Cut, ...]]:
    """The outer cut and the inner cuts of a piece, and what was asked for. Raises Fault where a cut would leave the
    paper or meet another one."""
    edges, corners, inside = _sorted_out(piece)
    height, width = piece.side("height"), piece.side("width")
    asked = _as_asked(piece, edges, corners, inside, height, width)
    _tapers_to_corners(edges, corners, height, width)
    sizes = {"left": height, "head": width, "right": height, "tail": width}
    moves: list[Move] = []
    start: Point | None = None
    taken: list[tuple[Region, Span]] = []
    for number, edge in enumerate(EDGES):
        before, after = EDGES[number - 1], EDGES[(number + 1) % 4]
        here = _Edge(piece, edge, sizes[edge], height, width)
        begin = _corner_leg(corners.get((before, edge)), edge)
        end = _corner_leg(corners.get((edge, after)), edge)
        _fits_along(here, begin + end, corners, edge, (before, after))
        if start is None:
            start = here.point(begin, NO_LENGTH)
        if edge in edges:
            cut = _treated_edge(here, edges[edge], begin, here.size - end)
            moves.extend(cut)
            taken.append((_edge_region(here, edges[edge], cut), edges[edge].span))
        moves.append(LineTo(here.point(here.size - end, NO_LENGTH)))
        corner = corners.get((edge, after))
        if corner is not None:
            following = _Edge(piece, after, sizes[after], height, width)
            moves.append(_corner_move(corner, here, following))
            points = (here.point(here.size - end, NO_LENGTH), here.point(here.size, NO_LENGTH), moves[-1].end)
            name = f"the {corner.treatment.kind} of {'_'.join(_corner_name(piece, (edge, after)))}"
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


def _edge_region(edge: _Edge, said: Said, cut: list[Move]) -> Region:
    name = f"the {said.treatment.kind.replace('_', ' ')} of {_called(edge.piece, edge.name)}"
    if said.treatment.kind == "notch":
        return region(name, [move.end for move in cut], (edge.name,))
    first, last = edge.place(cut[0].end), edge.place(cut[-1].end)
    straight = edge.depth(cut[1].end)
    around = [edge.point(s, d + straight) for s, d in half_round((first + last) / 2, (last - first) / 2)]
    return region(name, [cut[0].end, *around, cut[-1].end], (edge.name,))


def _called(piece: PieceMaker, edge: str) -> str:
    return piece.edge_name(edge) if edge in ("left", "right") else edge


def _corner_name(piece: PieceMaker, ends: tuple[str, str]) -> tuple[str, ...]:
    """The two edges by the maker's names, head or tail first."""
    return tuple(_called(piece, edge) for edge in sorted(ends, key=lambda edge: edge in ("left", "right")))


def _as_asked(
    piece: PieceMaker,
    edges: dict[str, Said],
    corners: dict[tuple[str, str], Said],
    inside: list[tuple[str, Said]],
    height: Length,
    width: Length,
) -> tuple[Cut, ...]:
    """Every cut with the sizes that were asked for and the places that were left to us."""
    cuts = []
    for edge in (edge for edge in EDGES if edge in edges):
        made = edges[edge].treatment
        sizes = dict(made.lengths)
        if made.kind != "taper":
            sizes.setdefault("depth", sizes["width"] / 2)
            sizes.setdefault("at", (height if edge in ("left", "right") else width) / 2)
        cuts.append(Cut(made.kind, "", (_called(piece, edge),), tuple(sizes.items())))
    for ends in (ends for ends in CORNERS if ends in corners):
        made = corners[ends].treatment
        cuts.append(Cut(made.kind, "", _corner_name(piece, ends), made.lengths))
    for name, said in inside:
        made = said.treatment
        sizes = dict(made.lengths)
        along = made.word("along")
        high = sizes.get("height", sizes.get("length", NO_LENGTH) if along == "height" else NO_LENGTH)
        wide = sizes.get("width", sizes.get("length", NO_LENGTH) if along == "width" else NO_LENGTH)
        sizes.setdefault("from_left", (width - wide) / 2)
        sizes.setdefault("from_tail", (height - high) / 2)
        cuts.append(Cut(made.kind, name, (), tuple(sizes.items()), along or ""))
    return tuple(cuts)


@frozen(eq=False)
class _Edge:
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


def _sorted_out(piece: PieceMaker) -> tuple[dict[str, Said], dict[tuple[str, str], Said], list[tuple[str, Said]]]:
    """Everything said of edges, corners and the inside, by where it goes."""
    edges: dict[str, Said] = {}
    corners: dict[tuple[str, str], Said] = {}
    inside: list[tuple[str, Said]] = []
    edge_names = {
        "head": "head",
        "tail": "tail",
        piece.edge_name("left"): "left",
        piece.edge_name("right"): "right",
        "left": "left",
        "right": "right",
    }
    corner_names = {
        f"{end}_{name}": ends
        for name, side in edge_names.items()
        if side in ("left", "right")
        for end in ("head", "tail")
        for ends, corner in CORNERS.items()
        if corner == f"{end}_{side}"
    }
    for name in _treated_names(piece):
        cut = piece.cut(name)
        if cut is None:
            continue
        expression, scope = cut
        if isinstance(expression, Path) and expression.head == "nothing":
            continue
        value = evaluate(expression, scope)
        if not isinstance(value, Treatment):
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    "In the braces of a piece, = says what is cut: mitre, round, notch, thumb_notch, "
                    "taper, window or slit.",
                    way_out="Other facts stand outside the piece.",
                )
            )
        said = Said(value, expression.span)
        where = TREATMENTS[value.kind].where
        if where == "inside":
            inside.append((name, said))
        elif where == "edge" and name in edge_names:
            _put(edges, edge_names[name], name, said)
        elif where == "corner" and name in corner_names:
            _put(corners, corner_names[name], name, said)
        elif name in misnamed(piece.statement):
            raise Spoilt
        else:
            known = sorted(edge_names if where == "edge" else corner_names)
            raise Fault(
                error(
                    "edge-names",
                    _name_span(piece, name) or expression.span,
                    f"A {value.kind.replace('_', ' ')} goes on "
                    f"{'an edge' if where == 'edge' else 'a corner'}, and {name} is none of this piece.",
                    way_out=did_you_mean(name, known) or f"It has {', '.join(known)}.",
                )
            )
    return edges, corners, inside


def _put(found: dict[Place, Said], at: Place, name: str, said: Said) -> None:
    """Raises Fault where an edge or a corner that has two names is cut under both."""
    if at in found:
        raise set_twice(name, found[at].span, said.span)
    found[at] = said


def _name_span(piece: PieceMaker, name: str) -> Span | None:
    """The words that name what is cut: those of the outermost layer, or of the piece's own braces."""
    for layer in piece.amendments:
        entry = layer.set_to(name)
        if entry is not None:
            return entry.path[0].span
    own = piece.facts.get(name)
    return own[0][0].path.span if own else None


def _treated_names(piece: PieceMaker) -> list[str]:
    added = {
        entry.path[0].name
        for layer in piece.amendments
        for name in layer.names()
        for entry in layer.entries(name)
        if len(entry.path) == 1
        and entry.value is not None
        and getattr(getattr(entry.value, "called", None), "head", "") in TREATMENTS
    }
    return sorted({*piece.facts, *added})


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
    edge: _Edge, taken: Length, corners: dict[tuple[str, str], Said], name: str, around: tuple[str, str]
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


def _corner_move(said: Said, here: _Edge, following: _Edge) -> Move:
    leg = _corner_leg(said, following.name)
    end = following.point(leg, NO_LENGTH)
    if said.treatment.kind == "mitre":
        return LineTo(end)
    radius = said.treatment.length("radius") or NO_LENGTH
    return ArcTo(end, here.point(here.size - radius, radius), radius, True)


def _treated_edge(edge: _Edge, said: Said, begin: Length, end: Length) -> list[Move]:
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
