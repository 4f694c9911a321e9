"""The cut list as text, CSV and JSON: the same numbers three times."""

import csv
import json
from fractions import Fraction
from io import StringIO

from attrs import evolve

from outputs.sample_plan import BOTH_RULER, sample_plan
from pastedown.outputs.to_cut_list import make
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import Ruler, Show


def text(plan: Plan) -> str:
    return make(plan)["cut-list.txt"].decode()


def rows(plan: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(make(plan)["cut-list.csv"].decode(), newline="")))


def test_three_files() -> None:
    assert sorted(make(sample_plan())) == ["cut-list.csv", "cut-list.json", "cut-list.txt"]


def test_pieces_stand_under_their_stock_with_sizes_by_role() -> None:
    card, paper = text(sample_plan()).split("white paper (paper)")
    assert "kraft card (card)\n-----------------\n" in card
    assert "page-sheet  page sheet       6  7 1/2 in  5 1/2 in  along the height  decorated side\n" in card
    assert "strip       hinge strip      1  6 3/4 in  8 3/4 in  along the height  outside\n" in card
    assert "tag  tag        2  6 1/2 in  4 3/4 in  any    either side\n" in paper


def test_counts_add_up() -> None:
    shown = text(sample_plan())
    assert "7 pieces of kraft card.\n" in shown
    assert shown.endswith("9 pieces in all, of 2 stocks.\n")


def test_notes_name_edges_shapes_and_cuts() -> None:
    shown = text(sample_plan())
    assert "page-sheet: The left edge is the spine and the right edge is the fore edge.\n" in shown
    assert "strip: Carries the pages. The left edge is the front end" in shown
    tag_note = " ".join(shown[shown.index("tag: ") :].split())
    assert tag_note.startswith(
        "tag: Cut the rectangle first, then by these measures or by the template: "
        "corner of head and right edge rounded to a radius of 1/4 in."
    )
    assert shown.count("Cut the rectangle first") == 1


def test_both_units_where_the_ruler_shows_both() -> None:
    shown = text(sample_plan(BOTH_RULER))
    assert "6     7 1/2 in     5 1/2 in" in shown
    assert "(190.5 mm)   (139.7 mm)" in shown


def test_csv_has_exact_decimals_in_both_units_and_the_makers_notation() -> None:
    sheet = next(row for row in rows(sample_plan()) if row["id"] == "page-sheet")
    assert (sheet["height"], sheet["width"], sheet["count"]) == ("7 1/2 in", "5 1/2 in", "6")
    assert Fraction(sheet["height in"]) * Fraction("25.4") == Fraction(sheet["height mm"]) == Fraction("190.5")


def test_csv_is_exact_to_a_sixty_fourth() -> None:
    plan = sample_plan()
    fine = evolve(plan, pieces=(evolve(plan.pieces[0], height=inches("435/64")),))
    assert rows(fine)[0]["height in"] == "6.796875"
    assert rows(fine)[0]["height mm"] == "172.640625"


def test_csv_lines_end_as_rfc_4180_says() -> None:
    lines = make(sample_plan())["cut-list.csv"].split(b"\r\n")
    assert len(lines) == 1 + 3 + 1
    assert lines[-1] == b""
    assert not any(b"\n" in line for line in lines)


def test_json_groups_the_same_pieces() -> None:
    made = json.loads(make(sample_plan())["cut-list.json"])
    assert made["pieces"] == 9
    assert [(group["stock"], [piece["id"] for piece in group["pieces"]]) for group in made["stocks"]] == [
        ("kraft card", ["strip", "page-sheet"]),
        ("white paper", ["tag"]),
    ]
    assert made["stocks"][0]["pieces"][1]["height"] == {
        "exact_mm": "381/2",
        "mm": 190.5,
        "inches": 7.5,
        "text": "7 1/2 in",
    }


def test_stocks_of_one_name_and_two_kinds_stay_apart() -> None:
    plan = sample_plan()
    card, _, other = plan.pieces
    groups = json.loads(make(evolve(plan, pieces=(card, evolve(other, stock=card.stock))))["cut-list.json"])["stocks"]
    assert [(group["stock"], group["kind"]) for group in groups] == [("kraft card", "card"), ("kraft card", "paper")]


def test_a_metric_ruler_reads_in_millimetres() -> None:
    sheet = next(line for line in text(sample_plan(Ruler(mm(1), Show.METRIC))).splitlines() if "page sheet " in line)
    assert sheet.split()[3:8] == ["6", "190.5", "mm", "139.7", "mm"]


def test_cuts_stand_in_every_form_of_the_list() -> None:
    words = "corner of head and right edge rounded to a radius of 1/4 in"
    files = make(sample_plan())
    rows = list(csv.DictReader(StringIO(files["cut-list.csv"].decode("utf-8-sig"))))
    assert [row["cuts"] for row in rows if row["id"] == "tag"] == [words]
    pieces = [piece for stock in json.loads(files["cut-list.json"])["stocks"] for piece in stock["pieces"]]
    (cut,) = next(piece for piece in pieces if piece["id"] == "tag")["cuts"]
    assert (cut["kind"], cut["edges"], cut["text"]["text"]) == ("round", ["head", "right"], words)


def test_what_is_bought_in_its_size_is_not_cut() -> None:
    plan = sample_plan()
    bought = evolve(plan, pieces=tuple(evolve(piece, bought=piece.id == "strip") for piece in plan.pieces))
    assert "Bought in this size: it is not cut." in make(bought)["cut-list.txt"].decode()
