"""Values: how they bind, and what texts hold."""

from fractions import Fraction

import pytest

from pastedown.quantity.quantity import inches
from pastedown.tree.expression import (
    Amended,
    Argument,
    Arithmetic,
    Call,
    Comparison,
    Expression,
    Index,
    ListOf,
    Literal,
    Path,
    Rounded,
    RulerMarks,
    SheetSize,
    Signed,
    Slice,
    Text,
)  # fmt: skip
from pastedown.tree.statement import Fact
from syntax.reading import ANYWHERE, inch, millimetre, path, plain, read, statement, told, value, words

A = ANYWHERE


def shown(expression: Expression) -> str:
    """An expression with all its brackets."""
    match expression:
        case Literal(value=quantity):
            return str(quantity.value)
        case Path(head=head):
            return head
        case Arithmetic(operator=sign, left=left, right=right) | Comparison(operator=sign, left=left, right=right):
            return f"({shown(left)} {sign} {shown(right)})"
        case Signed(sign=sign, value=inner):
            return f"({sign}{shown(inner)})"
        case Rounded(value=inner, way=way, mark=mark):
            return f"({shown(inner)} {way} {shown(mark)})"
        case Amended(thing=thing):
            return f"({shown(thing)} with)"
    raise AssertionError(expression)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a + b - c", "((a + b) - c)"),
        ("a - (b - c)", "(a - (b - c))"),
        ("a + b * c / d", "(a + ((b * c) / d))"),
        ("-a * b", "((-a) * b)"),
        ("a \N{MINUS SIGN} b", "(a - b)"),
        ("a + b <= c * d", "((a + b) <= (c * d))"),
        ("a \N{GREATER-THAN OR EQUAL TO} b", "(a >= b)"),
        ("a is b + c", "(a is (b + c))"),
        ("a - b rounded down to c", "((a - b) down c)"),
        ("(a rounded up to 2) + b", "((a up 2) + b)"),
        ("a rounded nearest to 1/8 >= b", "((a nearest 1/8) >= b)"),
        ("a with { x = 1 } + b", "((a with) + b)"),
        ("2 * (a with { x = 1 })", "(2 * (a with))"),
    ],
)
def test_how_values_bind(text: str, expected: str) -> None:
    assert shown(value(text)) == expected


VALUES: dict[str, Expression] = {
    "its.height": path("its.height"),
    "page[3].front.body": path("page[3].front.body"),
    "page[1 to n].a": Path("page", (Slice(plain(1), path("n"), A), path("x.a").trailers[0]), A, A),
    "page[k + 1]": Path("page", (Index(Arithmetic("+", path("k"), plain(1), A), A),), A, A),
    "f()": Call(path("f"), (), A),
    "span(a.x, to: b, along: width)": Call(
        path("span"),
        (Argument("", path("a.x"), A), Argument("to", path("b"), A), Argument("along", path("width"), A)), A,
    ),
    "choose(k < n, yes: a, no: b)": Call(
        path("choose"),
        (
            Argument("", Comparison("<", path("k"), path("n"), A), A),
            Argument("yes", path("a"), A),
            Argument("no", path("b"), A),
        ), A,
    ),
    "[1 in, a]": ListOf((inch(1), path("a")), A),
    "12 in x 18 in": SheetSize(inches(12), inches(18), A),
    "inches to 1/16": RulerMarks("inches", plain("1/16"), A, A),
    "millimetres to 1": RulerMarks("millimetres", plain(1), A, A),
    "((a))": path("a"),
}  # fmt: skip


@pytest.mark.parametrize("text", VALUES)
def test_a_value_becomes_its_node(text: str) -> None:
    found = value(text)
    assert found == VALUES[text]
    assert found.span.text == text


def test_the_body_of_an_amended_value() -> None:
    assert value("a with { x = 1 in }") == Amended(path("a"), (Fact(path("x"), inch(1), None, False, A),), A)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('""', words()),
        ('"plain"', words("plain")),
        ("“curly”", words("curly")),
        ('"two\n   lines"', words("two lines")),
        ('" trimmed\t"', words("trimmed")),
        ('"{a}"', words(path("a"))),
        ('"it has {a.b} of them"', words("it has ", path("a.b"), " of them")),
        ('"{a}{b}"', words(path("a"), path("b"))),
        ('"a {{brace}} stays"', words("a {brace} stays")),
        ('"{{{a}}}"', words("{", path("a"), "}")),
        ('"of {1/2 in}"', words("of ", inch("1/2"))),
        ('"{choose(a, yes: “p”, no: “q”)}"', words(value("choose(a, yes: “p”, no: “q”)"))),
        ("“say \"so\"”", words('say "so"')),
    ],
)
def test_a_text(text: str, expected: Text) -> None:
    assert value(text) == expected


def test_what_stands_in_a_slot_is_marked_where_it_stands() -> None:
    found = value('"it has {  page.count } pages"')
    assert isinstance(found, Text)
    [slot] = [piece for piece in found.pieces if not isinstance(piece, str)]
    assert slot.span.text == "page.count"
    assert slot.span.column == len('x = "it has {  ') + 1


SAME_LENGTH = [
    "8 1/2 in", '8-1/2"', '8 1/2"', "8½ in", "8½”", "8 ½ in", "8.5in", "8.5\nin", "17/2 in", "8 1\N{FRACTION SLASH}2 in"
]  # fmt: skip


@pytest.mark.parametrize("text", SAME_LENGTH)
def test_one_length_in_many_words(text: str) -> None:
    assert value(text) == inch("17/2")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("4 x 6 in", (inches(4), inches(6))),
        ("12in x 12in", (inches(12), inches(12))),
        ('12" × 12"', (inches(12), inches(12))),
        ("12x12 in", (inches(12), inches(12))),
        ("8½ x 11 in", (inches("17/2"), inches(11))),
        ("210 mm x 11 in", (inches(Fraction(210 * 5, 127)), inches(11))),
    ],
)
def test_bought_sizes(text: str, expected: tuple[object, object]) -> None:
    assert value(text) == SheetSize(*expected, A)  # type: ignore[arg-type]


@pytest.mark.parametrize("text", ["65 lb cover", "12.50 EUR", "216 gsm", "45°", "10 %", "12 pt", "5 g", "2 1/2", "0.3"])
def test_other_quantities_are_one_word(text: str) -> None:
    found = value(text)
    assert isinstance(found, Literal)
    assert found.span.text == text


def test_a_number_ends_where_the_next_statement_begins() -> None:
    text = "a = 3\nx2 = 5 inside = 65 gsm\ncover = 2 x = 3"
    expected = ["a = 3", "x2 = 5", "inside = 65 gsm", "cover = 2", "x = 3"]
    assert [each.span.text for each in read(text).statements] == expected
    assert read(text).diagnostics == ()


def test_a_tight_minus_between_letters_and_digits_subtracts() -> None:
    assert shown(value("peaks-1")) == "(peaks - 1)"
    assert shown(value("8 - 1/2")) == "(8 - 1/2)"
    assert value('8-1/2"') == value("8 1/2 in")
    assert told("x = 8-1/2") == [("missing-unit", "8-1/2")]
    assert value("15.5 cm") == millimetre(155)


def test_the_doc_of_a_fact_follows_its_value() -> None:
    assert statement('title = "a" "b"') == Fact(path("title"), words("a"), words("b"), False, A)
