"""Grammage of papers sold by the pound, against printed tables."""

from fractions import Fraction

import pint
import pytest

from pastedown.quantity import BASIC_SIZES, GRAMMAGE, grammage, read_quantity

REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)


def gsm(text: str) -> Fraction:
    """Grams for each square metre, by the definition: a square metre is a million square millimetres."""
    quantity = read_quantity(text)
    assert quantity.dimension == GRAMMAGE
    return quantity.value * 1_000_000


@pytest.mark.parametrize(
    ("basis", "sides", "factor"),
    [
        # Basic sizes: PrintWiki, 'Basis Weight'. Factors: 453.59237 / (500 * a * b * 0.00064516).
        ("bond", ("17", "22"), 3.759730),
        ("text", ("25", "38"), 1.480146),
        ("book", ("25", "38"), 1.480146),
        ("offset", ("25", "38"), 1.480146),
        ("cover", ("20", "26"), 2.704114),
        ("index", ("25.5", "30.5"), 1.807958),
        ("bristol", ("22.5", "28.5"), 2.192810),
        ("tag", ("24", "36"), 1.627476),
        ("newsprint", ("24", "36"), 1.627476),
    ],
)
def test_grammage_of_one_pound(basis: str, sides: tuple[str, str], factor: float) -> None:
    ream = REGISTRY.Quantity(Fraction(500) * Fraction(sides[0]) * Fraction(sides[1]), "inch**2")
    by_pint = (REGISTRY.Quantity(Fraction(1), "pound") / ream).to("gram/meter**2").magnitude
    assert gsm(f"1 lb {basis}") == by_pint
    assert float(by_pint) == pytest.approx(factor, abs=5e-7)


def test_every_basic_size_is_tried_above() -> None:
    assert set(BASIC_SIZES) == {"bond", "text", "book", "offset", "cover", "index", "bristol", "tag", "newsprint"}


@pytest.mark.parametrize(
    ("text", "printed"),
    # PrintWiki, 'Grammage': 3.760, 1.480, 2.704, 1.627 grams for each square metre and pound, to three decimals.
    [("1 lb bond", 3.760), ("1 lb text", 1.480), ("1 lb cover", 2.704), ("1 lb newsprint", 1.627)],
)
def test_printwiki_factors(text: str, printed: float) -> None:
    assert float(gsm(text)) == pytest.approx(printed, abs=5e-4)


@pytest.mark.parametrize(
    ("text", "printed"),
    # PrintWiki, 'Grammage', the inverse table.
    [("1 lb bond", 0.266), ("1 lb cover", 0.370), ("1 lb tag", 0.614), ("1 lb book", 0.675)],
)
def test_printwiki_inverse_factors(text: str, printed: float) -> None:
    assert float(1 / gsm(text)) == pytest.approx(printed, abs=1e-3)


def test_pounds_for_a_thousand_square_feet_follow_the_definition() -> None:
    # PrintWiki prints 4.831, which contradicts its own definition. GNU units 2.22, `lbboxboard`: 4.882428.
    thousand_square_feet = 1000 * read_quantity("1 ft").millimetres ** 2
    ream_area = 500 * read_quantity("20 in").millimetres * read_quantity("26 in").millimetres
    assert float(gsm("1 lb cover") * ream_area / thousand_square_feet) == pytest.approx(4.882428, abs=5e-7)


def test_general_constant() -> None:
    # Papercatalog: grammage = pounds * 1406.13 / area of the basic size in square inches; exactly it is 1406.139.
    for basis, (height, width) in BASIC_SIZES.items():
        assert float(gsm(f"1 lb {basis}") * height.inches * width.inches) == pytest.approx(1406.139, abs=1e-3)


@pytest.mark.parametrize(
    ("text", "printed", "places"),
    [
        # Papercatalog, 'Metric Measurements'.
        ("20 lb bond", "75", 0), ("50 lb book", "74", 0),
        # PrintWiki, 'Grammage'.
        ("20 lb bond", "75.2", 1),
        # A printer's conversion notes (timesprinters): the same number is two papers.
        ("50 lb cover", "135", 0), ("50 lb text", "74", 0),
    ],
)  # fmt: skip
def test_worked_conversions(text: str, printed: str, places: int) -> None:
    assert round(gsm(text), places) == Fraction(printed)


def test_grammage_back_to_pounds() -> None:
    # PrintWiki, 'Grammage': 103.6 grams for each square metre at 25 x 38 in are 69.93 lb; its factor 0.675 is rounded.
    assert float(Fraction("103.6") / gsm("1 lb book")) == pytest.approx(69.93, abs=0.07)
    assert round(Fraction("103.6") / gsm("1 lb book")) == 70


@pytest.mark.parametrize(
    ("text", "expected"),
    # GNU units 2.22, a program with unit tables of its own.
    [
        ("20 lb bond", 75.194607), ("50 lb text", 74.007324), ("65 lb cover", 175.76739), ("80 lb cover", 216.3291),
        ("100 lb cover", 270.41138), ("110 lb cover", 297.45251), ("110 lb index", 198.87536),
        ("67 lb bristol", 146.91824), ("150 lb tag", 244.12138),
    ],
)  # fmt: skip
def test_gnu_units_agrees(text: str, expected: float) -> None:
    assert float(gsm(text)) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "printed"),
    # Government Paper Specification Standards (US Government Publishing Office), sheets L20, K10, K30, P20, Q50, A91
    # and Q80. They print grammages to the nearest 5.
    [
        ("50 lb cover", 135), ("65 lb cover", 175), ("80 lb cover", 215),
        ("90 lb index", 165), ("110 lb index", 200), ("140 lb index", 255), ("170 lb index", 305),
        ("125 lb index", 225),
        ("105 lb tag", 170), ("150 lb tag", 245), ("165 lb tag", 270), ("250 lb tag", 405),
        ("100 lb bristol", 220),
        ("70 lb text", 105), ("80 lb text", 120), ("100 lb text", 150),
        ("160 lb tag", 260),
    ],
)  # fmt: skip
def test_government_table(text: str, printed: int) -> None:
    assert 5 * round(gsm(text) / 5) == printed


def test_fractions_of_a_pound_stay_exact() -> None:
    assert grammage(Fraction(1, 3), "cover") * 3 == grammage(1, "cover")
    assert gsm("67 1/2 lb cover") == gsm("135 lb cover") / 2
