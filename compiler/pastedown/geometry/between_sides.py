"""`thickness(lid.back, to: base.back)`: all that lies between two sides when the design is shut.

Asked for while lengths are worked out, so everything that is joined is settled first, and placed as the design's own
pose of that name has it. A design without such a pose has nothing between.
"""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.between import Between, Face, between
from pastedown.geometry.carrying import carrying_in, is_added, parts_called, pieces_in
from pastedown.geometry.evaluate import evaluate, work_of
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.in_pose import InPose
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope
from pastedown.geometry.lying_there import flat, made, made_up_of
from pastedown.geometry.make_crease import make_crease
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.place import faces_of
from pastedown.geometry.pose import CLOSED, read_pose
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.value import FaceValue, Reference
from pastedown.geometry.work import WORK_OF_A_FOLDED_PANEL, Work
from pastedown.source import Span
from pastedown.tree.expression import Expression
from pastedown.tree.statement import Fold, Part, Pose


def between_sides(
    sides: tuple[Expression, Expression], pose: model.Pose | None, scope: Scope, span: Span
) -> Between | None:
    """What lies between two sides in a pose, or where the design is shut; None where they do not look at one another
    there. Raises Fault where one is no side of paper."""
    first, second = (side_of(one, scope) for one in sides)
    placed = placed_when_shut(pose, scope, span)
    return between(placed, first, second, placed.model.added) if placed is not None else None


def placed_when_shut(pose: model.Pose | None, scope: Scope, span: Span) -> InPose | None:
    """All that is joined, placed in a pose, or where the design is shut; None where it has no such pose of its own."""
    work = work_of(scope)
    shut = pose or _shut(work)
    if shut is None:
        return None
    return work.once(("placed", shut.path), "all that is joined", span, lambda: _placed(shut, work, span))


def side_of(expression: Expression, scope: Scope) -> Face:
    """The one side of paper or board that is named. Raises Fault where it is none, or several."""
    values = each_of(evaluate(expression, scope))
    faces = [face for value in values for face in _faces(value)]
    if len(faces) != 1:
        raise Fault(
            error(
                "wrong-kind",
                expression.span,
                "One side of paper or board belongs here, and this is none, or several.",
                way_out=f"Say which side, as in {expression.span.text}.back.",
            )
        )
    (face,) = faces
    return face.piece.path, face.panel, face.side


def _faces(value: object) -> tuple[FaceValue, ...]:
    if isinstance(value, FaceValue):
        return (value,)
    return faces_of(value) if isinstance(value, Reference) and value.kind == "place" else ()


def _shut(work: Work) -> model.Pose | None:
    """The design's own pose in which it is shut."""
    root = work.root
    if root is None or root.kind_of(CLOSED) is not Pose or root.is_removed(CLOSED):
        return None
    reference = next((each for each in each_of(root.lookup(CLOSED, root.span)) if isinstance(each, Reference)), None)
    if reference is None:
        return None
    said = read_pose(reference)
    return model.Pose(reference.path, "", said.by_fold, said.laid_flat, root.span)


def _placed(pose: model.Pose, work: Work, span: Span) -> InPose:
    root = work.root
    assert root is not None
    makers = {piece.path: piece for piece in pieces_in(root, only_its_own=False)}
    pieces = [flat(piece, work) for piece in sorted(makers.values(), key=lambda each: natural_key(each.path))]
    fields = sum(len(run.panels) for piece in pieces for run in piece.runs) + len(pieces)
    work.spend(span, 2 * WORK_OF_A_FOLDED_PANEL * fields)
    whole = model.Model(
        name="",
        title="",
        doc=(),
        ruler=ruler_of(root),
        parts=(),
        stocks=(),
        pieces=tuple(pieces),
        joins=tuple(made(held, work) for held in carrying_in(work).joins),
        creases=tuple(_creases(root)),
        steps=(),
        requirements=(),
        measurements=(),
        made_up=made_up_of(makers.values()),
        added=frozenset(path for path, piece in makers.items() if is_added(piece)),
    )
    return InPose(whole, pose, InPose(whole))


def _creases(part: Instance) -> Iterator[model.Crease]:
    for name in part.names():
        kind = part.kind_of(name)
        if kind not in (Fold, Part) or part.is_removed(name):
            continue
        if kind is Part:
            for child in parts_called(part, name):
                yield from _creases(child)
            continue
        for index, entry, scope in part.declared(name):
            try:
                yield make_crease(part, name, index, entry, scope)
            except (Fault, Spoilt):
                continue  # told when it is made for itself
