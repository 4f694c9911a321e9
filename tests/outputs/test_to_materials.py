"""What to buy: amounts, sheets at least, and what the packs cost at least."""

import csv
from fractions import Fraction
from io import StringIO

from attrs import evolve

from outputs.sample_plan import materials, sample_plan
from pastedown.outputs.to_materials import make
from pastedown.plan.material import Material


def text(*some: Material) -> str:
    return make(evolve(sample_plan(), materials=some))["materials.txt"].decode()


def line(shown: str, beginning: str) -> str:
    return next(line for line in shown.splitlines() if line.startswith(beginning))


def test_each_stock_has_its_amount() -> None:
    shown = text(*materials())
    assert line(shown, "kraft card ").split()[-9:] == ["about", "306.56", "sq", "in", "at", "least", "3", "sheets", "in"]
    assert "2 packs of 2" in shown
    assert line(shown, "narrow tape").split()[-5:] == ["174", "3/4", "in", "15", "ft"]
    assert line(shown, "magnets  ").split() == ["magnets", "magnet", "3/8", "in", "4", "4:", "1", "pack", "of", "10"]


def test_what_to_ask_for_in_the_shop() -> None:
    shown = text(*materials())
    assert "\nkraft card: For 7 pieces. 0.012 in thick, 216 gsm, grain long, 4.20 EUR for a pack of 2.\n" in shown
    assert "\nwhite paper: For 2 pieces. 2.00 USD for one.\n" in shown


def test_the_pieces_are_weighed() -> None:
    # 306.5625 sq in of 645.16 sq mm are 0.19778 square metres; of 216 gsm they weigh 42.72 g.
    shown = " ".join(text(*materials()).split())
    assert "Together that weighs about 43 g, without what no weight is given for: " in shown
    assert "What it weighs cannot be told" in text(materials()[1])


def test_what_is_sold_by_the_roll_or_the_bottle_is_never_left_out() -> None:
    tape, card = materials()[2], materials()[0]
    # 174 3/4 in are 14.56 ft; with a tenth to spare 16.02.
    assert line(text(tape), "narrow tape").endswith("15 ft")
    assert line(text(evolve(tape, spare=Fraction(1, 10))), "narrow tape").endswith("16 1/2 ft")
    glue = evolve(card, kind="glue", sheet=None, sheets_at_least=None, weight=None, mass=None)
    assert "enough for 310 sq in" in " ".join(text(glue).split())
    assert "The length of a roll is not given" in text(tape)


def test_costs_are_summed_by_currency_over_whole_packs() -> None:
    # Three sheets in packs of two are two packs of 4.20, four magnets one pack of 3.
    assert text(*materials()).endswith(
        "\nPriced packs cost at least 11.40 EUR and 2.00 USD. Not in it, for want of a price: narrow\n    tape.\n"
    )


def test_a_design_of_nothing_needs_nothing() -> None:
    assert text().endswith("\nNothing is needed.\n")


def test_csv_counts_in_both_systems() -> None:
    made = make(sample_plan())["materials.csv"].decode()
    card, magnets, tape, paper = csv.DictReader(StringIO(made, newline=""))
    assert (card["amount inch"], card["unit inch"], card["sheets at least"]) == ("306.5625", "sq in", "3")
    assert (card["use"], card["mass g"]) == ("7 pieces", "42.7209")
    assert (card["thickness in"], card["thickness mm"], card["weight gsm"]) == ("0.012", "0.3048", "216")
    assert (tape["amount inch"], tape["amount metric"], tape["unit metric"]) == ("174.75", "4438.65", "mm")
    assert (magnets["amount"], magnets["price"], magnets["currency"], magnets["pack"]) == ("4", "3", "EUR", "10")
    assert (paper["unit metric"], paper["thickness in"]) == ("sq mm", "")
