from collections.abc import Sequence
from pathlib import Path

import pytest
from attrs import evolve

from pastedown.compile import compile_design
from pastedown.geometry.model import Join
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.from_geometry import plan_from
from pastedown.plan.material import Material
from pastedown.quantity.dimension import AREA, MASS
from pastedown.quantity.quantity import Quantity, inches, mm, number
from plan.small_models import GREY, KRAFT, PASTE, SNAPSHOT, STICKY, join, model, piece, small_book, written

EXAMPLES = Path(__file__).parents[2] / "examples"
# What is taped by itself or where it is mounted, and says how much that takes.
_TAPED = ("pocket_page", "folded_pocket_page", "concertina_hinge", "side_flap")


def materials(*pieces: FlatPiece, joins: Sequence[Join] = ()) -> dict[str, Material]:
    plan, _ = plan_from(model(pieces, joins))
    return {material.stock: material for material in plan.materials}


def test_sheets_are_a_floor_from_the_area_of_the_blanks() -> None:
    kraft = materials(*(piece(f"a[{k}].s", inches(9), inches(8)) for k in (1, 2)), piece("b.s", inches(1), mm(1)))
    material = kraft["kraft card"]
    assert material.amount == inches(9) * inches(8) * 2 + inches(1) * mm(1)
    assert material.amount.dimension == AREA
    assert (material.pieces, material.sheets_at_least) == (3, 2)
    assert material.size == (inches(12), " x ", inches(12))


def test_just_one_sheet_is_one_sheet() -> None:
    assert materials(piece("a.s", inches(12), inches(12)))["kraft card"].sheets_at_least == 1


def test_tape_lies_along_each_bonded_zone() -> None:
    """Four pages: two seams of 7 1/2 in each, one shut peak and two faces of a peak, each 5 5/8 in tall."""
    plan, _ = plan_from(small_book(4))
    tape = next(material for material in plan.materials if material.kind == "tape")
    assert tape.amount == inches("15/2") * 8 + inches("45/8") * 4 + inches("45/8") * 8
    assert tape.pieces == 0
    assert tape.sheets_at_least is None
    assert written(tape.use) == "20 bonded zones in 20 rows"


def test_the_shorter_of_two_sides_is_taped() -> None:
    narrow, tall = piece("a.x", mm(100), mm(20)), piece("b.y", mm(160), mm(20))
    tape = materials(narrow, tall, joins=[join("stick", [("a.x", "", "back")], [("b.y", "", "face")])])
    assert tape["double-sided tape"].amount == mm(100)


def test_a_wide_zone_takes_a_row_of_tape_for_each_half_inch() -> None:
    wide = [piece(path, inches(6), inches("17/8")) for path in ("a.x", "b.y")]
    for moving, tape, rows in ((True, "1/4", 5), (False, "1/4", 5), (False, "3/4", 3)):
        by = evolve(STICKY, roll_width=inches(tape))
        stuck = evolve(join("stick", [("a.x", "", "back")], [("b.y", "", "face")], by=by), moving=moving)
        assert materials(*wide, joins=[stuck])["double-sided tape"].strips == (inches(6),) * rows


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.album")), ids=lambda path: path.stem)
def test_the_library_and_the_materials_tell_one_length_of_tape(path: Path) -> None:
    told = compile_design(path.name, path.read_text(), lambda name: (EXAMPLES / name).read_text())
    for design in told.designs:
        assert design.plan is not None
        kinds = {part.path for part in design.plan.parts if part.component in _TAPED}
        asked = {f"{each}.tape_length" for each in kinds}
        facts = [fact.value for fact in design.plan.facts if fact.path in asked]
        amounts = {material.stock: material.amount for material in design.plan.materials}
        assert sum(fact.value for fact in facts if isinstance(fact, Quantity)) == amounts["sticky"].value


def test_glue_covers_the_bonded_area() -> None:
    one, other = piece("a.x", mm(100), mm(20)), piece("b.y", mm(60), mm(50))
    glued = materials(one, other, joins=[join("stick", [("a.x", "", "back")], [("b.y", "", "face")], by=PASTE)])
    assert glued["wheat paste"].amount == mm(60) * mm(20)
    assert written(glued["wheat paste"].use) == "1 bonded zone"


def test_a_piece_cut_off_the_roll_takes_its_length_whichever_way_it_lies() -> None:
    upright = piece("a.x", mm(300), inches("1/4"), stock=STICKY)
    level = piece("a.y", inches("1/4"), mm(200), stock=STICKY)
    assert materials(upright, level)["double-sided tape"].amount == mm(500)


def test_tape_of_unknown_width_is_told_by_the_longer_side() -> None:
    tape = evolve(STICKY, roll_width=None)
    assert materials(piece("a.x", mm(300), mm(12), stock=tape))["double-sided tape"].amount == mm(300)


def test_things_bought_as_they_are_are_counted() -> None:
    photographs = [piece(f"page[{k}].photo", inches(3), inches(4), stock=SNAPSHOT) for k in (1, 2, 3)]
    snapshot = materials(*photographs)["snapshot"]
    assert snapshot.amount == number(3)
    assert snapshot.sheets_at_least is None
    assert snapshot.size == (inches(3), " high, ", inches(4), " wide")


def test_the_weight_of_cut_pieces_is_area_times_grammage() -> None:
    kraft = materials(piece("a.x", mm(1000), mm(500)))["kraft card"]
    assert kraft.mass == Quantity(number(108).value, MASS)
    assert kraft.weight == KRAFT.weight


def test_an_unknown_weight_is_not_guessed() -> None:
    assert materials(piece("a.x", mm(100), mm(50), stock=GREY))["grey board"].mass is None


def test_what_is_not_used_is_not_bought_and_the_rest_is_sorted() -> None:
    used = materials(piece("z.x", mm(9), mm(9)), piece("a.x", mm(9), mm(9), stock=GREY))
    assert list(used) == ["grey board", "kraft card"]


def test_a_sheet_of_no_size_is_no_crash() -> None:
    nothing = evolve(KRAFT, sheet=(mm(0), mm(0)))
    assert materials(piece("a.x", mm(9), mm(9), stock=nothing))["kraft card"].sheets_at_least is None
