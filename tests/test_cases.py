"""Recipes with the messages they earn, as text: `tests/cases/*.cases`.

A file holds several cases. `==== words` begins a case, `---- name.album` a further file of the case. A line that begins
with `#!` is what is told of the line above it: how bad it is, the id, the words that are pointed at, and the sentence.
Everything that is told has to stand there, and nothing else may be told: one mistake, one message. `#! Try:` under a
message is its way out, where a case cares for it, and `#! or:` each further one. `<U+202E>` stands for a character that
cannot be seen.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from attrs import evolve, frozen

from pastedown import check
from pastedown.diagnostic import Diagnostic, Severity
from pastedown.diagnostic.visible_text import visible

FOLDER = Path(__file__).parent / "cases"
RECIPE = "recipe.album"
UNSEEN = re.compile(r"<U\+([0-9A-F]{4,6})>")
# So much of what is pointed at is written down.
LONGEST_WORDS = 40


@frozen
class Message:
    """What is told: of which line of which file, in which words, and how to mend it."""

    file: str
    line: int
    words: str
    way_out: str = ""


@frozen
class Case:
    """One case: the texts of its files, and what is to be told."""

    title: str
    files: dict[str, str]
    expected: tuple[Message, ...]


def cases() -> Iterator[Case]:
    for path in sorted(FOLDER.glob("*.cases")):
        for block in re.split(r"(?m)^==== ", path.read_text(encoding="utf-8"))[1:]:
            title, _, text = block.partition("\n")
            yield read_case(f"{path.stem}: {title}", text)


def read_case(title: str, text: str) -> Case:
    files: dict[str, str] = {}
    expected: list[Message] = []
    name, *rest = re.split(r"(?m)^---- (.+)\n", text)
    for file, content in [(RECIPE, name), *zip(rest[::2], rest[1::2], strict=True)]:
        lines: list[str] = []
        for line in content.rstrip("\n").split("\n"):
            if line.startswith("#! Try: "):
                expected[-1] = evolve(expected[-1], way_out=line.removeprefix("#! Try: "))
            elif line.startswith("#! or: "):
                expected[-1] = evolve(expected[-1], way_out=f"{expected[-1].way_out}\n{line.removeprefix('#! or: ')}")
            elif line.startswith("#! "):
                expected.append(Message(file, len(lines), line.removeprefix("#! ")))
            else:
                lines.append(line)
        files[file] = with_unseen("\n".join(lines) + "\n")
    return Case(title, files, tuple(expected))


def with_unseen(text: str) -> str:
    return UNSEEN.sub(lambda found: chr(int(found[1], 16)), text)


def told(diagnostic: Diagnostic) -> Message:
    span = diagnostic.span
    begin = f"{diagnostic.severity.value} {diagnostic.id}"
    if span is None:
        return Message(RECIPE, 1, f"{begin}: {diagnostic.sentence}", diagnostic.way_out)
    words = visible(span.text)
    at = words if len(words) <= LONGEST_WORDS else words[: LONGEST_WORDS - 1] + "…"
    return Message(span.source.name, span.line, f"{begin} at {at}: {diagnostic.sentence}", diagnostic.way_out)


ALL = list(cases())


@pytest.mark.parametrize("case", ALL, ids=lambda case: case.title)
def test_a_recipe_earns_the_messages_beside_its_lines(case: Case) -> None:
    found = sorted((told(each) for each in check(case.files[RECIPE], case.files.get)), key=_what)
    expected = sorted(case.expected, key=_what)
    assert [_what(message) for message in found] == [_what(message) for message in expected]
    for message, wanted in zip(found, expected, strict=True):
        assert wanted.way_out in ("", message.way_out)


def _what(message: Message) -> tuple[str, int, str]:
    return message.file, message.line, message.words


def test_there_are_enough_cases_with_an_error_each() -> None:
    assert sum(any(message.words.startswith("error ") for message in case.expected) for case in ALL) >= 80


def test_titles_differ() -> None:
    assert len({case.title for case in ALL}) == len(ALL)


def test_every_message_has_a_way_out() -> None:
    bare = [
        (case.title, diagnostic.id)
        for case in ALL
        for diagnostic in check(case.files[RECIPE], case.files.get)
        if not diagnostic.way_out and diagnostic.severity is not Severity.NOTE
    ]
    assert bare == []
