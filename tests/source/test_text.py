"""Lines and columns of a text."""

from hypothesis import given
from hypothesis import strategies as st

from pastedown.source import SourceText, Span

TEXTS = st.text(st.sampled_from(["\n", "\r", "a", "é", " ", "\u2028", "\x0b"]), max_size=30)


@given(TEXTS)
def test_lines_and_columns_are_counted_from_one(text: str) -> None:
    source = SourceText("recipe.album", text)
    line = column = 1
    for offset, letter in enumerate(text):
        assert source.line_and_column(offset) == (line, column)
        line, column = (line + 1, 1) if letter == "\n" else (line, column + 1)
    assert source.line_and_column(len(text)) == (line, column)


@given(TEXTS)
def test_a_line_is_given_without_its_end(text: str) -> None:
    source = SourceText("recipe.album", text)
    assert [source.line(number + 1) for number in range(text.count("\n") + 1)] == [
        line.rstrip("\r") for line in text.split("\n")
    ]


def test_a_span_runs_from_one_to_another() -> None:
    source = SourceText("recipe.album", "one\ntwo three")
    span = Span(source, 4, 7).to(Span(source, 8, 13))
    assert (span.text, span.line, span.column) == ("two three", 2, 1)
