"""A mistake costs its statement and no other; independent mistakes are all told, each once."""

import random
from collections.abc import Iterator

import pytest

from pastedown.diagnostic import Severity
from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import language
from pastedown.syntax.parse import ParseResult
from pastedown.tree.statement import Album, Component, Each, Fact
from syntax.reading import ROOT, read, recipes

SAMPLE = (ROOT / "tests" / "syntax" / "sample.album").read_text(encoding="utf-8")


def errors(result: ParseResult) -> list[tuple[str, int]]:
    return [
        (each.id, each.span.line) for each in result.diagnostics if each.severity is Severity.ERROR and each.span
    ]


def names(body: object) -> list[str]:
    assert isinstance(body, tuple)
    return [each.path.head for each in body if isinstance(each, Fact)]


def test_every_independent_mistake_is_told_in_one_run() -> None:
    text = """\
edition = 1
first = = 2
component leaf "A leaf." {
  takes paper stock
  height = 21,5 cm
  piece sheet form paper
  each k from 1 to 3 {
    good = 1
    panel rise[k] peak
    Bad = 2
  }
  last = (1 + 2
}
album walk {
  title = "Lantern walk
  part page = leaf(paper: kraft height: 3 in)
  fore-edge = 1/0 in
  fine = 1
}
"""
    result = read(text)
    assert errors(result) == [
        ("unexpected-word", 2), ("unexpected-word", 4), ("decimal-comma", 5), ("unexpected-word", 6),
        ("unexpected-word", 9), ("capital-in-name", 10), ("missing-closing", 12), ("unclosed-text", 15),
        ("unexpected-word", 16), ("hyphenated-name", 17), ("zero-denominator", 17),
    ]  # fmt: skip
    _, leaf, walk = result.statements
    assert isinstance(leaf, Component) and isinstance(walk, Album)
    [each] = leaf.body
    assert isinstance(each, Each)
    assert names(each.body) == ["good", "bad"]
    assert names(walk.body) == ["fine"]
    assert {"first", "paper", "height", "sheet", "rise", "last", "title", "page", "fore_edge"} <= result.broken_words
    assert not {"edition", "walk", "good", "fine"} & result.broken_words


def test_what_is_in_the_braces_of_a_broken_head_is_still_judged() -> None:
    result = read("component leaf leaf { x = = 1\n y = 2 }\nz = 3")
    assert errors(result) == [("unexpected-word", 1), ("unexpected-word", 1)]
    assert names(result.statements) == ["z"]
    assert {"leaf", "x", "y"} <= result.broken_words


def test_a_misspelt_head_is_read_as_what_was_meant() -> None:
    [leaf] = read("compnent leaf { x = 1 }").statements
    assert isinstance(leaf, Component)
    assert names(leaf.body) == ["x"]


def test_a_missing_brace_costs_the_thing_that_it_belongs_to() -> None:
    result = read("component a {\n  x = 1\n  each k from 1 to 2 {\n    y = = 2\n}\nalbum b {\n  z = 3\n}\n")
    assert errors(result) == [("missing-closing", 3), ("unexpected-word", 4)]
    assert [type(each) for each in result.statements] == [Component, Album]


@pytest.mark.parametrize("name", ["sample", *recipes()])
def test_each_broken_line_is_told_and_all_others_are_kept(name: str) -> None:
    """Statements that cannot be read, put in at random places between statements, are all told of, and only they."""
    text = SAMPLE if name == "sample" else recipes()[name]
    lines = text.splitlines()
    heads = [at for at, line in enumerate(lines) if line.lstrip().startswith(("takes ", "part ", "piece ", "close "))]
    chosen = sorted(random.Random(name).sample(heads, min(5, len(heads))))
    for added, at in enumerate(chosen):
        lines.insert(at + added, f"broken_{added} = = 1")
    result = read("\n".join(lines))
    assert errors(result) == [("unexpected-word", at + added + 1) for added, at in enumerate(chosen)]
    assert result.statements == read(text).statements


def damaged(text: str, times: int) -> Iterator[str]:
    """The text with one of its words left out, or written twice."""
    chance = random.Random(text)
    tokens = list(language(str(grammar_path())).tokens(SourceText("whole.album", text)))
    for token in chance.choices(tokens, k=times):
        instead = chance.choice(("", f"{token.text} {token.text}"))
        yield f"{text[: token.start]} {instead} {text[token.end :]}"


@pytest.mark.parametrize("flat", [False, True], ids=["in lines", "on one line"])
def test_one_slip_is_seldom_told_twice(flat: bool) -> None:
    text = "\n".join(line.split("#")[0] for line in SAMPLE.splitlines())
    told = [len(errors(read(each))) for each in damaged(" ".join(text.split()) if flat else text, 300)]
    noticed = [number for number in told if number]
    assert len(noticed) > 200
    assert max(noticed) <= 3
    assert sum(noticed) <= 1.1 * len(noticed)
