"""Recipes with the messages they earn, as text: `tests/cases/*.cases`.

A file holds several cases. `==== words` begins a case, `---- name.album` a further file of the case. A line that begins
with `#!` is what is told of the line above it: how bad it is, the id, and the sentence. Everything that is told has to
stand there, and nothing else may be told: one mistake, one message.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from attrs import frozen

from pastedown import check
from pastedown.diagnostic import Diagnostic

FOLDER = Path(__file__).parent / "cases"
RECIPE = "recipe.album"


@frozen
class Case:
    """One case: the texts of its files, and what is to be told, as (file, line, words)."""

    title: str
    files: dict[str, str]
    expected: tuple[tuple[str, int, str], ...]


def cases() -> Iterator[Case]:
    for path in sorted(FOLDER.glob("*.cases")):
        for block in re.split(r"(?m)^==== ", path.read_text(encoding="utf-8"))[1:]:
            title, _, text = block.partition("\n")
            yield read_case(f"{path.stem}: {title}", text)


def read_case(title: str, text: str) -> Case:
    files: dict[str, str] = {}
    expected: list[tuple[str, int, str]] = []
    name, *rest = re.split(r"(?m)^---- (.+)\n", text)
    for file, content in [(RECIPE, name), *zip(rest[::2], rest[1::2], strict=True)]:
        lines: list[str] = []
        for line in content.rstrip("\n").split("\n"):
            if line.startswith("#! "):
                expected.append((file, len(lines), line.removeprefix("#! ")))
            else:
                lines.append(line)
        files[file] = "\n".join(lines) + "\n"
    return Case(title, files, tuple(expected))


def told(diagnostic: Diagnostic) -> tuple[str, int, str]:
    span = diagnostic.span
    file, line = (span.source.name, span.line) if span is not None else (RECIPE, 1)
    return file, line, f"{diagnostic.severity.value} {diagnostic.id}: {diagnostic.sentence}"


ALL = list(cases())


@pytest.mark.parametrize("case", ALL, ids=lambda case: case.title)
def test_a_recipe_earns_the_messages_beside_its_lines(case: Case) -> None:
    found = check(case.files[RECIPE], case.files.get)
    assert sorted(told(each) for each in found) == sorted(case.expected)


def test_there_are_enough_cases_with_an_error_each() -> None:
    assert sum(any(words.startswith("error ") for _, _, words in case.expected) for case in ALL) >= 60


def test_every_message_has_a_way_out_or_a_reason() -> None:
    bare = [
        (case.title, diagnostic.id)
        for case in ALL
        for diagnostic in check(case.files[RECIPE], case.files.get)
        if not diagnostic.way_out and not diagnostic.reason
    ]
    assert bare == []
