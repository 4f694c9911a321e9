"""How sheets are cut by the maker's settings, with counts worked out by hand; and the messages of settings that make no
sense."""

import json
from fractions import Fraction
from typing import Any

import pytest

from outputs.test_to_cutting_plan import judge
from pastedown.outputs.to_cutting_plan import make
from pastedown.outputs.to_materials import make as make_materials
from pastedown.plan.plan import Plan
from reference.through_the_compiler import made, refused

LARGE = 'large = stock(kind: card, sheet: 24 in x 18 in, grain: long, price: {price}, pack: {pack}, name: "large")\n'


def plan_of(body: str) -> Plan:
    plan = made(body).plan
    assert plan is not None
    return plan


def recipe(fields: str, *sizes: tuple[int, str, str]) -> str:
    """Card with these fields and so many pieces of each height and width, grain along the height."""
    lines = [f"card = stock(kind: card, sheet: 12 in x 12 in, grain: long{', ' if fields else ''}{fields})"]
    for number, (count, height, width) in enumerate(sizes):
        lines.append(f"piece p{number}[k from 1 to {count}] from card, height: {height}, width: {width}, grain: height, loose: yes")
    return "\n".join(lines)


def cut(body: str) -> Any:
    """The one stock's cutting plan, judged."""
    plan = plan_of(body)
    read = json.loads(make(plan)["cutting-plan.json"])
    asked = {each["id"]: each["count"] for each in read["stocks"][0]["spares"]}
    judge(with_spares(plan, asked), read)
    return read["stocks"][0]


def with_spares(plan: Plan, asked: dict[str, int]) -> Plan:
    from attrs import evolve

    return evolve(
        plan, pieces=tuple(evolve(each, count=each.count + asked.get(each.id, 0)) for each in plan.pieces)
    )


def exact_mm(length: Any) -> Fraction:
    return Fraction(length["exact_mm"])


def test_raw_edges_cost_a_piece() -> None:
    # Four of 6 by 6 in fill a sheet of 12 in; with an eighth off every edge one goes on each.
    assert cut(recipe("", (4, "6 in", "6 in")))["sheets"] == 1
    stock = cut(recipe("trim: 1/8 in", (4, "6 in", "6 in")))
    assert (stock["sheets"], stock["least_sheets"], stock["proven"]) == (4, 4, True)
    first = [(each["what"], each["comes_off"], each["is_left"]) for each in stock["patterns"][0]["cuts"][:4]]
    # A piece of 6 in is cut off the offcut beside it: the left edge and the lower one alone are trimmed.
    assert first[:2] == [("sheet", "sheet", f"{side} raw edge") for side in ("left", "bottom")]
    assert "raw edge" not in first[2] + first[3]
    fences = [each["fence"]["text"] for each in stock["patterns"][0]["cuts"][:2]]
    assert fences == ["11 7/8 in", "11 7/8 in"]
    assert {edge for each in stock["patterns"][0]["offcuts"] for edge in each["raw_edges"]} == {"right", "top"}


def test_a_raw_edge_beside_pieces_is_trimmed() -> None:
    # Within an eighth of every edge lie 11 3/4 in, which two of 5 7/8 in fill both ways.
    stock = cut(recipe("trim: 1/8 in", (4, "5 7/8 in", "5 7/8 in")))
    cuts = stock["patterns"][0]["cuts"]
    fallen = [each["is_left"] for each in cuts if "raw edge" in each["is_left"]]
    assert sorted(fallen) == [f"{side} raw edge" for side in ("bottom", "left", "right", "top")]
    # Each is drawn at the side that its row names.
    (place,) = [{each["name"]: each for each in pattern["parts"]} for pattern in stock["patterns"]]
    assert (exact_mm(place["left raw edge"]["x"]), exact_mm(place["bottom raw edge"]["y"])) == (0, 0)
    assert exact_mm(place["right raw edge"]["x"]) + exact_mm(place["right raw edge"]["width"]) == 12 * Fraction("25.4")
    assert exact_mm(place["top raw edge"]["y"]) + exact_mm(place["top raw edge"]["height"]) == 12 * Fraction("25.4")
    assert [each["fence"]["text"] for each in cuts[:4]] == ["11 7/8 in", "11 3/4 in"] * 2


def test_a_stack_saves_strokes_and_no_settings() -> None:
    one, three = (cut(recipe(fields, (6, "7 in", "5 in")))["patterns"] for fields in ("", "cut_at_once: 3"))
    # Two pieces a sheet of three: one stroke for the strip, two that free the pieces; all three sheets in one stack.
    assert [(each["times"], each["settings"], each["strokes"]) for each in one] == [(3, 2, 9)]
    assert [(each["times"], each["settings"], each["strokes"]) for each in three] == [(3, 2, 3)]


def test_spares_are_rounded_up_for_each_kind_of_piece() -> None:
    # Ten percent of 12 and of 3 are 1.2 and 0.3: two and one.
    stock = cut(recipe("spare: 10 %", (12, "6 in", "4 in"), (3, "5 in", "3 in")))
    assert sorted(each["count"] for each in stock["spares"]) == [1, 2]


def test_what_is_on_hand_is_cut_first_and_never_more_than_there_is() -> None:
    # Nine pieces take a sheet each. Two sheets and one offcut are there.
    stock = cut(recipe("on_hand: 2, offcuts: [11 in x 7 in]", (9, "11 in", "7 in")))
    assert (stock["sheets"], stock["proven"]) == (6, True)
    used = {(each["sheet"], each["on_hand"]): each["used"] for each in stock["bought"]}
    assert used == {("card", False): 6, ("card", True): 2, ("offcut 1 of card", True): 1}
    told = " ".join(make_materials(plan_of(recipe("on_hand: 2, offcuts: [11 in x 7 in]", (9, "11 in", "7 in"))))[
        "materials.txt"].decode().split())
    assert "6 sheets, proven fewest. 2 sheets and 1 offcut on hand are cut first." in told


def test_an_offcut_is_used_with_its_grain() -> None:
    # The piece would lie on the second offcut only across its grain.
    body = recipe("offcuts: [{}]", (1, "11 in", "7 in"))
    assert cut(body.format("11 in x 7 in"))["sheets"] == 0
    assert cut(body.format("7 in x 11 in"))["sheets"] == 1


def test_the_cheapest_mix_of_sizes_counts_packs_whole() -> None:
    # A large sheet holds six pieces of 11 by 6 in (two rows of three), a small one two. Seven pieces: 4 small at 1 EUR
    # are 4; one large at 2.50 and one small are 3.50. In packs of five, a pack of the large ones costs 12.50.
    body = recipe("price: 1 EUR, also: [large]", (7, "11 in", "6 in"))
    stock = cut(LARGE.format(price="2.50 EUR", pack=1) + body)
    assert stock["cost"]["text"] == "3.50 EUR"
    assert {each["sheet"]: each["used"] for each in stock["bought"]} == {"card": 1, "large": 1}
    whole = cut(LARGE.format(price="12.50 EUR", pack=5) + body)
    assert whole["cost"]["text"] == "4.00 EUR"
    assert {each["sheet"]: each["packs"] for each in whole["bought"]} == {"card": 4, "large": 0}
    listed = make_materials(plan_of(LARGE.format(price="2.50 EUR", pack=1) + body))["materials.txt"].decode()
    assert "Priced packs cost 3.50 EUR." in listed


def test_sizes_that_differ_in_their_packs_alone_are_not_mixed_up() -> None:
    # 11 pieces of more than half a sheet are 11 sheets: two packs of ten for 19.00 are cheaper than one of fifty.
    body = (
        "fifty = stock(kind: card, sheet: 12 in x 12 in, grain: long, price: 40.00 USD, pack: 50, cut_at_once: 3)\n"
        + recipe("price: 9.50 USD, pack: 10, also: [fifty]", (11, "11 in", "11 in"))
    ).replace("USD, pack", 'USD, name: "card", pack')
    stock = cut(body)
    told = [(each["sheet"], each["packs"], each["pack"], each["cost"]["text"]) for each in stock["bought"]]
    assert told == [("card", 2, 10, "19.00 USD"), ("card", 0, 50, "0.00 USD")]
    assert stock["cost"]["text"] == "19.00 USD"
    assert [each["cut_at_once"] for each in (*stock["bought"], *stock["patterns"])] == [1, 3, 1]
    listed = make_materials(plan_of(body))["materials.txt"].decode()
    assert "Priced packs cost 19.00 USD." in listed
    assert "9.50 USD for a pack of 10 of card" in " ".join(listed.split())


def test_prices_that_cannot_be_compared_are_not() -> None:
    body = LARGE.format(price="2 USD", pack=1) + recipe("price: 1 EUR, also: [large]", (7, "11 in", "6 in"))
    said = " ".join(make(plan_of(body))["cutting-plan.txt"].decode().split())
    assert "Some size of it has no price, or its prices are in several currencies, so little paper was sought" in said
    assert cut(body)["cost"] is None


def test_a_piece_need_fit_one_of_the_sizes_only() -> None:
    body = recipe("{}", (1, "20 in", "10 in"))
    assert refused(body.format("price: 1 EUR")) == ["sheet-too-small"]
    stock = cut(LARGE.format(price="2 EUR", pack=1) + body.format("price: 1 EUR, also: [large]"))
    assert {each["sheet"]: each["used"] for each in stock["bought"]} == {"card": 0, "large": 1}
    assert refused(recipe("trim: 1/8 in", (1, "12 in", "4 in"))) == ["sheet-too-small"]


def test_spare_tape_is_in_the_rolls() -> None:
    # 306.5 in and a tenth more are 337.15 in: a second roll of 320 in, which no strip would need by itself.
    body = (
        "tape = stock(kind: ribbon, roll_width: 1/4 in, roll_length: 320 in, spare: 10 %)\n"
        "piece tie from tape, height: 306 1/2 in, width: 1/4 in, loose: yes"
    )
    listed = make_materials(plan_of(body))["materials.txt"].decode()
    assert "2 rolls" in listed


@pytest.mark.parametrize(
    ("fields", "fault"),
    [
        ("trim: -1/8 in", "out-of-range"), ("trim: 3", "wrong-dimension"), ("cut_at_once: 0", "out-of-range"),
        ("cut_at_once: 1/2", "not-whole"), ("spare: -5 %", "out-of-range"), ("spare: 3", "out-of-range"),
        ("spare: 1 in", "wrong-dimension"), ("on_hand: -1", "out-of-range"), ("on_hand: 1000000000", "out-of-range"),
        ("offcuts: [3 in]", "wrong-kind"), ("also: [3 in]", "wrong-kind"), ("also: 12 in x 12 in", "wrong-kind"),
        ("offcuts: [0 in x 3 in]", "out-of-range"), ("on_hands: 3", "unknown-setting"),
    ],
)  # fmt: skip
def test_a_setting_that_makes_no_sense_is_one_message(fields: str, fault: str) -> None:
    assert refused(recipe(fields, (1, "3 in", "3 in"))) == [fault]


def test_settings_are_read_as_values() -> None:
    plan = plan_of(recipe("trim: 1/8 in, cut_at_once: 3, spare: 5 %, on_hand: 2, offcuts: [11 in x 7 in]", (1, "3 in", "3 in")) + """
off = card.trim * 2
stack = card.cut_at_once + card.on_hand
share = card.spare * 100
sizes = count(card.offcuts)
others = count(card.also)
""")
    facts = {each.path: each.value for each in plan.facts}
    assert [str(facts[name].value) for name in ("off", "stack", "share", "sizes")] == ["127/20", "5", "5", "1"]  # type: ignore[union-attr]
    assert facts["others"].value == 0  # type: ignore[union-attr]


def test_a_grain_that_turns_the_pattern_is_said_and_both_are_drawn() -> None:
    # Heads up, `up` and `free` keep the pattern; the grain of `side` runs along its width, so its head lies at a side.
    body = """
leaf = stock(kind: paper, sheet: 12 in x 18 in, decorated: face, grain: long)
piece up from leaf, height: 7 in, width: 5 in, grain: height, loose: yes
piece side from leaf, height: 7 in, width: 5 in, grain: width, loose: yes
piece free from leaf, height: 3 in, width: 10 in, loose: yes
"""
    files = make(plan_of(body))
    (stock,) = json.loads(files["cutting-plan.json"])["stocks"]
    assert (stock["upright"], stock["pattern_sideways"], stock["across_grain"]) == ("grain and pattern", ["side"], [])
    said = " ".join(files["cutting-plan.txt"].decode().split())
    assert "Cut with the pattern sideways: side." in said
    drawn = files["cutting-plan/1-1.svg"].decode()
    assert ">grain<" in drawn and ">pattern<" in drawn


@pytest.mark.parametrize(("grain", "said"), [
    ("unknown", "Nothing says how the grain of card runs, and it is taken to run along the shorter side of its sheets"),
    ("marked", "This plan is for card whose grain runs along the shorter side of its sheets. Where it runs the other "
     "way on yours, say grain: long"),
])  # fmt: skip
def test_how_a_grain_is_taken_to_run_is_said(grain: str, said: str) -> None:
    body = f"card = stock(kind: card, sheet: 9 in x 12 in, grain: {grain})\n"
    asked = body + "piece broad from card, height: 8 in, width: 11 in, grain: height, loose: yes"
    assert said in " ".join(make(plan_of(asked))["cutting-plan.txt"].decode().split())
    # Where no piece wants a grain, it does not matter.
    free = make(plan_of(asked.replace("grain: height, ", "")))["cutting-plan.txt"].decode()
    assert said not in " ".join(free.split())
    assert "It does not matter which way a sheet lies" in " ".join(free.split())


def test_an_offcut_is_proposed_with_the_stock_that_it_is_not() -> None:
    # Beside the board of 12 by 8 in an offcut of 4 by 12 in is left: three tags of either card.
    body = """
thin = stock(kind: card, sheet: 12 in x 12 in, grain: none, name: "thin card")
card = stock(kind: card, sheet: 12 in x 12 in, grain: none)
piece base from card, height: 12 in, width: 8 in, left: spine, right: fore_edge
piece flap from card, height: 11 in, width: 8 in
piece mine from card, height: 3 7/8 in, width: 4 in, loose: yes
piece tag from thin, height: 4 in, width: 3 3/4 in, loose: yes
join on: flap.back to base.face { align flap.mid_height to base.mid_height  align flap.mid_width to base.mid_width }
"""
    read = json.loads(make(plan_of(body))["cutting-plan.json"])
    uses = {use["id"]: use["instead_of"] for stock in read["stocks"] if stock["stock"] == "card"
            for pattern in stock["patterns"] for each in pattern["offcuts"] for use in each["uses"]}  # fmt: skip
    assert uses == {"mine": "", "tag": "thin card"}
    said = " ".join(make(plan_of(body))["cutting-plan.txt"].decode().split())
    assert "more tag (of this stock instead of thin card)" in said
