"""Lays slips over a design: gives what was really done, as geometry takes it.

All pieces keep the lengths they were designed with, for they may be cut already; only what slipped is another. A fact
that pieces of its part are cut to by its name is read off them; everything else is worked out again, also what parts
were told of one another.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from attrs import define, evolve, field, frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.actual import Actual, Side
from pastedown.geometry.derive import read_path
from pastedown.geometry.describe import describe
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of, follow
from pastedown.geometry.from_design import instances
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.paths import paths_in
from pastedown.geometry.value import FamilyValue, LineValue, Reference, Value
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity, number
from pastedown.slip.paths import without_numbers
from pastedown.slip.read_slip import Slip
from pastedown.slip.report import Done
from pastedown.slip.shapes import CutTo, Shape, Shapes, cut_to, shapes_of
from pastedown.slip.sizes_behind import sizes_behind, whole_sizes
from pastedown.tree.expression import Dot, Path
from pastedown.tree.statement import Piece, Takes


class SlipFault(Exception):
    """A slip that cannot be: `diagnostic` says why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.id)
        self.diagnostic = diagnostic


@frozen
class AsOn:
    """Lengths as they are on the pieces of one path without its numbers, "" as designed: where they are unlike there,
    too, the first or another. `parts` are those where this is so: what they say of their own lengths, such as their
    sum, is of no length in particular."""

    pieces: str = ""
    number: int = 0
    parts: frozenset[str] = frozenset()


@define(eq=False)
class Bench:
    """The pieces on the table: as designed, and as they are now. `told` are lengths measured on the part itself,
    `readings` what was read at a step, by its path, and `swollen` how many times the thickness of its paper a piece
    takes up for it. `numbers` are set anew, and the pieces that `follows` names are cut to them."""

    root: Instance
    model: Model
    designed: Shapes
    now: Shapes
    facts: tuple[CutTo, ...]
    told: dict[str, Length] = field(factory=dict)
    done: list[Done] = field(factory=list)
    slips: tuple[Slip, ...] = ()
    swollen: dict[str, Fraction] = field(factory=dict)
    readings: dict[str, Length] = field(factory=dict)
    numbers: dict[str, Length] = field(factory=dict)
    follows: frozenset[str] = frozenset()

    def put(self, slips: tuple[Slip, ...]) -> None:
        """Do what the slips say, in their order. Raises SlipFault."""
        self.slips += slips
        for slip in map(self._with_whole_path, slips):
            if slip.kind == "printed":
                self._print(slip)
            elif slip.number is not None:
                self._score(slip)
            else:
                self._measure(slip)
        for slip in slips:
            if not all(shape.possible for shape in self.now.values()):
                raise _fault(
                    "slip-out-of-place",
                    slip,
                    "No panel is left between two of its folds, or a fold lies past its edge.",
                    "Measure again, from the edge that the score chart names.",
                )

    def actual(self, turn: int = 0, as_on: AsOn | None = None) -> Actual:
        """What was really done, for working the design out again; lengths that are unlike as on some pieces."""
        facts = {**_given(self.root), **self._read_off(as_on or AsOn()), **self.told, **self.numbers}
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
        self.told = {path: told for path, told in self.told.items() if path.rpartition(".")[0] not in parts}

    def printed_at(self, scale: Fraction) -> Bench:
        """The same with everything that was printed printed at another scale."""
        bench = bench_of(self.root, self.model)
        bench.put(tuple(evolve(slip, amount=number(scale)) for slip in self.slips if slip.kind == "printed"))
        return bench

    def _read_off(self, as_on: AsOn) -> dict[str, Length]:
        """Facts as the pieces show them: where what is cut to one of them came out unlike, as it is on some pieces;
        else as designed. Those that follow other numbers are left out."""
        found: dict[str, Length] = {}
        for fact in self.facts:
            if not fact.is_given and all(side[0] in self.follows for side, _ in fact.places):
                continue
            unlike = self._sizes(fact)
            if len(unlike) > 1:
                shown = self._sizes(fact, as_on.pieces)
                side, panel = fact.places[0]
                designed = _length(fact.instance, fact.name) or self.designed[side].size(panel)
                found[fact.path] = shown[as_on.number % len(shown)] if shown else designed
            else:
                found[fact.path] = unlike[0]
        return found

    def _sizes(self, fact: CutTo, pieces: str | None = None) -> list[Length]:
        """The sizes of what is cut to a fact, each once; on all pieces, or on those of one path without its numbers."""
        places = [at for at in fact.places if pieces is None or without_numbers(at[0][0]) == pieces]
        sizes = {self.now[side].size(panel): None for side, panel in places}
        return list(sizes)

    @property
    def unlike(self) -> list[AsOn]:
        """What has to be asked one after the other where lengths came out unlike that are cut to one fact: first as
        designed, then as they are on the pieces that slipped."""
        uneven = [fact for fact in self.facts if len(self._sizes(fact)) > 1]
        slipped = set(self.slipped)
        pieces = sorted({without_numbers(at[0]) for fact in uneven for at, _ in fact.places if at[0] in slipped})
        asked = [AsOn()]
        for each in pieces:
            several = [fact for fact in uneven if len(self._sizes(fact, each)) > 1]
            parts = frozenset(fact.instance.path for fact in several)
            most = max((len(self._sizes(fact, each)) for fact in several), default=1)
            asked += [AsOn(each, number, parts) for number in range(most)]
        return asked

    def resize(self, fact: CutTo, size: Length) -> None:
        """Cut all that is cut to a fact to another size."""
        for side, panel in fact.places:
            self.now[side].resize(panel, size)

    def again(self) -> Bench:
        """A copy to try something on."""
        return evolve(
            self, now=_copied(self.now), told=dict(self.told), done=list(self.done), swollen=dict(self.swollen),
            readings=dict(self.readings), numbers=dict(self.numbers),
        )  # fmt: skip

    def _print(self, slip: Slip) -> None:
        inside = self._pieces_under(slip)
        for (piece, _), shape in self.now.items():
            if piece in inside:
                shape.scale(slip.amount)
        for path, size in sizes_behind(self.root, inside, self.facts).items():
            self.told[path] = size * slip.amount.value
        self.done.append(Done(slip.words, slip.path, scale=slip.amount.value))

    def _with_whole_path(self, slip: Slip) -> Slip:
        """A slip that names a part or a piece by its last name alone, where there is only one of that name."""
        head, dot, rest = slip.path.partition(".")
        if not head or self.root.has(head.partition("[")[0]):
            return slip
        known = {piece.path for piece in self.model.pieces} | {part.path for part in self.model.parts}
        meant = sorted((path for path in known if path.rpartition(".")[2] == head), key=natural_key)
        if len(meant) > 1:
            sentence = f"There are {len(meant)} things called {head}."
            raise _fault("slip-of-nothing", slip, sentence, f"Say which: {', '.join(meant[:4])}.")
        return evolve(slip, path=f"{meant[0]}{dot}{rest}") if meant else slip

    def _pieces_under(self, slip: Slip) -> set[str]:
        paths = [path for path, _ in self.now]
        if not slip.path:
            return set(paths)
        value = self._found(slip)
        tops = [each.path for each in each_of(value) if isinstance(each, Instance | PieceMaker)]
        inside = {path for path in paths for top in tops if path == top or path.startswith(f"{top}.")}
        if not inside:
            raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}, and no piece.", _WHAT_PRINTS)
        return inside

    def _score(self, slip: Slip) -> None:
        value = self._found(slip)
        if not isinstance(value, PieceMaker):
            raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}, and no piece.", _WHAT_IS_SCORED)
        side = self._scored_side(slip, value)
        shape = self.now[side]
        in_order = sorted(shape.scores, key=lambda name: shape.scores[name])
        assert slip.number is not None
        if not 1 <= slip.number <= len(in_order):
            sentence = f"{slip.path} has {len(in_order)} scores."
            raise _fault("slip-of-nothing", slip, sentence, f"Use a number from 1 to {len(in_order)}.")
        self._move(slip, side, in_order[slip.number - 1])

    def _scored_side(self, slip: Slip, piece: PieceMaker) -> Side:
        scored = [(piece.path, axis) for axis in AXES if self.now[piece.path, axis].scores]
        if len(scored) != 1:
            many = "in two directions" if scored else "nowhere"
            way_out = f"Name the fold: {piece.path}.its_name at 4 1/2 in."
            raise _fault("slip-of-nothing", slip, f"{piece.path} is scored {many}.", way_out)
        return scored[0]

    def _move(self, slip: Slip, side: Side, score: str) -> None:
        shape = self.now[side]
        number = shape.scores[score]
        to = shape.ends[number] + slip.amount if slip.kind == "by" else slip.amount
        designed = self.designed[side].ends[number]
        self.done.append(Done(slip.words, f"{side[0]}.{score}", shape.first_edge, designed, to))
        shape.ends[number] = to

    def _measure(self, slip: Slip) -> None:
        value = self._found(slip)
        members = each_of(value)
        if isinstance(value, Reference) and value.kind == "step" and slip.kind == "at":
            self._read(slip, value)
            return
        if slip.kind == "by":
            if isinstance(value, PieceMaker):
                side = self._scored_side(slip, value)
                for score in self.now[side].scores:
                    self._move(slip, side, score)
                return
            for line in members:
                if not isinstance(line, LineValue) or not line.fold:
                    raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}.", _WHAT_MOVES)
                self._move(slip, (line.piece.path, line.axis), line.fold)
            return
        if isinstance(value, LineValue) and value.fold:
            self._move(slip, (value.piece.path, value.axis), value.fold)
        elif members and all(isinstance(each, Quantity) and each.dimension == LENGTH for each in members):
            for path in self._each_path(slip, value):
                self._cut(slip, path)
        else:
            raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}.", _WHAT_IS_MEASURED)

    def _read(self, slip: Slip, value: Reference) -> None:
        step = next((each for each in self.model.steps if each.path == value.path), None)
        if step is None or step.reads is None:
            raise _fault("slip-of-nothing", slip, f"Nothing is read at {slip.path}.", _WHAT_IS_MEASURED)
        self.readings[step.path] = slip.amount
        self.done.append(Done(slip.words, step.path, "", step.reads, slip.amount))

    def _each_path(self, slip: Slip, value: Value) -> list[Path]:
        path = _path(slip)
        if not isinstance(value, FamilyValue):
            return [path]
        raise _fault(
            "slip-of-nothing", slip, f"{slip.path} are several.", "Say which one, as in leaf[2].height at 6 5/8 in."
        )

    def _cut(self, slip: Slip, path: Path) -> None:
        owner, name = self._owner(path)
        if isinstance(owner, PieceMaker) and name in AXES:
            side = (owner.path, name)
            self.done.append(Done(slip.words, slip.path, "", self.designed[side].side, slip.amount))
            self.now[side].resize(None, slip.amount)
            return
        if not isinstance(owner, Instance):
            raise _fault("slip-of-nothing", slip, f"{slip.path} is cut by nobody.", _WHAT_IS_MEASURED)
        designed = _length(owner, name)
        fact = next((each for each in self.facts if each.instance is owner and each.name == name), None)
        if fact is not None:
            self.resize(fact, slip.amount)
        self.told[owner.path_of(name, None)] = slip.amount
        self.done.append(Done(slip.words, slip.path, "", designed, slip.amount))

    def _owner(self, path: Path) -> tuple[object, str]:
        last = path.trailers[-1] if path.trailers else None
        if last is None:
            return self.root, path.head
        assert isinstance(last, Dot)
        owner = follow(Path(path.head, path.trailers[:-1], path.span, path.head_span), self._scope())
        return owner, last.name

    def _found(self, slip: Slip) -> Value:
        try:
            return follow(_path(slip), self._scope())
        except Fault as fault:
            raise _fault(
                "slip-of-nothing", slip, fault.diagnostic.sentence, fault.diagnostic.way_out or _WHAT_IS_MEASURED
            ) from None
        except Spoilt:
            raise _fault("slip-of-nothing", slip, f"{slip.path} is not there.", _WHAT_IS_MEASURED) from None

    def _scope(self) -> Scope:
        return Scope(self.root, self.root.component.file, {}, self.root)


_WHAT_IS_MEASURED = "Name a fold, a side of a piece, or a length that pieces are cut to; album.json lists them all."
_WHAT_MOVES = "Name a fold, or a piece to move all its folds."
_WHAT_PRINTS = "Name a part or a piece, or leave the name out for everything."
_WHAT_IS_SCORED = "Name the piece whose score chart you read, as in score 5 of strip."


def bench_of(root: Instance, model: Model) -> Bench:
    """The pieces of a design, none of them slipped yet."""
    designed = shapes_of(model)
    facts = cut_to(instances(root), designed)
    return Bench(root, model, designed, _copied(designed), (*facts, *whole_sizes(facts, designed)))


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
            value = _length(instance, name) if is_cut or path in root.work.marks.moves else None
            if value is not None:
                found[path] = value
    return found


def _length(instance: Instance, name: str) -> Length | None:
    try:
        value = instance.lookup(name, instance.span)
    except (Fault, Spoilt):
        return None
    return value if isinstance(value, Quantity) and value.dimension == LENGTH else None


def _path(slip: Slip) -> Path:
    path, fault = read_path(slip.path)
    if path is None:
        raise _fault("slip-of-nothing", slip, fault.sentence if fault is not None else "", _WHAT_IS_MEASURED)
    return path


def _fault(id: str, slip: Slip, why: str, way_out: str) -> SlipFault:
    return SlipFault(error(id, None, f'"{slip.words}" cannot be. {why}', way_out=way_out))

