"""Checks what stands left of `=` or before the braces of a `with`: whether there is such a thing, and whether it can be
set."""

from __future__ import annotations

from pastedown.design import infer_call, infer_expression, infer_path
from pastedown.design.body import left_head
from pastedown.design.check_join import check_setting, check_turn, named_in
from pastedown.design.check_piece import check_set_of_piece
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    POSE,
    RULER,
    TEXT,
    UNKNOWN,
    Kind,
    Made,
    PanelOf,
    PieceOf,
    Plain,
    Several,
    in_words,
    one_of,
)
from pastedown.design.setting_names import (
    BUILT_IN_NAMES,
    CREASE_SETTINGS,
    JOIN_SETTINGS,
    STEP_SETTINGS,
)
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.tree.expression import Dot, Expression, Path


def target(inference: Inference, path: Path, view: View) -> Kind:
    """The kind of what a path on the left names, in the view of the part whose braces it stands in."""
    return one_of(
        infer_path.kind_of_path(inference, path, Where(view, view.component.file, _counters(view), Made(view)))
    )


def _counters(view: View) -> frozenset[str]:
    return infer_path.all_counters(view)


def check_target(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    """Check `a.b = value`: what stands before the last name has to have such a setting."""
    trailers = list(path.trailers)
    head = left_head(path)
    if len(trailers) == 1 and not isinstance(trailers[0], Dot) and not _known_here(inference, view, where, head):
        _refuse_numbered_fact(inference, path, head)
        infer_expression.kind_of(inference, value, where)
        return
    if (posed := _within_a_pose(inference, path, view)) is not None:
        owner, turned = posed
        check_turn(inference, turned, value, named_in(owner, where), where)
        return
    if not isinstance(trailers[-1], Dot) and target(inference, path, view) is UNKNOWN:
        return
    while trailers and not isinstance(trailers[-1], Dot):
        trailers.pop()
    if not trailers:
        infer_call.check_argument(inference, path.head, path.span, value, where, view)
        return
    last = trailers.pop()
    assert isinstance(last, Dot)
    before = Path(path.head, tuple(trailers), path.span, path.head_span)
    kind = target(inference, before, view)
    match kind:
        case Made(view=inner):
            infer_call.check_argument(inference, last.name, last.span, value, where, inner)
            if not isinstance(path.trailers[-1], Dot) and inner.declaration(last.name) is not None:
                _expect_several(inference, inner, last, path)
        case Plain(name="stock"):
            infer_call.check_stock_field(inference, last.name, last.span, value, where)
        case Plain(name="join" | "step" | "fold" as what):
            known = {"join": JOIN_SETTINGS, "step": STEP_SETTINGS, "fold": CREASE_SETTINGS}[what]
            if last.name not in known:
                inference.tell(
                    error(
                        "unknown-setting",
                        last.span,
                        f"A {what} has no {last.name}.",
                        way_out=did_you_mean(last.name, known) or f"It has: {', '.join(known)}.",
                    )
                )
            else:
                check_setting(inference, last.name, value, where)
        case Plain(name="requirement") if last.name == "meant":
            infer_expression.expect(inference, value, where, TEXT, "Why it is meant")
        case PieceOf():
            check_set_of_piece(inference, kind, last, value, where)
        case _ if kind is not UNKNOWN:
            sentence, way_out = f"Nothing can be set of {in_words(kind)}.", _instead_of_setting(kind, path)
            inference.tell(error("wrong-kind", before.span, sentence, way_out=way_out))


def _within_a_pose(inference: Inference, path: Path, view: View) -> tuple[View, Path] | None:
    """Of a path that goes through a pose, as in `cover.closed.flap = shut`, the view of the part whose pose it is, and
    what is turned, by its names in that part. None for any other path."""
    for at, trailer in enumerate(path.trailers):
        if not isinstance(trailer, Dot):
            continue
        before = Path(path.head, path.trailers[:at], path.span, path.head_span)
        kind = _quiet_target(inference, before, view)
        if kind == POSE:
            owner = owner_of_pose(inference, before, view)
            turned = Path(trailer.name, path.trailers[at + 1 :], path.span, trailer.span)
            return None if owner is None else (owner, turned)
        if not isinstance(kind, Made):
            return None
    return None


def owner_of_pose(inference: Inference, path: Path, view: View) -> View | None:
    """The view of the part whose pose a path names; None where that cannot be told."""
    trailers = list(path.trailers)
    while trailers and not isinstance(trailers[-1], Dot):
        trailers.pop()
    if not trailers:
        return view
    kind = _quiet_target(inference, Path(path.head, tuple(trailers[:-1]), path.span, path.head_span), view)
    return kind.view if isinstance(kind, Made) else None


def _quiet_target(inference: Inference, path: Path, view: View) -> Kind:
    """The kind of what a path on the left names; what is wrong with it is told where the whole path is read."""
    inference.silent += 1
    try:
        return target(inference, path, view)
    finally:
        inference.silent -= 1


def _known_here(inference: Inference, view: View, where: Where, name: str) -> bool:
    """Whether a name means something in the braces of `view`, or may have stood in what could not be read."""
    found = view.declaration(name) is not None or where.file.find(name) is not None
    return found or name in inference.broken or name in (*where.counters, *BUILT_IN_NAMES, "ruler")


def _refuse_numbered_fact(inference: Inference, path: Path, name: str) -> None:
    inference.tell_name(
        error(
            "unknown-name",
            path.head_span,
            f"{path.span.text} sets one of several, and nothing here is called {name}.",
            reason="A fact has one value and no numbers; parts, pieces, joins and steps may be families.",
            way_out=f"Work it out where it is used, or give each fact a name of its own, as in {name}_1 = ...",
        )
    )


def _expect_several(inference: Inference, view: View, last: Dot, path: Path) -> None:
    """Tell of `sheet.height[2] = ...`: the index belongs to the sheet."""
    kind = infer_path.kind_in_view(inference, view, last.name, last.span)
    if kind is not UNKNOWN and not isinstance(kind, Several):
        sentence = f"An index picks one of several, and {last.name} is {in_words(kind)}."
        way_out = "Write the index behind the name of the family, as in sheet[2].height."
        inference.tell(error("wrong-kind", path.span, sentence, way_out=way_out))


def _instead_of_setting(kind: Kind, path: Path) -> str:
    if isinstance(kind, PanelOf) and not kind.is_face:
        return f"Set the panel itself, which is a length: {path.span.text.rpartition('.')[0]} = 1 in."
    if kind == RULER:
        return "State the whole ruler: ruler = inches to 1/16."
    return "Leave it out. A tip and a caution belong to a join, a step or a fold in place."


def refuse_amending(inference: Inference, path: Path, kind: Kind) -> None:
    if kind is not UNKNOWN:
        inference.tell(
            error(
                "wrong-kind",
                path.span,
                f"Only a part, a stock or a pose can be amended, and this is {in_words(kind)}.",
                way_out="Set what belongs to it by its path, as in sheet.height = 5 in."
                if isinstance(kind, PieceOf)
                else "Change it where it is stated.",
            )
        )
