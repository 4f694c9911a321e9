"""Sheet, print and card sizes: the standard library's sheets against published tables, through the compiler.

Sizes are short side and long side, as the sources print them. SIZ-08 and SIZ-09 are tolerances of sheets: nothing the
language offers yields them, so they have no test here.
"""

import re
from fractions import Fraction
from math import sqrt

import pytest

from pastedown.plan.to_buy import to_buy
from pastedown.shipped_files import stdlib_source
from reference.through_the_compiler import fact, plan, value

INCH = Fraction(127, 5)

TABLES: dict[str, tuple[str, list[tuple[str, str, str]]]] = {
    # SIZ-01: ISO 216, A sizes, as tabulated in OpenPrinting CUPS (PWG 5101.1) and the LilyPond manual.
    "SIZ-01": ("mm", [
        ("a0", "841", "1189"),
        ("a1", "594", "841"),
        ("a2", "420", "594"),
        ("a3", "297", "420"),
        ("a4", "210", "297"),
        ("a5", "148", "210"),
        ("a6", "105", "148"),
        ("a7", "74", "105"),
        ("a8", "52", "74"),
        ("a9", "37", "52"),
        ("a10", "26", "37"),
    ]),
    # SIZ-02: ISO 216, B sizes, as SIZ-01.
    "SIZ-02": ("mm", [
        ("b0", "1000", "1414"),
        ("b1", "707", "1000"),
        ("b2", "500", "707"),
        ("b3", "353", "500"),
        ("b4", "250", "353"),
        ("b5", "176", "250"),
        ("b6", "125", "176"),
        ("b7", "88", "125"),
        ("b8", "62", "88"),
        ("b9", "44", "62"),
        ("b10", "31", "44"),
    ]),
    # SIZ-03: ISO 269, C sizes and DL, as SIZ-01.
    "SIZ-03": ("mm", [
        ("c0", "917", "1297"),
        ("c1", "648", "917"),
        ("c2", "458", "648"),
        ("c3", "324", "458"),
        ("c4", "229", "324"),
        ("c5", "162", "229"),
        ("c6", "114", "162"),
        ("c7", "81", "114"),
        ("c8", "57", "81"),
        ("c9", "40", "57"),
        ("c10", "28", "40"),
        ("dl", "110", "220"),
    ]),
    # SIZ-04: JIS P 0138, B sizes, PWG 5101.1 table.
    "SIZ-04": ("mm", [
        ("jis_b0", "1030", "1456"),
        ("jis_b1", "728", "1030"),
        ("jis_b2", "515", "728"),
        ("jis_b3", "364", "515"),
        ("jis_b4", "257", "364"),
        ("jis_b5", "182", "257"),
        ("jis_b6", "128", "182"),
        ("jis_b7", "91", "128"),
        ("jis_b8", "64", "91"),
        ("jis_b9", "45", "64"),
        ("jis_b10", "32", "45"),
    ]),
    # SIZ-10: ISO 217, RA and SRA, PWG table and ISO 479 examples.
    "SIZ-10": ("mm", [
        ("ra4", "215", "305"),
        ("sra4", "225", "320"),
        ("ra3", "305", "430"),
        ("sra3", "320", "450"),
        ("ra2", "430", "610"),
        ("sra2", "450", "640"),
        ("ra1", "610", "860"),
        ("sra1", "640", "900"),
        ("ra0", "860", "1220"),
        ("sra0", "900", "1280"),
    ]),
    # SIZ-11: ANSI/ASME Y14.1 names and trade sizes, PWG table and Debian units. That A and B of it are letter and
    # ledger is from memory.
    "SIZ-11": ("in", [
        ("letter", "8.5", "11"),
        ("legal", "8.5", "14"),
        ("ledger", "11", "17"),
        ("tabloid", "11", "17"),
        ("executive", "7.25", "10.5"),
        ("statement", "5.5", "8.5"),
        ("ansi_a", "8.5", "11"),
        ("ansi_b", "11", "17"),
        ("ansi_c", "17", "22"),
        ("ansi_d", "22", "34"),
        ("ansi_e", "34", "44"),
        ("arch_a", "9", "12"),
        ("arch_b", "12", "18"),
        ("arch_c", "18", "24"),
        ("arch_d", "24", "36"),
        ("arch_e", "36", "48"),
    ]),
    # SIZ-12: photographic prints in inches, PWG 5101.1.
    "SIZ-12": ("in", [
        ("photo_3r", "3.5", "5"),
        ("photo_4x4", "4", "4"),
        ("photo_4x6", "4", "6"),
        ("photo_5x5", "5", "5"),
        ("photo_5x7", "5", "7"),
        ("photo_8x10", "8", "10"),
        ("photo_8x12", "8", "12"),
        ("photo_10x12", "10", "12"),
        ("photo_11x14", "11", "14"),
        ("photo_12x15", "12", "15"),
        ("photo_16x20", "16", "20"),
        ("photo_20x24", "20", "24"),
    ]),
    # SIZ-13: photographic prints in millimetres, PWG 5101.1.
    "SIZ-13": ("mm", [
        ("photo_89x89_mm", "89", "89"),
        ("photo_89x119_mm", "89", "119"),
        ("photo_100x150_mm", "100", "150"),
        ("photo_100x200_mm", "100", "200"),
        ("photo_130x180_mm", "130", "180"),
        ("photo_200x300_mm", "200", "300"),
        ("photo_300x400_mm", "300", "400"),
        ("photo_300x450_mm", "300", "450"),
        ("photo_400x600_mm", "400", "600"),
        ("photo_500x750_mm", "500", "750"),
        ("postcard_100x148_mm", "100", "148"),
    ]),
    # SIZ-15: PWG table; ID-1 of ISO/IEC 7810 from memory.
    "SIZ-15": ("mm", [
        ("id_1", "53.98", "85.60"),
        ("card_54x86_mm", "54", "86"),
        ("business_card_55x85_mm", "55", "85"),
        ("business_card_55x91_mm", "55", "91"),
    ]),
    # SIZ-16: instant prints, outer sizes of the trade, from memory.
    "SIZ-16": ("mm", [
        ("instant_54x86_mm", "54", "86"),
        ("instant_72x86_mm", "72", "86"),
        ("instant_86x108_mm", "86", "108"),
        ("instant_88x107_mm", "88", "107"),
    ]),
}  # fmt: skip
ROWS = [(group, unit, *row) for group, (unit, rows) in TABLES.items() for row in rows]


def sides(name: str) -> tuple[Fraction, Fraction]:
    body = f"stuff = stock(kind: paper, sheet: {name})\nshort = stuff.sheet_short\nlong = stuff.sheet_long"
    uses = f"use {name} from sheets"
    return fact(body, "short", uses), fact(body, "long", uses)


@pytest.mark.parametrize(("group", "unit", "name", "short", "long"), ROWS)
def test_a_named_sheet_has_its_published_size(group: str, unit: str, name: str, short: str, long: str) -> None:
    factor = INCH if unit == "in" else Fraction(1)
    assert sides(name) == (Fraction(short) * factor, Fraction(long) * factor)


def test_the_business_card_of_two_by_three_and_a_half_inches() -> None:
    # SIZ-15: PWG 5101.1, business card, US.
    assert sides("business_card_us") == (2 * INCH, Fraction(7, 2) * INCH)


@pytest.mark.parametrize(("name", "side"), [("square_12", 12), ("square_8", 8)])
def test_square_papers(name: str, side: int) -> None:
    # Common practice, no source.
    assert sides(name) == (side * INCH, side * INCH)


def test_no_sheet_of_the_library_is_without_its_check() -> None:
    library = set(re.findall(r"(?m)^([a-z_0-9]+) *= .* x ", stdlib_source("sheets") or ""))
    assert library == {row[2] for row in ROWS} | {"business_card_us", "square_12", "square_8"}


@pytest.mark.parametrize("series", ["a", "b", "c", "jis_b"])
def test_each_size_is_the_half_of_the_one_before(series: str) -> None:
    # SIZ-05: ISO 216, each size is the one before cut across its long side, rounded down to the millimetre.
    for number in range(10):
        short, long = sides(f"{series}{number}")
        assert sides(f"{series}{number + 1}") == (long // 2, short)


@pytest.mark.parametrize("series", ["a", "b", "c"])
def test_sides_go_with_the_square_root_of_two(series: str) -> None:
    # SIZ-06: ISO 216 and ISO 269. Both sides are rounded, so the ratio is right to a millimetre of the long side.
    for number in range(11):
        short, long = sides(f"{series}{number}")
        assert abs(float(long) - float(short) * sqrt(2)) < 1.5


def test_b_and_c_are_geometric_means() -> None:
    # SIZ-06: ISO 216 and ISO 269: a side of B-n is the mean of A-n and A-(n-1), one of C-n that of A-n and B-n. The
    # largest size is rounded to the nearest; smaller ones are halves rounded down, and fall behind by up to 1 mm.
    for number in range(11):
        for a, b, c in zip(sides(f"a{number}"), sides(f"b{number}"), sides(f"c{number}"), strict=True):
            assert abs(sqrt(float(a * b)) - float(c)) < (0.5 if number == 0 else 1.0)
    for number in range(1, 11):
        for a, before, b in zip(sides(f"a{number}"), sides(f"a{number - 1}"), sides(f"b{number}"), strict=True):
            assert abs(sqrt(float(a * before)) - float(b)) < 1.0
    # The source's example: C4 is 229.13 by 323.79, made 229 by 324.
    means = [sqrt(float(a * b)) for a, b in zip(sides("a4"), sides("b4"), strict=True)]
    assert [round(mean, 2) for mean in means] == [229.13, 323.79]
    assert sides("c4") == (round(means[0]), round(means[1])) == (229, 324)


def test_the_japanese_b5_is_not_the_other_b5() -> None:
    # SIZ-04.
    assert sides("jis_b5") == (182, 257) != sides("b5") == (176, 250)


def test_letters_halved_and_put_together() -> None:
    # SIZ-11: half a letter is a statement, two are a ledger, four a C.
    short, long = sides("letter")
    assert sides("statement") == (long / 2, short)
    assert sides("ledger") == (long, 2 * short)
    assert sides("ansi_c") == (2 * short, 2 * long)


@pytest.mark.parametrize(
    ("name", "short", "long"),
    # SIZ-12: exact millimetres of prints in inches.
    [("photo_4x6", "101.6", "152.4"), ("photo_5x7", "127", "177.8"), ("photo_8x10", "203.2", "254")],
)
def test_prints_in_exact_millimetres(name: str, short: str, long: str) -> None:
    assert sides(name) == (Fraction(short), Fraction(long))


def test_the_metric_print_is_smaller_than_four_by_six() -> None:
    # SIZ-13: by 1.6 and 2.4 mm, so a pocket made for one is loose or tight for the other.
    inch, metric = sides("photo_4x6"), sides("photo_100x150_mm")
    assert [a - b for a, b in zip(inch, metric, strict=True)] == [Fraction("1.6"), Fraction("2.4")]


@pytest.mark.parametrize(
    ("name", "code", "longer_by"),
    # SIZ-14: an encyclopedia on print sizes (ISO 1008): nR is n inches wide and 2 longer, from eleven on 3 longer; 3R,
    # 16R and 20R are exceptions, and the size near 3:2 of 8R is 8 x 12.
    [("photo_8x10", "8", "2"), ("photo_10x12", "10", "2"), ("photo_11x14", "11", "3"), ("photo_12x15", "12", "3"),
     ("photo_3r", "3.5", "1.5"), ("photo_16x20", "16", "4"), ("photo_20x24", "20", "4"), ("photo_8x12", "8", "4"),
     ("photo_4x6", "4", "2"), ("photo_5x7", "5", "2")],
)  # fmt: skip
def test_the_code_of_a_print(name: str, code: str, longer_by: str) -> None:
    short, long = sides(name)
    assert (short, long - short) == (Fraction(code) * INCH, Fraction(longer_by) * INCH)


def test_two_prints_of_four_by_six_make_one_of_six_by_eight() -> None:
    # SIZ-14: 6R = 6 x 8.
    short, long = sides("photo_4x6")
    assert (long, 2 * short) == (6 * INCH, 8 * INCH)


def test_areas_and_the_mass_of_a_sheet() -> None:
    # SIZ-07: worked out from SIZ-01 and SIZ-04; square metres, and grams of A4 at 80 g/m².
    assert value("841 mm * 1189 mm") == 999_949
    assert value("1030 mm * 1456 mm") == 1_499_680
    assert value("210 mm * 297 mm * 80 gsm") == Fraction("4.98960")


def test_an_a_sheet_fits_the_c_size_of_its_number() -> None:
    # SIZ-03: ISO 269, an A-n insert fits a C-n pocket.
    for number in range(11):
        assert all(a < c for a, c in zip(sides(f"a{number}"), sides(f"c{number}"), strict=True))


YIELDS = [
    # SIZ-17: worked out by whole divisions of the sides, the part lying the same way as the parent.
    (("17 in", "22 in"), ("8 1/2 in", "11 in"), 4), (("25 in", "38 in"), ("12 in", "12 in"), 6),
    (("20 in", "26 in"), ("8 1/2 in", "11 in"), 4), (("20 in", "26 in"), ("11 in", "8 1/2 in"), 3),
    (("23 in", "35 in"), ("8 1/2 in", "11 in"), 6), (("23 in", "35 in"), ("11 in", "8 1/2 in"), 8),
]  # fmt: skip


@pytest.mark.parametrize(("parent", "part", "count"), YIELDS)
def test_how_many_come_out_of_a_parent_sheet(parent: tuple[str, str], part: tuple[str, str], count: int) -> None:
    assert value(f"whole({parent[0]} / {part[0]}) * whole({parent[1]} / {part[1]})") == count


@pytest.mark.parametrize(("parent", "part", "count"), YIELDS)
def test_what_is_to_be_bought_is_never_more_than_a_simple_grid_takes(
    parent: tuple[str, str], part: tuple[str, str], count: int
) -> None:
    # SIZ-17: the sheets that the list of materials asks for are a floor by area: no more than the grid of parts takes,
    # and enough that the parts' areas go in.
    for wanted in (1, count, count + 1, 5 * count):
        body = f"""
          stuff = stock(kind: paper, sheet: {parent[0]} x {parent[1]}, grain: none)
          each k from 1 to {wanted} {{
            piece leaf[k] from stuff, height: {part[0]}, width: {part[1]}, loose: yes
          }}
        """
        (material,) = [each for each in plan(body).materials if each.stock == "stuff"]
        by_grid = -(-wanted // count)
        area = value(f"{part[0]} * {part[1]} / ({parent[0]} * {parent[1]})")
        assert material.sheets_at_least is not None
        assert wanted * area <= material.sheets_at_least <= by_grid


@pytest.mark.parametrize(("parent", "part", "count"), YIELDS)
def test_a_cutting_plan_is_between_the_simple_grid_and_the_ratio_of_the_areas(
    parent: tuple[str, str], part: tuple[str, str], count: int
) -> None:
    # SIZ-17: never fewer to a sheet than the grid, never more than the areas allow.
    by_area = int(value(f"{parent[0]} * {parent[1]} / ({part[0]} * {part[1]})"))
    for wanted, fewest in ((count, 1), (by_area + 1, 2), (5 * count, 1)):
        body = f"""
          stuff = stock(kind: paper, sheet: {parent[0]} x {parent[1]}, grain: none)
          each k from 1 to {wanted} {{
            piece leaf[k] from stuff, height: {part[0]}, width: {part[1]}, loose: yes
          }}
        """
        design = plan(body)
        (material,) = [each for each in design.materials if each.stock == "stuff"]
        need = to_buy(material, design.pieces)
        assert need is not None
        assert max(fewest, -(-wanted // by_area)) <= need.count <= -(-wanted // count)
