"""Kits: counts, prices, weights and spools worked out by hand."""

import csv
import json
from fractions import Fraction
from io import StringIO
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from outputs.test_to_cutting_plan import judge
from pastedown.outputs.to_json import schema
from pastedown.outputs.to_kits import make
from pastedown.plan.kits import MOST_KITS, USUAL_FOR_KITS, Kits, kits
from pastedown.plan.material import PlanningEffort
from pastedown.plan.plan import Plan
from pastedown.plan.to_buy import to_buy
from plan.test_cutting_settings import with_spares
from reference.through_the_compiler import made
from running import run

QUICK = PlanningEffort(work=200)
VALIDATOR = Draft202012Validator(json.loads(schema()))
# Two of 7 by 5 in lie on a sheet of 12 in; a kit has two, and one tie of 30 in.
SMALL = """
card = stock(kind: card, sheet: 12 in x 12 in, grain: long, weight: 200 gsm, price: 2 EUR, pack: 10{card})
band = stock(kind: ribbon, roll_width: 10 mm, roll_length: {roll}, price: 3 EUR{band})
piece sheet[k from 1 to 2] from card, height: 8 in, width: 5 in, grain: height, loose: yes
piece tie[k from 1 to 2] from band, height: 15 in, width: 10 mm, loose: yes
"""


def plan_of(body: str) -> Plan:
    plan = made(body).plan
    assert plan is not None
    return plan


def small(card: str = "", band: str = "", roll: str = "100 in") -> Plan:
    return plan_of(SMALL.format(card=card, band=band, roll=roll))


def bought(several: Kits, stock: str) -> tuple[int, int]:
    (material,) = [each for each in several.all.materials if each.stock == stock]
    need = to_buy(material, several.all.pieces)
    assert need is not None
    return need.count, need.packs


def test_sheets_packs_rolls_price_and_weight_of_forty_kits() -> None:
    several = kits(small(), 40, QUICK)
    # 80 pieces, two a sheet: 40 sheets, 4 packs. Three spools of 30 in come off a roll of 100 in: 14 rolls.
    assert bought(several, "card") == (40, 4)
    assert bought(several, "band") == (14, 14)
    (cost,) = several.costs
    assert cost.value == 4 * 2 + 14 * 3
    assert several.mass is not None
    # Two pieces of 8 by 5 in at 200 g a square metre.
    assert several.mass.value == Fraction(2 * 40) * Fraction(254, 10) ** 2 * 200 / 1_000_000
    said = " ".join(make(small(), 40, QUICK)["kits.txt"].decode().split())
    assert "A kit costs 1.25 EUR in stock: 50.00 EUR for all, whole packs." in said


def test_spares_are_counted_over_all_kits() -> None:
    # 5 % of 80 are 4: 84 pieces on 42 sheets. By the kit it would be 120.
    assert bought(kits(small(card=", spare: 5 %"), 40, QUICK), "card") == (42, 5)


def test_a_spool_is_never_joined() -> None:
    # With a tenth to spare a kit takes 33 in. Three would be 99 in of the 100, four do not go; without the rule 40 kits
    # of 33 in would be 1,320 in, 14 rolls as well; with rolls of 65 in, one each against 21.
    several = kits(small(band=", spare: 10 %"), 40, QUICK)
    assert bought(several, "band") == (14, 14)
    assert bought(kits(small(band=", spare: 10 %", roll="65 in"), 40, QUICK), "band") == (40, 40)
    (spool,) = [item.in_one for item in several.items if item.in_one is not None]
    assert spool.inches == 33
    # What is cut from it is not picked a second time.
    assert [(item.id, item.name) for item in several.items if item.stock == "band"] == [("", "ribbon for 2 x tie")]


def test_what_is_handed_out_is_what_is_bought() -> None:
    # 18 1/2 in go nine times on a roll of 180 in: 40 kits are five rolls, of which 900 - 740 in are left, 106 of them
    # on the last one, which four kits use. With 5 % to spare it is 19.425 in, still nine to a roll.
    body = """
    ruler = inches to 1/16
    band = stock(kind: ribbon, roll_width: 10 mm, roll_length: 180 in, pack: 3{})
    piece tie from band, height: 18 1/2 in, width: 10 mm, loose: yes
    """
    plan = plan_of(body.format(""))
    assert bought(kits(plan, 40, QUICK), "band") == (5, 2)
    files = make(plan, 40, QUICK)
    picked, listed = (" ".join(files[name].decode().split()) for name in ("pick-list.txt", "purchase-list.txt"))
    assert "one length of 18 1/2 in, uncut" in picked and "Each kit holds 1 length." in picked
    assert "5 rolls in 2 packs of 3" in listed
    # The sixth roll of the two packs is whole.
    assert "Left over: 340 in, the longest piece 180 in." in listed
    spare = make(plan_of(body.format(", spare: 5 %")), 40, QUICK)["pick-list.txt"].decode()
    assert "one length of 19.425 in, uncut" in " ".join(spare.split())


def test_what_comes_in_packs_is_bought_in_packs_and_the_rest_is_told() -> None:
    body = """
    large = stock(kind: card, sheet: 24 in x 18 in, grain: long, price: 2 EUR, pack: 10, name: "large")
    card = stock(kind: card, sheet: 12 in x 12 in, grain: marked, price: 9 EUR, pack: 2, also: [large])
    dots = stock(kind: magnet, height: 8 mm, width: 8 mm, caliper: 1 mm, pack: 20)
    paste = stock(kind: glue, coverage: 10 in * 10 in)
    piece leaf from card, height: 11 in, width: 8 in, grain: height
    piece flap from card, height: 5 in, width: 5 in
    piece dot[k from 1 to 2] from dots, height: 8 mm, width: 8 mm, loose: yes
    join on: flap.back to leaf.face, by: paste {
      align flap.mid_height to leaf.mid_height
      align flap.mid_width to leaf.mid_width
    }
    """
    files = make(plan_of(body), 12, QUICK)
    said = " ".join(files["purchase-list.txt"].decode().split())
    # 24 dots of 40, 12 joins of 25 sq in, and all leaves from the large sheets, in one pack.
    assert "24: 2 packs of 20" in said and "dots: Left over: 16." in said
    assert "paste: To buy" not in said and "3 packs" in said
    assert "of large in 1 pack of 10" in said and "Grain long" in said and "marked" not in said
    rows = {row["stock"]: row for row in csv.DictReader(StringIO(files["purchase-list.csv"].decode(), newline=""))}
    assert (rows["large"]["grain"], rows["large"]["sheets at least"]) == ("long", "")
    assert int(rows["large"]["to buy"]) + int(rows["large"]["left over"]) == 10
    assert (rows["dots"]["packs"], rows["dots"]["left over"]) == ("2", "16")
    there = make(plan_of(body.replace("piece flap", "piece none_of_it").replace("flap.", "none_of_it.").replace(
        "also: [large]", "on_hand: 40")), 12, QUICK)["purchase-list.txt"].decode()
    told = " ".join(there.split())
    assert "on hand are cut. Nothing has to be bought." in told and "0 sheets" not in told


def test_a_roll_that_is_too_short_for_a_kit_is_told_of() -> None:
    several = kits(small(roll="20 in"), 3, QUICK)
    assert bought(several, "band") == (6, 6)
    assert [(item.id, item.count, item.in_one) for item in several.items if item.stock == "band"] == [("tie", 2, None)]
    said = " ".join(make(small(roll="20 in"), 3, QUICK)["kits.txt"].decode().split())
    assert "Not covered: band: a kit takes 30 in and a roll is 20 in long, so that no kit has it in one piece." in said


def test_costs_are_summed_by_currency_and_what_is_in_no_sum_is_told_with_its_reason() -> None:
    body = """
    large = stock(kind: card, sheet: 9 in x 14 in, grain: long, price: 3 USD, pack: 10)
    card = stock(kind: card, sheet: 6 in x 9 in, grain: long, price: 2 EUR, pack: 10, also: [large])
    paste = stock(kind: glue, price: 4 EUR)
    snap = stock(kind: print, height: 4 in, width: 6 in)
    piece small from card, height: 8 in, width: 5 in, grain: height
    piece big from card, height: 13 in, width: 8 in, grain: height
    piece photo from snap, height: 6 in, width: 4 in
    join on: small.back to big.face, by: paste {
      align small.mid_height to big.mid_height
      align small.mid_width to big.mid_width
    }
    join shown: photo.back to small.face, by: paste {
      align photo.mid_height to small.mid_height
      align photo.mid_width to small.mid_width
    }
    """
    plan = plan_of(body)
    several = kits(plan, 20, QUICK)
    # A small sheet holds one small piece, a large one one big piece and no more: two packs of each.
    assert [(cost.value, cost.dimension.currency) for cost in several.costs] == [(4, "EUR"), (6, "USD")]
    assert (several.unpriced, several.uncounted) == (("snap",), ("paste",))
    files = make(plan, 20, QUICK)
    VALIDATOR.validate(json.loads(files["kits.json"]))
    rows = list(csv.DictReader(StringIO(files["purchase-list.csv"].decode(), newline="")))
    columns = ("stock", "to buy", "packs", "price", "currency", "cost")
    assert [tuple(row[each] for each in columns) for row in rows if row["kind"] == "card"] == [
        ("card", "20", "2", "2", "EUR", "4"),
        ("large", "20", "2", "3", "USD", "6"),
    ]
    # 20 of 40 sq in and 20 of 24 sq in: with 1,280 sq in of paste at 300 a pot, five pots.
    pots = kits(plan_of(body.replace("kind: glue,", "kind: glue, coverage: 20 in * 15 in,")), 20, QUICK)
    assert bought(pots, "paste") == (5, 5)
    assert (pots.costs[0].value, pots.uncounted) == (4 + 5 * 4, ())
    for name in ("kits.txt", "purchase-list.txt"):
        said = " ".join(files[name].decode().split())
        assert "4.00 EUR and 6.00 USD" in said
        assert "Not in it, for want of a price: snap." in said
        assert "how much a pack holds or how far it goes: paste." in said


def test_repeated_patterns_are_told_once() -> None:
    files = make(small(), 42, QUICK)
    assert "cut this sheet 42 times" in files["cutting-plan.txt"].decode()
    assert len([name for name in files if name.endswith(".svg")]) == 1


@pytest.mark.parametrize("copies", [1, 7, 1000])
def test_every_plan_is_judged(copies: int) -> None:
    several = kits(small(card=", spare: 3 %, trim: 1/8 in"), copies, QUICK)
    made_here = json.loads(make(several.one, copies, QUICK)["cutting-plan.json"])
    asked = {each["id"]: each["count"] for each in made_here["stocks"][0]["spares"]}
    judge(with_spares(several.all, asked), made_here)


def test_the_files_are_as_the_schema_says_and_agree() -> None:
    files = make(small(), 40, QUICK)
    whole = json.loads(files["kits.json"])
    VALIDATOR.validate(whole)
    rows = list(csv.DictReader(StringIO(files["pick-list.csv"].decode(), newline="")))
    assert [(row["id"], row["count a kit"], row["count in all"]) for row in rows if row["id"]] == [
        (item["id"], str(item["count"]), str(item["count"] * 40)) for item in whole["items"] if item["id"]
    ]
    assert files == make(small(), 40, QUICK)


def test_magnets_carry_their_caution_on_every_kit() -> None:
    body = (
        "disc = stock(kind: magnet, height: 8 mm, width: 8 mm, caliper: 1 mm, price: 1 EUR, pack: 50, spare: 4 %)\n"
        "piece clasp[k from 1 to 4] from disc, height: 8 mm, width: 8 mm, loose: yes"
    )
    several = kits(plan_of(body), 40, QUICK)
    # 160 and 4 % of it, in packs of 50.
    assert bought(several, "disc") == (167, 4)
    said = " ".join(make(plan_of(body), 40, QUICK)["kits.txt"].decode().split())
    assert "Caution: Keep loose magnets and other small parts away from children: swallowed magnets" in said


@pytest.mark.parametrize("copies", [0, -3, MOST_KITS + 1])
def test_a_number_that_makes_no_sense_is_refused(copies: int, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="kits"):
        kits(small(), copies, QUICK)
    (tmp_path / "small.album").write_text(f"edition = 1\nalbum small {{ {SMALL.format(card='', band='', roll='9 m')} }}\n")
    done = run("kits", "small.album", "--copies", str(copies), cwd=tmp_path)
    assert done.code == 2
    assert "There can be 1 to" in done.err
    assert not (tmp_path / "small-kits").exists()


@pytest.mark.parametrize(("option", "text"), [("--copies", "abc"), ("--copies", "4.5"), ("--work", ""), ("--work", "9" * 40)])
def test_what_is_no_whole_number_is_told_in_words(option: str, text: str, tmp_path: Path) -> None:
    done = run("kits", "small.album", *(("--copies", "3") if option == "--work" else ()), option, text, cwd=tmp_path)
    assert done.code == 2
    assert done.err.startswith(f"pastedown: Behind {option} a whole number is wanted, as in {option} 40, and ")


def test_the_usual_work_is_named() -> None:
    assert f"{USUAL_FOR_KITS} where nothing is said" in " ".join(run("kits", "--help", cwd=Path()).out.split())


def test_the_command_writes_a_folder(tmp_path: Path) -> None:
    (tmp_path / "small.album").write_text(f"edition = 1\nalbum small {{ {SMALL.format(card='', band='', roll='9 m')} }}\n")
    done = run("kits", "small.album", "--copies", "40", "--work", "100", cwd=tmp_path)
    assert (done.code, done.out.splitlines()[0]) == (0, "small is in small-kits")
    assert "for each of 40 kits" in (tmp_path / "small-kits" / "pick-list.txt").read_text()
    assert run("kits", "small.album", "--copies", "4", "--work", "-1", cwd=tmp_path).code == 2


def test_kits_json_has_a_row_for_each_size_of_sheet() -> None:
    whole = json.loads(make(small(), 40, QUICK)["kits.json"])
    VALIDATOR.validate(whole)
    (stock,) = whole["bought"]
    (sheet,) = stock["sheets"]
    assert (stock["stock"], sheet["used"], sheet["packs"], sheet["pack"]) == ("card", 40, 4, 10)


def test_somebody_is_told_while_the_sheets_are_planned() -> None:
    told: list[str] = []
    # By the area alone three would go on two sheets, but none of them leaves room for another.
    large = """
card = stock(kind: card, sheet: 13 in x 13 in, grain: long)
piece mat[k from 1 to 3] from card, height: 8 in, width: 8 in, grain: height, loose: yes
"""
    make(plan_of(large), 1, PlanningEffort(work=200, tell=told.append))
    assert told == ["planning card: 3 sheets found, 2 are the least there could be"]


def test_a_print_that_is_trimmed_is_not_packed_as_it_is_bought() -> None:
    plan = plan_of("""
    shot = stock(kind: print, height: 4 in, width: 6 in)
    piece uncut from shot, height: 4 in, width: 6 in, loose: yes
    piece trimmed from shot, height: 4 in, width: 5 in, loose: yes
    """)
    items = {item.id: item.trimmed for item in kits(plan, 2, QUICK).items}
    assert items == {"uncut": False, "trimmed": True}
    said = " ".join(make(plan, 2, QUICK)["pick-list.txt"].decode().split())
    assert said.count("as it is bought") == 1 and "cut from what" in said
