"""Tables and paragraphs in a fixed-width letter."""

from hypothesis import given
from hypothesis import strategies as st

from pastedown.outputs.plain_text import NO_BREAK_SPACE, PAGE_WIDTH, Column, heading, table, text_file, wrapped

NAME_AND_SIZE = (Column("name", 10), Column("size", 12, measures=True))


def test_columns_line_up_and_measures_stand_to_the_right() -> None:
    assert table(NAME_AND_SIZE, [("a", "8 1/2 in"), ("bcd", "7 in")]) == [
        "name      size",
        "----  --------",
        "a     8 1/2 in",
        "bcd       7 in",
    ]


def test_the_measure_in_brackets_goes_below() -> None:
    assert table(NAME_AND_SIZE, [("a", "8 1/2 in (215.9 mm)")])[2:] == ["a       8 1/2 in", "      (215.9 mm)"]


def test_long_cells_are_wrapped_and_not_cut() -> None:
    lines = table(NAME_AND_SIZE, [("one two three four", "1 in"), ("a" * 25, "2 in")])
    assert "".join(line[:10].strip() for line in lines[2:]) == "one twothree four" + "a" * 25


def test_wide_letters_and_accents_keep_the_columns() -> None:
    lines = table(NAME_AND_SIZE, [("日本", "1 in"), ("e\u0301", "2 in")])
    assert lines[2:] == ["日本  1 in", "e\u0301     2 in"]


def test_a_number_is_never_parted_from_its_unit() -> None:
    measure = f"8{NO_BREAK_SPACE}1/2{NO_BREAK_SPACE}in"
    for words in range(1, 40):
        lines = wrapped("ab " * words + measure)
        assert any("8 1/2 in" in line for line in lines)


def test_a_heading_is_underlined_as_far_as_it_goes() -> None:
    assert heading("Cut list") == ["Cut list", "========"]


@given(st.text(st.characters()), st.text(st.characters()))
def test_no_text_breaks_out_of_its_lines(name: str, size: str) -> None:
    lines = [*heading(name), *wrapped(name, first="  1. "), *table(NAME_AND_SIZE, [(name, size)])]
    assert text_file(lines).decode().split("\n")[:-1] == lines
    assert all(len(line) <= PAGE_WIDTH for line in lines)


def test_a_whole_word_is_never_broken() -> None:
    long = "envelope-front-magnet-holder"
    columns = (Column("id", 18, whole=True), Column("piece", 20))
    assert any(line.startswith(f"{long}  holder") for line in table(columns, [(long, "holder")]))
    assert not any(long in line for line in table((Column("id", 18), Column("piece", 20)), [(long, "holder")]))
