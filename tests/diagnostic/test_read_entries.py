import pytest

from pastedown.diagnostic.entry import Entry, Example
from pastedown.diagnostic.read_entries import CatalogueError, read_entries

ENTRY = """\
What the file is about.

== torn-corner ==
A corner torn off

What it looks for:
A corner that is
not there.

Why it matters at the table:
It is missed.

Example:
    edition = 1
    use a from "b.album"

      indented = 1
    --- b.album
    a = 1

Mended:
    edition = 1

Source of the limit:
Common practice, no source.
"""


def test_a_whole_entry() -> None:
    assert read_entries(ENTRY, "corners.txt") == (
        Entry(
            "torn-corner",
            "A corner torn off",
            "A corner that is not there.",
            "It is missed.",
            Example('edition = 1\nuse a from "b.album"\n\n  indented = 1\n', (("b.album", "a = 1\n"),)),
            Example("edition = 1\n"),
            "Common practice, no source.",
        ),
    )


def test_several_entries_and_none() -> None:
    second = ENTRY[ENTRY.index("==") :].replace("torn-corner", "bent-corner")
    assert [entry.id for entry in read_entries(ENTRY + second, "x")] == ["torn-corner", "bent-corner"]
    assert read_entries("Only words.\n", "x") == ()


@pytest.mark.parametrize(
    ("there", "instead", "said"),
    [
        ("A corner torn off\n", "\n", "no title"),
        ("Why it matters at the table:\n", "", "no Why it matters at the table:"),
        ("Mended:\n    edition = 1\n", "", "no Mended:"),
        ("A corner that is\nnot there.\n", "", "prose is missing"),
        ("not there.", "    not there.", "indented"),
        ("    use a", "  use a", "not indented by four blanks"),
        ("Mended:\n    edition = 1\n", "Mended:\n", "a recipe is missing"),
        ("Mended:\n    edition = 1\n", "Mended:\n    --- b.album\n    a = 1\n", "nothing in itself"),
        ("Mended:", "Example:", "stands twice"),
        ("A corner torn off\n", "A corner torn off\nand more\n", "stands under no heading"),
    ],
)
def test_slips_of_the_format_are_refused(there: str, instead: str, said: str) -> None:
    assert ENTRY.count(there) == 1
    with pytest.raises(CatalogueError, match=said):
        read_entries(ENTRY.replace(there, instead), "corners.txt")


def test_headings_keep_their_order() -> None:
    what, why = "What it looks for:\nA corner that is\nnot there.\n", "Why it matters at the table:\nIt is missed.\n"
    with pytest.raises(CatalogueError, match=r"corners[.]txt, torn-corner: the headings stand in another order"):
        read_entries(ENTRY.replace(f"{what}\n{why}", f"{why}\n{what}"), "corners.txt")


def test_examples_are_written_out() -> None:
    example = Example("a_1 = b_2 + 1 in\n  ... 2 more lines like this\n<U+202E>\n")
    assert example.recipe() == "a_1 = b_2 + 1 in\na_2 = b_3 + 1 in\na_3 = b_4 + 1 in\n\u202e\n"


def test_files_are_written_out() -> None:
    beside = (("a_1.album", "x_1 = 1 in\n"), ("... 2 more files like this", ""), ("b.album", "y = 2\n"))
    assert Example("", beside).files() == {
        "a_1.album": "x_1 = 1 in\n", "a_2.album": "x_2 = 1 in\n", "a_3.album": "x_3 = 1 in\n", "b.album": "y = 2\n",
    }  # fmt: skip


@pytest.mark.parametrize("text", ["... 3 more lines like this", "a\n... 999,999,999 more lines like this"])
def test_a_repetition_without_a_line_or_an_end_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="repeats a line"):
        Example(text).recipe()
