"""What lies between two sides of paper or board that look at one another in a pose, and how far these stand apart.

A field lies between them if its middle does, and so does all that is joined onto it. What lies loose in a part counts
over all of that part, for nobody knows where it slides to. Either side may stand nearer than the pose draws it: a bend
turned square gives way by its whole width, until the board beyond it stands on the paper before it. One that is shut is
a back by itself, as wide as it is. Derived.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction
from itertools import product

from attrs import evolve, frozen

from pastedown.geometry.folded_piece import Field
from pastedown.geometry.frame import Frame, along, moved
from pastedown.geometry.in_pose import InPose, PlacedPiece, PlacedSide, adhesive_of, turned_bends_between
from pastedown.geometry.layer_stack import Layer, LayerStack, Rectangle, how_many_cells, stack_of
from pastedown.geometry.lying_there import is_parallel, paper_layers, shadow
from pastedown.geometry.natural_order import natural_key

Face = tuple[str, str, str]
_NOUGHT = Fraction(0)


@frozen(eq=False)
class Between:
    """`apart` is how far the two sides stand apart in the pose, `least` how far where every bend between them gives
    way, in millimetres. `layers` are all that lies between them, and `over` is what both sides have in common.
    `added` are the paths of what was put onto or into things that move. `loose` lies somewhere in its part, `unplaced`
    nobody knows where. `moving` are the parts that are joined so that they move, and `without_caliper` the pieces and
    the joins there whose thickness is not known."""

    apart: Fraction
    least: Fraction
    layers: tuple[Layer, ...]
    over: Rectangle
    added: frozenset[str]
    loose: tuple[str, ...]
    unplaced: tuple[str, ...]
    moving: frozenset[str]
    part_of: dict[str, str]
    without_caliper: tuple[str, ...]

    def stack(self, *, blank: bool) -> LayerStack:
        """The layers as zones; `blank` without what was added."""
        counted = (one for one in self.layers if not (blank and {one.what, one.holds} & self.added))
        return stack_of(counted, (self.over,))

    def of_what_moves(self) -> frozenset[str]:
        """The pieces there that belong to what moves by itself."""
        return frozenset(path for path, part in self.part_of.items() if part in self.moving and path not in self.added)

    def cells(self) -> int:
        """What working out its zones costs."""
        return how_many_cells(self.layers)


def between(placed: InPose, one: Face, other: Face, added: Collection[str]) -> Between | None:
    """None where the two sides do not look at one another in this pose, or one of them has no place in it. `added` are
    the pieces that their part does not have by itself."""
    first, second = placed.side(one), placed.side(other)
    if first is None or second is None or first.placed.root != second.placed.root:
        return None
    if first.outward != tuple(-part for part in second.outward):
        return None
    apart = -first.level - second.level
    over = shadow(first.field, first.field.frame).within(shadow(second.field, first.field.frame))
    if apart <= 0 or over.is_empty:
        return None
    there = _There(placed, first, second, frozenset(added))
    fields = there.fields()
    films = [*there.films(fields)]
    loose = [*there.loose(fields)]
    laid_in = (path for path in fields if placed.piece(path).loose)
    put_there = {*there.carried_by_moving(fields), *laid_in, *(layer.what for layer in loose)}
    unknown = [path for path in fields if fields[path].folded.piece.stock.caliper is None]
    unknown += [layer.what for layer in films if not layer.thickness]
    return Between(
        apart=apart,
        least=max(apart - there.gives_way(), _NOUGHT),
        layers=(
            *(layer for where in fields.values() for layer in paper_layers(where, there.frame)),
            *(layer for layer in films if layer.thickness),
            *(layer for layer in loose if layer.thickness),
        ),
        over=over,
        added=frozenset(put_there),
        loose=tuple(layer.what for layer in loose),
        unplaced=there.unplaced({layer.what for layer in loose}),
        moving=frozenset(
            placed.piece(path).part for path in fields if path not in put_there and there.moves(path)
        ),
        part_of={path: placed.piece(path).part for path in fields},
        without_caliper=tuple(sorted(dict.fromkeys(unknown), key=natural_key)),
    )


@frozen(eq=False)
class _There:
    placed: InPose
    first: PlacedSide
    second: PlacedSide
    added: frozenset[str]

    @property
    def frame(self) -> Frame:
        return self.first.field.frame

    def gives_way(self) -> Fraction:
        """The width of all bends that are turned square between the two sides."""
        bends = set(turned_bends_between(self.first, self.second, self.placed))
        return sum(
            (
                panel.end.value - panel.start.value
                for piece in self.placed.model.pieces
                for run in piece.runs
                for panel in run.panels
                if f"{piece.path}.{panel.name}" in bends and self.placed.angles[piece.path, panel.name] == "square"
            ),
            start=_NOUGHT,
        )

    def fields(self) -> dict[str, PlacedPiece]:
        """Every piece that has fields there, with these fields alone, by path in natural order."""
        ends = {self.first.placed.folded.piece.path, self.second.placed.folded.piece.path}
        found: dict[str, PlacedPiece] = {}
        placed = (self.placed.place(piece.path) for piece in self.placed.model.pieces)
        for where in sorted((one for one in placed if one is not None), key=lambda each: each.above):
            path = where.folded.piece.path
            if path in ends or where.root != self.first.placed.root:
                continue
            below = found.get(where.on.placed.folded.piece.path) if where.on is not None else None
            on_it = below is not None and where.on is not None and where.on.field in below.folded.fields
            kept = tuple(
                one
                for one in where.folded.fields
                if is_parallel(one, self.frame) and (on_it or self._is_between(one, where))
            )
            if kept:
                found[path] = evolve(where, folded=evolve(where.folded, fields=kept))
        return {path: found[path] for path in sorted(found, key=natural_key)}

    def _is_between(self, one: Field, where: PlacedPiece) -> bool:
        caliper = where.folded.piece.stock.caliper
        half = caliper.value / 2 if caliper is not None else _NOUGHT
        at = along(moved(one.frame.origin, one.frame.z, -half), self.first.outward)
        return self.first.level < at < -self.second.level or (
            not half and self.first.level <= at <= -self.second.level
        )

    def films(self, fields: dict[str, PlacedPiece]) -> Iterator[Layer]:
        """The adhesive of every join and closing that holds something there; of no thickness where that is not
        known."""
        for join in self.placed.model.joins:
            if join.by is None:
                continue
            for what, to in zip(join.what.faces, join.to.faces, strict=False):
                for one, other in product(self.placed.sides(what), self.placed.sides(to)):
                    there = any(
                        side.field in fields[face[0]].folded.fields
                        for face, side in ((what, one), (to, other))
                        if face[0] in fields
                    )
                    if there and is_parallel(one.field, self.frame) and is_parallel(other.field, self.frame):
                        common = shadow(one.field, self.frame).within(shadow(other.field, self.frame))
                        if not common.is_empty:
                            yield Layer(join.path, adhesive_of(join), common, holds=what[0])

    def moves(self, path: str) -> bool:
        """Whether a piece is joined so that it moves, onto what belongs to another part."""
        join = self.placed.carried_by(path)
        return join is not None and join.moving and self.placed.piece(join.to.faces[0][0]).part != self._part(path)

    def _part(self, path: str) -> str:
        return self.placed.piece(path).part

    def carried_by_moving(self, fields: dict[str, PlacedPiece]) -> Iterator[str]:
        """What lies on something that moves and does not belong to the part of it by itself."""
        for path in fields:
            below, seen = self.placed.carried_by(path), {path}
            while below is not None and (at := below.to.faces[0][0]) not in seen:
                seen.add(at)
                own, around = self._part(path), self._part(at)
                belongs = path not in self.added and (own == around or own.startswith(f"{around}."))
                if self.moves(at) and not belongs:
                    yield path
                    break
                below = self.placed.carried_by(at)

    def loose(self, fields: dict[str, PlacedPiece]) -> Iterator[Layer]:
        """What lies loose in a part that lies there, with all that is stuck to it, over the whole of that part."""
        for path, heap in self._loose_heaps().items():
            holder = self._holder(path, fields)
            if holder:
                thickness = stack_of(
                    layer for one in heap for layer in paper_layers(one, heap[0].base.frame)
                ).highest
                places = [
                    shadow(one, self.frame)
                    for other in holder
                    for one in fields[other].folded.fields
                ]
                yield Layer(path, thickness, _around(places))

    def unplaced(self, counted: Collection[str]) -> tuple[str, ...]:
        return tuple(path for path in self._loose_heaps() if path not in counted)

    def _loose_heaps(self) -> dict[str, list[PlacedPiece]]:
        """Everything loose that no join puts anywhere, each with what is stuck to it; itself first."""
        loose = (one.path for one in self.placed.model.pieces if one.loose and self.placed.carried_by(one.path) is None)
        heaps: dict[str, list[PlacedPiece]] = {path: [] for path in sorted(loose, key=natural_key)}
        for piece in self.placed.model.pieces:
            where = self.placed.place(piece.path)
            if where is not None and where.root in heaps:
                heaps[where.root].append(where)
        for path, heap in heaps.items():
            heap.sort(key=lambda where: where.folded.piece.path != path)
        return {path: heap for path, heap in heaps.items() if heap}

    def _holder(self, path: str, fields: dict[str, PlacedPiece]) -> list[str]:
        """The pieces of the innermost part around a loose one that has any there."""
        part = self._part(path)
        while part:
            own = [other for other in fields if self._part(other) == part and other not in self.added]
            if own:
                return own
            part = part.rpartition(".")[0]
        return []


def _around(places: list[Rectangle]) -> Rectangle:
    return Rectangle(
        min(one.left for one in places), max(one.right for one in places),
        min(one.tail for one in places), max(one.head for one in places),
    )  # fmt: skip
