"""What each step tells, and what is told once."""

from attrs import evolve

from pastedown.compile import compile_design
from pastedown.geometry.model import Alignment, Crease, Join, Model, Side
from pastedown.geometry.piece import Cut
from pastedown.plan.from_geometry import plan_from
from pastedown.plan.plan import BuildStep, Plan, PlanText
from pastedown.quantity.quantity import NO_LENGTH, Quantity, inches, mm
from plan.small_models import (
    GREY,
    KRAFT,
    PASTE,
    SNAPSHOT,
    STICKY,
    join,
    model,
    peaked_strip,
    piece,
    run,
    small_book,
    somewhere,
    step,
    step_called,
    titles,
    two_sheets,
    written,
)


def planned(design: Model) -> Plan:
    plan, faults = plan_from(design)
    assert faults == ()
    return plan


def text_of(plan: Plan, title: str) -> str:
    return written(step_called(plan, title).text)


def glued(*lines: Alignment, what: str = "mat.sheet", to: str = "tray.side") -> Model:
    """One sheet stuck onto another along these lines."""
    one, other = piece(what, mm(30), mm(30)), piece(to, mm(60), mm(60))
    stuck = join("stick", [(what, "", "back")], [(to, "", "face")], by=PASTE)
    return model([one, other], [evolve(stuck, alignments=lines)])


def test_cutting_tells_stock_number_size_and_grain() -> None:
    assert text_of(planned(small_book(4)), "Cut page front sheet") == (
        "Cut 4 pieces for page front sheet from kraft card, each 6 1/8 in from head to tail and 7 1/2 in from spine to "
        "fore edge. The grain runs from head to tail. Pencil its name on the back of each, at the head."
    )


def test_cutting_off_a_roll_tells_only_the_length() -> None:
    plan = planned(model([piece("case.band", mm(254), inches("1/4"), stock=STICKY)]))
    assert text_of(plan, "Cut case band") == "Cut 1 length of double-sided tape for case band, 10 in long."


def test_cutting_a_shape_tells_its_measures() -> None:
    sheet = piece("mat.sheet", inches(6), inches(6))
    sizes = (("height", inches(3)), ("width", inches(4)), ("from_left", inches(1)), ("from_tail", inches(2)))
    plan = planned(model([evolve(sheet, cuts=(Cut("window", "photo_window", (), sizes),))]))
    assert (
        "Then cut what the template shows: window photo window, 3 in high and 4 in wide, "
        "1 in from the spine (left edge) and 2 in from the tail."
    ) in text_of(plan, "Cut mat sheet")


def test_the_scoring_step_lists_every_mark_of_the_ladder() -> None:
    assert text_of(planned(small_book(4)), "Score hinge strip") == (
        "Lay the hinge strip with its face up and its front end against the left stop of the scoring board. "
        "Score 4 lines right across it, from its face, at 3 1/4 in, 4 3/4 in, 6 1/4 in and 7 3/4 in. "
        "Turn it over, its front end still against the left stop. "
        "Score 8 lines right across it, from its back, at 2 3/4 in, 3 3/4 in, 4 1/4 in, 5 1/4 in, 5 3/4 in, 6 3/4 in, "
        "7 1/4 in and 8 1/4 in. "
        "From the last line to its back end there must be 2 3/4 in."
    )


def test_the_face_is_told_in_the_makers_words() -> None:
    plan = planned(model([evolve(peaked_strip(1), face_up="decorated side")]))
    assert "with its face (decorated side) up" in text_of(plan, "Score hinge strip")


def test_folding_tells_valleys_and_mountains_apart() -> None:
    assert text_of(planned(model([peaked_strip(1)])), "Fold hinge strip") == (
        "Hold the hinge strip with its face towards you. Fold towards you (valley, face inside) at 2 3/4 in and "
        "3 3/4 in from its front end. Fold away from you (mountain, face outside) at 3 1/4 in from its front end. "
        "Press each fold, then let it open again."
    )


def test_a_join_tells_faces_lines_adhesive_and_whether_it_moves() -> None:
    text = text_of(planned(small_book(4)), "Join page rear sheet to page front sheet")
    assert text == (
        "Lay 1 strip of double-sided tape, 7 1/2 in long from side to side, where the two will meet. "
        "Stick the face of the body panel of the rear sheet to the back of the flap panel of the front sheet with "
        "double-sided tape. Bring the tail of the body of the rear sheet to the tail fold of the front sheet. "
        "This join moves in use. Repeat for all 4."
    )


def test_a_join_of_several_faces_tells_them_in_pairs_and_in_turn() -> None:
    text = text_of(planned(small_book(2)), "Join page to hinge strip")
    assert (
        "Join page 1 to the hinge: stick the back of the body panel of the front sheet to the face of panel rise 1 of the "
        "strip and the back of the body panel of the rear sheet to the face of panel fall 1 of the strip with "
    ) in text
    assert "Set the spine of the front sheet inside front foot 1 of the strip by 1/16 in" in text
    assert text.endswith("Repeat for all 2, taking the numbers in turn.")
    assert text.startswith("Lay 2 strips of double-sided tape, each ")
    assert " long from head to tail, one for each of the 2 places where they will meet. Join " in text


def test_a_static_join_names_its_glue() -> None:
    text = text_of(planned(glued()), "Join mat sheet to tray side")
    assert text == (
        "Join the mat to the tray: stick the back of the sheet to the face of the side with wheat paste. "
        "This join never moves."
    )


def test_pieces_of_one_name_in_both_parts_are_told_with_their_parts() -> None:
    """"The sheet" could be either."""
    pieces = [piece("mat.sheet", mm(60), mm(60)), piece("tray.sheet", mm(90), mm(90))]
    line = Alignment("mat.sheet.head", "tray.sheet.head", NO_LENGTH, "height")
    faces = [("mat.sheet", "", "back")], [("tray.sheet", "", "face")]
    stuck = evolve(join("stuck", *faces, by=PASTE), alignments=(line,))
    assert written(planned(model(pieces, [stuck])).steps[-1].text).startswith(
        "Join the mat to the tray: stick the back of the sheet of the mat to the face of the sheet of the tray with wheat "
        "paste. Bring the head of the sheet of the mat to the head of the sheet of the tray."
    )


def test_what_lies_loose_in_another_part_is_laid_into_that_part() -> None:
    pieces = [evolve(piece("note.card", mm(60), mm(60)), loose=True), piece("tray.side", mm(90), mm(90))]
    laid = evolve(join("laid", [("note.card", "", "back")], [("tray.side", "", "face")], by=None), adhesive="nothing")
    assert written(planned(model(pieces, [laid])).steps[-1].text).startswith(
        "Lay the note into the tray, the back of the card to the face of the side. Nothing holds it there."
    )


def test_middles_are_centred_and_a_line_on_itself_goes_without_saying() -> None:
    middle = Alignment("mat.sheet.mid_height", "tray.side.mid_height", NO_LENGTH, "height")
    same = Alignment("tray.side.tail", "tray.side.tail", NO_LENGTH, "height")
    out = Alignment("mat.sheet.spine", "tray.side.spine", mm("-25.4"), "width")
    assert text_of(planned(glued(out, same, middle)), "Join mat sheet to tray side").endswith(
        "with wheat paste. Centre one on the other from head to tail. "
        "Let the spine of the sheet stand out beyond the spine of the side by 1 in. "
        "This join never moves."
    )


def test_the_makers_own_words_stand_with_the_join() -> None:
    design = glued()
    doc, tip, caution = ("Rub it down for ", mm("25.4"), "."), ("Wait.",), ("Mind the edge.",)
    told = planned(evolve(design, joins=(evolve(design.joins[0], doc=doc, tip=tip, caution=caution),)))
    found = step_called(told, "Join mat sheet to tray side")
    assert written(found.text).endswith("Rub it down for 1 in.")
    assert mm("25.4") in found.text
    assert (found.tips, found.cautions[-1]) == ((tip,), caution)


def test_a_close_brings_two_faces_together() -> None:
    assert text_of(planned(small_book(2)), "Stick hinge strip together").startswith(
        "Lay 1 strip of double-sided tape, 5 5/8 in long from head to tail, where the two will meet. "
        "Bring the back of panel rise 1 of the strip and the back of panel fall 1 of the strip together and hold them "
        "with double-sided tape. Bring front foot 1 of the strip to back foot 1 of the strip."
    )


def test_the_sides_of_a_board_are_called_as_its_maker_calls_them() -> None:
    lid = evolve(piece("lid.board", inches(7), inches(5), stock=GREY), face_up="outside")
    plan = planned(model([lid, piece("liner.sheet", inches(6), inches(4))], [
        join("lined", [("liner.sheet", "", "back")], [("lid.board", "", "back")], by=PASTE)]))  # fmt: skip
    assert "Join the liner to the lid: stick the back of the sheet to the inside of the board" in written(plan.steps[-1].text)


def test_a_crease_in_place_tells_over_which_edge() -> None:
    strip, side = peaked_strip(1), piece("tray.side", mm(60), mm(60))
    laid = join("lay", [(strip.path, "", "back")], [(side.path, "", "face")], by=PASTE)
    on = Side("front_wing", ((strip.path, "front_wing", "face"),))
    crease = Crease("turn", "", "design", "turn", on, "tray.side.spine", (), (), (), (), somewhere())
    plan = planned(evolve(model([strip, side], [laid]), creases=(crease,)))
    assert text_of(plan, "Crease hinge strip").startswith(
        "Crease the front wing panel of the strip of the hinge over the spine of the side of the tray, where it lies."
    )
    assert [each.kind for each in plan.steps][-2:] == ["join", "crease"]


def test_a_measurement_to_check_carries_its_reading() -> None:
    read = step("hinge.read_width", "Measure across.", reads=inches(7), most=inches("57/8"))
    found = step_called(planned(model([peaked_strip(1)], steps=[read])), "Read the width of the hinge")
    assert found.kind == "check"
    assert found.reading is not None
    assert (found.reading.nominal, found.reading.least, found.reading.most) == (inches(7), None, inches("57/8"))


def test_like_work_is_one_step_and_other_work_is_named() -> None:
    pieces, joins = [], []
    for number in (1, 2, 3, 4):
        sheets, seams = two_sheets(f"page[{number}]", inches(6 if number == 3 else 7))
        pieces += sheets
        joins += seams
    plan = planned(model(pieces, joins))
    most = step_called(plan, "Score page front sheet (pages 1, 2 and 4)")
    other = step_called(plan, "Score page front sheet (page 3)")
    assert (most.times, other.times) == (3, 1)
    assert written(most.text).endswith("Do this for pages 1, 2 and 4.")
    assert written(other.text).endswith("Do this for page 3.")
    assert text_of(plan, "Cut page front sheet (page 3)").endswith("It is for page 3.")


def test_sheets_of_several_sizes_are_joined_alike() -> None:
    pieces, joins = [], []
    for number in (1, 2, 3):
        sheets, seams = two_sheets(f"page[{number}]", inches(6 if number == 2 else 7))
        pieces += sheets
        joins += seams
    found = step_called(planned(model(pieces, joins)), "Join page rear sheet to page front sheet")
    assert found.times == 3
    assert found.pieces == ("page-front-sheet", "page-rear-sheet", "page-front-sheet-2", "page-rear-sheet-2")
    assert written(found.text).startswith(
        "Lay 1 strip of double-sided tape, 7 in long from side to side, where the two will meet, for pages 1 and 3. "
        "Lay 1 strip of double-sided tape, 6 in long from side to side, where the two will meet, for page 2. Stick "
    )


def test_a_piece_named_like_its_part_is_named_once() -> None:
    edge = Alignment("front_lid.lid.tail", "tray.side.tail", NO_LENGTH, "height")
    assert text_of(planned(glued(edge, what="front_lid.lid")), "Join front lid to tray side").startswith(
        "Join the front lid to the tray: stick the back of the lid to the face of the side with wheat paste. "
        "Bring the tail of the lid to the tail of the side."
    )


def test_joins_that_differ_in_one_line_are_other_work() -> None:
    design = small_book(2)
    first, second = (Alignment("hinge.strip.tail", "page.tail", mm(inside), "height") for inside in (0, 1))
    extra = {"mount[1]": first, "mount[2]": second}
    joins = [
        evolve(each, alignments=(*each.alignments, extra[each.path])) if each.path in extra else each
        for each in design.joins
    ]
    plan = planned(evolve(design, joins=tuple(joins)))
    assert [each.refers for each in plan.steps][-2:] == [("mount[1]",), ("mount[2]",)]


def test_a_step_refers_to_all_it_does_and_to_the_pieces_in_it() -> None:
    found = step_called(planned(small_book(2)), "Join page to hinge strip")
    assert found.refers == ("mount[1]", "mount[2]")
    assert found.pieces == ("page-front-sheet", "page-rear-sheet", "hinge-strip")


def test_every_piece_is_cut_once_and_steps_are_numbered() -> None:
    design = small_book(5)
    plan = planned(design)
    cut = [path for each in plan.steps if each.kind == "cut" for path in each.refers]
    assert sorted(cut) == sorted(piece.path for piece in design.pieces)
    assert [each.number for each in plan.steps] == list(range(1, len(plan.steps) + 1))


def test_what_is_bought_in_its_size_is_not_cut_but_a_trimmed_one_is() -> None:
    whole = piece("page.photo", inches(4), inches(3), stock=SNAPSHOT)
    trimmed = piece("page.trimmed", inches(2), inches(3), stock=SNAPSHOT)
    assert [each.refers for each in planned(model([whole, trimmed])).steps] == [("page.trimmed",)]


def test_cautions_for_the_blade_are_given_once_at_the_first_cut() -> None:
    plan = planned(small_book(2))
    with_blade = [each for each in plan.steps if any("away from your hand" in written(text) for text in each.cautions)]
    assert with_blade == [plan.steps[0]]
    caution = " ".join(written(text) for text in plan.steps[0].cautions)
    for words in ("metal rule", "fresh blade", "cap the knife", "guillotine", "one person", "instructions", "rules"):
        assert words in caution


def test_a_tip_of_like_work_is_given_once_at_the_first_step_of_it() -> None:
    text = """edition = 1
use taped_case from covers
album probe {
  ruler = inches to 1/16
  grey = stock(kind: board, sheet: 12 in x 24 in, caliper: 80 pt, grain: long)
  cloth = stock(kind: tape, roll_width: 1 1/2 in, caliper: 10 pt)
  part case = taped_case(board: grey, tape: cloth, height: 6 in, width: 5 in, spine: 2 in, joint: 1/8 in)
}
"""
    plan = compile_design("probe.album", text, lambda _: None).designs[0].plan
    assert plan is not None
    for words, names in (("Turn the end over", ("head_in", "tail_in")), ("Set the gap", ("_hinge",))):
        like = [each for each in plan.steps if each.refers[0].endswith(names)]
        assert len(like) == 2 * len(names)
        told = [any(words in written(tip) for tip in each.tips) for each in like]
        assert told == [True] + [False] * (len(like) - 1)


def test_a_stocks_own_caution_is_given_once_where_it_is_first_used() -> None:
    board = evolve(GREY, caution="Heavy: cut it on the floor.")
    pieces = [piece(f"tray.side_{k}", mm(60 - k), mm(60), stock=board) for k in (1, 2)]
    pieces.append(piece("a.sheet", mm(60), mm(60), stock=KRAFT))
    stuck = join("stick", [("a.sheet", "", "back")], [("tray.side_1", "", "face")], by=PASTE)
    plan = planned(model(pieces, [stuck]))

    def where(words: str) -> list[int]:
        return [each.number for each in plan.steps if any(words in written(text) for text in each.cautions)]

    assert where("Heavy") == [1]
    assert where("decorated side") == [4]
    assert where("Read the label of the glue") == []


def test_a_stock_without_a_caution_of_its_own_has_that_of_its_kind() -> None:
    pieces = [piece(f"tray.side_{k}", mm(60 - k), mm(60), stock=GREY) for k in (1, 2)]
    stuck = join("stick", [("tray.side_1", "", "back")], [("tray.side_2", "", "face")], by=evolve(PASTE, caution=""))
    last = planned(model(pieces, [stuck])).steps[-1]
    assert [written(text).startswith("Read the label of the glue") for text in last.cautions] == [True]


def test_a_step_is_headed_by_its_part_and_name_or_by_the_name_that_says_the_part() -> None:
    pieces = [piece("hinge.strip", mm(60), mm(60)), piece("case.board", mm(60), mm(60), stock=GREY)]
    reads = step("hinge.read_width", "Measure.", reads=mm(60))
    others = [step(path, "Do it.") for path in ("case.read_case", "hinge.read_aloud")]
    plan = planned(model(pieces, steps=[reads, *others]))
    assert titles(plan)[-3:] == ["Read the width of the hinge", "Read case", "Read aloud: hinge"]


def test_no_measure_stands_in_a_text_but_as_a_value() -> None:
    """Without numbered names and without the values, no digit is left in what a step tells."""
    fold = run("height", ("tail", "head"), [("flap", mm(10)), ("turn", "mountain"), ("body", mm(50))])
    edge = Alignment("mat.sheet.spine", "tray.side.spine", mm(3), "width")
    design = glued(edge)
    pieces = (*design.pieces, piece("lid.sheet", mm(60), mm(40), fold))
    for told in _texts(planned(evolve(design, pieces=pieces)).steps):
        words = "".join(part for part in told if not isinstance(part, Quantity))
        assert not any(letter.isdigit() for letter in words), words


def _texts(steps: tuple[BuildStep, ...]) -> list[PlanText]:
    return [text for each in steps for text in (each.title, each.text, *each.tips, *each.cautions)]


def test_an_adhesive_that_was_not_named_is_told_by_its_kind() -> None:
    design = glued()
    unnamed: Join = evolve(design.joins[0], by=None)
    plan = planned(evolve(design, joins=(unnamed,)))
    assert " with glue. " in text_of(plan, "Join mat sheet to tray side")
    assert (plan.bonds[0].stock, plan.bonds[0].adhesive) == ("", "glue")


WRAPPED = """
edition = 1
use wrapped_board from covers
use chipboard, book_cloth, glue from stocks
album boards {
  grey = chipboard(sheet: 12 in x 24 in, caliper: 80 pt, grain: long)
  cloth = book_cloth(sheet: 12 in x 24 in, caliper: 12 pt)
  static_adhesive = glue
  part front = wrapped_board(board: grey, paper: cloth, height: 6 in, width: 5 in)
}
"""


def test_different_work_on_the_same_pieces_has_titles_of_its_own() -> None:
    (design,) = compile_design("boards.album", WRAPPED, lambda _: None).designs
    assert design.plan is not None
    titles = [written(step.title) for step in design.plan.steps]
    assert len(set(titles)) == len(titles)
    assert [title for title in titles if " turn in of " in title] == [
        f"Stick {side} turn in of front wrap to front core" for side in ("head", "tail", "fore edge", "spine")
    ]
    assert {"Score front wrap along its height", "Score front wrap along its width"} <= {*titles}
