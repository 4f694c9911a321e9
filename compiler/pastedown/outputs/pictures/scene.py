"""What a picture shows, before it is drawn: plates in space and what is said about them."""

from attrs import frozen

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.view import OBLIQUE, View
from pastedown.outputs.two_systems import TwoSystems


@frozen
class Dimension:
    """A length between two points, written beside the picture: below it for `level` ones, in the row of that number,
    else to the left. `edge` is the name of the edge along which it is measured, if that is told."""

    start: Vector
    end: Vector
    text: TwoSystems | str
    level: bool
    row: int = 0
    edge: str = ""


@frozen
class EdgeName:
    """A name written beside the middle of an edge, `above` it or to its right."""

    at: Vector
    text: str
    above: bool


# What is named by this is where tape lies.
STICKY = "*sticky"


@frozen
class Scene:
    """`new` are the paths of pieces that are new in this picture, or the plates of them. `guides` lead from what
    stands off to where it goes; `seats` are the outlines of those places; those `inside` something are
    drawn through what covers them. `sticky` are the outlines of where tape lies. `moves` are the ways of what moves,
    each ended by an arrow; with `some_behind` an arrow is dashed where it passes behind paper, else it is drawn over
    everything. `creased` are the names of lines that are creased in this picture. `names` are written beside the
    pieces or the creases they name, `edges` are the names of edges, `grain` the ends of an arrow along the grain,
    `notes` stand below the picture; `words` tell the picture to who cannot see it. Lines that are folded are drawn in
    the kind of their line on the pieces of `lines_on` also where they are turned. A title too long for the picture is
    shortened before its `ending`, which tells one picture of a thing from the others."""

    title: str
    plates: tuple[Plate, ...]
    words: str
    new: frozenset[int] = frozenset()
    guides: tuple[tuple[Vector, Vector], ...] = ()
    seats: tuple[tuple[Vector, ...], ...] = ()
    sticky: tuple[tuple[Vector, ...], ...] = ()
    inside: tuple[tuple[Vector, ...], ...] = ()
    moves: tuple[tuple[Vector, ...], ...] = ()
    some_behind: bool = False
    names: tuple[tuple[str, str], ...] = ()
    edges: tuple[EdgeName, ...] = ()
    grain: tuple[Vector, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    notes: tuple[str, ...] = ()
    lines_on: frozenset[str] = frozenset()
    lines: frozenset[str] = frozenset()
    creased: frozenset[str] = frozenset()
    view: View = OBLIQUE
    ending: str = ""
