"""Checks that nothing is stated twice in the same braces."""

from __future__ import annotations

from pastedown.design.body import Guard, is_declaration
from pastedown.design.inference import Inference
from pastedown.diagnostic import Label, error
from pastedown.source import Span
from pastedown.tree.statement import (
    Fact,
    Statement,
    When,
)


def check_twice(inference: Inference, body: tuple[Statement, ...]) -> None:
    """Tell of names that are declared twice in the same braces (without an `if` between them) and facts set twice."""
    seen: dict[str, Span] = {}

    def look(inner: tuple[Statement, ...], in_if: bool) -> None:
        for statement in inner:
            if isinstance(statement, Guard):
                look(statement.body, in_if or isinstance(statement, When))
                continue
            key, span = _declared_key(statement)
            if not key or in_if:
                continue
            if key in seen:
                inference.tell(
                    error(
                        "twice-declared",
                        span,
                        f"{key} is stated twice in the same braces.",
                        labels=(Label(seen[key], "first here"),),
                        way_out="Keep one of them, or give the other a name of its own.",
                    )
                )
            seen.setdefault(key, span)

    look(body, False)


def _declared_key(statement: Statement) -> tuple[str, Span]:
    from pastedown.design.body import name_of, name_span

    if isinstance(statement, Fact):
        return "".join(statement.path.span.text.split()), statement.path.span
    if is_declaration(statement):
        family = getattr(statement, "family", None)
        indexed = family is not None and family.index is not None
        return ("" if indexed else name_of(statement) or ""), name_span(statement)
    return "", statement.span
