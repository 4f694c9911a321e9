"""Nothing that anybody writes raises an error, and what is told points into the text."""

from hypothesis import given
from hypothesis import strategies as st

from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import language
from pastedown.syntax.tidy import tidy
from syntax.reading import ROOT, read

WORDS = sorted(language(str(grammar_path())).types)
SAMPLE = (ROOT / "tests" / "syntax" / "sample.album").read_text(encoding="utf-8")
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


@given(SOUP)
def test_word_soup_is_read(text: str) -> None:
    must_hold(text)


@given(st.text(max_size=80))
def test_any_text_is_read(text: str) -> None:
    must_hold(text)


@given(st.integers(0, len(SAMPLE)), st.integers(0, 60), SOUP)
def test_a_recipe_with_a_hole_or_a_blot_is_read(start: int, length: int, blot: str) -> None:
    must_hold(SAMPLE[:start] + blot + SAMPLE[start + length :])


@given(SOUP)
def test_nothing_is_lost_without_a_word(text: str) -> None:
    """Where nothing is told, every word of the text is in a statement."""
    result = read(text)
    if result.diagnostics:
        return
    covered = [(each.span.start, each.span.end) for each in result.statements]
    for token in language(str(grammar_path())).tokens(SourceText("soup.album", text)):
        assert any(start <= token.start < end for start, end in covered), token


@given(SOUP)
def test_tidying_nonsense_leaves_it(text: str) -> None:
    source = SourceText("soup.album", text)
    once = tidy(source, str(grammar_path()))
    assert read(once).statements == read(text).statements
    assert tidy(SourceText("soup.album", once), str(grammar_path())) == once
