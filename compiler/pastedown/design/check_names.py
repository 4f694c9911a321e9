"""Checks that every statement of a kind has: the name it declares, its index or counter, its settings by name."""

from __future__ import annotations

from pastedown.design import infer_expression
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    PLAIN_NUMBER,
)
from pastedown.design.setting_names import (
    BUILT_IN_NAMES,
)
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.source import Span
from pastedown.tree.statement import (
    Fold,
    Join,
    Part,
    Piece,
    Place,
    Pose,
    Setting,
    Step,
)


def check_name(inference: Inference, name: str, span: Span) -> None:
    if name in BUILT_IN_NAMES:
        inference.tell(
            error(
                "reserved-word",
                span,
                f"{name} has a meaning of its own in the language.",
                way_out=f"Call it something else, such as my_{name}.",
            )
        )


def check_family(
    inference: Inference, statement: Part | Piece | Join | Place | Pose | Fold | Step, where: Where
) -> Where:
    family = statement.family
    check_name(inference, family.name, family.span)
    if family.index is not None:
        infer_expression.expect(inference, family.index, where, PLAIN_NUMBER, "An index")
    if family.first is not None and family.last is not None:
        for end in (family.first, family.last):
            infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of a family")
        return where.counting(family.counter)
    return where


def check_settings(inference: Inference, settings: tuple[Setting, ...], known: tuple[str, ...], what: str) -> None:
    seen: dict[str, Span] = {}
    for setting in settings:
        if setting.label not in known:
            inference.tell(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"{what} has no {setting.label}.",
                    way_out=did_you_mean(setting.label, known) or f"It has: {', '.join(known)}.",
                )
            )
        elif setting.label in seen:
            inference.tell(
                error(
                    "twice-declared",
                    setting.label_span,
                    f"{setting.label} is given twice.",
                    labels=(Label(seen[setting.label], "first here"),),
                    way_out="Keep one of them.",
                )
            )
        seen.setdefault(setting.label, setting.label_span)
