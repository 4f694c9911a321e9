"""Takes the parts of each form that stands for a value, gives its node of the tree: one method a form, named as in the
grammar.

The parts of a form are its tokens and the nodes of the forms inside it, in the order in which they stand in the
grammar; what is left out between square brackets is None. No method judges anything: what reaches it is well formed.
"""

from typing import Any

from attrs import evolve, frozen

from pastedown.source import Span
from pastedown.syntax.token import Token
from pastedown.tree.expression import (
    Amended,
    Argument,
    Arithmetic,
    Call,
    Comparison,
    Dot,
    Expression,
    Index,
    ListOf,
    Path,
    Rounded,
    RulerMarks,
    Signed,
    Slice,
)  # fmt: skip
from pastedown.tree.statement import Statement

Parts = list[Any]
"""Tokens, nodes and None, as the grammar has them: lark knows no types."""

_PLAIN_SIGNS = {"\u2264": "<=", "\u2265": ">=", "\u2212": "-"}


@frozen
class Block:
    """What stood in braces; the span has the braces too."""

    body: tuple[Statement, ...]
    span: Span


def over(first: Any, last: Any) -> Span:
    """From the start of one token or node to the end of another."""
    start = first if isinstance(first, Token) else first.span
    end = last if isinstance(last, Token) else last.span
    return Span(start.source, start.start, end.end)


def whole(parts: Parts) -> Span:
    """From the first part to the last that is there."""
    for part in reversed(parts):
        if part:
            return over(parts[0], part[-1] if isinstance(part, tuple) else part)
    raise AssertionError("a form without parts")


def value_of(token: Token | None) -> Any:
    return token and token.value


def _dot(token: Token) -> Dot:
    return Dot(value_of(token), token.word_span)


def _sign(token: Token) -> str:
    return _PLAIN_SIGNS.get(token.text, token.text)


class BuildValues:
    """Forms that stand for a value."""

    def slot(self, parts: Parts) -> Expression:
        return parts[0]  # type: ignore[no-any-return]

    def literal(self, parts: Parts) -> Any:
        return parts[0].value

    def path(self, parts: Parts) -> Path:
        head = parts[0]
        if len(parts) == 1:
            return Path(head.value, (), head.span, head.span)
        trailers = tuple([_dot(part) if isinstance(part, Token) else part for part in parts[1:]])
        return Path(head.value, trailers, over(head, parts[-1]), head.span)

    def index(self, parts: Parts) -> Index | Slice:
        if len(parts) == 3:
            return Index(parts[1], whole(parts))
        return Slice(parts[1], parts[3], whole(parts))

    def call(self, parts: Parts) -> Call:
        arguments = tuple(part for part in parts[2:] if isinstance(part, Argument))
        return Call(parts[0], arguments, whole(parts))

    def argument(self, parts: Parts) -> Argument:
        label, value = parts
        if label is None:
            return Argument("", value, value.span)
        return Argument(label.value, value, over(label, value), label.word_span)

    def grouped(self, parts: Parts) -> Expression:
        """Brackets leave no node: what was in them only gets their span."""
        return evolve(parts[1], span=whole(parts))  # type: ignore[no-any-return]

    def list_of(self, parts: Parts) -> ListOf:
        return ListOf(tuple(parts[1::2]), whole(parts))

    def amended_value(self, parts: Parts) -> Amended:
        return Amended(parts[0], parts[2].body, whole(parts))

    def signed(self, parts: Parts) -> Signed:
        return Signed(_sign(parts[0]), parts[1], whole(parts))

    def arithmetic(self, parts: Parts) -> Arithmetic:
        left, operator, right = parts
        return Arithmetic(_sign(operator), left, right, over(left, right))

    def comparison(self, parts: Parts) -> Comparison:
        left, operator, right = parts
        return Comparison(_sign(operator), left, right, over(left, right))

    def rounded(self, parts: Parts) -> Rounded:
        value, _, way, _, mark = parts
        return Rounded(value, way.value, way.span, mark=mark, span=over(value, mark))

    def ruler_marks(self, parts: Parts) -> RulerMarks:
        unit, _, mark = parts
        return RulerMarks(unit.value, mark, over(unit, mark), unit.span)
