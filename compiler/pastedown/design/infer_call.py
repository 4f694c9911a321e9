"""The kind of what is called or amended: functions, components with their settings, stocks with their fields."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_expression, infer_path
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    JOIN,
    NOTHING,
    PLAIN_NUMBER,
    STOCK,
    STOCK_KIND_OF_FIELD,
    TEXT,
    TREATMENT,
    UNKNOWN,
    WORD,
    Amount,
    Kind,
    Made,
    Plain,
    agree,
    in_words,
    one_of,
)
from pastedown.design.setting_names import FUNCTION_NAMES
from pastedown.design.view import View
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.capital import capital
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.source import Span
from pastedown.tree.expression import (
    Call,
    Expression,
    Path,
)
from pastedown.tree.statement import (
    Fact,
    Part,
    Require,
    Statement,
    Takes,
)

# So many names of a component are told at most.
MOST_NAMES = 16
_TREATMENTS = FUNCTION_NAMES[FUNCTION_NAMES.index("mitre") :]
_LINES_OF_SPAN = ("", "from", "to")
_LENGTHS_OF_CUT = (
    *("", "size", "along_height", "radius", "width", "height", "depth", "length", "by"),
    *("at", "from_left", "from_tail"),
)


def kind_of_call(inference: Inference, call: Call, where: Where) -> Kind:
    name = call.called.head
    own = where.view is not None and where.view.declaration(name) is not None
    if not call.called.trailers and name in FUNCTION_NAMES and not own:
        return _function(inference, call, name, where)
    if not call.called.trailers and not own and where.file.find(name) is None and name not in inference.broken:
        if inference.is_said(call.called.span.text):
            return UNKNOWN
        known = inference.to_choose_from(
            lambda: [*FUNCTION_NAMES, *where.file.names(), *(where.view.names() if where.view else ())]
        )
        return inference.tell(
            error(
                "unknown-function",
                call.called.span,
                f"There is no component, stock or function called {name}.",
                way_out=did_you_mean(name, known) or f"Write it, or use it from its file: use {name} from ...",
            )
        )
    called = infer_path.kind_of_path(inference, call.called, where)
    if isinstance(called, Made) and called.described:
        for argument in call.arguments:
            check_argument(
                inference,
                argument.label,
                argument.label_span or argument.span,
                argument.value,
                where if where.in_with else evolve(where, its=Made(called.view)),
                called.view,
            )
        return called
    if called == STOCK:
        for argument in call.arguments:
            check_stock_field(inference, argument.label, argument.label_span or argument.span, argument.value, where)
        return STOCK
    if called is UNKNOWN:
        return UNKNOWN
    return inference.tell(
        error(
            "unknown-function",
            call.called.span,
            f"{call.called.span.text} is {in_words(called)}; nothing in brackets can follow it.",
            way_out="Brackets follow a component, a stock or a function such as min.",
        )
    )


def check_argument(inference: Inference, label: str, at: Span, value: Expression, where: Where, view: View) -> None:
    """Check one thing that is set of a component: its name, and the kind of its value."""
    declared = view.declaration(label) if label else None
    if declared is None:
        known = inference.to_choose_from(view.names)
        if not label:
            inference.tell(
                error(
                    "unknown-argument",
                    at,
                    f"{view.component.name} takes its settings by name.",
                    way_out=f"Write its name before it, as in {known[0] if known else 'height'}: {value.span.text}.",
                )
            )
        elif label not in inference.broken:
            inference.tell(
                error(
                    "unknown-argument",
                    at,
                    f"{view.component.name} takes no {label}.",
                    way_out=did_you_mean(label, known) or _what_can_be_set(view),
                )
            )
        _quietly(inference, value, where)
        return
    statement, _ = declared
    if isinstance(value, Path) and value.head == "nothing":
        return
    if isinstance(statement, Takes):
        infer_expression.expect(
            inference,
            value,
            where,
            infer_path.type_of(inference, statement),
            label,
            (Label(statement.name_span, "taken here"),),
        )
    elif isinstance(statement, Fact):
        wanted = one_of(infer_path.kind_in_view(inference, view, label, at))
        infer_expression.expect(
            inference,
            value,
            where,
            wanted if isinstance(wanted, Amount | Plain) and wanted not in (WORD, NOTHING) else UNKNOWN,
            label,
        )
    elif isinstance(statement, Part | Require):
        infer_expression.kind_of(inference, value, where)
    else:
        what = type(statement).__name__.lower()
        sentence = f"{label} is a {what}: it may be taken away, and not set to anything else."
        inference.tell(error("wrong-kind", at, sentence, way_out=f"Write {label} = nothing, or leave it as it is."))


def _what_can_be_set(view: View) -> str:
    """What a component takes; for one that takes nothing, the facts and parts it is made of."""
    taken = [takes.name for takes in view.takes()]
    return f"It takes {', '.join(taken)}." if taken else f"It has {', '.join(view.names()[:MOST_NAMES])}."


def _quietly(inference: Inference, value: Expression, where: Where) -> None:
    inference.silent += 1
    infer_expression.kind_of(inference, value, where)
    inference.silent -= 1


def _function(inference: Inference, call: Call, name: str, where: Where) -> Kind:
    if name == "stock":
        for argument in call.arguments:
            check_stock_field(inference, argument.label, argument.label_span or argument.span, argument.value, where)
        return STOCK
    values = [(argument.label, argument.value) for argument in call.arguments]
    if name in ("span", *_TREATMENTS):
        for label, value in values:
            if label in (_LINES_OF_SPAN if name == "span" else _LENGTHS_OF_CUT):
                wanted = UNKNOWN if name == "span" else A_LENGTH
                infer_expression.expect(inference, value, where, wanted, label or "This")
        return A_LENGTH if name == "span" else TREATMENT
    if name == "on_paper":
        kinds_of = [one_of(infer_expression.kind_of(inference, value, where)) for _, value in values]
        return kinds_of[0] if len(kinds_of) == 1 and isinstance(kinds_of[0], Amount) else UNKNOWN
    if name == "off_by":
        found_by: Kind = UNKNOWN
        for label, value in values:
            if label == "what":
                infer_expression.expect(inference, value, where, TEXT, label)
            else:
                found_by = one_of(infer_expression.kind_of(inference, value, where))
        return found_by if isinstance(found_by, Amount) else UNKNOWN
    if name in ("placed", "skew"):
        for label, value in values:
            if not label:
                infer_expression.expect(inference, value, where, JOIN, f"What {name} takes")
        return A_LENGTH if name == "placed" else PLAIN_NUMBER
    if name == "choose":
        kinds = {label or "when": infer_expression.kind_of(inference, value, where) for label, value in values}
        return one_of(kinds.get("yes", UNKNOWN))
    if name in ("count", "whole"):
        for _, value in values:
            infer_expression.kind_of(inference, value, where)
        return PLAIN_NUMBER
    found: Kind = UNKNOWN
    for _, value in values:
        kind = one_of(infer_expression.kind_of(inference, value, where))
        if isinstance(kind, Amount):
            if isinstance(found, Amount) and not agree(found.dimension, kind.dimension):
                return inference.tell(
                    error(
                        "wrong-dimension",
                        value.span,
                        f"{capital(in_words(found))} and {in_words(kind)} do not go together here.",
                        way_out=f"{capital(name)} takes like things: lengths, or counts, or amounts.",
                    )
                )
            found = kind
    return found


def check_stock_field(inference: Inference, label: str, at: Span, value: Expression, where: Where) -> None:
    wanted = STOCK_KIND_OF_FIELD.get(label)
    if wanted is None or label.startswith("sheet_"):
        known = [name for name in STOCK_KIND_OF_FIELD if not name.startswith("sheet_")]
        inference.tell(
            error(
                "unknown-setting",
                at,
                f"A stock has no {label or 'field without a name'}.",
                way_out=did_you_mean(label, known) or f"It has: {', '.join(known)}.",
            )
        )
    elif wanted != WORD:
        infer_expression.expect(inference, value, where, wanted, f"The {label.replace('_', ' ')} of a stock")


def kind_of_amended(inference: Inference, kind: Kind, body: tuple[Statement, ...], where: Where) -> Kind:
    if isinstance(kind, Made) and kind.described:
        from pastedown.design.check_body import check_with

        check_with(inference, body, kind.view, where)
        return Made(inference.around(kind.view, body, where.file), True)
    if kind == STOCK:
        for statement in body:
            if isinstance(statement, Fact):
                check_stock_field(inference, statement.path.head, statement.path.span, statement.value, where)
    return kind
