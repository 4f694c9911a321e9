"""Follows a path from its first name to what it means."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from pastedown.design.infer_path import WORDS_WITH_A_MEANING
from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.capital import capital
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of
from pastedown.geometry.actual import AS_DESIGNED
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import single, whole_number, whole_range, work_of
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Scope
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.value import (
    FaceValue,
    FamilyValue,
    LineValue,
    MakeableValue,
    Nothing,
    PanelValue,
    Reference,
)
from pastedown.geometry.work import WORK_OF_A_READING
from pastedown.quantity.quantity import number
from pastedown.quantity.ruler import Ruler
from pastedown.source import Span
from pastedown.tree.expression import Dot, Expression, Index, Path, Slice
from pastedown.tree.statement import Album, Component, Fact, Variant

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def follow(path: Path, scope: Scope) -> Value:
    """The value at the end of a path. Raises Fault for a name that is not there, Spoilt for one that failed."""
    value = _head(path, scope)
    for trailer in path.trailers:
        match trailer:
            case Dot(name=name, span=span):
                _spend_on_members(value, path.span, scope)
                value = member(value, name, span)
            case Index(value=index, span=span):
                value = _at(value, index, span, scope)
            case Slice(first=first, last=last, span=span):
                value = _some(value, first, last, span, scope)
    return value


def _spend_on_members(value: Value, span: Span, scope: Scope) -> None:
    """Whoever reads a family reads every member of it."""
    if isinstance(value, FamilyValue):
        work_of(scope).spend(span, WORK_OF_A_READING * len(value.items))


def _head(path: Path, scope: Scope) -> Value:
    name, span = path.head, path.head_span
    if name in scope.locals:
        return number(scope.locals[name])
    if name == "its":
        return scope.its  # type: ignore[return-value]
    if name in ("yes", "no"):
        return name == "yes"
    if name == "nothing":
        return Nothing()
    assert scope.part is not None
    if name == "ruler":
        return ruler_of(scope.part)
    if scope.part.has(name):
        work_of(scope).asked.add((scope.part, name))
        return scope.part.lookup(name, span)
    return _from_file(name, span, scope)


def _from_file(name: str, span: Span, scope: Scope) -> Value:
    found = scope.file.find(name)
    work = work_of(scope)
    from pastedown.geometry.instance import not_made

    assert scope.part is not None
    if found is None:
        if name in work.broken_words or name in work.told_names:
            raise Spoilt
        if scope.part.would_know(name):
            raise Fault(not_made(name, span))
        known = [*scope.part.names(), *scope.file.names(), *scope.locals, *WORDS_WITH_A_MEANING]
        own = f"its.{name}" if getattr(scope.its, "kind_of", None) and scope.its.kind_of(name) else ""  # type: ignore[attr-defined]
        raise Fault(
            error(
                "unknown-name",
                span,
                f"Nothing here is called {name}.",
                way_out=f"Write {own}: it belongs to what is being made."
                if own
                else did_you_mean(name, known) or f"State it, as in {name} = ..., or mend its spelling.",
            )
        )
    file, statement = found
    if isinstance(statement, Component | Album | Variant):
        makeable = work.makeables.get(id(statement))
        if makeable is None:
            raise Spoilt
        return MakeableValue(makeable)
    if isinstance(statement, Fact):
        return work.file_fact(file, name, statement)
    raise Fault(
        error(
            "wrong-kind",
            span,
            f"{name} is declared outside every album, where only facts and components count.",
            way_out="Move it into the braces of an album or a component.",
        )
    )


def member(value: Value, name: str, span: Span) -> Value:
    """What `.name` means after a value."""
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.make_piece import PieceMaker
    from pastedown.geometry.place import place_member
    from pastedown.geometry.stock_value import read_field

    match value:
        case Instance():
            return value.lookup(name, span)
        case FamilyValue():
            return _member_of_each(value, name, span)
        case PieceMaker():
            return value.member(name, span)
        case PanelValue(piece=piece):
            return piece.panel_member(value, name, span)
        case FaceValue():
            return value.piece.face_member(value, name, span)
        case Stock():
            return read_field(value, name, span)
        case Ruler() if name == "marks":
            return value.marks
        case Reference(kind="place"):
            return place_member(value, name, span)
        case MakeableValue():
            raise Fault(
                error(
                    "no-such-member",
                    span,
                    f"{value.makeable.name} is not made yet: only a part has a {name}.",
                    way_out="Make it first: part x = ...(), then read x." + name,
                )
            )
        case _:
            raise Fault(
                error(
                    "no-such-member",
                    span,
                    f"{capital(describe(value))} has no {name}.",
                    way_out=f"Leave .{name} out, or read it of a part, a piece or a panel.",
                )
            )


def _member_of_each(family: FamilyValue, name: str, span: Span) -> FamilyValue:
    from pastedown.geometry.instance import Instance

    having: list[tuple[int, Value]] = []
    lacking: list[int] = []
    for index, item in family.items:
        if isinstance(item, Instance) and not item.has(name):
            lacking.append(index)
            continue
        value = member(item, name, span)
        if isinstance(value, FamilyValue):
            having.extend(value.items)
        else:
            having.append((index, value))
    if lacking:
        only = ", ".join(str(index) for index, _ in having)
        first = next(item for _, item in family.items)
        known = first.names() if isinstance(first, Instance) else []
        raise Fault(
            error(
                "no-such-member",
                span,
                f"Only {family.name} {only} has {name}." if having else f"None of the {family.name} has {name}.",
                way_out=f"Write {family.name}[{having[0][0]}].{name}."
                if having
                else meant_or_one_of(name, known, "They have"),
            )
        )
    return FamilyValue(f"{family.name}.{name}", tuple(having), _asked(family, having))


def _asked(family: FamilyValue, having: list[tuple[int, Value]]) -> Callable[[], Value] | None:
    """Which member to ask where they came out unlike, for a design as it was really made; None for one as designed."""
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.make_piece import PieceMaker

    first = family.items[0][1] if family.items else None
    work = first.work if isinstance(first, Instance) else first.instance.work if isinstance(first, PieceMaker) else None
    if work is None or work.actual is AS_DESIGNED:
        return None

    def asked() -> Value:
        unlike: list[Value] = []
        for _, value in having:
            if value not in unlike:
                unlike.append(value)
        work.turns = max(work.turns, len(unlike))
        return unlike[work.actual.turn % len(unlike)]

    return asked


def _at(value: Value, index: Expression, span: Span, scope: Scope) -> Value:
    return picked(value, whole_number(index, scope) if isinstance(value, FamilyValue) else 0, span)


def picked(value: Value, wanted: int, span: Span) -> Value:
    """The member of a family by its number. Raises Fault for one that is not there."""
    if not isinstance(value, FamilyValue):
        raise Fault(
            error(
                "wrong-kind",
                span,
                f"An index picks one of several, and this is {describe(value)}.",
                way_out="Leave the brackets out.",
            )
        )
    if (item := value.at(wanted)) is not None:
        return item
    raise Fault(_not_there(value, wanted, span))


def _not_there(family: FamilyValue, wanted: int, span: Span) -> Diagnostic:
    indexes = sorted(index for index, _ in family.items)
    name = f"{family.name}[{wanted}]"
    if not indexes:
        way_out = "Make one at least, or leave this out."
        return error("nothing-there", span, f"There is no {name}: there are none.", way_out=way_out)
    first, last = indexes[0], indexes[-1]
    have, way_out = f"they go from {first} to {last}", f"Use a number from {first} to {last}."
    gaps = (last - first + 1) - len(indexes)
    if first < wanted < last:
        have += f", and {wanted} is missing"
        way_out = f"Make {name}, or use one of those that are there."
    elif gaps:
        have += f", and {gaps} between them {'is' if gaps == 1 else 'are'} missing"
        way_out = f"Use one of those that are there, such as {first}."
    return error("nothing-there", span, f"There is no {name}: {have}.", way_out=way_out)


def _some(value: Value, first: Expression, last: Expression, span: Span, scope: Scope) -> FamilyValue:
    if not isinstance(value, FamilyValue):
        raise Fault(
            error(
                "wrong-kind",
                span,
                f"A range picks some of several, and this is {describe(value)}.",
                way_out="Leave the brackets out.",
            )
        )
    wanted = whole_range(first, last, scope)
    _spend_on_members(value, span, scope)
    known = dict(value.items)
    for index in wanted:
        if index not in known:
            raise Fault(_not_there(value, index, span))
    return FamilyValue(value.name, tuple((index, known[index]) for index in wanted))


def each_of(value: Value) -> tuple[Value, ...]:
    """The members of a family, or the value alone."""
    if isinstance(value, FamilyValue):
        return tuple(item for _, item in value.items)
    return (value,)


def line_at(path: Path, scope: Scope) -> LineValue:
    """The one line a path means."""
    value = single(follow(path, scope), path.span)
    if not isinstance(value, LineValue):
        raise Fault(
            error(
                "wrong-kind",
                path.span,
                f"A line belongs here (an edge, a middle or a fold), and this is {describe(value)}.",
                way_out=f"Say which: {path.span.text}.head, {path.span.text}.mid_width ...",
            )
        )
    return value
