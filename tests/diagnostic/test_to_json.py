import json

from pastedown.diagnostic import Label, error, note
from pastedown.diagnostic.to_json import LONGEST_TEXT, diagnostics_to_json
from pastedown.source import SourceText, Span

RECIPE = SourceText("lantern.album", 'edition = 1\nalbum lantern "L\u202eé" {\n  gap = 3/8 in\n}\n')


def words(text: str) -> Span:
    start = RECIPE.text.index(text)
    return Span(RECIPE, start, start + len(text))


def test_every_field() -> None:
    fault = error("an-id", words("gap"), "No.", reason="R.", way_out="W.", labels=[Label(words("{\n"), "in here")])
    assert json.loads(diagnostics_to_json([fault])) == [
        {
            "id": "an-id",
            "severity": "error",
            "sentence": "No.",
            "reason": "R.",
            "way_out": "W.",
            "place": {
                "file": "lantern.album", "line": 3, "column": 3, "end_line": 3, "end_column": 6, "text": "gap",
            },
            "labels": [
                {
                    "words": "in here",
                    "place": {
                        "file": "lantern.album", "line": 2, "column": 21, "end_line": 3, "end_column": 1, "text": "{\n",
                    },
                }
            ],
        }
    ]  # fmt: skip


def test_no_place_is_null() -> None:
    (told,) = json.loads(diagnostics_to_json([note("an-id", None, "No.")]))
    assert told["place"] is None and told["labels"] == []


def test_same_bytes_in_whatever_order_they_were_found() -> None:
    faults = [error("b", words("gap"), "B."), error("a", words("gap"), "A."), error("c", words("edition"), "C.")]
    told = diagnostics_to_json(faults)
    assert told == diagnostics_to_json(faults[::-1])
    assert [one["id"] for one in json.loads(told)] == ["c", "a", "b"]


def test_hidden_and_foreign_characters_are_escaped() -> None:
    told = diagnostics_to_json([error("a", words('"L\u202eé"'), "A lone half: \ud800.")])
    assert told.isascii()
    assert json.loads(told)[0]["place"]["text"] == '"L\u202eé"'


def test_the_words_are_cut_short() -> None:
    source = SourceText("a.album", "w" * 10_000)
    (told,) = json.loads(diagnostics_to_json([error("a", Span(source, 0, 10_000), "A.")]))
    assert told["place"]["text"] == "w" * LONGEST_TEXT
    assert told["place"]["end_column"] == 10_001


def test_none_is_an_empty_list() -> None:
    assert diagnostics_to_json([]) == "[]\n"
