"""The pieces on the table: as designed, and as they are now.

All pieces keep the lengths they were designed with, for they may be cut already; only what slipped is another. A fact
that pieces of its part are cut to by its name is read off them; everything else is worked out again, also what parts
were told of one another.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from attrs import define, evolve, field, frozen

from pastedown.geometry.actual import Actual, Side
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.from_design import instances
from pastedown.geometry.instance import Instance
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.paths import paths_in
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.read_slip import Slip
from pastedown.slip.report import Done
from pastedown.slip.shapes import CutTo, Shape, Shapes, cut_to, shapes_of
from pastedown.slip.sizes_behind import handed_down, whole_sizes
from pastedown.tree.statement import Piece, Takes


@frozen
class AsOn:
    """Lengths as they are on the pieces of one path without its numbers, "" as designed: where they are unlike there,
    too, the first or another. `parts` are those where this is so: what they say of their own lengths, such as their
    sum, is of no length in particular, but where they speak of one of `lengths`, by its path, alone."""

    pieces: str = ""
    number: int = 0
    parts: frozenset[str] = frozenset()
    lengths: frozenset[str] = frozenset()


@frozen
class AsRead:
    """A length that was found out by what was read at a step, how long it is by that, and what was read."""

    fact: CutTo
    size: Length
    reading: Length


@define(eq=False)
class Bench:
    """The pieces on the table: as designed, and as they are now. `given` are the lengths that parts were told and cut
    by, `told` those measured on the part itself, `readings` what was read at a step, by its path, and `swollen` how
    many times the thickness of its paper a piece takes up for it; `read_as` are readings that told a length. `numbers`
    are set anew, and the pieces that `follows` names are cut to them. `wrong_way` are folds that were folded to the
    other side, by their paths."""

    root: Instance
    model: Model
    designed: Shapes
    now: Shapes
    facts: tuple[CutTo, ...]
    given: Mapping[str, Length]
    told: dict[str, Length] = field(factory=dict)
    done: list[Done] = field(factory=list)
    slips: tuple[Slip, ...] = ()
    swollen: dict[str, Fraction] = field(factory=dict)
    readings: dict[str, Length] = field(factory=dict)
    read_as: dict[str, AsRead] = field(factory=dict)
    numbers: dict[str, Length] = field(factory=dict)
    follows: frozenset[str] = frozenset()
    wrong_way: list[str] = field(factory=list)

    def actual(self, turn: int = 0, as_on: AsOn | None = None) -> Actual:
        """What was really done, for working the design out again; lengths that are unlike as on some pieces."""
        facts = {**self.given, **self._read_off(as_on or AsOn()), **self.told, **self.numbers}
        kept = {side: shape for side, shape in self.now.items() if side[0] not in self.follows}
        return Actual(
            sides={side: shape.side for side, shape in kept.items()},
            ends={side: tuple(shape.ends) for side, shape in kept.items() if shape.ends},
            facts=facts,
            swollen=dict(self.swollen),
            turn=turn,
        )

    @property
    def slipped(self) -> list[str]:
        """The pieces that are others than designed, by path."""
        return sorted({side[0] for side, shape in self.now.items() if not shape.is_like(self.designed[side])})

    def cut_anew(self, pieces: Iterable[str]) -> None:
        """Cut and score pieces again, as designed; what was measured on their parts is as designed, too."""
        anew = set(pieces)
        for side in self.now:
            if side[0] in anew:
                self.now[side] = self.designed[side].copied()
        parts = {piece.rpartition(".")[0] for piece in anew}
        above = {fact.path for fact in self.facts if any(side[0] in anew for side, _ in fact.places)}
        self.told = {
            path: told for path, told in self.told.items() if path.rpartition(".")[0] not in parts and path not in above
        }

    def _read_off(self, as_on: AsOn) -> dict[str, Length]:
        """Facts as the pieces show them: where what is cut to one of them came out unlike, as it is on some pieces;
        else as designed. Those that follow other numbers are left out."""
        found: dict[str, Length] = {}
        for fact in self.facts:
            if not fact.is_given and all(side[0] in self.follows for side, _ in fact.places):
                continue
            unlike = self._sizes(fact)
            if len(unlike) == 1 and self._is_told_by_uneven(fact):
                continue
            if len(unlike) > 1:
                shown = self._sizes(fact, as_on.pieces)
                side, panel = fact.places[0]
                designed = length_of(fact.instance, fact.name) or self.designed[side].size(panel)
                found[fact.path] = shown[as_on.number % len(shown)] if shown else designed
            else:
                found[fact.path] = unlike[0]
        return found

    def _is_told_by_uneven(self, fact: CutTo) -> bool:
        """Whether a fact is a whole side of something folded, of which panels that should be alike came out unlike:
        what its part adds up from its lengths would not add up to this one, and it is as designed then."""
        if not all(panel is None and self.now[side].ends for side, panel in fact.places):
            return False
        sides = {side for side, _ in fact.places}
        beside = [each for each in self.facts if each.instance is fact.instance and each is not fact]
        return any(
            len(self._sizes(each)) > 1 and all(side in sides and panel is not None for side, panel in each.places)
            for each in beside
        )

    def _sizes(self, fact: CutTo, pieces: str | None = None) -> list[Length]:
        """The sizes of what is cut to a fact, each once; on all pieces, or on those of one path without its numbers."""
        places = [at for at in fact.read_off if pieces is None or without_indexes(at[0][0]) == pieces]
        sizes = {self.now[side].size(panel): None for side, panel in places}
        return list(sizes)

    @property
    def unlike(self) -> list[AsOn]:
        """What has to be asked one after the other where lengths came out unlike that are cut to one fact: first as
        designed, then as they are on the pieces that slipped."""
        uneven = [fact for fact in self.facts if len(self._sizes(fact)) > 1]
        slipped = set(self.slipped)
        pieces = sorted({without_indexes(at[0]) for fact in uneven for at, _ in fact.read_off if at[0] in slipped})
        asked = [AsOn()]
        for each in pieces:
            several = [fact for fact in uneven if len(self._sizes(fact, each)) > 1]
            parts = frozenset(fact.instance.path for fact in several if not fact.handed_down)
            lengths = frozenset(fact.path for fact in several)
            most = max((len(self._sizes(fact, each)) for fact in several), default=1)
            asked += [AsOn(each, number, parts, lengths) for number in range(most)]
        return asked

    def resize(self, fact: CutTo, size: Length) -> None:
        """Cut all that is cut to a fact to another size."""
        for side, panel in fact.places:
            self.now[side].resize(panel, size)

    def again(self) -> Bench:
        """A copy to try something on."""
        return evolve(
            self, now=_copied(self.now), told=dict(self.told), done=list(self.done), swollen=dict(self.swollen),
            readings=dict(self.readings), read_as=dict(self.read_as), numbers=dict(self.numbers),
        )  # fmt: skip


def bench_of(root: Instance, model: Model) -> Bench:
    """The pieces of a design, none of them slipped yet."""
    designed = shapes_of(model)
    facts = cut_to(instances(root), designed)
    all_facts = handed_down((*facts, *whole_sizes(facts, designed)))
    return Bench(root, model, designed, _copied(designed), all_facts, _given(root))


def _copied(shapes: Mapping[Side, Shape]) -> Shapes:
    return {side: shape.copied() for side, shape in shapes.items()}


def _given(root: Instance) -> dict[str, Length]:
    """What parts were told from outside and cut their pieces by without being read off them, such as where a window is;
    and what was moved to a mark. It stays when it was cut; all else that they were told is asked again."""
    found: dict[str, Length] = {}
    for instance in instances(root):
        if instance is root:
            continue
        names = instance.names()
        pieces = [entry.statement for name in names if instance.kind_of(name) is Piece
                  for _, entry, _ in instance.declared(name)]  # fmt: skip
        cut_by = {path.head for piece in pieces for path in paths_in(piece)}
        for name in names:
            path = instance.path_of(name, None)
            is_cut = name in cut_by and instance.kind_of(name) is Takes and instance.setting(name) is not None
            value = length_of(instance, name) if is_cut or path in root.work.marks.moves else None
            if value is not None:
                found[path] = value
    return found


def length_of(instance: Instance, name: str) -> Length | None:
    try:
        value = instance.lookup(name, instance.span)
    except (Fault, Spoilt):
        return None
    return value if isinstance(value, Quantity) and value.dimension == LENGTH else None
