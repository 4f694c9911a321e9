"""The same recipe in other words: its statements in another order, or its lengths in other units. What is a statement
and what is a length is read by the compiler's own parser."""

import random
import re
from collections.abc import Callable, Iterator

from attrs import fields, has

from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.shipped_files import grammar_path, stdlib_names, stdlib_source
from pastedown.source import SourceText
from pastedown.syntax.parse import parse
from pastedown.tree.expression import Argument, Expression, Literal, SheetSize
from pastedown.tree.statement import Run, Setting, Statement
from test_examples import FILES

_USE = re.compile(r"(?m)^(use [^\"#]*? from )(\w+)$")


def with_the_library(files: dict[str, str]) -> dict[str, str]:
    """The files and a copy of every file of the library beside them, used by its quoted name: so the library's lines
    can be moved too."""
    library = {f"{name}.album": stdlib_source(name) or "" for name in stdlib_names()}
    return {name: _USE.sub(r'\1"\2.album"', text) for name, text in {**library, **files}.items()}


EXAMPLES = with_the_library(FILES)


def shuffled(text: str, chance: random.Random) -> str:
    """The recipe with the statements of the file, and of all braces but those of a run, in another order. Comments
    between statements are left out."""
    result = parse(SourceText("shuffled.album", text), str(grammar_path()))
    assert result.diagnostics == ()
    return _in_another_order(result.statements, text, chance) + "\n"


def _in_another_order(statements: tuple[Statement, ...], text: str, chance: random.Random) -> str:
    written = [_rewritten(statement, text, chance) for statement in statements]
    chance.shuffle(written)
    return "\n".join(written)


def _rewritten(statement: Statement, text: str, chance: random.Random) -> str:
    if isinstance(statement, Run):
        return text[statement.span.start : statement.span.end]
    at, parts = statement.span.start, []
    for body in sorted(_braces(statement), key=lambda body: body[0].span.start):
        start, end = body[0].span.start, body[-1].span.end
        parts += [text[at:start], _in_another_order(body, text, chance)]
        at = end
    return "".join([*parts, text[at : statement.span.end]])


def _braces(node: Statement | Expression | Setting | Argument) -> Iterator[tuple[Statement, ...]]:
    """The outermost braces with something in them that belong to a statement, also those of a `with` in its values."""
    for attribute in fields(type(node)):
        value = getattr(node, attribute.name)
        if attribute.name == "body":
            if value:
                yield value
        elif isinstance(value, tuple):
            for item in value:
                if isinstance(item, Setting | Argument):
                    yield from _braces(item.value)
        elif attribute.name in ("value", "called", "thing", "stock") and hasattr(value, "span"):
            yield from _braces(value)


def with_lengths_written(text: str, write: Callable[[Length], str]) -> str:
    """The recipe with every length, and both sides of every bought size, as `write` writes it; also those in the slots
    of texts."""
    result = parse(SourceText("rewritten.album", text), str(grammar_path()))
    assert result.diagnostics == ()
    written = text
    for node in sorted(_lengths(result.statements), key=lambda node: node.span.start, reverse=True):
        sides = (node.value,) if isinstance(node, Literal) else (node.first, node.second)
        words = " x ".join(write(side) for side in sides)
        written = written[: node.span.start] + words + written[node.span.end :]
    return written


def _lengths(node: object) -> Iterator[Literal | SheetSize]:
    if isinstance(node, SheetSize) or (isinstance(node, Literal) and node.value.dimension == LENGTH):
        yield node
    elif isinstance(node, tuple):
        for item in node:
            yield from _lengths(item)
    elif has(kind := type(node)) and not isinstance(node, Quantity):
        for attribute in fields(kind):
            if "span" not in attribute.name:
                yield from _lengths(getattr(node, attribute.name))
