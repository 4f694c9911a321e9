"""The kind of every expression, and what is told where kinds cannot meet.

Nothing is worked out: a name's kind is that of the words it was declared with. What cannot be told is UNKNOWN and
silent.
"""

from __future__ import annotations

from pastedown.design import infer_call, infer_path
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    PLAIN_NUMBER,
    RULER,
    SHEET,
    STOCK,
    TEXT,
    UNKNOWN,
    YES_NO,
    Amount,
    ChoiceOf,
    Kind,
    ListOfKind,
    agree,
    example_of,
    in_words,
    like,
    one_of,
)
from pastedown.design.missing_unit import how_to_add_the_unit
from pastedown.design.slips import UNITS_OF_RULER, WAYS, list_in_list, wrong_unit_of_ruler, wrong_way
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.capital import capital
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.quantity.dimension import NUMBER
from pastedown.tree.expression import (
    Amended,
    Arithmetic,
    Call,
    Comparison,
    Expression,
    ListOf,
    Literal,
    Path,
    Rounded,
    RulerMarks,
    SheetSize,
    Signed,
    Text,
)


def kind_of(inference: Inference, expression: Expression, where: Where) -> Kind:
    """The kind of an expression where it stands."""
    match expression:
        case Literal(value=value):
            return Amount(value.dimension)
        case SheetSize():
            return SHEET
        case Text(pieces=pieces):
            for piece in pieces:
                if not isinstance(piece, str):
                    _expect_in_slot(inference, piece, where)
            return TEXT
        case Path():
            return infer_path.kind_of_path(inference, expression, where)
        case Call():
            return infer_call.kind_of_call(inference, expression, where)
        case Signed(value=SheetSize()):
            return inference.tell_clash(_signed_size(expression), expression, where)
        case Signed(value=inner):
            return amount_of(inference, inner, where)
        case Arithmetic():
            return _arithmetic(inference, expression, where)
        case Comparison():
            return _comparison(inference, expression, where)
        case Rounded(value=value, mark=mark):
            if expression.way not in WAYS:
                inference.tell(wrong_way(expression))
            return _meet(
                inference,
                amount_of(inference, value, where),
                amount_of(inference, mark, where),
                mark,
                "is rounded to",
            )
        case RulerMarks(mark=mark):
            if expression.unit not in UNITS_OF_RULER:
                inference.tell(wrong_unit_of_ruler(expression))
            amount_of(inference, mark, where)
            return RULER
        case ListOf(items=items):
            return _list(inference, items, where)
        case Amended(thing=thing, body=body):
            return infer_call.kind_of_amended(inference, kind_of(inference, thing, where), body, where)


def _expect_in_slot(inference: Inference, slot: Expression, where: Where) -> None:
    kind = one_of(kind_of(inference, slot, where))
    if not isinstance(kind, Amount | ChoiceOf) and kind not in (UNKNOWN, TEXT, YES_NO, STOCK):
        inference.tell(
            error(
                "wrong-kind",
                slot.span,
                f"A slot holds a measurement, a text or a word, and this is {in_words(kind)}.",
                way_out="Name a measure of it, as in {sheet.height}.",
            )
        )


def _list(inference: Inference, items: tuple[Expression, ...], where: Where) -> Kind:
    """The kind of a list: its values are all alike, and none of them is a list."""
    found: Kind = UNKNOWN
    for item in items:
        kind = one_of(kind_of(inference, item, where))
        if isinstance(kind, ListOfKind):
            inference.tell(list_in_list(item))
        elif not like(found, kind):
            both = isinstance(found, Amount) and isinstance(kind, Amount)
            inference.tell(
                error(
                    "wrong-dimension" if both else "wrong-kind",
                    item.span,
                    f"A list holds like things, and after {in_words(found)} this is {in_words(kind)}.",
                    way_out=unit_missing(item, kind, found) or "Keep the two in lists of their own.",
                )
            )
        elif found is UNKNOWN:
            found = kind
    return ListOfKind(found)


def _signed_size(expression: Expression) -> Diagnostic:
    return error(
        "wrong-kind",
        expression.span,
        "The size of a sheet takes no sign: no side of it is less than nothing.",
        way_out="Leave the sign out, as in 12 in x 4 1/2 in.",
    )


def amount_of(inference: Inference, expression: Expression, where: Where) -> Kind:
    """The kind of an expression that has to be a quantity."""
    kind = one_of(kind_of(inference, expression, where))
    if isinstance(kind, Amount) or kind is UNKNOWN:
        return kind
    return inference.tell_clash(
        error(
            "wrong-kind",
            expression.span,
            f"A number or a measurement belongs here, and this is {in_words(kind)}.",
            way_out=example_of(A_LENGTH),
        ),
        expression,
        where,
    )


def expect(
    inference: Inference, expression: Expression, where: Where, wanted: Kind, what: str, labels: tuple[Label, ...] = ()
) -> None:
    """Tell when an expression is not of the kind that belongs there. `what` begins the sentence ("The height")."""
    if isinstance(wanted, ChoiceOf):
        _expect_choice(inference, expression, where, wanted, what, labels)
        return
    kind = one_of(kind_of(inference, expression, where))
    if kind is UNKNOWN or wanted is UNKNOWN or kind == wanted:
        return
    if isinstance(kind, Amount) and isinstance(wanted, Amount):
        if agree(kind.dimension, wanted.dimension):
            return
        way_out = unit_missing(expression, kind, wanted) or example_of(wanted)
        inference.tell_clash(
            error(
                "wrong-dimension",
                expression.span,
                f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
                way_out=way_out,
                labels=labels,
            ),
            expression,
            where,
        )
        return
    inference.tell_clash(
        error(
            "wrong-kind",
            expression.span,
            f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
            way_out=example_of(wanted),
            labels=labels,
        ),
        expression,
        where,
    )


def _expect_choice(
    inference: Inference, expression: Expression, where: Where, wanted: ChoiceOf, what: str, labels: tuple[Label, ...]
) -> None:
    if isinstance(expression, Path) and not expression.trailers:
        if expression.head in wanted.words:
            return
        found = None if where.view is None else where.view.declaration(expression.head)
        if found is None and where.file.find(expression.head) is None:
            inference.tell(
                error(
                    "unknown-choice",
                    expression.span,
                    f"{what} is {in_words(wanted)}, not {expression.head}.",
                    way_out=did_you_mean(expression.head, wanted.words) or example_of(wanted),
                    labels=labels,
                )
            )
            return
    kind = one_of(kind_of(inference, expression, where))
    if kind is not UNKNOWN and not isinstance(kind, ChoiceOf):
        inference.tell(
            error(
                "unknown-choice",
                expression.span,
                f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
                way_out=example_of(wanted),
                labels=labels,
            )
        )


def expect_condition(inference: Inference, expression: Expression, where: Where) -> None:
    """Tell when an expression is no condition."""
    kind = one_of(kind_of(inference, expression, where))
    if kind not in (YES_NO, UNKNOWN):
        inference.tell(
            error(
                "not-a-condition",
                expression.span,
                f"Something that is or is not so belongs here, and this is {in_words(kind)}.",
                way_out="Compare two things, as in sheets >= 2, or name a yes-or-no fact.",
            )
        )


def _meet(inference: Inference, left: Kind, right: Kind, second: Expression, verb: str) -> Kind:
    if not isinstance(left, Amount) or not isinstance(right, Amount):
        return UNKNOWN
    if agree(left.dimension, right.dimension):
        return left
    return inference.tell(
        error(
            "wrong-dimension",
            second.span,
            f"{capital(in_words(left))} {verb} {in_words(left)}, and this is {in_words(right)}.",
            way_out=unit_missing(second, right, left) or example_of(left),
        )
    )


def _arithmetic(inference: Inference, expression: Arithmetic, where: Where) -> Kind:
    left, right = amount_of(inference, expression.left, where), amount_of(inference, expression.right, where)
    if not isinstance(left, Amount) or not isinstance(right, Amount):
        return UNKNOWN
    if expression.operator in "*/":
        joined = left.dimension * right.dimension if expression.operator == "*" else left.dimension / right.dimension
        return Amount(joined)
    if agree(left.dimension, right.dimension):
        return left
    first, verb, second = (left, "added to", right) if expression.operator == "+" else (right, "taken from", left)
    bare = expression.left if left == PLAIN_NUMBER else expression.right
    return inference.tell_clash(
        error(
            "wrong-dimension",
            expression.span,
            f"{capital(in_words(first))} cannot be {verb} {in_words(second)}.",
            way_out=_unit_of_one(bare, left, right) or "Only like is added to like, and taken from like.",
        ),
        bare if PLAIN_NUMBER in (left, right) else expression,
        where,
    )


def _unit_of_one(bare: Expression, left: Kind, right: Kind) -> str:
    """The unit to write beside a bare number that meets a length; nothing for other pairs."""
    kinds = (left, right)
    return unit_missing(bare, PLAIN_NUMBER, A_LENGTH) if A_LENGTH in kinds and PLAIN_NUMBER in kinds else ""


def _comparison(inference: Inference, expression: Comparison, where: Where) -> Kind:
    left = one_of(kind_of(inference, expression.left, where))
    if isinstance(left, ChoiceOf):
        expect(inference, expression.right, where, left, "What it is compared with")
        return YES_NO
    right = one_of(kind_of(inference, expression.right, where))
    if UNKNOWN in (left, right):
        return YES_NO
    both_amounts = isinstance(left, Amount) and isinstance(right, Amount)
    if both_amounts and agree(left.dimension, right.dimension):  # type: ignore[union-attr]
        return YES_NO
    if not both_amounts and expression.operator == "is" and type(left) is type(right):
        return YES_NO
    bare = expression.left if left == PLAIN_NUMBER else expression.right
    inference.tell_clash(
        error(
            "wrong-dimension",
            expression.span,
            f"{capital(in_words(left))} cannot be compared with {in_words(right)}.",
            way_out=_unit_of_one(bare, left, right) or "Only like is compared with like.",
        ),
        bare if PLAIN_NUMBER in (left, right) else expression,
        where,
    )
    return YES_NO


def unit_missing(expression: Expression, kind: Kind, wanted: Kind) -> str:
    """How to write a length whose unit was left out; nothing for any other clash of kinds."""
    if kind == Amount(NUMBER) and wanted == A_LENGTH:
        return how_to_add_the_unit(expression.span.text)
    return ""
