"""The grammar itself: no conflict, the words that are reserved, and tables that fit it."""

from lark import Lark

from pastedown.quantity.literal import UNIT_NAMES
from pastedown.quantity.unit import UNITS
from pastedown.quantity.weight import BASIC_SIZES
from pastedown.shipped_files import grammar_path
from pastedown.syntax.language import language
from pastedown.syntax.statement_heads import STATEMENT_WORDS
from renew_tables import renewed_tables
from syntax.reading import ROOT, statements, value

GRAMMAR = ROOT / "grammar" / "album.lark"
RESERVED = """use from component album variant of takes part piece run panel fold each to if is join close align place pose
require prefer because with fixed rounded step""".split()


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


def test_the_tables_beside_the_grammar_are_those_of_the_grammar() -> None:
    assert GRAMMAR.with_suffix(".tables.json").read_text(encoding="utf-8") == renewed_tables(GRAMMAR)
