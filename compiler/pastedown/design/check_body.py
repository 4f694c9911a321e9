"""Checks the statements in the braces of a component, a variant or a `with`, each by its kind, and which of them may
stand there. Nothing is worked out."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_call, infer_expression
from pastedown.design.body import left_head
from pastedown.design.check_join import (
    check_added_turns,
    check_crease,
    check_join,
    check_place,
    check_pose,
    check_step,
)
from pastedown.design.check_names import check_family, check_name, check_settings
from pastedown.design.check_piece import check_piece
from pastedown.design.check_takes import check_takes
from pastedown.design.check_target import check_target, owner_of_pose, refuse_amending, target
from pastedown.design.check_twice import check_twice
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    KIND_OF_ALBUM_FACT,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    STOCK,
    TEXT,
    UNKNOWN,
    YES_NO,
    Made,
    in_words,
    one_of,
)
from pastedown.design.setting_names import ALBUM_FACTS, REQUIREMENT_SETTINGS
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.tree.expression import Expression, ListOf, Path
from pastedown.tree.statement import (
    Album,
    Align,
    Amend,
    Component,
    Each,
    Fact,
    Fold,
    Join,
    Panel,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Run,
    Statement,
    Step,
    Takes,
    Use,
    Variant,
    When,
)

_IN_ALBUM = (Takes, Fact, Amend, Part, Piece, Each, When, Join, Place, Pose, Fold, Require, Step)


def check_with(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the braces of `thing with { ... }`: names on the left belong to the thing, the right is read where it is
    written."""
    inner = inference.around(view, body, where.file)
    check_twice(inference, body)
    check_layer(inference, body, view, inner, evolve(where, its=Made(inner), in_with=True))


def check_layer(inference: Inference, body: tuple[Statement, ...], base: View, whole: View, where: Where) -> None:
    for statement in body:
        match statement:
            case Fact(path=path, value=value):
                _check_setting_of(inference, base, whole, path, value, where)
            case Amend(path=path, body=inner):
                _check_amended(inference, path, inner, whole, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                check_layer(inference, inner, base, whole, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                check_layer(inference, inner, base, whole, where)
            case _:
                check_statements(inference, (statement,), whole, where)


def _check_amended(
    inference: Inference, path: Path, body: tuple[Statement, ...], view: View, where: Where
) -> None:
    kind = target(inference, path, view)
    if isinstance(kind, Made):
        check_with(inference, body, kind.view, where)
    elif kind == STOCK:
        infer_call.kind_of_amended(inference, STOCK, body, where)
    elif kind == POSE and (owner := owner_of_pose(inference, path, view)) is not None:
        check_added_turns(inference, body, owner, where)
    else:
        refuse_amending(inference, path, kind)


def _check_setting_of(
    inference: Inference, base: View, whole: View, path: Path, value: Expression, where: Where
) -> None:
    head = left_head(path)
    if not path.trailers or (head != path.head and len(path.trailers) == 1):
        if head == "show":
            return
        if head in ALBUM_FACTS and whole.component.is_album and base.declaration(head) is None:
            infer_expression.expect(inference, value, where, KIND_OF_ALBUM_FACT.get(head, UNKNOWN), head)
            return
        infer_call.check_argument(inference, head, path.span, value, where, base)
        return
    check_target(inference, path, value, whole, where)


def check_statements(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the statements of a component's own braces."""
    for statement in body:
        if not isinstance(statement, _IN_ALBUM):
            inference.tell(error("out-of-place", statement.span, _misplaced(statement), way_out="Move it there."))
            continue
        match statement:
            case Takes():
                check_takes(inference, statement, where)
            case Fact(path=path, value=value):
                _check_own_fact(inference, path, value, view, where)
            case Amend(path=path, body=inner):
                _check_amended(inference, path, inner, view, where)
            case Part():
                _check_part(inference, statement, where)
            case Piece():
                check_piece(inference, statement, view, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                check_statements(inference, inner, view, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                check_statements(inference, inner, view, where)
            case Join():
                check_join(inference, statement, where)
            case Place():
                check_place(inference, statement, where)
            case Pose():
                check_pose(inference, statement, where)
            case Fold():
                check_crease(inference, statement, where)
            case Require():
                check_name(inference, statement.name, statement.name_span)
                infer_expression.expect_condition(inference, statement.condition, where)
                infer_expression.kind_of(inference, statement.because, where)
                check_settings(inference, statement.settings, REQUIREMENT_SETTINGS, "A requirement")
                for setting in statement.settings:
                    if setting.label == "may_be_meant":
                        infer_expression.expect(inference, setting.value, where, YES_NO, setting.label)
                    else:
                        _expect_ways_out(inference, setting.value, where)
            case Step():
                check_step(inference, statement, where)


def _expect_ways_out(inference: Inference, value: Expression, where: Where) -> None:
    for one in value.items if isinstance(value, ListOf) else (value,):
        infer_expression.expect(inference, one, where, TEXT, "A way out")


def _misplaced(statement: Statement) -> str:
    match statement:
        case Component() | Album() | Variant() | Use():
            return "This stands at the top of a file, outside all braces."
        case Run():
            return "A run stands in the braces of a piece."
        case Panel():
            return "A panel stands in a run."
        case Align():
            return "An alignment stands in the braces of a join or a close."
        case _:
            return "This does not belong here."


def _check_own_fact(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    if path.trailers:
        check_target(inference, path, value, view, where)
        return
    if path.head in ("ruler", "show") and not view.component.is_album:
        sentence = f"{path.head} is a fact of the album: in a component nothing heeds it."
        way_out = "Move it into the braces of the album; a component reads ruler.marks."
        inference.tell(error("out-of-place", path.span, sentence, way_out=way_out))
        return
    if path.head in ALBUM_FACTS:
        if path.head == "show" or path.head == "edition":
            return
        wanted = KIND_OF_ALBUM_FACT.get(path.head)
        if wanted is not None:
            infer_expression.expect(inference, value, where, wanted, path.head)
            return
    check_name(inference, path.head, path.head_span)
    infer_expression.kind_of(inference, value, where)


def _check_part(inference: Inference, part: Part, where: Where) -> None:
    inner = check_family(inference, part, where)
    kind = one_of(infer_expression.kind_of(inference, part.value, inner))
    if isinstance(kind, Made):
        if not kind.described:
            inference.tell(
                error(
                    "wrong-kind",
                    part.value.span,
                    "This part is made already; a part is made from a component.",
                    way_out="Name a component here.",
                )
            )
        return
    if kind is not UNKNOWN and kind != NOTHING:
        inference.tell(
            error(
                "wrong-kind",
                part.value.span,
                f"A part is made from a component, and this is {in_words(kind)}.",
                way_out="Name a component here; a fact is stated without the word part.",
            )
        )
