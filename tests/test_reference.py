"""The language's reference: every example compiles, and every word of the language is in it."""

import re
from pathlib import Path
from typing import TypeGuard

import pytest
from attrs import frozen

from pastedown import check, shipped_files
from pastedown.design.body import name_of
from pastedown.design.brackets import TREATMENTS
from pastedown.design.files import MOST_FILES
from pastedown.design.setting_names import (
    ALBUM_FACTS,
    BUILT_IN_NAMES,
    CREASE_SETTINGS,
    JOIN_SETTINGS,
    PIECE_SETTINGS,
    STEP_SETTINGS,
    WORDS_OF_SETTING,
)  # fmt: skip
from pastedown.design.stock import DECORATED_SIDES, STOCK_GRAINS, STOCK_KINDS
from pastedown.design.takes_type import TYPE_NAMES
from pastedown.diagnostic import Severity
from pastedown.diagnostic.draw import MOST_DRAWN
from pastedown.geometry.derive import MOST_LINES
from pastedown.geometry.pose import EXACT_ANGLES
from pastedown.geometry.stock_value import STOCK_FIELDS
from pastedown.geometry.work import (
    DEEPEST_PARTS,
    LONGEST_CHAIN,
    LONGEST_NUMBER_BITS,
    LONGEST_TEXT,
    MOST_THINGS,
    MOST_WORK,
)  # fmt: skip
from pastedown.outputs.template.tiling import MOST_SHEETS
from pastedown.quantity.literal import MOST_DIGITS, UNIT_NAMES
from pastedown.quantity.rounding import WAYS
from pastedown.quantity.ruler import Show
from pastedown.quantity.weight import BASIC_SIZES
from pastedown.source import SourceText
from pastedown.syntax.language import language
from pastedown.syntax.limits import MOST_DIAGNOSTICS, MOST_JOINED, MOST_LETTERS, MOST_NESTED, MOST_TOKENS
from pastedown.syntax.parse import parse
from pastedown.tree.statement import Component, Each, Fact, Panel, Piece, Place, Pose, Run, Statement, Takes, When

GRAMMAR = shipped_files.grammar_path() / "album.lark"
KEYWORDS = language(str(GRAMMAR)).keywords
PATH = Path(__file__).parent.parent / "grammar" / "reference.md"
TEXT = PATH.read_text(encoding="utf-8")
GAPS = "The gaps at which a case bends"
# What stands before the table of places, poses and measures.
OFFERS = "What the parts of an album offer to one another"
BLOCK = re.compile(r"^```(album(?: part| wrong)?)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
REFUSED = re.compile(r"# refused: ([a-z-]+)\n")


@frozen
class Example:
    """A block of the reference: its kind ("album", "album part", "album wrong") and its text."""

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


PROSE = re.sub(r"(?ms)^```.*?^```$", "", TEXT)
EXAMPLES = [Example(match[1], match[2], TEXT[: match.start()].count("\n") + 1) for match in BLOCK.finditer(TEXT)]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"line {example.line}")
def test_every_example_does_what_the_reference_says(example: Example) -> None:
    errors = [each for each in check(example.whole) if each.severity is Severity.ERROR]
    if example.kind == "album wrong":
        said = REFUSED.match(example.text)
        assert said is not None
        assert [each.id for each in errors] == [said[1]]
    else:
        assert [(each.id, each.sentence) for each in errors] == []


def test_every_fenced_recipe_is_of_a_known_kind() -> None:
    assert len(EXAMPLES) == len(re.findall(r"(?m)^```album", TEXT))


def test_short_examples_earn_no_warning_either() -> None:
    told = [
        (example.line, each.id, each.sentence)
        for example in EXAMPLES
        if example.kind != "album wrong"
        for each in check(example.whole)
        if each.id not in ("moved-to-mark", "meant")  # examples show such a move, and what is meant
    ]
    assert told == []


def words_of_the_language() -> set[str]:
    settings = {*JOIN_SETTINGS, *STEP_SETTINGS, *CREASE_SETTINGS, *PIECE_SETTINGS, "bends", "inside", "way_out", "mark"}
    lengths_of_cuts = {
        name for kind in TREATMENTS.values() for name in (*kind.needs, *kind.may_have, *dict(kind.words))
    }
    return {
        *KEYWORDS, *UNIT_NAMES, *BUILT_IN_NAMES, *TREATMENTS, *STOCK_FIELDS, *STOCK_KINDS, *lengths_of_cuts,
        *STOCK_GRAINS, *DECORATED_SIDES, *TYPE_NAMES, *ALBUM_FACTS, *BASIC_SIZES, *settings, *WAYS, *EXACT_ANGLES,
        *(word for words in WORDS_OF_SETTING.values() for word in words), *(show.value for show in Show),
        "millimetres", "mountain", "valley", "in_place", "mid_height", "mid_width", "sheet_long", "sheet_short",
    }  # fmt: skip


def test_every_word_of_the_language_is_in_the_reference() -> None:
    """As a word of the language, in a recipe or between backquotes: that English has the same word does not count."""
    quoted = " ".join([*re.findall(r"`([^`\n]+)`", PROSE), *(example.text for example in EXAMPLES)])
    assert words_of_the_language() - set(re.findall(r"[a-z_]+", quoted)) == set()


def test_the_words_that_cannot_be_names_are_listed_whole() -> None:
    section = _section("All words").partition("Words that mean something")[0]
    listed = set(re.findall(r"`([a-z_]+)`", section))
    assert listed == {*KEYWORDS, *UNIT_NAMES, *BUILT_IN_NAMES}


@pytest.mark.parametrize("name", sorted({*KEYWORDS, *UNIT_NAMES, *BUILT_IN_NAMES}))
def test_what_the_reference_says_cannot_be_a_name_is_refused(name: str) -> None:
    assert any(each.severity is Severity.ERROR for each in check(f"edition = 1\nalbum one {{ {name} = 3 in }}"))


def test_the_limits_are_those_of_the_compiler() -> None:
    section = _section("Limits")
    limits = (
        MOST_LETTERS, MOST_TOKENS, MOST_NESTED, MOST_JOINED, MOST_DIAGNOSTICS, MOST_FILES, MOST_THINGS, DEEPEST_PARTS,
        LONGEST_CHAIN, MOST_WORK, MOST_DIGITS, LONGEST_NUMBER_BITS, LONGEST_TEXT, MOST_DRAWN, MOST_LINES, MOST_SHEETS,
    )  # fmt: skip
    assert [limit for limit in limits if not re.search(rf"(?<![\d,]){limit:,}(?![\d,])", section)] == []


def test_every_stock_and_component_of_the_library_is_in_its_table() -> None:
    table = _section("The standard library")
    for file in shipped_files.stdlib_names():
        assert f"**`{file}`**" in table
        for statement in _statements(file):
            if isinstance(statement, Component) or (file == "stocks" and _is_a_fact(statement)):
                name = statement.name if isinstance(statement, Component) else statement.path.head
                assert f"`{name}`" in table


def test_the_tables_say_what_every_component_of_the_library_takes() -> None:
    rows = {row[0]: row for row in _rows(_section("The standard library").partition(OFFERS)[0]) if len(row) == 4}
    for component in _components():
        taken = [statement for statement in component.body if isinstance(statement, Takes)]
        _, _, needed, allowed = rows[f"`{component.name}`"]
        must, _, either = needed.partition(", and either")
        assert _names(must) == {each.name for each in taken if each.default is None}
        assert _names(either) | _names(allowed) == {each.name for each in taken if each.default is not None}


def test_what_the_reference_says_a_component_offers_is_there() -> None:
    components = {component.name: component for component in _components()}
    rows = [row for row in _rows(_section("The standard library").partition(OFFERS)[2]) if len(row) == 5 and row[0].startswith("`")]
    pieces = (each for each in components.values() if any(isinstance(inner, Piece) for inner in each.body))
    assert sorted(row[0] for row in rows) == sorted(f"`{component.name}`" for component in pieces)
    for part, *offered, measures in rows:
        declared = [(type(each), name_of(each)) for each in _with_inner(components[part.strip("`")].body)]
        for kind, names in zip((Piece, Place, Pose), offered, strict=True):
            assert _names(names) == {name for other, name in declared if other is kind}
        assert _names(measures) <= {name for kind, name in declared if kind in (Fact, Takes)}


def test_the_gaps_that_the_reference_names_are_panels_that_bend() -> None:
    components = {component.name: component for component in _components()}
    rows = [row for row in _rows(_section("The standard library").partition(GAPS)[2]) if row[0].startswith("`")]
    assert {row[0] for row in rows} == {"`taped_case`", "`edged_case`", "`split_wrap_case`", "`one_wrap_case`"}
    for case, *gaps in rows:
        for gap in gaps:
            *part, piece, panel = gap.strip("`").split(".")
            component = components["taped_case" if part == ["case"] else case.strip("`")]
            (declared,) = [each for each in component.body if isinstance(each, Piece) and name_of(each) == piece]
            panels = [each for run in declared.body if isinstance(run, Run) for each in run.body]
            (found,) = [each for each in panels if isinstance(each, Panel) and each.family.name == panel]
            assert "bends" in {setting.label for setting in found.settings}


def _section(heading: str) -> str:
    return TEXT[TEXT.index(f"## {heading}\n") :].partition("\n## ")[0]


def _components() -> list[Component]:
    files = shipped_files.stdlib_names()
    return [statement for file in files for statement in _statements(file) if isinstance(statement, Component)]


def _with_inner(body: tuple[Statement, ...]) -> list[Statement]:
    """Statements, with those that stand in an `each` or an `if` among them."""
    inner = [each for statement in body if isinstance(statement, Each | When) for each in _with_inner(statement.body)]
    return [*body, *inner]


def _names(text: str) -> set[str]:
    """The names that a cell of a table quotes, without their index."""
    return set(re.findall(r"`(\w+)(?:\[\w+\])?`", text))


def _rows(text: str) -> list[list[str]]:
    """The cells of every line of the tables in a text."""
    lines = (line for line in text.splitlines() if line.startswith("| "))
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in lines]


def _statements(file: str) -> tuple[Statement, ...]:
    text = shipped_files.stdlib_source(file)
    assert text is not None
    return parse(SourceText(file, text), str(GRAMMAR)).statements


def _is_a_fact(statement: Statement) -> TypeGuard[Fact]:
    return isinstance(statement, Fact) and statement.path.head != "edition"


def test_the_contents_lead_to_the_headings() -> None:
    headings = {
        re.sub(r"[^a-z0-9 -]", "", heading.lower()).replace(" ", "-") for heading in re.findall(r"(?m)^## (.+)$", TEXT)
    }
    assert set(re.findall(r"\]\(#([^)]+)\)", TEXT)) <= headings
