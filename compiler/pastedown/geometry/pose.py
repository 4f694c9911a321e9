"""Poses: the angle of every fold in a named state. Only poses set angles."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import frozen

from pastedown.design.body import Guard
from pastedown.design.brackets import word_of
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import meant_or_one_of
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import quantity, single, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, follow, member
from pastedown.geometry.layer import Scope, expand
from pastedown.geometry.value import FamilyValue, LineValue, PanelValue, Reference
from pastedown.geometry.work import WORK_OF_ONE
from pastedown.quantity.dimension import ANGLE
from pastedown.source import Span
from pastedown.tree.expression import Index, Path
from pastedown.tree.statement import Fact, Pose, Statement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance

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
    """The angles of a pose, with those of the pose it is built from. Raises Spoilt where they could not be read."""
    statement, scope = _pose(reference)
    key = (reference.instance, "pose", reference.name, reference.index)
    return work_of(scope).once(key, reference.path, statement.family.span, lambda: _angles(statement, scope))


def _angles(statement: Pose, scope: Scope) -> Angles:
    said = _Said({}, set())
    if statement.base is not None and word_of(statement.base) != FLAT:
        _take_over(read_pose(pose_at(statement.base, scope)), statement.base.span, scope, said)
    _read(statement.body, scope, said)
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


def _read(body: tuple[Statement, ...], scope: Scope, said: _Said) -> None:
    for statement in body:
        if isinstance(statement, Guard):
            for inner in expand((statement,), scope):
                _read(statement.body, inner, said)
        elif isinstance(statement, Fact):
            _read_fact(statement, scope, said)


def _read_fact(fact: Fact, scope: Scope, said: _Said) -> None:
    from pastedown.geometry.instance import Instance

    values = each_of(follow(fact.path, scope))
    work_of(scope).spend(fact.path.span, WORK_OF_ONE * len(values))
    for value in values:
        if isinstance(value, LineValue) and value.fold:
            said.by_fold[(value.piece.path, value.fold)] = _angle(fact, scope)
        elif isinstance(value, PanelValue) and value.piece.panel(value).bends:
            said.by_fold[(value.piece.path, value.name)] = _angle(fact, scope)
        elif isinstance(value, Instance) and word_of(fact.value) == FLAT:
            _lay_flat(value, said)
        elif isinstance(value, Instance):
            _take_over(read_pose(_pose_of_part(fact, value, scope)), fact.path.span, scope, said)
        else:
            raise Fault(
                error(
                    "pose-angle",
                    fact.path.span,
                    f"A pose turns folds and the parts that have poses; this is {describe(value)}.",
                    way_out="Name a fold, as in strip.crest = shut, or a part, as in folder = made_up.",
                )
            )


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
