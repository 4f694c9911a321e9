"""Nothing that anybody writes raises an error, and what is told points into the text."""

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import language
from pastedown.syntax.tidy import tidy
from syntax.reading import read, recipes

WORDS = sorted(language(str(grammar_path())).types)
RECIPES = sorted(recipes().values())
PIECES = st.sampled_from(
    [
        *WORDS, "page", "k", "x", "its", "height:", "x:", ".front", "[k]", "1/2 in", '8"', "3", "12 in x 12 in", "21,5 cm",
        ".5", "5 inches", "65 lb", '"', "“", "”", '"text"', '"{x}"', '"{"', "'", "#", "# x = 1", "\n", "\n\n", "g", "fore-edge",
        "Panel", "compnent", ";", "@", "\u202e", "\x00", "\ud800", "ß", "½", "-", "==", "{ }", "x = 1", "panel a: 3 in",
        "component a {", "part p = q(a: 1)",
    ]
)  # fmt: skip
SOUP = st.builds(
    lambda pieces, gaps: "".join(piece + gap for piece, gap in zip(pieces, gaps, strict=False)),
    st.lists(PIECES, max_size=40),
    st.lists(st.sampled_from([" ", "", "\n"]), min_size=40, max_size=40),
)


def must_hold(text: str) -> None:
    result = read(text)
    for diagnostic in result.diagnostics:
        assert diagnostic.span is not None
        assert 0 <= diagnostic.span.start <= diagnostic.span.end <= len(text)
        assert diagnostic.sentence and diagnostic.way_out
        assert all(0 <= label.span.start <= label.span.end <= len(text) for label in diagnostic.labels)
    ends = [each.span.end for each in result.statements]
    assert ends == sorted(ends)


@settings(deadline=None)
@given(SOUP)
def test_word_soup_is_read(text: str) -> None:
    must_hold(text)


@settings(deadline=None)
@given(st.text(max_size=80))
def test_any_text_is_read(text: str) -> None:
    must_hold(text)


@settings(deadline=None)
@given(st.sampled_from(RECIPES), st.integers(0, 10_000), st.integers(0, 60), SOUP)
def test_a_recipe_with_a_hole_or_a_blot_is_read(recipe: str, start: int, length: int, blot: str) -> None:
    start %= len(recipe)
    must_hold(recipe[:start] + blot + recipe[start + length :])


BRACKETS = st.lists(
    st.sampled_from(["(", ")", "[", "]", "{", "}", "x = 1", "each k from 1 to 2", "component a", "a with"]),
    min_size=1,
    max_size=3,
).map(" ".join)


@settings(deadline=None)
@given(BRACKETS, BRACKETS, st.sampled_from([70, 1_000]))
def test_what_repeats_itself_is_read(first: str, second: str, times: int) -> None:
    """Deeper than brackets may stand inside one another, however they are opened."""
    must_hold(f"{first} " * times + f"{second} " * times)


@settings(deadline=None)
@given(SOUP)
def test_nothing_is_lost_without_a_word(text: str) -> None:
    """Where nothing is told, every word of the text is in a statement."""
    result = read(text)
    if result.diagnostics:
        return
    covered = [(each.span.start, each.span.end) for each in result.statements]
    for token in language(str(grammar_path())).tokens(SourceText("soup.album", text)):
        assert any(start <= token.start < end for start, end in covered), token


@settings(deadline=None)
@given(SOUP)
def test_tidying_nonsense_leaves_it(text: str) -> None:
    source = SourceText("soup.album", text)
    once = tidy(source, str(grammar_path())).text
    assert read(once).statements == read(text).statements
    assert tidy(SourceText("soup.album", once), str(grammar_path())).text == once
