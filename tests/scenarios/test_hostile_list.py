"""The list of hostile and faulty files, one file each in `hostile/`: an exit code, one cause with its line and column, one
suggestion, and nothing written. What comes out of an outsized file is made here and not kept."""

import json
from pathlib import Path

import pytest

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity
from running import files_in, run, run_measured

FOLDER = Path(__file__).parent / "hostile"
MOST_MEGABYTES = 200
REFUSED = {
    # file: id, line, the words that are pointed at, words of the sentence, words of the suggestion
    "thousand_million_peaks": ("out-of-range", 9, "1000000000", "peaks of hinge is 1000000000", "that passes is 24"),
    "too_many_peaks_for_the_sheet": ("sheet-too-small", 0, "", "17 1/4 in wide", "its width to 12 in at most"),
    "negative_gusset": ("out-of-range", 9, "-1/2 in", "gusset of hinge is -1/2 in", "that passes is 1/8 in"),
    "sheet_over_nought": ("zero-denominator", 9, "8 1/2 in x 3/0 in", "divides by nought", "as in `1/8`"),
    "loop": ("circular", 9, "page_height", "page_height (line 9) needs board_height (line 10)", "Choose one of them"),
    "no_unit": ("wrong-dimension", 9, "7 1/2", "The height is a length", "Write the unit: 7 1/2 in, or 7 1/2 mm."),
    "misspelt": ("unknown-argument", 9, "guset", "takes no guset", "Did you mean `gusset`?"),
    "two_alike": ("twice-declared", 10, "leaf", "leaf is stated twice", "give the other a name of its own"),
    "half_a_page": ("not-whole", 9, "2.5", "A whole number belongs here", "whole(x) rounds down"),
    "half_a_peak": ("not-whole", 9, "2.5", "peaks counts things", "whole(x) rounds down"),
    "parent_folder": ("import-outside", 2, '"../secret.album"', "from the design's own folder", "Copy the file beside"),
    "absolute_path": ("import-outside", 2, '"/etc/hostname"', "from the design's own folder", "Copy the file beside"),
    "bare_pound": ("bare-pound", 2, "65 lb", "65 lb", "65 lb cover"),
    "hidden_mark": ("control-character", 3, "\u202e", "U+202E, a hidden character", "Delete it"),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_one_cause_with_its_place_and_one_suggestion(tmp_path: Path, name: str) -> None:
    identifier, line, words, sentence, way_out = REFUSED[name]
    (tmp_path / "walk").mkdir()
    (tmp_path / "secret.album").write_text("edition = 1\nsecret = 1 in\n")
    (tmp_path / "walk" / f"{name}.album").write_bytes((FOLDER / f"{name}.album").read_bytes())
    done = run("check", f"{name}.album", "--messages", "json", cwd=tmp_path / "walk")
    assert done.code == 1
    (told,) = json.loads(done.out)
    assert (told["id"], told["severity"]) == (identifier, "error")
    assert sentence in told["sentence"] and way_out in told["way_out"]
    if line:
        column = (FOLDER / f"{name}.album").read_text().split("\n")[line - 1].index(words) + 1
        assert (told["place"]["file"], told["place"]["line"], told["place"]["column"]) == (f"{name}.album", line, column)
    else:
        # The piece stands in the library; the label says where in this file it was asked for.
        assert any(label["place"]["file"] == f"{name}.album" and label["place"]["line"] == 9 for label in told["labels"])
    made, megabytes = run_measured("make", f"{name}.album", cwd=tmp_path / "walk")
    assert made.code == 1 and made.out == "" and megabytes < MOST_MEGABYTES
    assert list(files_in(tmp_path / "walk")) == [f"{name}.album"]


def test_every_file_of_the_folder_is_tried() -> None:
    assert {path.stem for path in FOLDER.glob("*.album")} == {*REFUSED, "mixed_fraction_in_mm", "strange_title"}


def test_twenty_thousand_brackets_meet_a_limit(tmp_path: Path) -> None:
    (tmp_path / "vast.album").write_text(f"edition = 1\nalbum it {{ deep = {'(' * 20_000}1 in{')' * 20_000} }}\n")
    done, megabytes = run_measured("make", "vast.album", "--messages", "json", cwd=tmp_path)
    assert done.code == 1
    (told,) = json.loads(done.out)
    assert told["id"] == "too-deep" and told["way_out"] and told["place"]["line"] == 2
    assert megabytes < MOST_MEGABYTES
    assert list(files_in(tmp_path)) == ["vast.album"]


def test_a_line_of_fifty_megabytes_is_not_even_read(tmp_path: Path) -> None:
    (tmp_path / "vast.album").write_text("edition = 1 " + "x" * 50_000_000)
    done, megabytes = run_measured("make", "vast.album", cwd=tmp_path)
    assert done.code == 3 and done.out == ""
    assert done.err == "pastedown: vast.album is larger than 2 MB, too large for a design.\n"
    assert megabytes < MOST_MEGABYTES
    assert list(files_in(tmp_path)) == ["vast.album"]


def test_a_mixed_fraction_of_millimetres_is_read_and_warned_of(tmp_path: Path) -> None:
    path = FOLDER / "mixed_fraction_in_mm.album"
    result = compile_design(path.name, path.read_text(), lambda _: None)
    (told,) = result.diagnostics
    assert (told.id, told.severity) == ("metric-fraction", Severity.WARNING)
    assert "7.5 mm" in told.way_out
    # An inch and five millimetres are exactly 30.4, which the file requires of itself.
    assert result.designs[0].sound


def test_a_strange_title_stays_text(tmp_path: Path) -> None:
    (tmp_path / "it.album").write_bytes((FOLDER / "strange_title.album").read_bytes())
    done = run("make", "it.album", cwd=tmp_path)
    assert done.code == 0, done.err
    made = {name: data for name, data in files_in(tmp_path).items() if name != "it.album"}
    assert made
    for name, data in made.items():
        if name.endswith((".txt", ".csv", ".svg", ".json")):
            text = data.decode("utf-8")
            assert "\u202e" not in text, name
            assert "<script>" not in text or not name.endswith(".svg"), name
            if name.endswith(".csv"):
                assert not any(cell.strip('"').startswith("=") for row in text.splitlines() for cell in row.split(",")), name


EIGHT_AND_A_HALF = ['8 1/2 in', '8-1/2"', "8½ in", "8.5in", "215.9 mm", "8 1/2\u201d", "21.59 cm"]


@pytest.mark.parametrize("written", EIGHT_AND_A_HALF)
def test_equal_writings_of_one_length(written: str) -> None:
    text = f'edition = 1\nalbum it {{ x = {written}  require same: x is 8.5 in because "they are one length" }}\n'
    result = compile_design("it.album", text, lambda _: None)
    assert [each.id for each in result.diagnostics if each.severity is Severity.ERROR] == []


LEAF = (
    "edition = 1\n"
    "album it {\n"
    "  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)  # the house card\n"
    '  title = "One leaf"\n'
    "  high = low * 2\n"
    "  low = 3 in\n"
    "  piece leaf from card, height: high, width: 8 1/2 in, loose: yes\n"
    "}\n"
)


@pytest.mark.parametrize(
    "text",
    [
        LEAF.replace("\n", "\r\n"),
        "\ufeff" + LEAF,
        LEAF.replace('"One leaf"', "\u201cOne leaf\u201d"),
        LEAF.replace("  high = low * 2\n  low = 3 in\n", "  low = 3 in\n  high = low * 2\n"),
        LEAF.replace("  # the house card", ""),
    ],
    ids=["ends of lines", "byte order mark", "curly quotes", "order of lines", "without its comment"],
)
def test_ways_of_writing_one_recipe(text: str) -> None:
    def model(recipe: str) -> object:
        result = compile_design("it.album", recipe, lambda _: None)
        assert [each.id for each in result.diagnostics if each.severity is Severity.ERROR] == []
        plan = result.designs[0].plan
        assert plan is not None
        return plan.title, [(each.id, each.height, each.width) for each in plan.pieces], len(plan.steps)

    assert model(text) == model(LEAF)
