"""Every statement: the words of a recipe, and the node that they become."""

from typing import get_args

import pytest

from pastedown.source import Span
from pastedown.tree.expression import Argument, Call, Comparison, ListOf
from pastedown.tree.expression import Path as PathNode
from pastedown.tree.statement import (
    Album,
    Align,
    Amend,
    Component,
    Each,
    Fact,
    Family,
    Fold,
    Join,
    Panel,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Run,
    Setting,
    Statement,
    Step,
    Takes,
    TypeName,
    Use,
    Variant,
    When,
)  # fmt: skip
from syntax.reading import ANYWHERE, ROOT, inch, path, plain, read, statement, statements, words

A = ANYWHERE
X = Fact(path("x"), inch(1), None, False, A)


def family(name: str, index: PathNode | None = None) -> Family:
    return Family(name, A, index=index)


def setting(label: str, value: str) -> Setting:
    return Setting(label, path(value), A, A)


STATEMENTS: dict[str, Statement] = {
    "use a, b from pages": Use((("a", A), ("b", A)), "pages", False, A, A),
    "use a from house.paper": Use((("a", A),), "house.paper", False, A, A),
    'use a from "house.album"': Use((("a", A),), "house.album", True, A, A),
    "x = 1 in": X,
    'page[2].width = w "wide"': Fact(path("page[2].width"), path("w"), words("wide"), False, A),
    "fixed x = 1 in": Fact(path("x"), inch(1), None, True, A),
    "page[k] with { x = 1 in }": Amend(path("page[k]"), (X,), A),
    'component leaf "A leaf." { x = 1 in }': Component("leaf", words("A leaf."), (X,), A, A),
    "component leaf { }": Component("leaf", None, (), A, A),
    'album walk "Walk" { }': Album("walk", words("Walk"), (), A, A),
    "variant small of house.walk { x = 1 in }": Variant("small", path("house.walk"), None, (X,), A, A),
    "takes paper: stock": Takes("paper", TypeName("stock", (), (), A), None, None, None, None, A, A),
    'takes x: length(mark: up) from 1 in to 2 in = 1 in "long"': Takes(
        "x", TypeName("length", (), (setting("mark", "up"),), A), inch(1), inch(2), inch(1), words("long"), A, A
    ),
    "takes side: choice(top, left) = top": Takes(
        "side", TypeName("choice", (path("top"), path("left")), (), A), None, None, path("top"), None, A, A
    ),
    "part leaf = a": Part(family("leaf"), path("a"), None, A),
    'part page[k from 1 to n] = a "n of them"': Part(
        Family("page", A, counter="k", first=plain(1), last=path("n")), path("a"), words("n of them"), A
    ),
    "piece leaf from card": Piece(family("leaf"), path("card"), (), (), None, A),
    'piece leaf from card, grain: height { x = 1 in } "one"': Piece(
        family("leaf"), path("card"), (setting("grain", "height"),), (X,), words("one"), A
    ),
    'piece leaf from card "one" { x = 1 in }': Piece(family("leaf"), path("card"), (), (X,), words("one"), A),
    "run tail to head { panel body: h }": Run(
        path("tail"), path("head"), (Panel(family("body"), path("h"), (), None, A),), A
    ),
    'panel gap[k]: joint, bends: yes "turns"': Panel(
        family("gap", path("k")), path("joint"), (setting("bends", "yes"),), words("turns"), A
    ),
    "fold crest[k]: mountain": Fold(family("crest", path("k")), "mountain", (), None, A, A),
    'fold crease: in_place, on: leaf "later"': Fold(
        family("crease"), "in_place", (setting("on", "leaf"),), words("later"), A, A
    ),
    "each k from 1 to n { x = 1 in }": Each("k", plain(1), path("n"), (X,), A),
    "if k < n { x = 1 in }": When(Comparison("<", path("k"), path("n"), A), (X,), A),
    "join on: a.back to b[k].face": Join(family("on"), path("a.back"), path("b[k].face"), (), (), False, None, A),
    'close shut[k]: a to b, by: tape { align c to d, inside: 1 in } "tight"': Join(
        family("shut", path("k")), path("a"), path("b"), (setting("by", "tape"),),
        (Align(path("c"), path("d"), (Setting("inside", inch(1), A, A),), A),), True, words("tight"), A,
    ),
    "align a.spine to b.spine": Align(path("a.spine"), path("b.spine"), (), A),
    "place mouth: a.back, b.back { x = 1 in }": Place(
        family("mouth"), (path("a.back"), path("b.back")), (X,), None, A
    ),
    'place mouth: a.back "one face"': Place(family("mouth"), (path("a.back"),), (), words("one face"), A),
    "pose open { a.crest = shut }": Pose(
        family("open"), None, (Fact(path("a.crest"), path("shut"), None, False, A),), A
    ),
    "pose open_at[k from 0 to n] from made_up { }": Pose(
        Family("open_at", A, counter="k", first=plain(0), last=path("n")), path("made_up"), (), A
    ),
    'require fits: a is b because "so", way_out: ["p", "q"]': Require(
        "fits", Comparison("is", path("a"), path("b"), A), words("so"),
        (Setting("way_out", ListOf((words("p"), words("q")), A), A, A),), True, A, A,
    ),
    'prefer even: a because "so"': Require("even", path("a"), words("so"), (), False, A, A),
    'step look: "Look.", after: a': Step(family("look"), words("Look."), (setting("after", "a"),), A),
}  # fmt: skip


@pytest.mark.parametrize("text", STATEMENTS)
def test_a_statement_becomes_its_node(text: str) -> None:
    assert statement(text) == STATEMENTS[text]


@pytest.mark.parametrize("text", STATEMENTS)
def test_its_span_is_all_of_it(text: str) -> None:
    [only] = read(f"before = 1\n  {text}\nafter = 2").statements[1:-1]
    assert only.span.text == text
    assert (only.span.line, only.span.column) == (2, 3)


def test_every_kind_of_statement_is_here() -> None:
    assert {type(each) for each in STATEMENTS.values()} == set(get_args(Statement))


def test_the_sample_has_every_statement_and_no_mistake() -> None:
    text = (ROOT / "tests" / "syntax" / "sample.album").read_text(encoding="utf-8")
    assert read(text).diagnostics == ()
    assert len(statements(text)) == 9


def test_names_are_marked_without_their_colon_and_dot() -> None:
    [takes] = statements("takes  peak : length")
    assert isinstance(takes, Takes) and takes.name_span.text == "peak"
    [fact] = statements("a . crest = b")
    assert isinstance(fact, Fact)
    assert [(each.span.text, type(each.span)) for each in fact.path.trailers] == [("crest", Span)]
    [part] = statements("part a = f(paper : kraft)")
    assert isinstance(part, Part) and isinstance(part.value, Call)
    [argument] = part.value.arguments
    assert isinstance(argument, Argument) and argument.label_span is not None
    assert argument.label_span.text == "paper"


@pytest.mark.parametrize("word", ["use", "from", "to", "panel", "if", "is", "with", "rounded", "step", "of"])
def test_words_of_the_language_are_names_after_a_dot_and_before_a_colon(word: str) -> None:
    [fact] = statements(f"ring.{word} = f({word}: 1)")
    assert fact == Fact(
        path(f"ring.{word}"), Call(path("f"), (Argument(word, plain(1), A),), A), None, False, A
    )
