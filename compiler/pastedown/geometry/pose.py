"""Poses: the angle of every fold in a named state. Only poses set angles."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from attrs import frozen

from pastedown.design.body import Guard
from pastedown.design.brackets import word_of
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import meant_or_one_of
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import quantity, single, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, follow, member, picked
from pastedown.geometry.layer import Layer, Scope, Segment, expand, segments, set_twice
from pastedown.geometry.value import FamilyValue, LineValue, PanelValue, Reference
from pastedown.geometry.work import WORK_OF_ONE
from pastedown.quantity.dimension import ANGLE
from pastedown.source import Span
from pastedown.tree.expression import Dot, Index, Path, Slice
from pastedown.tree.statement import Fact, Pose, Statement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value

# The three angles that are exact. Others only ever draw.
FLAT = "flat"
EXACT_ANGLES = (FLAT, "square", "shut")

# The pose in which a part is glued and taped together, and in which its closings have to meet.
MADE_UP = "made_up"
# The pose of a design in which it is shut, and in which what it holds has to find room.
CLOSED = "closed"


@frozen(eq=False)
class Angles:
    """What a pose says, by piece path and the fold's or bending panel's written name: one of EXACT_ANGLES, or degrees
    as a text for drawing. `laid_flat` are the paths of parts that it lays flat as a whole."""

    by_fold: dict[tuple[str, str], str]
    laid_flat: frozenset[str] = frozenset()

    def of(self, piece_path: str, fold: str) -> str:
        """The angle of a fold; flat where the pose says nothing of it."""
        return self.by_fold.get((piece_path, fold), "flat")


def read_pose(reference: Reference) -> Angles:
    """The angles of a pose: those of the pose it is built from, then what its own braces say, then what each layer
    around it adds, the outermost last. Raises Spoilt where they could not be read."""
    statement, scope = _pose(reference)
    key = (reference.instance, "pose", reference.name, reference.index)
    return work_of(scope).once(
        key, reference.path, statement.family.span, lambda: _angles(reference, statement, scope)
    )


def _angles(reference: Reference, statement: Pose, scope: Scope) -> Angles:
    said = _Said({}, set())
    if statement.base is not None and word_of(statement.base) != FLAT:
        _take_over(read_pose(pose_at(statement.base, scope)), statement.base.span, scope, said)
    _read(_in_braces(statement.body, scope), reference.instance, said)
    for layer in reversed(reference.instance.layers):
        _read(_from_outside(reference, layer), reference.instance, said)
    return Angles(said.by_fold, frozenset(said.laid_flat))


@frozen
class _Said:
    """What was read of a pose so far."""

    by_fold: dict[tuple[str, str], str]
    laid_flat: set[str]


def _take_over(pose: Angles, span: Span, scope: Scope, said: _Said) -> None:
    """Copying a pose costs as much as there is in it, so that poses built on poses come to an end."""
    work_of(scope).spend(span, WORK_OF_ONE * (len(pose.by_fold) + len(pose.laid_flat)))
    said.by_fold.update(pose.by_fold)
    said.laid_flat.update(pose.laid_flat)


def _pose(reference: Reference) -> tuple[Pose, Scope]:
    entry, scope = reference.instance.declaration(reference)
    assert isinstance(entry.statement, Pose)
    return entry.statement, scope


def pose_at(path: Path, scope: Scope) -> Reference:
    """The pose a path means."""
    value = follow(path, scope)
    if not isinstance(value, Reference) or value.kind != "pose":
        raise Fault(
            error(
                "wrong-kind",
                path.span,
                f"A pose belongs here, and this is {describe(value)}.",
                way_out="Name a pose: it is declared as in pose made_up { ... }.",
            )
        )
    return value


@frozen
class _Turn:
    """One thing that a pose says: `names` is what is turned, in the part whose pose it is (None for a path with a
    range in it), `fact` the words, whose value is read in `scope`. `from_outside` says that it stands outside the
    braces of the pose, and `of_one` that it names this one of several poses by its number."""

    names: tuple[Segment, ...] | None
    fact: Fact
    scope: Scope
    span: Span
    from_outside: bool = False
    of_one: bool = False

    @property
    def exactness(self) -> tuple[int, int, tuple[bool, ...], bool, str]:
        """The more names, the more exact, and among as many the more numbers, and the further in. The words settle
        what is left, for the order of lines never does."""
        if self.names is not None:
            numbered = tuple(segment.index is not None for segment in self.names)
        else:
            trailers = self.fact.path.trailers
            dots = [at for at, trailer in enumerate(trailers) if isinstance(trailer, Dot)]
            ends = zip([0, *(at + 1 for at in dots)], [*dots, len(trailers)], strict=True)
            numbered = tuple(any(isinstance(each, Index) for each in trailers[first:last]) for first, last in ends)
        return len(numbered), sum(numbered), numbered[::-1], self.of_one, self.span.text


def _in_braces(body: tuple[Statement, ...], scope: Scope) -> Iterator[_Turn]:
    """What the braces of a pose say."""
    for statement in body:
        if isinstance(statement, Guard):
            for inner in expand((statement,), scope):
                yield from _in_braces(statement.body, inner)
        elif isinstance(statement, Fact):
            path = statement.path
            has_range = any(isinstance(trailer, Slice) for trailer in path.trailers)
            yield _Turn(None if has_range else segments(path, scope), statement, scope, path.span)


def _from_outside(reference: Reference, layer: Layer) -> Iterator[_Turn]:
    """What a layer adds to a pose by its path or in a `with`."""
    for entry in layer.entries_of(reference.name, reference.index):
        if len(entry.path) > 1 and isinstance(entry.statement, Fact):
            of_one = entry.path[0].index is not None
            yield _Turn(entry.path[1:], entry.statement, entry.scope, entry.span, True, of_one)


def _read(turns: Iterable[_Turn], part: Instance, said: _Said) -> None:
    """Read what one layer says: the more exact path holds, in whatever order they stand."""
    said_of: dict[object, Span] = {}
    for turn in sorted(turns, key=lambda turn: turn.exactness):
        names = (turn.of_one, *((segment.name, segment.index) for segment in turn.names or ()))
        if turn.names is not None and names in said_of:
            raise set_twice(turn.span.text, said_of[names], turn.span)
        said_of[names] = turn.span
        _read_turn(turn, part, said)


def _read_turn(turn: _Turn, part: Instance, said: _Said) -> None:
    from pastedown.geometry.instance import Instance

    fact, scope = turn.fact, turn.scope
    values = _turned(turn, part)
    work_of(scope).spend(turn.span, WORK_OF_ONE * len(values))
    for value in values:
        if isinstance(value, LineValue) and value.fold:
            said.by_fold[(value.piece.path, value.fold)] = _angle(fact, scope)
        elif isinstance(value, PanelValue) and value.piece.panel(value).bends:
            said.by_fold[(value.piece.path, value.name)] = _angle(fact, scope)
        elif isinstance(value, Instance) and word_of(fact.value) == FLAT:
            _lay_flat(value, said)
        elif isinstance(value, Instance):
            _take_over(read_pose(_pose_of_part(fact, value, scope)), turn.span, scope, said)
        else:
            raise Fault(
                error(
                    "pose-angle",
                    turn.span,
                    f"A pose turns folds and the parts that have poses; this is {describe(value)}.",
                    way_out="Name a fold, as in strip.crest = shut, or a part, as in folder = made_up.",
                )
            )


def _turned(turn: _Turn, part: Instance) -> tuple[Value, ...]:
    """What a turn is about; nothing where that was taken away, for then there is nothing to be turned."""
    from pastedown.geometry.instance import Instance

    if turn.names is None:
        return each_of(follow(turn.fact.path, turn.scope))
    value: Value = part
    for segment in turn.names:
        numbers: list[int | None] = []
        if isinstance(value, Instance) and value.kind_of(segment.name) is not None:
            if value.is_removed(segment.name):
                return ()
            numbers = value.numbers(segment.name)
        value = member(value, segment.name, segment.span)
        if segment.index is not None:
            is_there = not isinstance(value, FamilyValue) or value.at(segment.index) is not None
            if not is_there and (turn.from_outside or segment.index in numbers):
                return ()
            value = picked(value, segment.index, segment.span)
    return each_of(value)


def _lay_flat(part: Instance, said: _Said) -> None:
    """Forget what a pose taken over said of a part: its folds are flat again."""
    said.laid_flat.add(part.path)
    for key in [key for key in said.by_fold if key[0].startswith(f"{part.path}.")]:
        del said.by_fold[key]


def _angle(fact: Fact, scope: Scope) -> str:
    expression = fact.value
    if isinstance(expression, Path) and not expression.trailers:
        if expression.head in EXACT_ANGLES:
            return expression.head
        raise Fault(
            error(
                "pose-angle",
                expression.span,
                f"A fold is flat, square or shut, not {expression.head}.",
                way_out=meant_or_one_of(expression.head, EXACT_ANGLES, "Write one of"),
            )
        )
    value = quantity(expression, scope)
    if value.dimension != ANGLE:
        raise Fault(
            error(
                "pose-angle",
                expression.span,
                f"A fold is flat, square or shut, and this is {value.dimension.words}.",
                way_out="Other angles are written in degrees, for drawings only: 45 deg.",
            )
        )
    return {0: "flat", 90: "square", 180: "shut"}.get(
        int(value.value) if value.value.denominator == 1 else -1, str(value.value)
    )


def _pose_of_part(fact: Fact, part: object, scope: Scope) -> Reference:
    from pastedown.geometry.instance import Instance

    assert isinstance(part, Instance)
    expression = fact.value
    if not isinstance(expression, Path):
        raise Fault(
            error(
                "pose-angle",
                expression.span,
                "A part is put into one of its own poses by name.",
                way_out="Write the name of one of its poses, as in folder = made_up.",
            )
        )
    value = part.lookup(expression.head, expression.head_span)
    for trailer in expression.trailers:
        if isinstance(trailer, Index) and isinstance(value, FamilyValue):
            wanted = quantity(trailer.value, scope).value
            value = next((item for index, item in value.items if index == wanted), value)
        elif not isinstance(trailer, Index):
            value = member(value, getattr(trailer, "name", ""), trailer.span)
    value = single(value, expression.span)
    if not isinstance(value, Reference) or value.kind != "pose":
        raise Fault(
            error(
                "pose-angle",
                expression.span,
                f"A part is put into one of its own poses, and this is {describe(value)}.",
                way_out="Write the name of one of its poses, as in folder = made_up.",
            )
        )
    return value
