"""Whole sets of pieces whose sheets, offcuts and tape were worked out by hand."""

import json
from fractions import Fraction
from typing import Any

import pytest

from outputs.test_to_cutting_plan import judge
from pastedown.outputs.to_cutting_plan import make
from pastedown.plan.kits import kits
from pastedown.plan.material import PlanningEffort
from pastedown.plan.plan import Plan
from reference.through_the_compiler import made, refused


def plan_of(body: str) -> Plan:
    plan = made(body).plan
    assert plan is not None
    return plan


def pieces(*some: tuple[str, int, str, str, str], stock: str = "card", grain: str = "height") -> str:
    """Name, how many, height, width, and what else is said of it."""
    return "\n".join(
        f"piece {name}[k from 1 to {count}] from {stock}, height: {height} in, width: {width} in, grain: "
        f"{'any' if 'any' in more else grain}, loose: yes{', against_grain: warn' if 'warn' in more else ''}"
        for name, count, height, width, more in some
    )


def cut(body: str) -> dict[str, Any]:
    """The cutting plans of all stocks by name, judged."""
    plan = plan_of(body)
    read = json.loads(make(plan)["cutting-plan.json"])
    judge(plan, read)
    return {stock["stock"]: stock for stock in read["stocks"]}


def offcuts(stock: Any, id: str) -> set[tuple[str, str]]:
    """Width and height of what is left of the sheets from which nothing but this is cut."""
    return {
        (each["width"]["text"], each["height"]["text"])
        for pattern in stock["patterns"]
        if all(piece["id"] == id for run in pattern["runs"] for piece in run["pieces"])
        for each in pattern["offcuts"]
    }


def test_a_portrait_design_from_letter_card_takes_a_sheet_a_piece() -> None:
    # Ten sheets of 9 3/8 by 6 in and a strip of 8 1/2 by 11 in, whose grain this card does not offer.
    card = "card = stock(kind: card, sheet: 8 1/2 in x 11 in, grain: long)\n"
    stock = cut(card + pieces(("sleeve", 10, "9 3/8", "6", ""), ("strip", 1, "8 1/2", "11", "warn")))["card"]
    assert (stock["sheets"], stock["least_sheets"], stock["proven"]) == (11, 11, True)
    assert offcuts(stock, "sleeve") == {("2 1/2 in", "11 in"), ("6 in", "1 5/8 in")}
    assert offcuts(stock, "strip") == set()


def test_a_strip_longer_than_the_card_is_refused() -> None:
    card = "card = stock(kind: card, sheet: 8 1/2 in x 11 in, grain: long)\n"
    assert refused(card + pieces(("strip", 1, "8 1/2", "11 3/4", "warn"))) == ["sheet-too-small"]


SQUARE = "card = stock(kind: card, sheet: 12 in x 12 in, grain: marked)\n"
LANDSCAPE = (
    ("sleeve", 6, "8 3/8", "10 1/2", ""), ("strip", 1, "7 1/2", "10 1/4", ""), ("wrap", 2, "9 1/2", "11 1/2", ""),
    ("liner", 2, "7 3/4", "10 1/2", ""),
)  # fmt: skip


def test_square_paper_takes_twelve_sheets_and_eleven_across_the_grain() -> None:
    # The offcut of the strip, 12 by 4 1/2 in, would hold the narrow wrap only with its grain turned.
    kept = cut(SQUARE + pieces(*LANDSCAPE, ("narrow", 1, "9 1/2", "4 3/8", "")))["card"]
    turned = cut(SQUARE + pieces(*LANDSCAPE, ("narrow", 1, "9 1/2", "4 3/8", "any")))["card"]
    assert (kept["sheets"], kept["proven"]) == (12, True)
    assert (turned["sheets"], turned["proven"]) == (11, True)
    assert offcuts(kept, "sleeve") == {("12 in", "3 5/8 in"), ("1 1/2 in", "8 3/8 in")}


def test_six_inserts_come_free_from_the_offcuts() -> None:
    # 3 5/8 by 9 3/4 in: one from the long offcut of each of the six sheets. They are cut from a card of their own.
    other = "thin = stock(kind: card, sheet: 12 in x 12 in, grain: marked)\n"
    insert = pieces(("insert", 1, "3 5/8", "9 3/4", ""), stock="thin")
    stock = cut(SQUARE + other + pieces(*LANDSCAPE) + "\n" + insert)["card"]
    free = sum(
        use["count"] * offcut["count"] * pattern["times"]
        for pattern in stock["patterns"]
        if all(piece["id"] == "sleeve" for run in pattern["runs"] for piece in run["pieces"])
        for offcut in pattern["offcuts"]
        for use in offcut["uses"]
        if use["id"] == "insert"
    )
    assert free == 6
    # Proposed and not forced: it is cut from its own card all the same.
    assert stock["sheets"] == 11


def test_a_lesson_of_twenty_four_pieces() -> None:
    board = "board = stock(kind: board, sheet: 12 in x 24 in, grain: long)\n"
    paper = "paper = stock(kind: paper, sheet: 12 in x 12 in, grain: marked)\n"
    body = SQUARE + board + paper + "\n".join([
        pieces(("sleeve", 6, "7 1/2", "5 1/2", ""), ("guard", 1, "6 3/4", "8 3/4", "")),
        pieces(("lid", 2, "7 1/4", "5 3/4", ""), ("back", 1, "7 1/4", "1 7/8", ""), stock="board"),
        pieces(("wrap", 2, "8 3/4", "6 1/2", ""), ("narrow", 1, "8 3/4", "3 5/8", ""), ("liner", 2, "7", "5 1/2", ""),
               ("mat", 6, "6 3/4", "5 1/4", ""), ("tag", 3, "6 1/2", "4 3/4", ""), stock="paper"),
    ])  # fmt: skip
    stocks = cut(body)
    assert sum(piece.count for piece in plan_of(body).pieces) == 24
    # Two sleeves a sheet; the guard shares none with a sleeve: 7 1/2 + 6 3/4 and 5 1/2 + 8 3/4 are over 12.
    assert (stocks["card"]["sheets"], stocks["card"]["proven"]) == (4, True)
    assert (stocks["board"]["sheets"], stocks["board"]["proven"]) == (1, True)
    # Every height is over 6 in, so each sheet holds one row. Widths that share one: 6 1/2 + 5 1/2 and 6 1/2 + 5 1/4,
    # then twos of 5 1/2, 5 1/4 and 4 3/4; only 3 5/8 leaves room for one more, not for two. 14 pieces: 7 sheets.
    assert (stocks["paper"]["sheets"], stocks["paper"]["proven"]) == (7, True)


@pytest.mark.parametrize(
    ("lengths", "spare", "whole"),
    [(("60", "42 1/2", "85", "119"), "10 %", "337.15"), (("63", "22 1/2", "45", "105"), "0 %", "235.5"),
     (("174 3/4",), "0 %", "174.75")],
)  # fmt: skip
def test_tape_of_a_kit_in_one_piece(lengths: tuple[str, ...], spare: str, whole: str) -> None:
    body = f"tape = stock(kind: ribbon, roll_width: 1/4 in, roll_length: 20 yd, spare: {spare})\n" + "\n".join(
        f"piece run{number} from tape, height: {length} in, width: 1/4 in, loose: yes"
        for number, length in enumerate(lengths)
    )
    (spool,) = [each.in_one for each in kits(plan_of(body), 3, PlanningEffort()).items if each.in_one is not None]
    assert spool.inches == Fraction(whole)


def test_what_is_optional_is_found_by_its_joins() -> None:
    body = """
card = stock(kind: card, sheet: 12 in x 12 in, grain: marked)
sticky = stock(kind: tape, roll_width: 1/4 in)
print = stock(kind: print, height: 4 in, width: 6 in)
piece base from card, height: 9 in, width: 9 in
piece mount from card, height: 5 in, width: 7 in
piece picture from print, height: 4 in, width: 6 in
piece slip from card, height: 2 in, width: 3 in, loose: yes
join mounting: mount.back to base.face, by: sticky { align mount.mid_width to base.mid_width  align mount.mid_height to base.mid_height }
join showing: picture.back to mount.face, by: sticky { align picture.mid_width to mount.mid_width  align picture.mid_height to mount.mid_height }
"""
    plan = made(body).plan
    assert plan is not None
    assert {piece.id for piece in plan.pieces if piece.optional} == {"mount", "slip"}
