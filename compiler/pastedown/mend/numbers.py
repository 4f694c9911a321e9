"""The numbers of a recipe that a maker may change to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import evolve, fields, frozen, has

from pastedown.design.kind import STOCK_KIND_OF_FIELD
from pastedown.design.recipe import File
from pastedown.design.setting_names import HAND_FACTS
from pastedown.geometry.paths import nodes_in
from pastedown.geometry.sums import Sum
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.quantity import NO_LENGTH, Quantity
from pastedown.source import Span
from pastedown.tree.expression import (
    Argument,
    Arithmetic,
    Call,
    Dot,
    Expression,
    Index,
    Literal,
    Path,
    Rounded,
    RulerMarks,
    Slice,
    Text,
)
from pastedown.tree.statement import Amend, Component, Fact, Family, Require, Setting, Step, Takes, TypeName, Use

# What is bought is as it is; a bound, a mark and an index are no measures of the design.
_NEVER = (Text, RulerMarks, Index, Slice, Family, TypeName, Require, Step, Use)
_OF_A_PRINT = ("height", "width")
_BOUGHT = frozenset(STOCK_KIND_OF_FIELD) - set(_OF_A_PRINT)


@frozen(eq=False)
class Number:
    """A length or a count that stands in the maker's own file, or what is added to a sum there: nought as it is.
    `called` says what it is, in the words around it; `value` is what it is as written. `is_bought` says that it is a
    measure of something bought. `within` is all that is said of what it is called, where that is more than the number
    itself."""

    node: Expression
    called: str
    value: Quantity
    is_bought: bool = False
    within: Expression | None = None

    @property
    def is_count(self) -> bool:
        return self.value.dimension == NUMBER

    @property
    def is_sum(self) -> bool:
        return not isinstance(self.node, Literal)

    @property
    def span(self) -> Span:
        return self.node.span

    def said(self, value: Quantity) -> Expression:
        """What stands there with another value."""
        number = Literal(value, span=self.span)
        return Arithmetic("+", evolve(self.node), number, span=self.span) if self.is_sum else number


def numbers_in(file: File) -> tuple[Number, ...]:
    """All numbers of a file that may be changed, in the order in which they stand."""
    found = [each for statement in file.statements for each in _walk(statement, file, "", False, None)]
    marks = _marks_in(file)
    measures = [each for each in found if each.called not in marks]
    return tuple(sorted(measures, key=lambda each: each.span.start))


def added_to(sums: Iterable[Sum]) -> tuple[Number, ...]:
    """What may be added to sums of the maker's own, or taken from them."""
    return tuple(Number(each.expression, each.path, NO_LENGTH) for each in sums)


def _marks_in(file: File) -> frozenset[str]:
    """The facts to whose multiples something is rounded: marks, and no measures of the design."""
    return frozenset(_rounded_to(file.statements))


def _rounded_to(node: object) -> Iterator[str]:
    for each in nodes_in(node):
        if isinstance(each, Rounded) and isinstance(each.mark, Path):
            yield each.mark.head


def _walk(node: object, file: File, called: str, alone: bool, whole: Expression | None) -> Iterator[Number]:
    """The numbers under a node. `alone` says that the node is the whole of a value: counts are changed only there.
    `whole` is that value."""
    if isinstance(node, Literal):
        if node.value.dimension == LENGTH or (alone and _is_count(node)):
            yield Number(node, called, node.value, within=None if node is whole else whole)
    elif isinstance(node, tuple):
        for each in node:
            yield from _walk(each, file, called, False, whole)
    elif has(type(node)) and not isinstance(node, _NEVER):
        yield from _within(node, file, called, whole)


def _within(node: object, file: File, called: str, whole: Expression | None) -> Iterator[Number]:
    match node:
        case Fact(path=path, value=value):
            last = _last_name(path)
            if last not in _BOUGHT and last not in HAND_FACTS:
                yield from _walk(value, file, _joined(called, path.span.text), True, value)
        case Setting(label=label, value=value) | Argument(label=label, value=value):
            yield from _walk(value, file, _joined(called, label), True, value if label else whole)
        case Takes(name=name, default=default):
            yield from _walk(default, file, _joined(called, name), True, default)
        case Rounded(value=value):
            yield from _walk(value, file, called, False, whole)
        case Call():
            if not _is_of_a_stock(node, file):
                yield from _walk(node.arguments, file, called, False, whole)
        case _:
            name = _own_name(node)
            for each in fields(type(node)):  # type: ignore[arg-type]
                child = getattr(node, each.name)
                if each.name not in ("first", "last", "least", "most", "condition"):
                    yield from _walk(child, file, _joined(called, name), False, whole)


def _own_name(node: object) -> str:
    if isinstance(node, Component):
        return ""
    if isinstance(node, Amend):
        return "".join(node.path.span.text.split())
    family = getattr(node, "family", None)
    return family.name if isinstance(family, Family) else ""


def _joined(called: str, name: str) -> str:
    return f"{called}.{name}" if called and name else called or name


def _is_count(node: Literal) -> bool:
    value = node.value
    return value.dimension == NUMBER and value.value.denominator == 1 and node.span.text.isdigit()


def _last_name(path: Path) -> str:
    names = [trailer.name for trailer in path.trailers if isinstance(trailer, Dot)]
    return names[-1] if names else path.head


def _is_of_a_stock(call: Call, file: File) -> bool:
    """Whether a call says what something is that is bought."""
    head = call.called.head
    if head == "stock" or any(argument.label in _BOUGHT for argument in call.arguments):
        return True
    found = file.find(head)
    return found is not None and isinstance(found[1], Fact)
