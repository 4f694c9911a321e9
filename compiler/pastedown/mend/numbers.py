"""The numbers of a recipe that a maker may change to mend it."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import fields, frozen, has

from pastedown.design.kind import STOCK_KIND_OF_FIELD
from pastedown.design.recipe import File
from pastedown.design.setting_names import HAND_FACTS
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.tree.expression import Argument, Call, Dot, Index, Literal, Path, Rounded, RulerMarks, Slice, Text
from pastedown.tree.statement import Component, Fact, Family, Require, Setting, Step, Takes, TypeName, Use

# What is bought is as it is; a bound, a mark and an index are no measures of the design.
_NEVER = (Text, RulerMarks, Index, Slice, Family, TypeName, Require, Step, Use)
_OF_A_PRINT = ("height", "width")
_BOUGHT = frozenset(STOCK_KIND_OF_FIELD) - set(_OF_A_PRINT)


@frozen(eq=False)
class Number:
    """A length or a count that stands in the maker's own file. `called` says what it is, in the words around it."""

    literal: Literal
    called: str

    @property
    def is_count(self) -> bool:
        return self.literal.value.dimension == NUMBER


def numbers_in(file: File) -> tuple[Number, ...]:
    """All numbers of a file that may be changed, in the order in which they stand."""
    found = [each for statement in file.statements for each in _walk(statement, file, "", False)]
    return tuple(sorted(found, key=lambda each: each.literal.span.start))


def _walk(node: object, file: File, called: str, alone: bool) -> Iterator[Number]:
    """The numbers under a node. `alone` says that the node is the whole of a value: counts are changed only there."""
    if isinstance(node, Literal):
        if node.value.dimension == LENGTH or (alone and _is_count(node)):
            yield Number(node, called)
    elif isinstance(node, tuple):
        for each in node:
            yield from _walk(each, file, called, False)
    elif has(type(node)) and not isinstance(node, _NEVER):
        yield from _within(node, file, called)


def _within(node: object, file: File, called: str) -> Iterator[Number]:
    match node:
        case Fact(path=path, value=value):
            last = _last_name(path)
            if last not in _BOUGHT and last not in HAND_FACTS:
                yield from _walk(value, file, _joined(called, path.span.text), True)
        case Setting(label=label, value=value) | Argument(label=label, value=value):
            yield from _walk(value, file, _joined(called, label), True)
        case Takes(name=name, default=default):
            yield from _walk(default, file, _joined(called, name), True)
        case Rounded(value=value):
            yield from _walk(value, file, called, False)
        case Call():
            if not _is_of_a_stock(node, file):
                yield from _walk(node.arguments, file, called, False)
        case _:
            name = _own_name(node)
            for each in fields(type(node)):  # type: ignore[arg-type]
                child = getattr(node, each.name)
                if each.name not in ("first", "last", "least", "most", "condition"):
                    yield from _walk(child, file, _joined(called, name), False)


def _own_name(node: object) -> str:
    if isinstance(node, Component):
        return ""
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
