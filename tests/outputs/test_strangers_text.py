"""No text of a stranger's is run, obeyed or hidden, whatever file it ends up in."""

import csv
import json
from io import StringIO

import pytest
from jsonschema import Draft202012Validator

from outputs.sample_plan import with_words
from pastedown.outputs.csv_text import csv_file
from pastedown.outputs.every_output import EVERY_OUTPUT

TEXT_OUTPUTS = [output for output in EVERY_OUTPUT if not output.name.startswith(("templates", "booklet-pdf"))]

NASTY = [
    "=1+1",
    '=HYPERLINK("http://example.invalid")',
    "@SUM(A1)",
    "\t=1+1",
    "\r=1+1",
    " +1+1",
    "-1+1",
    "\uff1d1+1",
    "<script>alert(1)</script>",
    'a","b',
    "abc\u202ecba",
    "\x1b]0;title\x07",
    "line\nHeight: 9 in",
    "\ud83d",
    "",
    "x" * 5000,
    "{0} %s \\u0041 ${HOME}",
]


def files_with(words: str) -> dict[str, bytes]:
    return {name: made for output in TEXT_OUTPUTS for name, made in output.make(with_words(words)).items()}


@pytest.mark.parametrize("words", NASTY)
def test_no_file_has_hidden_characters(words: str) -> None:
    for name, made in files_with(words).items():
        shown = made.decode()
        body = shown.replace("\r\n", "\n") if name.endswith(".csv") else shown
        hidden = [letter for letter in body if letter != "\n" and (ord(letter) < 32 or letter in "\x7f\u202e\u2028")]
        assert not hidden, name


@pytest.mark.parametrize("words", NASTY)
def test_no_cell_is_a_formula(words: str) -> None:
    for name, made in files_with(words).items():
        if name.endswith(".csv"):
            cells = [cell for row in csv.reader(StringIO(made.decode(), newline="")) for cell in row]
            assert not [cell for cell in cells if cell.lstrip()[:1] in tuple("=+-@\uff1d\uff0b\uff0d\uff20")], name


@pytest.mark.parametrize("words", NASTY)
def test_tables_keep_their_shape(words: str) -> None:
    for name, made in files_with(words).items():
        if name.endswith(".csv"):
            rows = list(csv.reader(StringIO(made.decode(), newline="")))
            assert len({len(row) for row in rows}) == 1, name
            assert len(rows) == len(files_with("plain")[name].decode().split("\r\n")) - 1
        if name.endswith(".txt"):
            assert max(map(len, made.decode().splitlines())) <= 130, name


@pytest.mark.parametrize("words", NASTY)
def test_json_stays_valid_and_keeps_the_words(words: str) -> None:
    files = files_with(words)
    validator = Draft202012Validator(json.loads(files["album.schema.json"]))
    for name in ("album.json", "cut-list.json", "margins.json"):
        made = json.loads(files[name])
        validator.validate(made)
        assert made["title"] == words.replace("\ud83d", "\ufffd")


def test_right_to_left_marks_are_written_out() -> None:
    files = files_with("abc\u202ecba")
    for name in ("cut-list.txt", "cut-list.csv", "score-chart.txt", "steps.txt", "materials.txt", "materials.csv",
                 "margins.txt", "margins.csv"):
        assert "abc[U+202E]cba" in files[name].decode(), name
    assert "abc\\u202ecba" in files["album.json"].decode()


def test_a_line_break_does_not_forge_a_line() -> None:
    for name, made in files_with("line\nHeight: 9 in").items():
        assert not [line for line in made.decode().splitlines() if line.startswith("Height: 9 in")], name


def test_numbers_are_not_led_by_an_apostrophe() -> None:
    made = csv_file(("a", "b", "c", "d"), [("-1.5", -2, "+3", "-1.5 in")])
    assert made == b"a,b,c,d\r\n-1.5,-2,+3,'-1.5 in\r\n"
