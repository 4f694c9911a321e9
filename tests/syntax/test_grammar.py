"""The grammar itself: no conflict, the words that are reserved, and tables that fit it."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from lark import Lark

from pastedown.quantity.literal import UNIT_NAMES
from pastedown.quantity.unit import UNITS
from pastedown.quantity.weight import BASIC_SIZES
from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import language
from pastedown.syntax.parse import parse
from pastedown.syntax.statement_heads import STATEMENT_WORDS
from pastedown.syntax.tables import TABLES_SUFFIX
from renew_tables import renewed_tables
from syntax.reading import ROOT, statements, value

GRAMMAR = ROOT / "grammar" / "album.lark"
TABLES = GRAMMAR.with_suffix(TABLES_SUFFIX)
RESERVED = [
    "use", "from", "component", "album", "variant", "of", "takes", "part", "piece", "run", "panel", "fold", "each", "to",
    "if", "is", "join", "close", "align", "place", "pose", "require", "prefer", "because", "with", "fixed", "rounded",
    "step",
]  # fmt: skip


def test_it_has_no_conflict_and_no_two_word_classes_that_clash() -> None:
    parser = Lark.open(str(GRAMMAR), parser="lalr", lexer="basic", start=["file", "slot"], strict=True)
    assert parser.parse("edition = 1 album a { }", start="file").children


def test_the_reserved_words() -> None:
    assert len(RESERVED) == 28
    assert sorted(language(str(grammar_path())).keywords) == sorted(RESERVED)
    assert not set(RESERVED) & set(UNIT_NAMES)


def test_every_word_that_begins_a_statement_is_known_to_recovery() -> None:
    joining = {"FROM", "TO", "OF", "IS", "BECAUSE", "WITH", "ROUNDED"}
    assert {word.upper() for word in RESERVED} - joining == STATEMENT_WORDS


def test_every_unit_is_in_the_grammar() -> None:
    for unit in (*UNITS, "%", *(f"lb {size}" for size in BASIC_SIZES)):
        assert value(f"2 {unit}").span.text == f"2 {unit}"


def test_plain_words_of_the_language_are_not_reserved() -> None:
    text = " ".join(f"{name} = 1" for name in ("edition", "ruler", "show", "title", "yes", "no", "nothing", "its", "by"))
    assert len(statements(text)) == 9


def test_the_tables_beside_the_grammar_were_made_for_it() -> None:
    # How lark numbers its states differs from run to run, so tables are told by the grammar they were made for.
    kept, renewed = (json.loads(text)["made_for"] for text in (TABLES.read_text(encoding="utf-8"), renewed_tables(GRAMMAR)))
    assert kept.rpartition(" ")[2] == renewed.rpartition(" ")[2], "renew them: python tests/renew_tables.py"


def test_tables_and_grammar_read_alike(tmp_path: Path) -> None:
    alone = tmp_path / "album.lark"
    alone.write_text(GRAMMAR.read_text(encoding="utf-8"), encoding="utf-8")
    for path in sorted((ROOT / "examples").glob("*.album")):
        source = SourceText(path.name, path.read_text(encoding="utf-8"))
        assert parse(source, str(GRAMMAR)) == parse(source, str(alone))


@pytest.mark.parametrize("damage", [lambda text: text[: len(text) // 2], lambda _: "", lambda _: "[1]"])
def test_damaged_tables_are_as_good_as_none(tmp_path: Path, damage: Callable[[str], str]) -> None:
    alone = tmp_path / "album.lark"
    alone.write_text(GRAMMAR.read_text(encoding="utf-8"), encoding="utf-8")
    alone.with_suffix(TABLES_SUFFIX).write_text(damage(TABLES.read_text(encoding="utf-8")), encoding="utf-8")
    source = SourceText("recipe.album", "x = 1 in")
    assert parse(source, str(alone)) == parse(source, str(GRAMMAR))
