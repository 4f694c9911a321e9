"""The kind of what is called or amended: functions, components with their settings, stocks with their fields."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_expression, infer_function, infer_path
from pastedown.design.brackets import BRACKETS, wrong_word
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    NOTHING,
    STOCK,
    STOCK_KIND_OF_FIELD,
    UNKNOWN,
    Amount,
    Kind,
    Made,
    Plain,
    in_words,
    one_of,
)
from pastedown.design.setting_names import FUNCTION_NAMES
from pastedown.design.slips import not_of_a_stock
from pastedown.design.stock import WORDS_OF_STOCK
from pastedown.design.view import View
from pastedown.diagnostic import Label, error
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


def kind_of_call(inference: Inference, call: Call, where: Where) -> Kind:
    name = call.called.head
    own = where.view is not None and where.view.declaration(name) is not None
    if not call.called.trailers and name in BRACKETS and not own:
        return infer_function.kind_of_function(inference, call, where)
    unknown = where.file.find(name) is None and name not in (*inference.broken, "stock")
    if not call.called.trailers and not own and unknown:
        if inference.is_said(call.called.span):
            return UNKNOWN
        known = inference.to_choose_from(
            lambda: [*FUNCTION_NAMES, *where.file.names(), *(where.view.names() if where.view else ())]
        )
        return inference.tell_name(
            error(
                "unknown-function",
                call.called.span,
                f"There is no component, stock or function called {name}.",
                way_out=inference.offered.use_of(name)
                or did_you_mean(name, known)
                or inference.offered.use_of_nearest(name)
                or f'Write it, or use it from the file that has it, as in use {name} from "house.album".',
            )
        )
    if not call.called.trailers and name == "stock" and not own:
        called: Kind = STOCK
    else:
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
        view = inference.replacing_parts(called.view, _as_facts(call), where.file)
        return called if view is called.view else Made(view, True)
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


def _as_facts(call: Call) -> list[Fact]:
    """What is set in the brackets of a call, as if it stood in braces."""
    return [
        Fact(Path(one.label, (), one.span, one.label_span or one.span), one.value, None, False, one.span)
        for one in call.arguments
        if one.label
    ]


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
            inference.tell_name(
                error(
                    "unknown-argument",
                    at,
                    f"{view.component.name} {'has no' if view.component.is_album else 'takes no'} {label}.",
                    way_out=did_you_mean(label, known) or _what_can_be_set(view),
                ),
                view.component,
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
            wanted if isinstance(wanted, Amount | Plain) and wanted != NOTHING else UNKNOWN,
            label,
        )
    elif isinstance(statement, Part | Require):
        infer_expression.kind_of(inference, value, where)
    else:
        what = type(statement).__name__.lower()
        sentence = f"{label} is a {what}: it may be taken away, and not set to anything else."
        inference.tell(error("wrong-kind", at, sentence, way_out=f"Write {label} = nothing, or leave it as it is."))


def _what_can_be_set(view: View) -> str:
    """What a component takes; for one that takes nothing, the facts and parts it is made of. An album's variant sets
    anew what the album states, and states nothing of its own."""
    taken = [takes.name for takes in view.takes()]
    if view.component.is_album and not taken:
        facts = [name for name in view.names() if isinstance((view.declaration(name) or (None,))[0], Fact)]
        has = f" It has the facts {', '.join(facts[:MOST_NAMES])}." if facts else ""
        album = view.component.name
        return f"What is new is stated in {album} itself or at the top of the file; here it can only be set anew.{has}"
    return f"It takes {', '.join(taken)}." if taken else f"It has {', '.join(view.names()[:MOST_NAMES])}."


def _quietly(inference: Inference, value: Expression, where: Where) -> None:
    inference.silent += 1
    infer_expression.kind_of(inference, value, where)
    inference.silent -= 1


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
    elif label in WORDS_OF_STOCK:
        fault = wrong_word(f"The {label} of a stock", value, WORDS_OF_STOCK[label])
        if fault is not None:
            inference.tell(fault)
    else:
        infer_expression.expect(inference, value, where, wanted, f"The {label.replace('_', ' ')} of a stock")


def kind_of_amended(inference: Inference, kind: Kind, body: tuple[Statement, ...], where: Where) -> Kind:
    if isinstance(kind, Made) and kind.described:
        from pastedown.design.check_body import check_with

        check_with(inference, body, kind.view, where)
        return Made(inference.around(kind.view, body, where.file), True)
    if kind == STOCK:
        for statement in body:
            if isinstance(statement, Fact) and not statement.path.trailers:
                check_stock_field(inference, statement.path.head, statement.path.span, statement.value, where)
            else:
                inference.tell(not_of_a_stock(statement))
    return kind
