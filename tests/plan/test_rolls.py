"""Rolls: narrow pieces side by side, what is on hand first, and how few could do, all worked out by hand."""

import pytest

from pastedown.outputs.to_materials import make as make_materials
from pastedown.plan.kits import kits
from pastedown.plan.plan import Plan
from pastedown.plan.roll_rows import roll_rows
from pastedown.plan.to_buy import ToBuy, to_buy
from pastedown.quantity.quantity import mm
from plan.test_kits import QUICK, plan_of

NARROW = """
ruler = millimetres to 1
cloth = stock(kind: tape, roll_width: 50 mm, roll_length: 1 m)
piece wide[k from 1 to 2] from cloth, height: 900 mm, width: 25 mm, loose: yes
piece short[k from 1 to 4] from cloth, height: 450 mm, width: 25 mm, loose: yes
"""
BAND = """
band = stock(kind: ribbon, roll_width: 10 mm, roll_length: 1 m, pack: 2{})
piece tie[k from 1 to 5] from band, height: 400 mm, width: {}, loose: yes
"""


def need_of(plan: Plan, stock: str) -> ToBuy:
    need = to_buy({each.stock: each for each in plan.materials}[stock], plan.pieces)
    assert need is not None
    return need


def told(plan: Plan) -> str:
    return " ".join(make_materials(plan)["materials.txt"].decode().split())


@pytest.mark.parametrize(("copies", "rolls"), [(1, 2), (2, 4)])
def test_pieces_half_as_wide_as_the_roll_lie_two_side_by_side(copies: int, rolls: int) -> None:
    # Lengths of 900, 450 and 450 mm a kit; what lies 900 mm along a roll lies over its middle, two of them on one.
    plan = kits(plan_of(NARROW), copies, QUICK).all
    need = need_of(plan, "cloth")
    assert (need.count, need.least) == (rolls, rolls)
    assert f"{rolls} rolls, proven fewest." in told(plan)
    assert "Pieces narrower than the roll are cut side by side, the longest first." in told(plan)


def test_a_better_mix_of_several_kits_is_not_ruled_out() -> None:
    # A kit takes 600 + 600 mm of 30 mm width beside 600 + 600 mm of 20 mm: two rolls, though by area 1.2 would do; no
    # two of its pieces of 30 mm lie side by side, and each is longer than half a roll.
    rows = roll_rows([(mm(600), mm(30)), (mm(600), mm(20))] * 2, "tape", mm(50), mm(1000))
    assert (rows.lengths, rows.least, rows.rolls) == ((mm(600), mm(600)), mm(1200), 2)
    # Three of 20 mm behind one another fill the lane beside one of 30 mm.
    lanes = roll_rows([(mm(900), mm(30)), *[(mm(300), mm(20))] * 3], "tape", mm(50), mm(1000))
    assert lanes.lengths == (mm(900),)
    # Of 3 by 9 mm from 10 mm, three lie side by side in 9 mm; across, three take 9 mm too.
    assert roll_rows([(mm(3), mm(9))] * 3, "tape", mm(10), None).lengths == (mm(3),) * 3
    assert roll_rows([(mm(9), mm(4))] * 2, "tape", mm(10), None).lengths == (mm(4),) * 2
    assert roll_rows([(mm(9), mm(3))] * 2, "tape", mm(20), None).lengths == (mm(3),)


def test_rolls_are_bounded_by_the_pieces_of_several_kits_and_not_by_their_loads() -> None:
    # A kit of three lengths of 400 mm takes loads of 800 and 400 mm. Of the twelve lengths of four kits, two go on a
    # roll; by length alone five would do.
    body = """
    tape = stock(kind: tape, roll_width: 10 mm, roll_length: 1 m)
    piece tie[k from 1 to 3] from tape, height: 400 mm, width: 10 mm, loose: yes
    """
    need = need_of(kits(plan_of(body), 4, QUICK).all, "tape")
    assert (need.count, need.least) == (6, 6)


@pytest.mark.parametrize(("fields", "expected"), [
    # Two of 400 mm a roll: three rolls for five.
    ("", (3, 3, 0, 0)),
    (", on_hand: 2", (1, 1, 2, 0)),
    (", on_hand: 7", (0, 0, 3, 0)),
    # 900 mm hold two more: two rolls for the other three.
    (", offcuts: [900 mm x 10 mm]", (2, 2, 0, 1)),
    # Two lengths each: what is left is one roll, which is on hand.
    (", on_hand: 1, offcuts: [900 mm x 10 mm, 10 mm x 800 mm]", (0, 0, 1, 2)),
    # Neither is as wide as the roll or long enough.
    (", offcuts: [900 mm x 15 mm, 390 mm x 10 mm]", (3, 2, 0, 0)),
    # 2.2 m with the spare, of which the offcut is the rest.
    (", spare: 10 %, offcuts: [390 mm x 10 mm]", (3, 2, 0, 1)),
])  # fmt: skip
def test_rolls_and_lengths_on_hand_are_cut_first(fields: str, expected: tuple[int, ...]) -> None:
    need = need_of(plan_of(BAND.format(fields, "10 mm")), "band")
    assert (need.count, need.least, need.on_hand, need.offcuts) == expected


def test_ribbon_is_not_cut_lengthwise() -> None:
    need = need_of(plan_of(BAND.format("", "5 mm")), "band")
    assert (need.count, need.least) == (3, 3)


def test_what_is_on_hand_is_told() -> None:
    plan = plan_of(BAND.format(", on_hand: 1, offcuts: [900 mm x 10 mm]", "10 mm"))
    shown = told(plan)
    assert "1 roll in 1 pack of 2, proven fewest. 1 roll and 1 offcut on hand are cut first." in shown
    # Two of the pack, one that is there and the offcut are 3.9 m; five times 400 mm are taken.
    assert need_of(plan, "band").left == mm(1900)


def test_single_things_on_hand_are_used_first() -> None:
    plan = plan_of("""
    disc = stock(kind: magnet, height: 10 mm, width: 10 mm, pack: 12, on_hand: 3, spare: 50 %)
    piece spot[k from 1 to 4] from disc, height: 10 mm, width: 10 mm, loose: yes
    """)
    need = need_of(plan, "disc")
    assert (need.count, need.packs, need.on_hand) == (3, 1, 3)
    assert "3 on hand are used first. Left over: 9." in told(plan)
