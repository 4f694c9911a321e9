"""Short ways to read a recipe in the tests of this stage."""

from functools import cache
from pathlib import Path

from pastedown.quantity.quantity import inches, mm, number
from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText, Span
from pastedown.syntax.parse import ParseResult, parse
from pastedown.tree.expression import Dot, Expression, Index, Literal, Text
from pastedown.tree.expression import Path as PathNode
from pastedown.tree.statement import Fact, Statement

ROOT = Path(__file__).resolve().parents[2]
# Places are no part of what a node is, so any span will do in an expected tree.
ANYWHERE = Span(SourceText("anywhere.album", ""), 0, 0)


def read(text: str) -> ParseResult:
    return parse(SourceText("recipe.album", text), str(grammar_path()))


def statements(text: str) -> tuple[Statement, ...]:
    """The statements of a text without an error."""
    result = read(text)
    assert [each.sentence for each in result.diagnostics if each.severity.value == "error"] == []
    return result.statements


def statement(text: str) -> Statement:
    [only] = statements(text)
    return only


def value(text: str) -> Expression:
    """What stands after `x =`."""
    fact = statement(f"x = {text}")
    assert isinstance(fact, Fact)
    return fact.value


def told(text: str) -> list[tuple[str, str]]:
    """The id of each diagnostic, and the words that it marks."""
    return [(each.id, each.span.text if each.span else "") for each in read(text).diagnostics]


def path(words: str) -> PathNode:
    """`page[3].front` as a node; indexes are whole numbers or names."""
    head, *rest = words.replace("[", ".[").split(".")
    trailers = tuple(
        Index(_index(word[1:-1]), ANYWHERE) if word.startswith("[") else Dot(word, ANYWHERE) for word in rest
    )
    return PathNode(head, trailers, ANYWHERE, ANYWHERE)


def _index(word: str) -> Expression:
    return plain(int(word)) if word.isdigit() else path(word)


def plain(amount: int | str) -> Literal:
    return Literal(number(amount), ANYWHERE)


def inch(amount: int | str) -> Literal:
    return Literal(inches(amount), ANYWHERE)


def millimetre(amount: int | str) -> Literal:
    return Literal(mm(amount), ANYWHERE)


def words(*pieces: str | Expression) -> Text:
    return Text(pieces, ANYWHERE)


@cache
def recipes() -> dict[str, str]:
    """Every recipe of the standard library and of the examples, by its name."""
    files = [*(ROOT / "stdlib").glob("*.album"), *(ROOT / "examples").glob("*.album")]
    return {f"{file.parent.name}/{file.name}": file.read_text(encoding="utf-8") for file in sorted(files)}
