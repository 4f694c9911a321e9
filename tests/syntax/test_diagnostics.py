"""Each mistake: a text, the id that is told, and the words that are marked. Nothing else may be told of it."""

import re
from pathlib import Path

import pytest

import pastedown.syntax
from pastedown.diagnostic import Severity
from syntax.reading import ROOT, read, told

HIDDEN = "\N{RIGHT-TO-LEFT OVERRIDE}"

# Text, and what is told: the id and the marked words.
MISTAKES: list[tuple[str, str, str]] = [
    ("compnent leaf { }", "unexpected-word", "compnent"),
    ("piece leaf form card", "unexpected-word", "form"),
    ("require a: b becuase \"so\"", "unexpected-word", "becuase"),
    ("each k from 1 too 3 { }", "unexpected-word", "too"),
    ("x = 1 in +", "unexpected-word", "+"),
    ("x =\ny = 2", "unexpected-word", "="),
    ("x = a b", "unexpected-word", "b"),
    ("x = a(1) b c", "unexpected-word", "b"),
    ("leaf", "unexpected-word", "leaf"),
    ("leaf(1)", "unexpected-word", "leaf"),
    ("x = 8 inchs", "unknown-unit", "inchs"),
    ("piece leaf from card height: 3 in", "unexpected-word", "height:"),
    ("x = f(a: 1 b: 2)", "unexpected-word", "b:"),
    ("x = f(height = 3 in)", "unexpected-word", "="),
    ("panel flap seam", "unexpected-word", "seam"),
    ("panel flap[k] seam", "unexpected-word", "seam"),
    ("takes paper stock", "unexpected-word", "paper"),
    ("piece leaf from card, height 3 in", "unexpected-word", "height"),
    ("if a = b { }", "unexpected-word", "="),
    ("require a: b == c because \"so\"", "unexpected-word", "="),
    ("require a: b < c < d because \"so\"", "unexpected-word", "<"),
    ("x = a rounded down to 1 in + b", "unexpected-word", "+"),
    ("x = page.5", "unexpected-word", ".5"),
    ("x = (2 + 3) in", "unexpected-word", "in"),
    ("join a: b, by: c", "unexpected-word", ","),
    ("x = f(a,)", "unexpected-word", ")"),
    ("component leaf \"A leaf.\" x = 1 }", "unexpected-word", '"A leaf."'),
    ("x = f(1, 2", "missing-closing", "("),
    ("part a = f(1, 2\npart b = h", "missing-closing", "("),
    ("album a { x = (1 }", "missing-closing", "("),
    ("album a {\n  x = 1\nalbum b { }", "missing-closing", "{"),
    ("album a {\n  if b {\n    x = 1\n}\n", "missing-closing", "{"),
    ("album a { { x = 1 }", "missing-closing", "{"),
    ("x = 1) y = 2", "stray-closing", ")"),
    ("album a { x = 1 } }", "stray-closing", "}"),
    ("x = f 1)", "stray-closing", ")"),
    ("x = [1, 2)", "mismatched-closing", ")"),
    ("x = f(1]", "mismatched-closing", "]"),
    ('x = "never\ny = 2', "unclosed-text", '"'),
    ('title = “Walk\nalbum a { x = "text" }', "unclosed-text", "“"),
    ('component a "doc {\n  takes b: stock\n  title = "c"\n}', "unclosed-text", '"'),
    ('require a: b because "needs 1/2" of room"', "inch-mark-in-text", '"'),
    ('step a: "keep 3" each side"', "inch-mark-in-text", '"'),
    (r'step a: "keep the \"best\" one"', "quote-in-text", '\\"'),
    ("fore-edge = 3 in", "hyphenated-name", "fore-edge"),
    ("x = page.fore-edge", "hyphenated-name", "fore-edge"),
    ("piece a from b, turn-in: 3 in", "hyphenated-name", "turn-in"),
    ("Height = 3 in", "capital-in-name", "Height"),
    ("Panel flap: seam", "capital-in-name", "Panel"),
    ("g = 1 in", "name-is-unit", "g"),
    ("pages = 2\ng = 1 in", "name-is-unit", "g"),
    ("takes t: length", "name-is-unit", "t"),
    ("panel = 3", "reserved-word", "panel"),
    ("takes panel: length", "reserved-word", "panel"),
    ("x = step", "reserved-word", "step"),
    ("part fold = x", "reserved-word", "fold"),
    ("use a, fold from b", "reserved-word", "fold"),
    ("component run { }", "reserved-word", "run"),
    ("x = if a", "reserved-word", "if"),
    ("x = 21,5 cm", "decimal-comma", "21,5 cm"),
    ("x = [21,5 cm]", "decimal-comma", "21,5 cm"),
    ("x = 1,5", "decimal-comma", "1,5"),
    ("x = .5 in", "leading-point", ".5 in"),
    ("x = 5 inches", "unknown-unit", "5 inches"),
    ("x = 5 IN", "unknown-unit", "5 IN"),
    ("x = 6'", "unknown-unit", "6'"),
    ("x = 5abc", "unknown-unit", "5abc"),
    ("x = 65 lb", "bare-pound", "65 lb"),
    ("x = 8 1/0 in", "zero-denominator", "8 1/0 in"),
    ("x = 8 9/8 in", "improper-fraction", "8 9/8 in"),
    (f"x = {'9' * 30} in", "number-too-long", f"{'9' * 30} in"),
    ("x = 7 1/2 mm", "metric-fraction", "7 1/2 mm"),
    ("x = 12 x 12", "missing-unit", "12 x 12"),
    ("x = n * 2-1/2", "missing-unit", "2-1/2"),
    ("x = 3-5/2", "missing-unit", "3-5/2"),
    ("x = 8-½", "missing-unit", "8-½"),
    ("x = [1 in 2 in]", "list-without-commas", "1 in 2 in"),
    ("x = [a b c]", "list-without-commas", "a b"),
    ("x = 1 # gusset = 3 in", "comment-hides-code", "# gusset = 3 in"),
    ("# panel flap: seam", "comment-hides-code", "# panel flap: seam"),
    ("x = 1 # }", "comment-hides-code", "# }"),
    ('x = "leave 1/32 in of room"', "digit-in-text", "1/32 in"),
    ('x = "leave 5 mm"', "digit-in-text", "5 mm"),
    ("x = “leave 3\" of room”", "digit-in-text", '3"'),
    ("x = 3;", "unknown-character", ";"),
    ("x = 3 \N{EN DASH} 2", "unknown-character", "\N{EN DASH}"),
    ("größe = 3", "unknown-character", "ö"),
    ("_x = 3", "unknown-character", "_x"),
    (f'x = "a{HIDDEN}b"', "control-character", HIDDEN),
    (f"x = 1{HIDDEN} # {HIDDEN}", "control-character", HIDDEN),
    ("x = 1\x00", "control-character", "\x00"),
    ('x = "a{}b"', "empty-slot", "{}"),
    ('x = "{a b}"', "bad-slot", "b"),
    ('x = "{a +}"', "bad-slot", "+"),
    ('x = "a } b"', "bad-slot", "}"),
    ('x = "{"', "bad-slot", "{"),
    ('use a from "{b}.album"', "bad-slot", '"{b}.album"'),
]

LIMITS = {"too-long-file", "too-many-tokens", "too-deep", "too-long-sum"}  # test_limits.py


@pytest.mark.parametrize(("text", "id", "marked"), MISTAKES, ids=[f"{id}: {text[:30]}" for text, id, _ in MISTAKES])
def test_a_mistake_is_told_once_where_it_stands(text: str, id: str, marked: str) -> None:
    assert told(text) == [(id, marked)]


def test_every_id_of_this_stage_is_tried() -> None:
    sources = "".join(file.read_text(encoding="utf-8") for file in Path(pastedown.syntax.__file__).parent.glob("*.py"))
    ids = set(re.findall(r"(?:error|warning|note)\(\s*\"([a-z-]+)\"", sources))
    of_numbers = (ROOT / "compiler/pastedown/quantity/literal.py").read_text(encoding="utf-8")
    ids |= set(re.findall(r"LiteralError\(\s*\"([a-z-]+)\"", of_numbers)) - {"unreadable-quantity"}
    assert ids == {id for _, id, _ in MISTAKES} | LIMITS


# Words of the grammar and of the compiler, which mean nothing to a maker.
FOREIGN = re.compile(r"\b[A-Z]{2,}[A-Z_]+\b|\b(token|terminal|syntax|grammar|parse\w*|node|expression|statement_\w+|None)\b")


@pytest.mark.parametrize("text", [text for text, _, _ in MISTAKES])
def test_every_message_is_in_a_makers_words_and_says_what_to_do(text: str) -> None:
    for diagnostic in read(text).diagnostics:
        said = f"{diagnostic.sentence} {diagnostic.reason} {diagnostic.way_out}"
        assert not FOREIGN.search(re.sub(r"`[^`]*`", "", said)), said
        assert diagnostic.sentence.endswith((".", ")")) and diagnostic.sentence[0] == diagnostic.sentence[0].upper()
        assert diagnostic.way_out, said
        assert "``" not in said


def test_only_what_may_be_meant_so_is_a_warning() -> None:
    warnings = {
        each.id for text, _, _ in MISTAKES for each in read(text).diagnostics if each.severity is Severity.WARNING
    }
    assert warnings == {"metric-fraction", "comment-hides-code", "digit-in-text"}


@pytest.mark.parametrize(
    ("text", "way_out"),
    [
        ("fore-edge = 3", "`fore_edge`"),
        ("x = 21,5 cm", "`21.5 cm`"),
        ("x = 1,250 mm", "`1250 mm`"),
        ("x = .5 in", "`0.5 in`"),
        ("x = 5 inches", "`5 in`"),
        ("x = [1 in 2 in]", "`1 in, 2 in`"),
        ("x = page.5", "`page[5]`"),
        ("compnent leaf { }", "`component`"),
        ("if a = b { }", "`is`"),
        ("x = 12 x 12", "`12 in x 12 in`"),
        ("x = 2-1/2", "`2 1/2` for a mixed number, or `2 - 1/2`"),
        ("x = if a", "choose("),
        ("Panel flap: seam", "`panel`"),
    ],
)
def test_the_way_out_says_what_to_write(text: str, way_out: str) -> None:
    [diagnostic] = read(text).diagnostics
    assert way_out in diagnostic.way_out


def test_closing_brackets_point_at_the_opening_one() -> None:
    [diagnostic] = read("x = f(1]").diagnostics
    assert [(label.span.text, label.span.column) for label in diagnostic.labels] == [("(", 6)]


@pytest.mark.parametrize(
    "text",
    [
        'x = "page 3 in the book, 5 inside"',
        'x = "cut from 12 in x 12 in paper, 4 x 6 in prints"',
        "# The strip: three folds to each peak.\nx = 1",
        "# Note: common practice, no source. See also: the book.",
        "x = [1, 5]",
        "x = min(2,5)",
        "x = [5 1/2 in]",
        'title = "Album 5"\npages = 3',
        'x = "tail 5" y = 3',
        'x = "two\nlines = of text"',
        "x = page.t",
        "x = f(t: 1)",
        "takes x: length from 1 in to 2 in = 3/8 in",
        "\ufeffx = 1\r\ny = 2\r\n",
        "x =\N{NO-BREAK SPACE}1 in",
    ],
)
def test_what_looks_like_a_mistake_and_is_none(text: str) -> None:
    assert told(text) == []


def test_one_odd_word_is_told_once_however_often_it_stands() -> None:
    assert told("Height = 3 in x = Height y = 2 * Height") == [("capital-in-name", "Height")]
    assert told("a = 1; b = 2; c = 3;") == [("unknown-character", ";")]
