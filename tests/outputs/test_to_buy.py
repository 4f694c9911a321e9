"""Whole sheets, rolls and packs, with counts worked out by hand."""

from attrs import evolve

from outputs.sample_plan import materials, rectangle, sample_plan
from pastedown.outputs.to_materials import make
from pastedown.plan.material import Material
from pastedown.plan.plan import CutPiece
from pastedown.plan.rolls import Rolls, rolls_for
from pastedown.plan.to_buy import to_buy
from pastedown.quantity.quantity import Length, inches, money, number

CARD = evolve(materials()[0], sheet=(inches(12), inches(12)), grain="marked", pack=10, price=money(6, "USD"))
TAPE = evolve(materials()[2], roll_length=inches(180), strips=(inches(100),) * 3, amount=inches(300))


def piece(id: str, count: int, height: Length, width: Length, grain: str = "height") -> CutPiece:
    return evolve(
        sample_plan().pieces[0], id=id, count=count, height=height, width=width, grain=grain,
        stock="kraft card", stock_kind="card", outline=rectangle(height, width),
    )  # fmt: skip


def text(*some: Material, pieces: tuple[CutPiece, ...] = ()) -> str:
    return make(evolve(sample_plan(), materials=some, pieces=pieces))["materials.txt"].decode()


def test_pieces_larger_than_half_a_sheet_take_one_each() -> None:
    # Both kinds are over 6 in each way, so no two of the 18 share a sheet of 12 in; the strip finds no room beside
    # them either. By area ten sheets would do.
    pieces = (
        piece("page", 12, inches("15/2"), inches(10)),
        piece("tag", 6, inches("111/16"), inches("151/16")),
        piece("strip", 1, inches("15/2"), inches("39/4")),
    )
    need = to_buy(CARD, pieces)
    assert need is not None
    assert (need.count, need.least, need.packs) == (19, 19, 2)
    shown = text(CARD, pieces=pieces)
    assert "19 sheets in 2 packs of 10, proven fewest" in " ".join(shown.split())
    assert "Priced packs cost 12.00 USD." in shown


def test_grain_keeps_a_piece_from_turning() -> None:
    # 10 in by 5 in and 5 in by 10 in share a sheet of 12 in only if one of them turns.
    upright = piece("one", 1, inches(10), inches(5))
    lying = piece("other", 1, inches(5), inches(10))
    free = (upright, evolve(lying, grain="any"))
    kept, turned = to_buy(CARD, (upright, lying)), to_buy(CARD, free)
    assert kept is not None and turned is not None
    assert (kept.count, turned.count) == (2, 1)


def test_a_strip_is_not_joined_from_the_ends_of_two_rolls() -> None:
    # No two strips of more than half a roll share one.
    assert rolls_for(TAPE) == Rolls(3, 3)
    assert rolls_for(evolve(TAPE, strips=(inches(90),) * 3, amount=inches(270))) == Rolls(2, 2)


def test_estimated_rolls_are_a_floor_and_are_in_the_total() -> None:
    tape = evolve(TAPE, zones=3, price=money(3, "EUR"))
    shown = text(tape, evolve(materials()[1], price=money(2, "USD"), amount=number(4)))
    assert "at least 3 rolls" in shown
    assert "Priced packs cost at least 9.00 EUR and 2.00 USD." in shown


def test_what_has_no_price_is_named() -> None:
    shown = text(TAPE, evolve(materials()[1], price=money(2, "USD")))
    assert "Not in it, for want of a price: narrow tape." in " ".join(shown.split())


def test_a_large_area_keeps_its_unit_in_one_line() -> None:
    large = evolve(CARD, amount=inches("5657125/8") * inches(1), sheets_at_least=4911)
    assert any("sq in " in line.replace("\u00a0", " ") for line in text(large).splitlines() if "707140.62" in line)
