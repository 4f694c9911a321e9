"""The language's reference: every example compiles, and every word of the language is in it."""

import re
from pathlib import Path

import pytest
from attrs import frozen

from pastedown import check, shipped_files
from pastedown.design.setting_names import (
    ALBUM_FACTS,
    CREASE_SETTINGS,
    FUNCTION_NAMES,
    JOIN_SETTINGS,
    PIECE_SETTINGS,
    STEP_SETTINGS,
)  # fmt: skip
from pastedown.design.stock import DECORATED_SIDES, STOCK_GRAINS, STOCK_KINDS
from pastedown.design.takes_type import TYPE_NAMES
from pastedown.diagnostic import Severity
from pastedown.geometry.stock_value import STOCK_FIELDS
from pastedown.geometry.treatment import TREATMENTS
from pastedown.quantity.literal import UNIT_NAMES
from pastedown.quantity.weight import BASIC_SIZES
from pastedown.syntax.language import language

PATH = Path(__file__).parent.parent / "grammar" / "reference.md"
TEXT = PATH.read_text(encoding="utf-8")
BLOCK = re.compile(r"^```(album(?: [a-z -]+)?)\n(.*?)^```", re.MULTILINE | re.DOTALL)


@frozen
class Example:
    """A block of the reference: its kind ("album", "album part", "album wrong ID") and its text."""

    kind: str
    text: str
    line: int

    @property
    def whole(self) -> str:
        """The recipe: a short example is put into the album that the reference says it stands in."""
        if self.kind != "album part":
            return self.text
        frame = next(example.text for example in EXAMPLES if "on_this_page" in example.text)
        return frame.rstrip().removesuffix("}") + self.text + "}\n"


EXAMPLES = [Example(match[1], match[2], TEXT[: match.start()].count("\n") + 1) for match in BLOCK.finditer(TEXT)]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"line {example.line}")
def test_every_example_does_what_the_reference_says(example: Example) -> None:
    errors = [each for each in check(example.whole) if each.severity is Severity.ERROR]
    if example.kind.startswith("album wrong "):
        assert [each.id for each in errors] == [example.kind.removeprefix("album wrong ")]
    else:
        assert [(each.id, each.sentence) for each in errors] == []


def test_short_examples_earn_no_warning_either() -> None:
    told = [
        (example.line, each.id, each.sentence)
        for example in EXAMPLES
        if not example.kind.startswith("album wrong ")
        for each in check(example.whole)
    ]
    assert told == []


def words_of_the_language() -> set[str]:
    grammar = shipped_files.grammar_path() / "album.lark"
    settings = {*JOIN_SETTINGS, *STEP_SETTINGS, *CREASE_SETTINGS, *PIECE_SETTINGS, "bends", "inside", "way_out", "mark"}
    return {
        *language(str(grammar)).keywords, *UNIT_NAMES, *FUNCTION_NAMES, *TREATMENTS, *STOCK_FIELDS, *STOCK_KINDS,
        *STOCK_GRAINS, *DECORATED_SIDES, *TYPE_NAMES, *ALBUM_FACTS, *BASIC_SIZES, *settings,
        "its", "yes", "no", "nothing", "inches", "millimetres", "metric", "both", "flat", "square", "shut", "mountain",
        "valley", "in_place", "down", "up", "nearest", "mid_height", "mid_width", "sheet_long", "sheet_short",
    }  # fmt: skip


def test_every_word_of_the_language_is_in_the_reference() -> None:
    written = set(re.findall(r"[a-z_]+", TEXT))
    assert words_of_the_language() - written == set()


def test_every_name_the_library_offers_is_in_the_reference() -> None:
    table = TEXT[TEXT.index("## The standard library") :]
    for file in shipped_files.stdlib_names():
        text = shipped_files.stdlib_source(file)
        assert text is not None
        for component in re.findall(r"(?m)^component (\w+)", text):
            assert f"`{component}`" in table
        assert f"`{file}`" in table


def test_the_contents_lead_to_the_headings() -> None:
    headings = {
        re.sub(r"[^a-z0-9 -]", "", heading.lower()).replace(" ", "-") for heading in re.findall(r"(?m)^## (.+)$", TEXT)
    }
    assert set(re.findall(r"\]\(#([^)]+)\)", TEXT)) <= headings
