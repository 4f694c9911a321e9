"""Drawing: whole pictures where the layout is the point, single facts elsewhere."""

import random
from unicodedata import category

from hypothesis import given
from hypothesis import strategies as st

from pastedown.diagnostic import Diagnostic, Label, Severity, error, note, warning
from pastedown.diagnostic.draw import MOST_DRAWN, MOST_LABELS, ROOM, draw, summary
from pastedown.diagnostic.visible_text import columns
from pastedown.source import SourceText, Span

RECIPE = SourceText(
    "lantern.album",
    "edition = 1\n"
    "album lantern {\n"
    "  strip = peaks(hieght: 6 in)\n"
    "\tgap = 3/8 in\n"
    '  title = "漢字" + 2\n'
    "}\n",
)
HOUSE = SourceText("house.album", "edition = 1\nborder = 1/8 in\n")


def words(text: str, source: SourceText = RECIPE) -> Span:
    start = source.text.index(text)
    return Span(source, start, start + len(text))


def drawn(*diagnostics: Diagnostic) -> list[str]:
    return draw(diagnostics).split("\n")


def test_nothing_to_tell_is_nothing() -> None:
    assert draw(()) == ""


def test_a_whole_picture() -> None:
    fault = error(
        "unknown-argument",
        words("hieght"),
        "peaks takes no hieght.",
        reason="Without its height the strip cannot be cut.",
        way_out='Did you mean "height"?\nLeave it out.',
        labels=[Label(words("{"), "in this album"), Label(words("border", HOUSE), "as in this file")],
    )
    assert drawn(fault) == [
        "error: peaks takes no hieght. [unknown-argument]",
        "  in lantern.album, line 3:",
        "    2 | album lantern {",
        "      |               - in this album",
        "    3 |   strip = peaks(hieght: 6 in)",
        "      |                 ^^^^^^",
        "  in house.album, line 2:",
        "    2 | border = 1/8 in",
        "      | ------ as in this file",
        "  Why: Without its height the strip cannot be cut.",
        '  Try: Did you mean "height"?',
        "   or: Leave it out.",
        "",
        "1 error in lantern.album",
    ]


def test_labels_on_one_line_share_it() -> None:
    fault = error("x", words("strip"), "No.", labels=[Label(words("6 in"), "that"), Label(words("peaks"), "this")])
    assert drawn(fault)[2:6] == [
        "    3 |   strip = peaks(hieght: 6 in)",
        "      |   ^^^^^",
        "      |           ----- this",
        "      |                         ---- that",
    ]


def test_a_tab_is_as_wide_as_its_marker_allows_for() -> None:
    assert drawn(error("x", words("gap"), "No."))[2:4] == ["    4 |     gap = 3/8 in", "      |     ^^^"]


def test_east_asian_letters_take_two_columns() -> None:
    assert drawn(error("x", words("漢字"), "No."))[3] == "      |            ^^^^"
    assert drawn(error("x", words("+"), "No."))[3] == "      |                  ^"


def test_a_combining_mark_takes_no_column() -> None:
    source = SourceText("a.album", "cafe\u0301 au")
    assert drawn(error("x", words("au", source), "No."))[2:4] == ["    1 | cafe\u0301 au", "      |      ^^"]


def test_a_tower_of_marks_is_written_out() -> None:
    source = SourceText("a.album", "e" + "\u0301" * 500 + " au")
    line = drawn(error("x", words("e", source), "No."))[2]
    assert line.count("\u0301") == 3
    assert "<U+0301>" in line and columns(line) <= ROOM


def test_hidden_characters_are_written_out() -> None:
    source = SourceText("a\x1b.album", "a\u202eb\x07c\u2028d\ufeff\x1b[2J")
    told = draw([error("x", words("c", source), "No\x1b[31m \u2066way\r.", reason="\x9b", way_out="\u200f")])
    for hidden in ("\u202e", "\x07", "\u2028", "\ufeff", "\x1b", "\u2066", "\r", "\x9b", "\u200f"):
        assert hidden not in told
    assert "a<U+202E>b<U+0007>c<U+2028>d<U+FEFF><U+001B>[2J" in told
    assert "  in a<U+001B>.album, line 1:" in told


def test_the_marker_stands_under_what_is_written_out() -> None:
    source = SourceText("a.album", "a\u202eb")
    assert drawn(error("x", words("\u202e", source), "No."))[3] == "      |  ^^^^^^^^"


def test_a_long_line_is_cut_round_the_words() -> None:
    source = SourceText("a.album", "x " * 400_000 + "here" + " y" * 400_000)
    lines = drawn(error("x", words("here", source), "No."))
    assert len(lines[2]) == ROOM - 1
    assert lines[2].startswith("    1 | …") and lines[2].endswith("…")
    assert lines[2][lines[3].index("^") : lines[3].rindex("^") + 1] == "here"


def test_a_long_line_is_not_cut_where_it_need_not_be() -> None:
    source = SourceText("a.album", "first" + " y" * 100 + " last")
    assert drawn(error("x", words("first", source), "No."))[2].startswith("    1 | first y")
    assert drawn(error("x", words("last", source), "No."))[2].endswith("y last")


def test_words_longer_than_a_line_are_marked_to_the_cut() -> None:
    source = SourceText("a.album", "w" * 5000)
    line, marker = drawn(error("x", Span(source, 0, 5000), "No."))[2:4]
    assert line.endswith("w…") and len(line) == len(marker) <= ROOM


def test_words_over_several_lines_show_the_first() -> None:
    span = words("{").to(words("}"))
    assert drawn(error("x", span, "No."))[2:5] == [
        "    2 | album lantern {",
        "      |               ^ to line 6",
        "",
    ]
    label = warning("x", words("gap"), "No.", labels=[Label(span, "in here")])
    assert "      |               - to line 6: in here" in drawn(label)


def test_the_end_of_a_file_can_be_marked() -> None:
    end = len(RECIPE.text)
    lines = drawn(error("x", Span(RECIPE, end, end), "No."))
    assert lines[1:4] == ["  in lantern.album, line 7:", "    7 |", "      | ^"]


def test_a_span_beyond_its_text_does_no_harm() -> None:
    assert "line 7" in draw([error("x", Span(RECIPE, 10_000, 10_001), "No.")])


def test_windows_line_ends_do_not_show() -> None:
    source = SourceText("a.album", "one\r\ntwo\r\n")
    assert drawn(error("x", words("one", source), "No."))[2] == "    1 | one"


def test_by_file_then_position_then_what_has_no_place() -> None:
    faults = [
        note("no-place", None, "Nowhere."),
        warning("late", words("gap"), "Late."),
        error("early", words("album lantern"), "Early."),
        error("house", words("border", HOUSE), "House."),
    ]
    heads = ["error: House. [house]", "error: Early. [early]", "warning: Late. [late]", "note: Nowhere. [no-place]"]
    assert [line for line in drawn(*faults) if line in heads] == heads


def test_the_order_given_does_not_matter() -> None:
    span = words("gap")
    faults = [maker(id, span, id) for maker in (note, warning, error) for id in "abc"]
    expected = draw(faults)
    shuffled = faults * 2
    random.Random(7).shuffle(shuffled)
    assert draw(shuffled) == expected


def test_never_more_than_fifty_and_errors_come_first() -> None:
    source = SourceText("a.album", "\n" * 200)
    faults = [warning("w", Span(source, at, at), f"Warning {at}.") for at in range(80)]
    faults.append(error("e", Span(source, 150, 150), "The error."))
    lines = drawn(*faults)
    assert sum(line.startswith("warning: ") for line in lines) == MOST_DRAWN - 1
    assert "error: The error. [e]" in lines
    assert lines[-3:] == ["and 31 more", "", "1 error, 80 warnings in a.album"]


def test_many_labels_are_cut_short() -> None:
    labels = [Label(words("album lantern"), f"place {at}") for at in range(MOST_LABELS + 5)]
    told = draw([error("x", words("gap"), "No.", labels=labels)])
    assert told.count("place ") == MOST_LABELS
    assert "  and 5 more places" in told


def test_summary() -> None:
    house, recipe = words("border", HOUSE), words("gap")
    assert summary([error("a", recipe, "A."), error("b", recipe, "B."), warning("c", recipe, "C.")]) == (
        "2 errors, 1 warning in lantern.album"
    )
    assert summary([note("a", recipe, "A."), note("b", house, "B.")]) == "2 notes in house.album and lantern.album"
    assert summary([note("a", None, "A.")]) == "1 note"
    assert summary([]) == "nothing to mend"
    spans = [Span(SourceText(f"{name}.album", ""), 0, 0) for name in "abcd"]
    assert summary([error("a", span, "A.") for span in spans]) == "4 errors in 4 files"
    assert summary([error("a", span, "A.") for span in spans[:3]]) == "3 errors in a.album, b.album and c.album"


def test_prose_is_wrapped_and_an_endless_word_is_cut() -> None:
    told = draw([error("x", words("gap"), "word " * 60, reason="y" * 100_000, way_out="漢" * 100)])
    assert all(columns(line) <= ROOM for line in told.split("\n"))
    assert len(told) < 5_000
    assert "\n       漢" in told, "a wrapped line stands under the words, not under Try"


def test_long_words_of_a_label_stand_below_its_marker() -> None:
    lines = drawn(error("x", words("gap"), "No.", labels=[Label(words("6 in"), "so " * 40)]))
    assert lines[3].rstrip().endswith("----")
    assert lines[4].startswith("      | so so")
    assert all(len(line) <= ROOM for line in lines)


def test_colour_changes_nothing_but_the_colour() -> None:
    fault = error("x", words("gap"), "No.", labels=[Label(words("6 in"), "that")], reason="R.", way_out="W.")
    coloured = draw([fault], colour=True)
    assert "\x1b[1;31merror\x1b[0m: No. [x]" in coloured
    for code in ("1;31", "2", "1", "0"):
        coloured = coloured.replace(f"\x1b[{code}m", "")
    assert coloured == draw([fault])


PLACE = st.integers(0, 300)


@given(st.text(max_size=300), PLACE, PLACE, st.text(max_size=200), st.sampled_from(Severity))
def test_whatever_a_recipe_holds_the_picture_stays_in_its_frame(
    text: str, start: int, length: int, sentence: str, severity: Severity
) -> None:
    source = SourceText(text[:20], text)
    span = Span(source, start, start + length)
    told = draw([Diagnostic("an-id", severity, sentence, span, sentence, sentence, (Label(span, sentence),))])
    for line in told.split("\n"):
        assert columns(line) <= ROOM
        assert all(category(letter)[0] != "C" and category(letter) not in ("Zl", "Zp") for letter in line)
