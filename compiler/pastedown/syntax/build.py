"""Takes the parts of each form of the grammar, gives its node of the tree. One method a form, named as in the grammar.

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
    Text,
)  # fmt: skip
from pastedown.tree.statement import (
    Album,
    Align,
    Amend,
    Component,
    Each,
    Fact,
    Family,
    Fold,
    Join,
    Panel,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Run,
    Setting,
    Statement,
    Step,
    Takes,
    TypeName,
    Use,
    Variant,
    When,
)  # fmt: skip

Parts = list[Any]
"""Tokens, nodes and None, as the grammar has them: lark knows no types."""

_PLAIN_SIGNS = {"\u2264": "<=", "\u2265": ">=", "\u2212": "-"}


@frozen
class Block:
    """What stood in braces; the span has the braces too."""

    body: tuple[Statement, ...]
    span: Span


@frozen
class Tail:
    """The text and the braces that may end a statement, in either order."""

    doc: Text | None
    body: tuple[Statement, ...]
    span: Span


def _over(first: Any, last: Any) -> Span:
    """From the start of one token or node to the end of another."""
    start = first if isinstance(first, Token) else first.span
    end = last if isinstance(last, Token) else last.span
    return Span(start.source, start.start, end.end)


def _whole(parts: Parts) -> Span:
    """From the first part to the last that is there."""
    for part in reversed(parts):
        if part:
            return _over(parts[0], part[-1] if isinstance(part, tuple) else part)
    raise AssertionError("a form without parts")


def _value(token: Token | None) -> Any:
    return token and token.value


def _sign(token: Token) -> str:
    return _PLAIN_SIGNS.get(token.text, token.text)


class BuildValues:
    """Forms that stand for a value."""

    def slot(self, parts: Parts) -> Expression:
        return parts[0]  # type: ignore[no-any-return]

    def literal(self, parts: Parts) -> Any:
        return parts[0].value

    def path(self, parts: Parts) -> Path:
        head, *rest = parts
        trailers = tuple(Dot(part.value, part.word_span) if isinstance(part, Token) else part for part in rest)
        return Path(head.value, trailers, _over(head, parts[-1]), head.span)

    def index(self, parts: Parts) -> Index | Slice:
        if len(parts) == 3:
            return Index(parts[1], _whole(parts))
        return Slice(parts[1], parts[3], _whole(parts))

    def call(self, parts: Parts) -> Call:
        arguments = tuple(part for part in parts[2:] if isinstance(part, Argument))
        return Call(parts[0], arguments, _whole(parts))

    def argument(self, parts: Parts) -> Argument:
        label, value = parts
        if label is None:
            return Argument("", value, value.span)
        return Argument(label.value, value, _over(label, value), label.word_span)

    def grouped(self, parts: Parts) -> Expression:
        """Brackets leave no node: what was in them only gets their span."""
        return evolve(parts[1], span=_whole(parts))  # type: ignore[no-any-return]

    def list_of(self, parts: Parts) -> ListOf:
        return ListOf(tuple(parts[1::2]), _whole(parts))

    def amended_value(self, parts: Parts) -> Amended:
        return Amended(parts[0], parts[2].body, _whole(parts))

    def signed(self, parts: Parts) -> Signed:
        return Signed(_sign(parts[0]), parts[1], _whole(parts))

    def arithmetic(self, parts: Parts) -> Arithmetic:
        left, operator, right = parts
        return Arithmetic(_sign(operator), left, right, _over(left, right))

    def comparison(self, parts: Parts) -> Comparison:
        left, operator, right = parts
        return Comparison(_sign(operator), left, right, _over(left, right))

    def rounded(self, parts: Parts) -> Rounded:
        value, _, way, _, mark = parts
        return Rounded(value, way.value, way.span, mark=mark, span=_over(value, mark))

    def ruler_marks(self, parts: Parts) -> RulerMarks:
        unit, _, mark = parts
        return RulerMarks(unit.value, mark, _over(unit, mark), unit.span)


class BuildShared:
    """Forms that statements are made of."""

    def block(self, parts: Parts) -> Block:
        return Block(tuple(parts[1:-1]), _over(parts[0], parts[-1]))

    def settings(self, parts: Parts) -> tuple[Setting, ...]:
        return tuple(parts)

    def setting(self, parts: Parts) -> Setting:
        _, label, value = parts
        return Setting(label.value, value, _over(label, value), label.word_span)

    def tail(self, parts: Parts) -> Tail | None:
        if not parts:
            return None
        doc = next((part.value for part in parts if isinstance(part, Token)), None)
        body = next((part.body for part in parts if isinstance(part, Block)), ())
        return Tail(doc, body, _over(parts[0], parts[-1]))

    def family(self, parts: Parts) -> Family:
        (name,) = parts
        return name if isinstance(name, Family) else Family(name.value, name.word_span)

    def title(self, parts: Parts) -> Family:
        return self.family(parts[:1])

    def indexed(self, parts: Parts) -> Family:
        name = parts[0]
        if len(parts) == 4:
            return Family(name.value, _whole(parts), index=parts[2])
        return Family(name.value, _whole(parts), counter=parts[2].value, first=parts[4], last=parts[6])

    def bounds(self, parts: Parts) -> tuple[Expression, Expression]:
        return parts[1], parts[3]

    def default(self, parts: Parts) -> tuple[Expression]:
        return (parts[1],)

    def type(self, parts: Parts) -> TypeName:
        inner = [part for part in parts[1:] if isinstance(part, Path | Setting)]
        words = tuple(part for part in inner if isinstance(part, Path))
        settings = tuple(part for part in inner if isinstance(part, Setting))
        return TypeName(parts[0].value, words, settings, _whole(parts))

    def type_word(self, parts: Parts) -> Path:
        (name,) = parts
        return Path(name.value, (), name.span, name.span)

    def type_setting(self, parts: Parts) -> Setting:
        label, value = parts
        return Setting(label.value, value, _over(label, value), label.word_span)


class BuildThings:
    """Statements that declare what there is: files, facts, parts, pieces and what runs across them."""

    def file(self, parts: Parts) -> tuple[Statement, ...]:
        return tuple(parts)

    def use(self, parts: Parts) -> Use:
        at = next(at for at, part in enumerate(parts) if part.type == "FROM")
        names = tuple((part.value, part.span) for part in parts[1:at:2])
        first, *rest = parts[at + 1 :]
        if first.type == "TEXT":
            return Use(names, "".join(first.value.pieces), True, first.span, _whole(parts))
        source = ".".join(part.value for part in (first, *rest))
        return Use(names, source, False, _over(first, parts[-1]), _whole(parts))

    def fact(self, parts: Parts) -> Fact:
        path, _, value, doc = parts
        return Fact(path, value, _value(doc), False, _whole(parts))

    def fixed(self, parts: Parts) -> Fact:
        _, path, _, value, doc = parts
        return Fact(path, value, _value(doc), True, _whole(parts))

    def amend(self, parts: Parts) -> Amend:
        path, _, block = parts
        return Amend(path, block.body, _whole(parts))

    def component(self, parts: Parts) -> Component:
        _, name, doc, block = parts
        return Component(name.value, _value(doc), block.body, _whole(parts), name.span)

    def album(self, parts: Parts) -> Album:
        _, name, doc, block = parts
        return Album(name.value, _value(doc), block.body, _whole(parts), name.span)

    def variant(self, parts: Parts) -> Variant:
        _, name, _, base, doc, block = parts
        return Variant(name.value, base, _value(doc), block.body, _whole(parts), name.span)

    def takes(self, parts: Parts) -> Takes:
        _, name, kind, bounds, default, doc = parts
        least, most = bounds or (None, None)
        value = default[0] if default else None
        return Takes(name.value, kind, least, most, value, _value(doc), _whole(parts), name.word_span)

    def part(self, parts: Parts) -> Part:
        _, family, _, value, doc = parts
        return Part(family, value, _value(doc), _whole(parts))

    def piece(self, parts: Parts) -> Piece:
        _, family, _, stock, settings, tail = parts
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Piece(family, stock, settings, body, doc, _whole(parts))

    def run(self, parts: Parts) -> Run:
        _, start, _, end, block = parts
        return Run(start, end, block.body, _whole(parts))

    def panel(self, parts: Parts) -> Panel:
        _, family, size, settings, doc = parts
        return Panel(family, size, settings, _value(doc), _whole(parts))

    def fold(self, parts: Parts) -> Fold:
        _, family, kind, settings, doc = parts
        return Fold(family, kind.value, settings, _value(doc), _whole(parts), kind.span)

    def each(self, parts: Parts) -> Each:
        _, counter, _, first, _, last, block = parts
        return Each(counter.value, first, last, block.body, _whole(parts), counter.span)

    def when(self, parts: Parts) -> When:
        _, condition, block = parts
        return When(condition, block.body, _whole(parts))


class BuildRelations:
    """Statements that say how things lie to one another, in which order, and what must hold."""

    def join(self, parts: Parts) -> Join:
        return self._join(parts, closes=False)

    def close(self, parts: Parts) -> Join:
        return self._join(parts, closes=True)

    def _join(self, parts: Parts, *, closes: bool) -> Join:
        _, family, what, _, to, settings, tail = parts
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Join(family, what, to, settings, body, closes, doc, _whole(parts))

    def align(self, parts: Parts) -> Align:
        _, what, _, to, settings = parts
        return Align(what, to, settings, _whole(parts))

    def place(self, parts: Parts) -> Place:
        tail = parts[-1]
        faces = tuple(part for part in parts[2:-1] if isinstance(part, Path))
        body, doc = (tail.body, tail.doc) if tail else ((), None)
        return Place(parts[1], faces, body, doc, _whole(parts))

    def pose(self, parts: Parts) -> Pose:
        family, base, block = parts[1], parts[3], parts[-1]
        return Pose(family, base, block.body, _whole(parts))

    def require(self, parts: Parts) -> Require:
        return self._require(parts, strict=True)

    def prefer(self, parts: Parts) -> Require:
        return self._require(parts, strict=False)

    def _require(self, parts: Parts, *, strict: bool) -> Require:
        _, name, condition, _, because, settings = parts
        return Require(name.value, condition, because.value, settings, strict, _whole(parts), name.word_span)

    def step(self, parts: Parts) -> Step:
        _, family, text, settings = parts
        return Step(family, text.value, settings, _whole(parts))


class Build(BuildValues, BuildShared, BuildThings, BuildRelations):
    """Every form of the grammar."""
