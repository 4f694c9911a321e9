"""Places: several sides of the paper named as one, with lines of their own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.diagnostic import error
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, follow, member
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import FaceValue, Reference
from pastedown.geometry.work import WORK_OF_ONE
from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import Fact, Place

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def declaration(reference: Reference) -> tuple[Place, Scope]:
    """The statement that declares a place, and the scope it is read in."""
    entry, scope = reference.instance.declaration(reference)
    assert isinstance(entry.statement, Place)
    return entry.statement, scope


def faces_of(reference: Reference) -> tuple[FaceValue, ...]:
    """The sides that a place names, in the order written. Raises Spoilt where they could not be found."""
    place, scope = declaration(reference)
    key = (reference.instance, "place", reference.name, reference.index)
    return work_of(scope).once(key, reference.path, place.family.span, lambda: _faces(place, scope))


def _faces(place: Place, scope: Scope) -> tuple[FaceValue, ...]:
    found: list[FaceValue] = []
    for path in place.faces:
        faces = faces_at(path, scope)
        work_of(scope).spend(path.span, WORK_OF_ONE * len(faces))
        found.extend(faces)
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
    line = next((fact for fact in place.body if isinstance(fact, Fact) and fact.path.head == name), None)
    if line is not None:
        key = (reference.instance, "place", reference.name, reference.index, name)
        value = line.value
        return work_of(scope).once(key, f"{reference.path}.{name}", line.path.span, lambda: evaluate(value, scope))
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
