"""What lies on one another over each place of a plane: layers as rectangles, and the zones they make together.

Lengths are in millimetres, exact, along two directions of the plane. Nothing is squeezed and nothing sinks in: over
each place the thickness is the sum of all layers there. Derived.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from fractions import Fraction

from attrs import evolve, frozen

_NOUGHT = Fraction(0)


@frozen
class Rectangle:
    """From `left` to `right` and from `tail` to `head`."""

    left: Fraction
    right: Fraction
    tail: Fraction
    head: Fraction

    @property
    def is_empty(self) -> bool:
        return self.left >= self.right or self.tail >= self.head

    def within(self, other: Rectangle) -> Rectangle:
        """What both have in common; empty where they lie apart."""
        return Rectangle(
            max(self.left, other.left), min(self.right, other.right),
            max(self.tail, other.tail), min(self.head, other.head),
        )  # fmt: skip


@frozen
class Layer:
    """One thickness of paper, board or adhesive. `what` is the path of the piece or of the join it belongs to; `holes`
    are cut out of it. Adhesive `holds` a piece: where that goes, it goes. Paper lies `on` the piece that carries it, ""
    for none."""

    what: str
    thickness: Fraction
    place: Rectangle
    holes: tuple[Rectangle, ...] = ()
    holds: str = ""
    on: str = ""


@frozen
class Zone:
    """A rectangle over which the same layers lie, by their numbers."""

    place: Rectangle
    layers: tuple[int, ...]
    thickness: Fraction


@frozen(eq=False)
class LayerStack:
    """Layers and the zones they make, from the tail upwards and from left to right. Where nothing lies is no zone."""

    layers: tuple[Layer, ...]
    zones: tuple[Zone, ...]

    @property
    def highest(self) -> Fraction:
        """The thickness of the thickest zone; nought where nothing lies."""
        return max((zone.thickness for zone in self.zones), default=_NOUGHT)

    def steepest(self, above: Fraction, axis: str, at: Fraction) -> Fraction:
        """How steeply a stiff leaf rises that turns at a line across `axis` ("width" or "height"), `at` along it, and
        leans on what stands higher than `above`: the most of (thickness - above) / distance over all zones, nought
        where none is higher. What begins at the line itself counts at its far end, for a leaf that turns there cannot
        lean on it."""
        slopes = [
            (zone.thickness - above) / distance
            for zone in self.zones
            if zone.thickness > above and (distance := _distance(zone.place, axis, at)) > 0
        ]
        return max(slopes, default=_NOUGHT)


def _distance(place: Rectangle, axis: str, at: Fraction) -> Fraction:
    low, high = (place.left, place.right) if axis == "width" else (place.tail, place.head)
    near = low - at if low >= at else at - high
    return near if near > 0 else max(high - at, at - low)


def how_many_cells(layers: Iterable[Layer]) -> int:
    """Into how many cells the edges of all layers cut the plane: what working out their zones costs."""
    across, upward = _edges(layers)
    return max(len(across) - 1, 0) * max(len(upward) - 1, 0)


def _edges(layers: Iterable[Layer]) -> tuple[list[Fraction], list[Fraction]]:
    across: set[Fraction] = set()
    upward: set[Fraction] = set()
    for layer in layers:
        for place in (layer.place, *layer.holes):
            across |= {place.left, place.right}
            upward |= {place.tail, place.head}
    return sorted(across), sorted(upward)


def stack_of(layers: Iterable[Layer], over: tuple[Rectangle, ...] | None = None) -> LayerStack:
    """The zones of layers, whole or `over` some places only."""
    kept = tuple(_cut_to(layers, over) if over is not None else (one for one in layers if not one.place.is_empty))
    across, upward = _edges(kept)
    marks = _marks(kept, across, upward)
    thickness: dict[int, Fraction] = {0: _NOUGHT}
    zones: list[Zone] = []
    growing: dict[tuple[int, int, int], int] = {}
    above = [0] * len(across)
    for row in range(len(upward) - 1):
        here = [0] * len(across)
        current = 0
        for column in range(len(across) - 1):
            current ^= marks.get((column, row), 0)
            here[column] = above[column] ^ current
        growing = _grow(here, row, (across, upward), kept, thickness, zones, growing)
        above = here
    return LayerStack(kept, tuple(zones))


def _cut_to(layers: Iterable[Layer], over: tuple[Rectangle, ...]) -> Iterable[Layer]:
    for layer in layers:
        for place in _apart(over):
            part = layer.place.within(place)
            if not part.is_empty:
                yield evolve(layer, place=part)


def _apart(places: tuple[Rectangle, ...]) -> list[Rectangle]:
    """The same places as rectangles that do not overlap."""
    whole = stack_of(Layer("", Fraction(1), place) for place in places)
    return [zone.place for zone in whole.zones]


def _marks(layers: tuple[Layer, ...], across: list[Fraction], upward: list[Fraction]) -> dict[tuple[int, int], int]:
    """In which cells a layer begins or ends, as one bit for each layer: summed up from the lower left corner without
    carrying, they say which layers lie in a cell."""
    marks: dict[tuple[int, int], int] = {}
    for number, layer in enumerate(layers):
        bit = 1 << number
        for place in (layer.place, *_holes(layer)):
            columns = bisect_left(across, place.left), bisect_left(across, place.right)
            rows = bisect_left(upward, place.tail), bisect_left(upward, place.head)
            for column in columns:
                for row in rows:
                    marks[column, row] = marks.get((column, row), 0) ^ bit
    return marks


def _holes(layer: Layer) -> list[Rectangle]:
    """The holes of a layer so far as they lie in it; none of them overlaps another."""
    inside = [hole.within(layer.place) for hole in layer.holes]
    inside = [hole for hole in inside if not hole.is_empty]
    return _apart(tuple(inside)) if len(inside) > 1 else inside


def _grow(
    here: list[int],
    row: int,
    edges: tuple[list[Fraction], list[Fraction]],
    layers: tuple[Layer, ...],
    thickness: dict[int, Fraction],
    zones: list[Zone],
    growing: dict[tuple[int, int, int], int],
) -> dict[tuple[int, int, int], int]:
    """Add one row of cells: neighbours with the same layers are one zone, and so is what stands on a zone of the row
    below that is just as wide. Gives the zones that may grow on, by their columns and layers."""
    across, upward = edges
    found: dict[tuple[int, int, int], int] = {}
    column = 0
    while column < len(across) - 1:
        start, mask = column, here[column]
        while column < len(across) - 1 and here[column] == mask:
            column += 1
        if not mask:
            continue
        key = (start, column, mask)
        if key in growing:
            number = growing[key]
            place = zones[number].place
            grown = Rectangle(place.left, place.right, place.tail, upward[row + 1])
            zones[number] = Zone(grown, zones[number].layers, zones[number].thickness)
        else:
            number = len(zones)
            numbers = tuple(_bits(mask))
            if mask not in thickness:
                thickness[mask] = sum((layers[one].thickness for one in numbers), _NOUGHT)
            place = Rectangle(across[start], across[column], upward[row], upward[row + 1])
            zones.append(Zone(place, numbers, thickness[mask]))
        found[key] = number
    return found


def _bits(mask: int) -> Iterable[int]:
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low
