"""Brackets that are open where the file ends are shown with that end."""

from pastedown import check


def test_an_open_brace_is_shown_with_the_last_word_of_the_file() -> None:
    text = "edition = 1\nalbum a {\n  b = 2 in\n  c = 3 in\n\n# the end\n"
    (told,) = check(text)
    assert told.id == "missing-closing"
    assert [(label.span.text, label.span.line, label.words) for label in told.labels] == [
        ("3 in", 4, "the file ends here, and `}` is still missing"),
    ]
