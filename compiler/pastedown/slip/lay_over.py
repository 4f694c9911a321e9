"""Lays what was told of slips over the pieces on the bench."""

from __future__ import annotations

from fractions import Fraction

from attrs import evolve, frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.actual import Side
from pastedown.geometry.derive import read_path
from pastedown.geometry.describe import describe
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of, follow
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.value import FamilyValue, LineValue, Reference, Value
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity, number
from pastedown.slip.bench import Bench, bench_of, length_of
from pastedown.slip.out_of_place import larger_than_bought, meant, out_of_place
from pastedown.slip.paths import pieces_printed, together
from pastedown.slip.read_slip import Slip
from pastedown.slip.report import Done
from pastedown.slip.sizes_behind import sizes_behind
from pastedown.slip.ways import SEEN_WAYS, says_size, side_meant, sign_of_fold, sign_of_size
from pastedown.tree.expression import Dot, Index, Path


class SlipFault(Exception):
    """A slip that cannot be: `diagnostic` says why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.id)
        self.diagnostic = diagnostic


def lay_over(bench: Bench, slips: tuple[Slip, ...]) -> None:
    """Do what the slips say, in their order, those last that are measured from the other end. Raises SlipFault."""
    bench.slips += slips
    laying = _Laying(bench)
    # What was measured from the other end is told when it is known how long its piece came out.
    for slip in sorted(slips, key=lambda each: bool(each.edge)):
        laying.put(slip)
    is_printed = any(slip.kind == "printed" for slip in slips)
    for side, shape in bench.now.items():
        why = "" if shape.possible else out_of_place(side, shape, bench.model.ruler)
        if not why and shape.side > bench.designed[side].side and not is_printed:
            why = larger_than_bought(bench, side)
        if why:
            raise _fault("slip-out-of-place", _last_about(side[0], slips, bench), why, _MEASURE_AGAIN)


def _last_about(piece: str, slips: tuple[Slip, ...], bench: Bench) -> Slip:
    """The last of the slips that was told of a piece by its own path, else the first of all."""
    told = {done.words for done in bench.done if f"{done.path}.".startswith(f"{piece}.")}
    return next((slip for slip in reversed(slips) if slip.words in told), slips[0])


def printed_at(bench: Bench, scale: Fraction) -> Bench:
    """The same with everything that was printed printed at another scale."""
    other = bench_of(bench.root, bench.model)
    lay_over(other, tuple(evolve(slip, amount=number(scale)) for slip in bench.slips if slip.kind == "printed"))
    return other


_MEASURE_AGAIN = "Measure again, from the edge that the score chart names."
_WHAT_IS_MEASURED = "Name a fold, a side of a piece, or a length that pieces are cut to; album.json lists them all."
_WHICH_WAY = "Say how long it is, or that it is 1/8 in too large or too small."
_WHAT_MOVES = "Name a fold, or a piece to move all its folds."
_HOW_IT_WAS_LAID = "How things were laid is not worked out again: lay it anew while that goes, or measure its pieces."
_WHAT_PRINTS = "Name a part or a piece, or leave the name out for everything."
_WHAT_IS_SCORED = "Name the piece whose score chart you read, as in score 5 of strip."


@frozen(eq=False)
class _Laying:
    bench: Bench

    def put(self, said: Slip) -> None:
        slip = self._as_printed(self._with_whole_path(said))
        if slip.kind == "printed":
            self._print(slip)
        elif slip.kind == "folded":
            self._fold(slip)
        elif slip.number is not None:
            self._score(slip)
        else:
            self._measure(slip)

    def _print(self, slip: Slip) -> None:
        inside = self._pieces_under(slip)
        for (piece, _), shape in self.bench.now.items():
            if piece in inside:
                shape.scale(slip.amount)
        for path, size in sizes_behind(self.bench.root, inside, self.bench.facts).items():
            self.bench.told[path] = size * slip.amount.value
        bought = tuple(f"{piece}.{axis}" for (piece, axis), shape in self.bench.now.items()
                       if piece in inside and shape.as_bought)  # fmt: skip
        self.bench.done.append(Done(slip.words, slip.path, scale=slip.amount.value, as_bought=bought))

    def _fold(self, slip: Slip) -> None:
        if slip.number is not None:
            piece = self._found(slip)
            if not isinstance(piece, PieceMaker):
                why = f"{slip.path} is {describe(piece)}, and no piece."
                raise _fault("slip-of-nothing", slip, why, _WHAT_IS_SCORED)
            side = self._scored_side(slip, piece)
            folds = [f"{piece.path}.{self._numbered(slip, side)}"]
        else:
            lines = each_of(self._found(slip))
            folds = [f"{each.piece.path}.{each.fold}" for each in lines if isinstance(each, LineValue) and each.fold]
            if not folds or len(folds) < len(lines):
                raise _fault("slip-of-nothing", slip, f"{slip.path} is no fold.", "Name a fold: strip.crest[2].")
        self.bench.done.append(Done(slip.words, together(folds)))
        self.bench.wrong_way += folds

    def _with_whole_path(self, slip: Slip) -> Slip:
        """A slip that names a part or a piece by its last name alone, where there is only one of that name."""
        head, dot, rest = slip.path.partition(".")
        if not head or self.bench.root.has(head.partition("[")[0]):
            return slip
        known = {piece.path for piece in self.bench.model.pieces} | {part.path for part in self.bench.model.parts}
        meant = sorted((path for path in known if path.rpartition(".")[2] == head), key=natural_key)
        if len(meant) > 1:
            sentence = f"There are {len(meant)} things called {head}."
            raise _fault("slip-of-nothing", slip, sentence, f"Say which: {', '.join(meant[:4])}.")
        return evolve(slip, path=f"{meant[0]}{dot}{rest}") if meant else slip

    def _as_printed(self, slip: Slip) -> Slip:
        """A slip that names a piece as the cut list prints it, blanks for dots and underscores and without the numbers:
        case front cover for case.front_cover."""
        if not slip.path or self._is_there(slip):
            return slip
        meant, rest = pieces_printed(slip.path, [piece.path for piece in self.bench.model.pieces])
        if len(meant) > 1:
            sentence = f"{len(meant)} pieces are called so."
            raise _fault("slip-of-nothing", slip, sentence, f"Say which: {', '.join(meant[:4])}.")
        return evolve(slip, path=".".join((meant[0], *rest))) if meant else slip

    def _second(self, slip: Slip) -> str:
        """The second of several, its number behind the name of what there are several of: page[2].height."""
        names = slip.path.split(".")
        for length in range(1, len(names)):
            start = ".".join(names[:length])
            if isinstance(self._found(evolve(slip, path=start)), FamilyValue):
                return ".".join((f"{start}[2]", *names[length:]))
        return f"{slip.path}[2]"

    def _is_there(self, slip: Slip) -> bool:
        path, _ = read_path(slip.path)
        try:
            return path is not None and follow(path, self._scope()) is not None
        except (Fault, Spoilt):
            return False

    def _pieces_under(self, slip: Slip) -> set[str]:
        paths = [path for path, _ in self.bench.now]
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
        self._move(slip, side, self._numbered(slip, side))

    def _numbered(self, slip: Slip, side: Side) -> str:
        """The score of the number that was told."""
        shape = self.bench.now[side]
        in_order = sorted(shape.scores, key=lambda name: shape.scores[name])
        assert slip.number is not None
        if not 1 <= slip.number <= len(in_order):
            sentence = f"{slip.path} has {len(in_order)} scores."
            raise _fault("slip-of-nothing", slip, sentence, f"Use a number from 1 to {len(in_order)}.")
        return in_order[-slip.number if self._is_last(slip, side, slip.counted) else slip.number - 1]

    def _is_last(self, slip: Slip, side: Side, edge: str) -> bool:
        """Whether an edge that was named is the one at the end of a run, and not the one it begins at."""
        shape = self.bench.now[side]
        if edge in ("other_end", "other_edge", "far_end", "far_edge", shape.last_edge):
            return True
        if edge in ("", shape.first_edge):
            return False
        why = f"{slip.path} has no {edge} to measure its folds from."
        raise _fault("slip-of-nothing", slip, why, f"Measure from {shape.first_edge} or from {shape.last_edge}.")

    def _scored_side(self, slip: Slip, piece: PieceMaker) -> Side:
        scored = [(piece.path, axis) for axis in AXES if self.bench.now[piece.path, axis].scores]
        if len(scored) != 1:
            many = "in two directions" if scored else "nowhere"
            way_out = f"Name the fold: {piece.path}.its_name at 4 1/2 in."
            raise _fault("slip-of-nothing", slip, f"{piece.path} is scored {many}.", way_out)
        return scored[0]

    def _move(self, slip: Slip, side: Side, score: str) -> None:
        shape = self.bench.now[side]
        number = shape.scores[score]
        designed = self.bench.designed[side].ends[number]
        is_last = self._is_last(slip, side, slip.edge)
        to = shape.side - slip.amount if is_last else slip.amount
        if slip.kind == "by":
            sign = sign_of_fold(slip.way, side[1], shape.first_edge == self._origin(side))
            if not sign:
                ways = f"too far from {shape.first_edge} or too near to it"
                why = f"{side[0]}.{score} lies along the {side[1]}, so too {slip.way} says nothing of it."
                raise _fault("slip-of-nothing", slip, why, f"Say that it is {ways}, or where it lies.")
            to = shape.ends[number] + slip.amount * (-sign if is_last and slip.way not in SEEN_WAYS else sign)
        name = f"{side[0]}.{score}"
        self.bench.done.append(Done(slip.words, name, shape.first_edge, designed, to, guessed=slip.guessed))
        shape.ends[number] = to

    def _origin(self, side: Side) -> str:
        """The edge of a piece that lies at the origin along a side."""
        piece, axis = side
        return "tail" if axis == "height" else next(each.left for each in self.bench.model.pieces if each.path == piece)

    def _measure(self, slip: Slip) -> None:
        value = self._found(slip)
        if isinstance(value, PieceMaker) and side_meant(slip.way):
            slip = evolve(slip, path=f"{slip.path}.{side_meant(slip.way)}")
            value = self._found(slip)
        members = each_of(value)
        if isinstance(value, Reference) and value.kind == "step" and slip.kind == "at":
            self._read(slip, value)
            return
        is_length = bool(members) and all(isinstance(each, Quantity) and each.dimension == LENGTH for each in members)
        if slip.kind == "by" and not is_length:
            if isinstance(value, PieceMaker):
                if says_size(slip.way):
                    sides = f"{slip.path} height {{}} too {slip.way}, or {slip.path} width"
                    words = slip.words.rpartition(f" too {slip.way}")[0].rpartition(slip.path)[2].strip()
                    way_out = f"Say which side: {sides.format(words or 'so much')}."
                    raise _fault("slip-of-nothing", slip, "A piece has a height and a width.", way_out)
                side = self._scored_side(slip, value)
                for score in self.bench.now[side].scores:
                    self._move(slip, side, score)
                return
            for line in members:
                if not isinstance(line, LineValue) or not line.fold:
                    is_join = isinstance(value, Reference) and value.kind == "join"
                    way_out = _HOW_IT_WAS_LAID if is_join else _WHAT_MOVES
                    raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}.", way_out)
                self._move(slip, (line.piece.path, line.axis), line.fold)
            return
        if isinstance(value, LineValue) and value.fold:
            self._move(slip, (value.piece.path, value.axis), value.fold)
        elif is_length:
            for path in self._each_path(slip, value):
                self._cut(slip, path)
        else:
            raise _fault("slip-of-nothing", slip, f"{slip.path} is {describe(value)}.", _WHAT_IS_MEASURED)

    def _read(self, slip: Slip, value: Reference) -> None:
        step = next((each for each in self.bench.model.steps if each.path == value.path), None)
        if step is None or step.reads is None:
            raise _fault("slip-of-nothing", slip, f"Nothing is read at {slip.path}.", _WHAT_IS_MEASURED)
        self.bench.readings[step.path] = slip.amount
        self.bench.done.append(Done(slip.words, step.path, "", step.reads, slip.amount))

    def _each_path(self, slip: Slip, value: Value) -> list[Path]:
        path = _path(slip)
        if not isinstance(value, FamilyValue):
            return [path]
        way_out = f"Say which one, as in {self._second(slip)}."
        raise _fault("slip-of-nothing", slip, f"{slip.path} are several.", way_out)

    def _cut(self, slip: Slip, path: Path) -> None:
        owner, name = self._owner(slip, path)
        if isinstance(owner, PieceMaker) and name in AXES:
            side = (owner.path, name)
            size = self._size(slip, self.bench.now[side].side)
            self.bench.done.append(Done(slip.words, f"{owner.path}.{name}", "", self.bench.designed[side].side, size))
            self.bench.now[side].resize(None, size)
            return
        if not isinstance(owner, Instance):
            raise _fault("slip-of-nothing", slip, f"{slip.path} is cut by nobody.", _WHAT_IS_MEASURED)
        designed = length_of(owner, name)
        path_of_it = owner.path_of(name, None)
        size = self._size(slip, self.bench.told.get(path_of_it, designed))
        fact = next((each for each in self.bench.facts if each.instance is owner and each.name == name), None)
        if fact is not None:
            self.bench.resize(fact, size)
        self.bench.told[path_of_it] = size
        self.bench.done.append(Done(slip.words, path_of_it, "", designed, size))

    def _size(self, slip: Slip, was: Length | None) -> Length:
        """How long something is by what was said of it; `was` is how long it would be else."""
        if slip.kind != "by" or was is None:
            return slip.amount
        sign = sign_of_size(slip.way)
        size = was + slip.amount * sign
        if slip.guessed or not sign:
            raise _fault("slip-of-nothing", slip, "It does not say which way.", _WHICH_WAY)
        if size.value <= 0:
            raise _fault("slip-out-of-place", slip, "Nothing would be left of it.", _WHICH_WAY)
        return size

    def _owner(self, slip: Slip, path: Path) -> tuple[object, str]:
        """What is cut, and which of its sizes. An index behind a size tells apart what has that size: sheet.height[2]
        is the height of sheet[2]."""
        *before, last = path.trailers or (Dot(path.head, path.head_span),)
        if isinstance(last, Index) and before and isinstance(before[-1], Dot):
            before[-1], last = last, before[-1]
        if not isinstance(last, Dot):
            raise _fault("slip-of-nothing", slip, f"{slip.path} is cut by nobody.", _WHAT_IS_MEASURED)
        if not path.trailers:
            return self.bench.root, last.name
        try:
            return follow(Path(path.head, tuple(before), path.span, path.head_span), self._scope()), last.name
        except (Fault, Spoilt):
            raise _fault("slip-of-nothing", slip, f"{slip.path} is cut by nobody.", _WHAT_IS_MEASURED) from None

    def _found(self, slip: Slip) -> Value:
        try:
            return follow(_path(slip), self._scope())
        except Fault as fault:
            own = "" if fault.diagnostic.id == "unknown-name" else fault.diagnostic.way_out
            way_out = meant(self.bench, slip.path) or own or _WHAT_IS_MEASURED
            raise _fault("slip-of-nothing", slip, fault.diagnostic.sentence, way_out) from None
        except Spoilt:
            way_out = meant(self.bench, slip.path) or _WHAT_IS_MEASURED
            raise _fault("slip-of-nothing", slip, f"{slip.path} is not there.", way_out) from None

    def _scope(self) -> Scope:
        return Scope(self.bench.root, self.bench.root.component.file, {}, self.bench.root)


def _path(slip: Slip) -> Path:
    path, fault = read_path(slip.path)
    if path is None:
        raise _fault("slip-of-nothing", slip, fault.sentence if fault is not None else "", _WHAT_IS_MEASURED)
    return path


def _fault(id: str, slip: Slip, why: str, way_out: str) -> SlipFault:
    return SlipFault(error(id, None, f'"{slip.words}" cannot be. {why}', way_out=way_out))

