"""Weights and calipers of paper and board against published tables, through the compiler.

Not tested, because nothing the language offers yields them: PAP-24 and PAP-31 (statements about what chipboard is made
for, and about strength), PAP-28 to PAP-30 (humidity), PAP-34 and PAP-35 (acidity and tearing of permanent paper).
PAP-03 is a misprint of its source and is tested against the definition.
"""

from fractions import Fraction

import pytest

from reference.through_the_compiler import fact, grammage, refused, told, value

# PAP-01 and PAP-02: from the definition (500 sheets of the basic size, LEN-01, LEN-09) and PrintWiki, "Grammage".
FACTORS = [
    ("bond", "3.759730", "0.266"), ("text", "1.480146", "0.675"), ("book", "1.480146", "0.675"),
    ("offset", "1.480146", "0.675"), ("cover", "2.704114", "0.370"), ("index", "1.807958", None),
    ("bristol", "2.192810", None), ("tag", "1.627476", "0.614"), ("newsprint", "1.627476", "0.614"),
]  # fmt: skip
# PAP-08: Debian units 2.22-2 (GNU units).
ORACLE = [
    ("20 lb bond", "75.194607"), ("50 lb text", "74.007324"), ("65 lb cover", "175.76739"), ("80 lb cover", "216.3291"),
    ("100 lb cover", "270.41138"), ("110 lb cover", "297.45251"), ("110 lb index", "198.87536"),
    ("67 lb bristol", "146.91824"), ("150 lb tag", "244.12138"),
]  # fmt: skip
# PAP-09, 10, 12, 13, 14, 16, 17 and 19: US GPO Government Paper Specification Standards, JCP L20, L40, K10, K30, P20,
# Q50, A91 and Q80. Weight by basic size, and the printed grammage to the nearest 5 g/m².
GOVERNMENT = [
    ("50 lb cover", 135), ("65 lb cover", 175), ("80 lb cover", 215), ("90 lb index", 165), ("110 lb index", 200),
    ("140 lb index", 255), ("170 lb index", 305), ("125 lb index", 225), ("105 lb tag", 170), ("150 lb tag", 245),
    ("165 lb tag", 270), ("250 lb tag", 405), ("100 lb bristol", 220), ("70 lb text", 105), ("80 lb text", 120),
    ("100 lb text", 150), ("160 lb tag", 260),
]  # fmt: skip
# PAP-10, 12, 13, 14 and 16, and PAP-15 (JCP Q20): the same sheets' calipers in millimetres and inches, and how far the
# two columns differ.
CALIPERS = [
    ("0.190", "0.0075", "0.006"), ("0.230", "0.0091", "0.006"), ("0.290", "0.0114", "0.006"),
    ("0.350", "0.0138", "0.006"), ("0.255", "0.010", "0.006"), ("0.20", "0.008", "0.016"), ("0.28", "0.011", "0.016"),
    ("0.35", "0.014", "0.016"), ("0.45", "0.018", "0.016"), ("0.250", "0.0098", "0.006"), ("0.140", "0.0055", "0.006"),
    ("0.160", "0.0063", "0.006"), ("0.200", "0.0079", "0.006"),
    ("0.45", "0.0180", "0.016"), ("0.76", "0.0300", "0.016"), ("1.22", "0.0480", "0.016"),
]  # fmt: skip


@pytest.mark.parametrize(("basis", "factor", "inverse"), FACTORS)
def test_grammage_of_a_pound_of_basis_weight(basis: str, factor: str, inverse: str | None) -> None:
    found = grammage(f"1 lb {basis}")
    assert abs(found - Fraction(factor)) < Fraction("0.000001")
    if inverse is not None:
        assert abs(1 / found - Fraction(inverse)) < Fraction("0.001")


def test_a_thousand_square_feet_follow_the_definition_and_not_the_misprint() -> None:
    # PAP-03: PrintWiki prints 4.831; Debian units' lbboxboard, and the definition, give 4.882428.
    pounds_of_boxboard = value("500 * 20 in * 26 in * 1 lb cover / (1000 * 1 ft * 1 ft)") * 1_000_000
    assert abs(pounds_of_boxboard - Fraction("4.882428")) < Fraction("0.000001")


def test_the_general_constant() -> None:
    # PAP-04: 1406.139 g/m² in² / lb for a ream of 500; two printed values lie within 0.03 % of it.
    assert abs(grammage("1 lb cover") * 20 * 26 - Fraction("1406.139")) < Fraction("0.001")
    for printed in ("1406.13", "1406.5"):
        assert abs(grammage("1 lb cover") * 20 * 26 / Fraction(printed) - 1) < Fraction("0.0003")


def test_worked_conversions() -> None:
    # PAP-05: a paper catalogue, "Metric Measurements". PAP-06: PrintWiki, "Grammage". PAP-07: a printer's notes.
    assert round(grammage("20 lb bond")) == 75
    assert round(grammage("50 lb text")) == 74
    assert round(grammage("20 lb bond"), 1) == Fraction("75.2")
    # It prints 69.93 lb, worked out with a factor of three digits, and rounds to 70.
    assert abs(value("103.6 gsm / 1 lb text") / Fraction("69.93") - 1) < Fraction("0.001")
    assert round(value("103.6 gsm / 1 lb text")) == 70
    assert round(grammage("50 lb cover")) == 135


def test_a_bare_pound_is_refused() -> None:
    # PAP-07: the same number is a different paper under another basic size.
    assert refused("heavy = 65 lb") == ["bare-pound"]


@pytest.mark.parametrize(("weight", "expected"), ORACLE)
def test_another_program_converts_alike(weight: str, expected: str) -> None:
    assert abs(grammage(weight) / Fraction(expected) - 1) < Fraction("0.000001")


@pytest.mark.parametrize(("weight", "printed"), GOVERNMENT)
def test_the_government_table_to_the_nearest_five(weight: str, printed: int) -> None:
    assert value(f"{weight} rounded nearest to 5 gsm") * 1_000_000 == printed


@pytest.mark.parametrize(("millimetres", "inches", "apart"), CALIPERS)
def test_both_columns_of_calipers_are_one_thickness(millimetres: str, inches: str, apart: str) -> None:
    assert abs(value(f"{millimetres} mm") / value(f"{inches} in") - 1) <= Fraction(apart)


@pytest.mark.parametrize(
    ("millimetres", "inches"),
    # PAP-11: JCP K10, tolerances of index card, and how much thickness may differ from edge to edge. PAP-15: JCP Q20,
    # tolerances of cardboard. The columns are rounded to whole thousandths of a millimetre and halves of a point.
    [("0.013", "0.0005"), ("0.020", "0.0008"), ("0.011", "0.0004"), ("0.026", "0.001"), ("0.050", "0.002"),
     ("0.065", "0.0025")],
)  # fmt: skip
def test_both_columns_of_tolerances_are_one_thickness(millimetres: str, inches: str) -> None:
    assert abs(value(f"{millimetres} mm - {inches} in")) <= Fraction("0.0015")


@pytest.mark.parametrize(
    ("points", "tolerance"),
    # PAP-18: JCP L70 (2008), coated cover; the sign is garbled in the copy that was read, and taken as more or less.
    [(8, "0.0005"), (10, "0.0008"), (12, "0.0008"), (15, "0.0008"), (24, "0.0010")],
)
def test_a_made_up_strip_answers_for_both_ends_of_a_calipers_tolerance(points: int, tolerance: str) -> None:
    # A closed peak takes two calipers, so its width goes with twice the tolerance.
    widths = [made_up_width(f"{points} pt {sign} {tolerance} in") for sign in ("-", "+")]
    assert widths[1] - widths[0] == 2 * 2 * Fraction(tolerance) * Fraction("25.4")


def test_a_110_pound_index_card_lies_between_its_limits() -> None:
    # PAP-11: 0.217 to 0.243 mm, and the card of the library in the middle.
    uses = "use index_card_110 from stocks"
    body = "card = index_card_110()\nleast = card.caliper - 0.013 mm\nmost = card.caliper + 0.013 mm"
    assert (fact(body, "least", uses), fact(body, "most", uses)) == (Fraction("0.217"), Fraction("0.243"))


def made_up_width(caliper: str) -> Fraction:
    """What a ruler reads across a strip with one closed peak."""
    body = f"""
      card = stock(kind: card, sheet: 12 in x 12 in, caliper: {caliper}, grain: marked)
      tape = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
      part hinge = concertina_hinge(paper: card, tape: tape, peaks: 1, wing: 2 in, height: 6 in)
    """
    return fact(body, "hinge.made_up_width", "use concertina_hinge from hinges")


@pytest.mark.parametrize(
    ("name", "weight", "caliper", "density"),
    # PAP-20: ISO 534 (from memory), grammage by thickness of the JCP sheets, in g/cm³.
    [("index_card_110", 200, "0.230", "0.870"), ("tag_card_150", 245, "0.28", "0.875")],
)
def test_the_density_of_library_cards(name: str, weight: int, caliper: str, density: str) -> None:
    uses = f"use {name} from stocks"
    assert fact(f"card = {name}()\nthick = card.caliper", "thick", uses) == Fraction(caliper)
    printed = value(f"{weight} gsm / {caliper} mm") * 1000
    assert abs(printed - Fraction(density)) < Fraction("0.001")
    computed = fact(f"card = {name}()\ndense = card.weight / card.caliper", "dense", uses) * 1000
    assert abs(computed / Fraction(density) - 1) < Fraction("0.01")


@pytest.mark.parametrize(
    ("weight", "grams", "caliper", "density"),
    # PAP-20: JCP Q50 (bristol size) and A91 (text), as above.
    [("100 lb bristol", 220, "0.250", "0.880"), ("100 lb text", 150, "0.200", "0.750")],
)
def test_the_density_of_other_cards(weight: str, grams: int, caliper: str, density: str) -> None:
    assert abs(value(f"{grams} gsm / {caliper} mm") * 1000 - Fraction(density)) < Fraction("0.001")
    body = f"card = stock(kind: card, weight: {weight}, caliper: {caliper} mm)\ndense = card.weight / card.caliper"
    assert abs(fact(body, "dense") * 1000 / Fraction(density) - 1) < Fraction("0.015")


@pytest.mark.parametrize("weight", ["80 lb cover", "100 lb cover"])
def test_caliper_does_not_follow_from_weight(weight: str) -> None:
    # PAP-21: charts give 80 lb cover 0.0080 to 0.0095 in, and 100 lb cover 0.010 to 0.011 in. So a weight alone yields
    # no caliper: it is asked for.
    card = f"card = stock(kind: card, sheet: 12 in x 12 in, weight: {weight})"
    assert refused(f"{card}\nthick = card.caliper") == ["caliper-missing"]


def test_five_hundred_pages_to_the_inch() -> None:
    # PAP-22: W. Rebsamen, "Hardcover book cases - are you sure they fit?": 250 leaves to the inch, a leaf of 0.1016 mm.
    leaf = value("1 in / 250")
    assert leaf == value("0.004 in") == Fraction("0.1016")
    # The thickness of a block is leaves times caliper.
    assert fact("leaf = stock(kind: paper, caliper: 4 pt)\nblock = 250 * leaf.caliper", "block") == Fraction("25.4")


def test_where_board_begins() -> None:
    # PAP-23: Roberts and Etherington, "board": 0.012 in (0.305 mm) and more. Every board of the library is that thick.
    least = value("0.012 in")
    for name in ("board_46_point", "board_60_point", "board_80_point", "grey_board_medium", "grey_board_heavy"):
        assert fact(f"b = {name}()\nthick = b.caliper", "thick", f"use {name} from stocks") >= least


@pytest.mark.parametrize(
    ("points", "millimetres", "grade"),
    # PAP-25: R. Hollick, "Boards" (2020). PAP-26: a rigid-box maker's table, the 46-point row worked out.
    [(70, "1.778", "1.8"), (80, "2.032", "2.0"), (98, "2.4892", "2.5"), (120, "3.048", "3.0"), (60, "1.524", "1.5"),
     (46, "1.1684", "1.168")],
)  # fmt: skip
def test_board_grades(points: int, millimetres: str, grade: str) -> None:
    assert value(f"{points} pt") == Fraction(millimetres)
    assert abs(value(f"{points} pt") - Fraction(grade)) < Fraction("0.05")


@pytest.mark.parametrize(
    ("name", "caliper", "weight"), [("grey_board_medium", "1.5", 970), ("grey_board_heavy", "2.0", 1290)]
)
def test_grey_board_of_the_library(name: str, caliper: str, weight: int) -> None:
    # PAP-27: the same table, 1.55 times the kilograms a square metre.
    body, uses = f"b = {name}()\nthick = b.caliper\nheavy = b.weight", f"use {name} from stocks"
    assert fact(body, "thick", uses) == Fraction(caliper)
    assert fact(body, "heavy", uses) * 1_000_000 == weight
    assert abs(Fraction("1.55") * weight / 1000 - Fraction(caliper)) < Fraction("0.01")


@pytest.mark.parametrize(
    ("sheet", "grain", "height", "width", "fits"),
    # PAP-32: Roberts and Etherington, "against the grain": head to tail. PAP-33: Women's Studio Workshop toolkit note
    # (2011): 11 x 17 long cut in half gives 8.5 x 11 short, cut again 5.5 x 8.5 long.
    [("11 in x 17 in", "long", "17 in", "11 in", True), ("11 in x 17 in", "long", "11 in", "17 in", False),
     ("8 1/2 in x 11 in", "short", "8 1/2 in", "11 in", True),
     ("8 1/2 in x 11 in", "short", "11 in", "8 1/2 in", False),
     ("5 1/2 in x 8 1/2 in", "long", "8 1/2 in", "5 1/2 in", True)],
)  # fmt: skip
def test_grain_runs_head_to_tail_or_is_refused(sheet: str, grain: str, height: str, width: str, fits: bool) -> None:
    card = f"card = stock(kind: card, sheet: {sheet}, grain: {grain})"
    leaf = f"piece leaf from card, height: {height}, width: {width}, grain: height"
    assert told(f"{card}\n{leaf}") == ([] if fits else ["against-grain"])
