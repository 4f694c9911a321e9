"""The usual layout: the same recipe with all its comments, and the same again when it is tidied twice."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import COMMENT, language
from pastedown.syntax.tidy import MOST_COLUMNS, tidy
from syntax.reading import ROOT, read, recipes
from syntax.test_layout import BLANKS, WORDS

GRAMMAR = str(grammar_path())
SAMPLE = (ROOT / "tests" / "syntax" / "sample.album").read_text(encoding="utf-8")
RECIPES = {"sample": SAMPLE, **recipes()}


def tidied(text: str) -> str:
    return tidy(SourceText("recipe.album", text), GRAMMAR).text


def comments(text: str) -> list[str]:
    tokens = language(GRAMMAR).all_tokens(SourceText("recipe.album", text))
    return [token.text.rstrip() for token in tokens if token.type == COMMENT]


def check_tidied(text: str) -> None:
    once = tidied(text)
    assert read(once).statements == read(text).statements
    assert comments(once) == comments(text)
    assert tidied(once) == once


@pytest.mark.parametrize("name", RECIPES)
def test_a_tidied_recipe_is_the_same_recipe(name: str) -> None:
    check_tidied(RECIPES[name])


@pytest.mark.parametrize("name", [name for name in RECIPES if name != "sample"])
def test_every_recipe_of_the_project_is_tidy(name: str) -> None:
    assert tidied(RECIPES[name]) == RECIPES[name]


COMMENTS = st.builds("{}# {}\n".format, st.sampled_from(["", " ", "\n", "\n\n\n"]), st.sampled_from(["", "a", "b = c"]))


@settings(max_examples=30, deadline=None)
@given(st.lists(BLANKS | COMMENTS, min_size=len(WORDS), max_size=len(WORDS)))
def test_any_layout_of_a_recipe_is_tidied(gaps: list[str]) -> None:
    check_tidied("".join(word + gap for word, gap in zip(WORDS, gaps, strict=True)))


def test_the_usual_layout() -> None:
    untidy = """\
album a"Title"{# why
x=8-1/2"


# on its own
part page[ k from 1 to 5 ]=f( a:1 , b : - x*2 )with{y = ½ in}   "five"
run tail to head{panel p:12x12 in fold q : mountain}
}component b{}
"""
    assert tidied(untidy) == """\
album a "Title" {  # why
  x = 8 1/2 in

  # on its own
  part page[k from 1 to 5] = f(a: 1, b: -x * 2) with {
    y = 1/2 in
  } "five"
  run tail to head {
    panel p: 12 in x 12 in
    fold q: mountain
  }
}

component b {}
"""


@pytest.mark.parametrize(
    ("written", "usual"),
    [
        ('8-1/2"', "8 1/2 in"),
        ("8½ in", "8 1/2 in"),
        ("½ in", "1/2 in"),
        ("8.50in", "8.50 in"),
        ("45°", "45 deg"),
        ("10%", "10 %"),
        ("65lb  cover", "65 lb cover"),
        ("4x6 in", "4 in x 6 in"),
        ("12″ × 18″", "12 in x 18 in"),
        ("a\N{MINUS SIGN}b", "a - b"),
        ("- 1/2", "-1/2"),
        ("[1,2 , 3]", "[1, 2, 3]"),
        ("(a+b)*c", "(a + b) * c"),
        ("page [ 3 ] . front", "page[3].front"),
        ("“a  {b}\n c ”", '"a {b} c"'),
        ("“say \"so\"”", "“say \"so\"”"),
        ('"a {b # why\n + 1 in}"', '"a {b # why\n + 1 in}"'),
    ],
)
def test_a_value_in_its_usual_form(written: str, usual: str) -> None:
    assert tidied(f"x = {written}") == f"x = {usual}\n"


def test_long_statements_are_broken_at_commas() -> None:
    settings = ", ".join(f"setting_{number}: {number} in" for number in range(12))
    lines = tidied(f"album a {{ piece leaf from card, {settings} }}").splitlines()
    assert len(lines) > 3
    assert max(map(len, lines)) <= MOST_COLUMNS
    assert all(line.endswith(",") for line in lines[1:-2])
    assert all(line.startswith("      setting_") for line in lines[2:-1])


def test_what_cannot_be_read_is_left_as_it_is() -> None:
    text = "x  =  = 1\n\n\ny=2"
    made = tidy(SourceText("recipe.album", text), GRAMMAR)
    assert made.text == text
    assert [told.id for told in made.errors] == ["unexpected-word"]


def test_a_line_is_broken_outside_brackets_first() -> None:
    place = "join front_lined: front_liner.liner.back to case.inside_front, by: glue_from_the_pot"
    after = "after: [front_crease, front_cover_crease]"
    assert tidied(f"album a {{ {place}, {after} {{ }} }}").splitlines()[1:3] == [f"  {place},", f"      {after} {{}}"]


def test_a_long_text_is_broken_at_blanks_outside_slots() -> None:
    words = "word " * 30
    text = f'"{words}{{a + b + c}} {{a +  b + c}} {words}{{{{ }}}} {words}end"'
    lines = tidied(f"album a {{ x = {text} }}").splitlines()
    assert max(map(len, lines)) <= MOST_COLUMNS
    assert " ".join(line.strip() for line in lines[2:-1]) == text.replace("  ", " ")
    assert all(line.count("{") == line.count("}") for line in lines[2:-1])
    check_tidied(f"album a {{ x = {text} }}")


def test_a_recipe_at_the_limits_of_size_is_tidied() -> None:
    check_tidied("x = " + " + ".join(["a"] * 257))
    check_tidied("x = " + "f(" * 64 + "a" + ")" * 64)
    check_tidied("album a {" + "if b {" * 63 + "x = 1" + "}" * 64)
