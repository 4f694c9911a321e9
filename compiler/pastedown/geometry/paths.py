"""Takes an expression or a statement; gives every path, every number or all that is written in it."""

from collections.abc import Iterator

from attrs import fields, has

from pastedown.source import Span
from pastedown.tree.expression import Call, Literal, Path


def paths_in(node: object) -> Iterator[Path]:
    """Every path, in the order written. What a call calls is none of them."""
    if isinstance(node, Path):
        yield node
        return
    if isinstance(node, tuple):
        for each in node:
            yield from paths_in(each)
    elif node is not None and has(type(node)) and not isinstance(node, Span):
        for attribute in fields(type(node)):  # type: ignore[arg-type]
            if attribute.name != "called" or not isinstance(node, Call):
                yield from paths_in(getattr(node, attribute.name))


def literals_in(node: object) -> Iterator[Literal]:
    """The numbers that stand in an expression, as they stand."""
    return (each for each in nodes_in(node) if isinstance(each, Literal))


def nodes_in(node: object) -> Iterator[object]:
    """Everything that is written in something, as it stands."""
    if isinstance(node, tuple):
        for each in node:
            yield from nodes_in(each)
    elif node is not None and has(type(node)) and not isinstance(node, Span):
        yield node
        for attribute in fields(type(node)):  # type: ignore[arg-type]
            yield from nodes_in(getattr(node, attribute.name))
