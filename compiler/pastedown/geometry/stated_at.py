"""Finds the words that state a value, where an expression only names it: that is where a wrong number is mended."""

from __future__ import annotations

from pastedown.geometry.layer import Scope
from pastedown.source import Span
from pastedown.tree.expression import Expression, Literal, Path
from pastedown.tree.statement import Fact


def stated_at(expression: Expression, scope: Scope) -> Span:
    """The number that a plain name stands for, where it is written down as such; else the expression itself."""
    if not isinstance(expression, Path) or expression.trailers or expression.head in scope.locals or scope.part is None:
        return expression.span
    stated: Expression | None = None
    if scope.part.has(expression.head):
        setting = scope.part.setting(expression.head)
        stated = setting.value if setting is not None else None
    elif (found := scope.file.find(expression.head)) is not None and isinstance(found[1], Fact):
        stated = found[1].value
    return stated.span if isinstance(stated, Literal) else expression.span
