"""Places: several sides of the paper named as one, with lines of their own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.diagnostic import error
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, follow, member
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import FaceValue, Reference
from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import Fact, Place

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def declaration(reference: Reference) -> tuple[Place, Scope]:
    """The statement that declares a place, and the scope it is read in."""
    for index, entry, scope in reference.instance.declared(reference.name):
        if index == reference.index:
            assert isinstance(entry.statement, Place)
            return entry.statement, scope
    raise AssertionError("a reference is made from its declaration")


def faces_of(reference: Reference) -> tuple[FaceValue, ...]:
    """The sides that a place names, in the order written."""
    place, scope = declaration(reference)
    found: list[FaceValue] = []
    for path in place.faces:
        found.extend(faces_at(path, scope))
    return tuple(found)


def faces_at(path: Path, scope: Scope) -> tuple[FaceValue, ...]:
    """The sides of paper a path means: a face, a back, or those of a place. Raises Fault for anything else."""
    found: list[FaceValue] = []
    for value in each_of(follow(path, scope)):
        if isinstance(value, FaceValue):
            found.append(value)
        elif isinstance(value, Reference) and value.kind == "place":
            found.extend(faces_of(value))
        else:
            raise Fault(
                error(
                    "wrong-kind",
                    path.span,
                    f"A side of the paper or a place belongs here, and this is {describe(value)}.",
                    way_out=f"Say which side: {path.span.text}.face or {path.span.text}.back.",
                )
            )
    return tuple(found)


def place_member(reference: Reference, name: str, span: Span) -> Value:
    """A line of a place: its own, or else that of its first side."""
    place, scope = declaration(reference)
    for statement in place.body:
        if isinstance(statement, Fact) and statement.path.head == name:
            return evaluate(statement.value, scope)
    faces = faces_of(reference)
    if not faces:
        raise Fault(
            error(
                "nothing-there",
                span,
                f"{reference.path} names no side of the paper.",
                way_out="Make one of its pieces at least.",
            )
        )
    return member(faces[0], name, span)
