"""What is told where a pose is asked for that nothing declares: which poses there are, and how one is declared."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_path
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import Made, PieceOf, one_of
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.source import Span
from pastedown.tree.expression import Dot, Expression, Path
from pastedown.tree.statement import Part, Piece, Pose

# So many poses are named, and so many parts are asked for a pose of the same name.
MOST_NAMED = 6
MOST_ASKED = 40


def tell_missing_pose(inference: Inference, pose: Expression, where: Where) -> bool:
    """Whether a path names a pose that is not there, which has then been told. Of anything else nothing is said."""
    found = _looked_for(inference, pose, where)
    if found is None:
        return False
    name, span, view = found
    poses = [each for each in view.names() if _is_pose(view, each)]
    named = ", ".join(poses[:MOST_NAMED]) + (f" and {len(poses) - MOST_NAMED} more" if len(poses) > MOST_NAMED else "")
    of_it = view.component.name
    has = f"{of_it} has the poses {named}" if len(poses) > 1 else f"{of_it} has one pose, {named}"
    meant = did_you_mean(name, poses)
    ways = []
    if not view.component.file.shipped:
        ways.append(f"Declare it in {of_it}: {_declared(inference, name, view, poses)}.")
    if poses:
        ways.append(f"Name one that is there: {', '.join(poses[:MOST_NAMED])}.")
    inference.tell_name(
        error(
            "no-such-pose",
            span,
            f"There is no pose {name} here: {has if poses else f'{of_it} has none at all'}.",
            reason="How a part is folded is not guessed at: a pose says it, fold by fold.",
            way_out=meant or "\n".join(ways) or "Write flat, which every part has, or name a pose of another part.",
        ),
        view.component,
    )
    inference.note_lack(name, view.component)
    return True


def _looked_for(inference: Inference, pose: Expression, where: Where) -> tuple[str, Span, View] | None:
    """The name of a pose that is not there, and what it was to be of."""
    if not isinstance(pose, Path) or where.view is None:
        return None
    dots = [at for at, trailer in enumerate(pose.trailers) if isinstance(trailer, Dot)]
    if not dots:
        name = pose.head
        known = name in where.counters or name in infer_path.WORDS_WITH_A_MEANING
        if known or where.view.declaration(name) is not None or where.file.find(name) is not None:
            return None
        return _unless_said(inference, name, pose.head_span, where.view)
    last = pose.trailers[dots[-1]]
    if pose.head not in where.view.names() or not isinstance(last, Dot):
        return None
    kind = one_of(infer_path.kind_of_path(inference, evolve(pose, trailers=pose.trailers[: dots[-1]]), where))
    if not isinstance(kind, Made) or kind.described or kind.view.declaration(last.name) is not None:
        return None
    return _unless_said(inference, last.name, last.span, kind.view)


def _unless_said(inference: Inference, name: str, span: Span, view: View) -> tuple[str, Span, View] | None:
    said = name in inference.broken or inference.is_said(span, view.component) or inference.is_said(span)
    return None if said else (name, span, view)


def _is_pose(view: View, name: str) -> bool:
    declared = view.declaration(name)
    return declared is not None and isinstance(declared[0], Pose)


def _declared(inference: Inference, name: str, view: View, poses: list[str]) -> str:
    """How the pose would be declared: by a part that has one of that name, or fold by fold."""
    fold = ""
    begin = f"pose {name} from made_up" if "made_up" in poses else f"pose {name}"
    for each in view.names()[:MOST_ASKED]:
        declared = view.declaration(each)
        if declared is None or not isinstance(declared[0], Part | Piece):
            continue
        kind = infer_path.kind_in_view(inference, view, each, declared[0].family.span)
        of = one_of(kind)
        if isinstance(of, PieceOf) and of.folds and not fold:
            fold = f"{each}.{next(iter(of.folds))}"
        if isinstance(kind, Made) and not kind.described and _is_pose(kind.view, name):
            return f"{begin} {{ {each} = {name} }}"
    return f"{begin} {{ {fold or 'strip.crest'} = shut }}, with each fold that lies otherwise then"
