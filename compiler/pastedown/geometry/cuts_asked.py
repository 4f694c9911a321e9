"""What the braces of a piece say is cut, sorted by where it goes: on an edge, on a corner or inside."""

from typing import TypeVar

from attrs import Factory, frozen

from pastedown.design.brackets import TREATMENTS
from pastedown.design.piece_names import misnamed
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.evaluate import evaluate
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.inner_cut import Said
from pastedown.geometry.layer import set_twice
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.piece import Cut
from pastedown.geometry.value import Treatment
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span
from pastedown.tree.expression import Path

Place = TypeVar("Place")
EDGES = ("left", "head", "right", "tail")
# Each corner by the edge that ends there and the edge that begins there, in the direction of travel.
CORNERS = {
    ("left", "head"): "head_left",
    ("head", "right"): "head_right",
    ("right", "tail"): "tail_right",
    ("tail", "left"): "tail_left",
}


@frozen(eq=False)
class CutsAsked:
    """What is cut on each edge, on each corner (by the edges that meet there), and inside, by the maker's name."""

    edges: dict[str, Said] = Factory(dict)
    corners: dict[tuple[str, str], Said] = Factory(dict)
    inside: list[tuple[str, Said]] = Factory(list)


def cuts_asked(piece: PieceMaker) -> CutsAsked:
    """Everything said of edges, corners and the inside, by where it goes. Raises Fault for a name that is no edge or
    corner of the piece, and for an edge or a corner that is cut twice."""
    asked = CutsAsked()
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
            asked.inside.append((name, said))
        elif where == "edge" and name in edge_names:
            _put(asked.edges, edge_names[name], name, said)
        elif where == "corner" and name in corner_names:
            _put(asked.corners, corner_names[name], name, said)
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
    return asked


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


def as_asked(piece: PieceMaker, asked: CutsAsked, height: Length, width: Length) -> tuple[Cut, ...]:
    """Every cut with the sizes that were asked for and the places that were left to us."""
    cuts = []
    for edge in (edge for edge in EDGES if edge in asked.edges):
        made = asked.edges[edge].treatment
        sizes = dict(made.lengths)
        if made.kind != "taper":
            sizes.setdefault("depth", sizes["width"] / 2)
            sizes.setdefault("at", (height if edge in ("left", "right") else width) / 2)
        cuts.append(Cut(made.kind, "", (edge_called(piece, edge),), tuple(sizes.items())))
    for ends in (ends for ends in CORNERS if ends in asked.corners):
        made = asked.corners[ends].treatment
        cuts.append(Cut(made.kind, "", corner_called(piece, ends), made.lengths))
    for name, said in asked.inside:
        made = said.treatment
        sizes = dict(made.lengths)
        along = made.word("along")
        high = sizes.get("height", sizes.get("length", NO_LENGTH) if along == "height" else NO_LENGTH)
        wide = sizes.get("width", sizes.get("length", NO_LENGTH) if along == "width" else NO_LENGTH)
        sizes.setdefault("from_left", (width - wide) / 2)
        sizes.setdefault("from_tail", (height - high) / 2)
        cuts.append(Cut(made.kind, name, (), tuple(sizes.items()), along or ""))
    return tuple(cuts)


def edge_called(piece: PieceMaker, edge: str) -> str:
    return piece.edge_name(edge) if edge in ("left", "right") else edge


def corner_called(piece: PieceMaker, ends: tuple[str, str]) -> tuple[str, ...]:
    """The two edges by the maker's names, head or tail first."""
    return tuple(edge_called(piece, edge) for edge in sorted(ends, key=lambda edge: edge in ("left", "right")))
