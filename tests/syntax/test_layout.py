"""Layout never changes a meaning: line ends, blanks, quotes and marks at the beginning of a file."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import language
from syntax.reading import ROOT, read, recipes

SAMPLE = (ROOT / "tests" / "syntax" / "sample.album").read_text(encoding="utf-8")
RECIPES = {"sample": SAMPLE, **recipes()}


def spelt(text: str) -> list[str]:
    """The words of a recipe without its comments."""
    return [token.text for token in language(str(grammar_path())).tokens(SourceText("recipe.album", text))]


@pytest.mark.parametrize("name", RECIPES)
def test_a_recipe_on_one_line_is_the_same_recipe(name: str) -> None:
    whole = read(RECIPES[name])
    assert whole.statements
    assert read(" ".join(" ".join(spelt(RECIPES[name])).split())).statements == whole.statements


@pytest.mark.parametrize("name", RECIPES)
def test_line_ends_marks_and_indentation_make_no_difference(name: str) -> None:
    text = RECIPES[name]
    for other in (
        text.replace("\n", "\r\n"),
        text.replace("\n", "\r"),
        f"\ufeff{text}",
        "\n".join(line.strip() for line in text.splitlines()),
        "\n\n".join(f"\t{line}  " for line in text.splitlines()),
        text.replace(" ", "\N{NO-BREAK SPACE}"),
    ):
        assert read(other).statements == read(text).statements


def test_curly_quotes_are_quotes() -> None:
    curly = SAMPLE
    for number, quote in enumerate('"' for _ in range(SAMPLE.count('"'))):
        curly = curly.replace(quote, "”" if number % 2 else "“", 1)
    assert read(curly).statements == read(SAMPLE).statements


BLANKS = st.text(alphabet=" \t\n\r\N{NO-BREAK SPACE}", min_size=1, max_size=4)
COMMENTS = st.builds("\n# {}\n".format, st.text(alphabet="abc ,.'0", max_size=8))
WORDS = spelt(SAMPLE)


@settings(max_examples=30, deadline=None)
@given(st.lists(BLANKS | COMMENTS, min_size=len(WORDS), max_size=len(WORDS)))
def test_any_blanks_and_comments_between_words_make_the_same_recipe(gaps: list[str]) -> None:
    text = "".join(word + gap for word, gap in zip(WORDS, gaps, strict=True))
    result = read(text)
    assert result.diagnostics == ()
    assert result.statements == read(SAMPLE).statements
