"""Checks what a component takes: its type, its bounds, its default."""

from __future__ import annotations

from pastedown.design import infer_expression, infer_path
from pastedown.design.check_names import check_name
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    UNKNOWN,
    Amount,
)
from pastedown.design.stock import STOCK_KINDS
from pastedown.design.takes_type import TYPE_NAMES
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.tree.expression import Path
from pastedown.tree.statement import (
    Takes,
)


def check_takes(inference: Inference, takes: Takes, where: Where) -> None:
    check_name(inference, takes.name, takes.name_span)
    name = takes.type.name
    if name not in TYPE_NAMES:
        inference.tell(
            error(
                "unknown-type",
                takes.type.span,
                f"A component cannot take a {name}.",
                way_out=did_you_mean(name, TYPE_NAMES) or f"It takes one of: {', '.join(TYPE_NAMES)}.",
            )
        )
        return
    for setting in takes.type.settings:
        allowed = {"mark": ("up", "down", "nearest"), "kind": STOCK_KINDS}.get(setting.label)
        word = setting.value.head if isinstance(setting.value, Path) else ""
        if allowed is None:
            inference.tell(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"A {name} has no {setting.label}.",
                    way_out="A length has mark: up, down or nearest; a stock has kind.",
                )
            )
        elif word not in allowed:
            inference.tell(
                error(
                    "unknown-choice",
                    setting.value.span,
                    f"{setting.label} is one of {', '.join(allowed)}.",
                    way_out=did_you_mean(word, allowed) or f"Write one of them, as in {setting.label}: {allowed[0]}.",
                )
            )
    if name == "choice" and len(takes.type.words) < 2:
        inference.tell(
            error(
                "unknown-type",
                takes.type.span,
                "A choice has two words at least.",
                way_out="Write them in its brackets, as in choice(top, side).",
            )
        )
    kind = infer_path.type_of(inference, takes)
    for bound in (takes.least, takes.most):
        if bound is not None:
            infer_expression.expect(
                inference, bound, where, kind if isinstance(kind, Amount) else UNKNOWN, f"A bound of {takes.name}"
            )
    if takes.default is not None:
        infer_expression.expect(inference, takes.default, where, kind, takes.name)
