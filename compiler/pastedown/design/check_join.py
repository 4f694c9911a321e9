"""Checks what brings things together or turns them, by its words: joins, places, poses, creases and steps."""

from __future__ import annotations

from pastedown.design import infer_expression, infer_function, infer_path
from pastedown.design.brackets import word_of
from pastedown.design.check_names import check_family, check_settings
from pastedown.design.check_twice import check_twice
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    LINE,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    STOCK,
    TEXT,
    UNKNOWN,
    YES_NO,
    Amount,
    FaceOf,
    Made,
    PanelOf,
    PieceOf,
    PlaceOf,
    Plain,
    example_of,
    in_words,
    one_of,
)
from pastedown.design.missing_pose import tell_missing_pose
from pastedown.design.setting_names import (
    CREASE_SETTINGS,
    JOIN_SETTINGS,
    STEP_SETTINGS,
)
from pastedown.design.slips import follows_nothing, not_a_panel
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import meant_or_one_of
from pastedown.quantity.dimension import ANGLE
from pastedown.tree.expression import Expression, ListOf, Path
from pastedown.tree.statement import (
    Align,
    Each,
    Fact,
    Fold,
    Join,
    Place,
    Pose,
    Setting,
    Statement,
    Step,
    When,
)


def _expect_side(inference: Inference, path: Path, where: Where) -> None:
    kind = one_of(infer_path.kind_of_path(inference, path, where))
    if kind is UNKNOWN or isinstance(kind, PlaceOf | FaceOf) or (isinstance(kind, PanelOf) and kind.is_face):
        return
    way_out = (
        f"Say which side: {path.span.text}.face or {path.span.text}.back."
        if isinstance(kind, PieceOf | PanelOf)
        else "Name a side of a piece or of a panel, as in sheet.face or sheet.body.back."
    )
    inference.tell(
        error(
            "wrong-kind",
            path.span,
            f"A side of the paper or a place belongs here, and this is {in_words(kind)}.",
            way_out=way_out,
        )
    )


def _expect_line(inference: Inference, path: Expression, where: Where) -> None:
    kind = one_of(infer_expression.kind_of(inference, path, where))
    if kind is not UNKNOWN and kind != LINE:
        inference.tell(
            error(
                "wrong-kind",
                path.span,
                f"A line belongs here (an edge, a middle or a fold), and this is {in_words(kind)}.",
                way_out=example_of(LINE),
            )
        )


def _check_named_settings(inference: Inference, settings: tuple[Setting, ...], where: Where) -> None:
    for setting in settings:
        check_setting(inference, setting.label, setting.value, where)


def check_setting(inference: Inference, label: str, value: Expression, where: Where) -> None:
    """Check the value of one setting of a join, a step or a fold in place, be it set there or by path from outside."""
    match label:
        case "by":
            if word_of(value) == "nothing":
                return
            infer_expression.expect(inference, value, where, STOCK, "What holds a join")
        case "moving" | "turned":
            infer_expression.expect(inference, value, where, YES_NO, label)
        case "tip" | "caution":
            infer_expression.expect(inference, value, where, TEXT, label)
        case "reads" | "least" | "most":
            infer_expression.expect(inference, value, where, A_LENGTH, label)
        case "shown":
            infer_function.expect_pose(inference, value, where, "What a step is shown in")
        case "after" | "before" | "cuts" | "scores" | "folds" | "gathers":
            for one in value.items if isinstance(value, ListOf) else (value,):
                _expect_to_wait_for(inference, label, one, where)
        case "over":
            _expect_line(inference, value, where)
        case "on":
            kind = one_of(infer_expression.kind_of(inference, value, where))
            if kind is not UNKNOWN and not isinstance(kind, PanelOf | FaceOf):
                inference.tell(not_a_panel(value, in_words(kind)))
        case "follows":
            kind = one_of(infer_expression.kind_of(inference, value, where))
            if kind is not UNKNOWN and kind is not LINE and not isinstance(kind, PanelOf):
                inference.tell(follows_nothing(value, in_words(kind)))


def _expect_to_wait_for(inference: Inference, label: str, value: Expression, where: Where) -> None:
    kind = one_of(infer_expression.kind_of(inference, value, where))
    made = isinstance(kind, PieceOf) or (isinstance(kind, Made) and not kind.described)
    if made or kind in (UNKNOWN, NOTHING, *(Plain(what) for what in ("join", "step", "fold"))):
        return
    if label == "scores" and kind == LINE:
        return
    inference.tell(
        error(
            "wrong-kind",
            value.span,
            f"{label} names a join, a step, a piece or a part, and this is {in_words(kind)}.",
            way_out="Name the join that makes it, or the piece that it belongs to.",
        )
    )


def check_join(inference: Inference, join: Join, where: Where) -> None:
    inner = check_family(inference, join, where)
    _expect_side(inference, join.what, inner)
    _expect_side(inference, join.to, inner)
    check_settings(inference, join.settings, JOIN_SETTINGS, "A join")
    _check_named_settings(inference, join.settings, inner)
    if join.doc is not None:
        infer_expression.kind_of(inference, join.doc, inner)
    for statement in join.body:
        if not isinstance(statement, Align):
            inference.tell(
                error(
                    "out-of-place",
                    statement.span,
                    "In the braces of a join stand only its alignments: align line to line.",
                    way_out="Move it out of these braces; what a join has stands behind a comma, as in by: tape.",
                )
            )
            continue
        _expect_line(inference, statement.what, inner)
        _expect_line(inference, statement.to, inner)
        check_settings(inference, statement.settings, ("inside",), "An alignment")
        for setting in statement.settings:
            infer_expression.expect(inference, setting.value, inner, A_LENGTH, setting.label)


def check_place(inference: Inference, place: Place, where: Where) -> None:
    inner = check_family(inference, place, where)
    for path in place.faces:
        _expect_side(inference, path, inner)
    for statement in place.body:
        if isinstance(statement, Fact) and isinstance(statement.value, Path):
            _expect_line(inference, statement.value, inner)
        else:
            inference.tell(
                error(
                    "out-of-place",
                    statement.span,
                    "In the braces of a place stand only its lines, as in front = sheet.left.",
                    way_out="Move it out of these braces.",
                )
            )


def check_pose(inference: Inference, pose: Pose, where: Where) -> None:
    inner = check_family(inference, pose, where)
    if pose.family.name == "flat":
        way_out = "Give the pose a name of its own."
        inference.tell(error("reserved-word", pose.family.span, "The pose flat is built in.", way_out=way_out))
    if pose.base is not None and word_of(pose.base) != "flat" and not tell_missing_pose(inference, pose.base, inner):
        kind = one_of(infer_path.kind_of_path(inference, pose.base, inner))
        if kind is not UNKNOWN and kind != POSE:
            inference.tell(
                error(
                    "wrong-kind",
                    pose.base.span,
                    f"A pose belongs here, and this is {in_words(kind)}.",
                    way_out=example_of(POSE),
                )
            )
    _check_in_pose(inference, pose.body, inner, inner)


def _check_in_pose(inference: Inference, body: tuple[Statement, ...], names: Where, where: Where) -> None:
    """Check what the braces of a pose say, or of a `with` that adds to it: left of `=` stand names of the part whose
    pose it is, read as in `names`, and the rest is read as in `where`."""
    for statement in body:
        match statement:
            case Fact(path=path, value=value):
                check_turn(inference, path, value, names, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                _check_in_pose(inference, inner, names.counting(counter), where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                _check_in_pose(inference, inner, names, where)
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "In a pose stand only the angles of folds, as in strip.crest = shut.",
                        way_out="Move it out of these braces.",
                    )
                )


def check_turn(inference: Inference, path: Path, value: Expression, names: Where, where: Where) -> None:
    """Check one thing that a pose says: whether that can be turned, and whether it is an angle."""
    kind = one_of(infer_path.kind_of_path(inference, path, names))
    if kind is UNKNOWN or isinstance(kind, Made):
        return
    if kind != LINE and not isinstance(kind, PanelOf):
        inference.tell(
            error(
                "pose-angle",
                path.span,
                f"A pose turns folds and the parts that have poses; this is {in_words(kind)}.",
                way_out="Name a fold, as in strip.crest = shut, or a part, as in folder = made_up.",
            )
        )
    elif isinstance(value, Path) and not value.trailers:
        if value.head not in ("flat", "square", "shut"):
            inference.tell(
                error(
                    "pose-angle",
                    value.span,
                    f"A fold is flat, square or shut, not {value.head}.",
                    way_out=meant_or_one_of(value.head, ("flat", "square", "shut"), "Write one of"),
                )
            )
    else:
        infer_expression.expect(inference, value, where, Amount(ANGLE), "The angle of a fold")


def check_added_turns(inference: Inference, body: tuple[Statement, ...], owner: View, where: Where) -> None:
    """Check the braces of `pose with { ... }`, where `owner` is the view of the part whose pose it is."""
    check_twice(inference, body)
    _check_in_pose(inference, body, named_in(owner, where), where)


def named_in(owner: View, where: Where) -> Where:
    """Where the names of a part are read when something is added to a pose of it from outside."""
    return Where(owner, owner.component.file, where.counters, Made(owner))


def check_crease(inference: Inference, fold: Fold, where: Where) -> None:
    inner = check_family(inference, fold, where)
    if fold.kind != "in_place":
        inference.tell(
            error(
                "fold-kind",
                fold.kind_span,
                f"Outside a run a fold is made in place, not {fold.kind}.",
                way_out=(
                    f"Write fold {fold.family.name}: in_place, on: ..., over: ...; mountains and valleys "
                    "stand in a run."
                ),
            )
        )
        return
    check_settings(inference, fold.settings, CREASE_SETTINGS, "A fold in place")
    _check_named_settings(inference, fold.settings, inner)


def check_step(inference: Inference, step: Step, where: Where) -> None:
    inner = check_family(inference, step, where)
    infer_expression.kind_of(inference, step.text, inner)
    check_settings(inference, step.settings, STEP_SETTINGS, "A step")
    _check_named_settings(inference, step.settings, inner)
