"""The ledger of thickness, read back from the text and from album.json."""

import json
from fractions import Fraction

from pastedown.compile import compile_design
from pastedown.outputs import to_json
from pastedown.outputs.to_bulk import make
from pastedown.plan.plan import Plan
from reference.thick_pages import ON_BOTH_FACES, ON_ONE_FACE, STAGGERED, USES, album


def plan_of(body: str) -> Plan:
    text = f"edition = 1\n{USES}\nalbum probe {{\n{body}\n}}\n"
    plan = compile_design("probe.album", text, lambda _: None).designs[0].plan
    assert plan is not None
    return plan


PROUD = album(ON_BOTH_FACES, more='shut.shuts.meant = "It is to look overfull."')


def test_every_part_is_told_blank_and_loaded() -> None:
    parts = {part.paths: part for part in plan_of(PROUD).bulk.parts}
    pages = parts["page[1]", "page[2]", "page[3]", "page[4]"]
    assert (pages.blank.inches, pages.loaded.inches) == (Fraction("0.040"), Fraction("0.398"))
    thickest = pages.places[0]
    assert thickest.right - thickest.left == thickest.head - thickest.tail
    assert sum(each.inches for _, each in thickest.things) == thickest.thickness.inches
    assert thickest.left.inches == 4


def test_what_is_meant_is_told_with_its_cures_cheapest_first() -> None:
    text = " ".join(make(plan_of(PROUD))["bulk.txt"].decode().split())
    assert "shut.shuts: 1.592 in of about 1.278 in taken. Too thick by about 0.314 in" in text
    assert "It is not met, and is meant so: It is to look overfull." in text
    cures = ["1. Let 3 of the 8 things that lie only where it is thickest lie elsewhere, such as ornament[1], ornament[2]", "2. Keep each page to about 0.319 in", "3. Make the spine 1 7/8 in"]
    assert sorted(cures, key=text.index) == cures
    # Two inches wide, from 4 to 6 in of a page of 8 in: less than two leaves an overlap, more leaves the page.
    assert "ornament[3]: that takes 3/8 in away there, and it fits if they lie 2 in further to the right." in text


def test_what_is_left_is_told_for_each() -> None:
    (room,) = [each for each in plan_of(album(STAGGERED)).bulk.rooms if each.path == "shut.shuts"]
    assert (room.left_over.inches, room.count, room.ways) == (Fraction("1.2775") - Fraction("1.092"), 4, ())
    assert room.each.inches * 4 == room.left_over.inches


SHUT = album(ON_ONE_FACE, spine="4 in", more="piece slip from kraft, height: 2 in, width: 2 in, loose: yes").replace(
    "part shut = pages_shut(", "part shut = pages_shut(air: 0 in, "
)


def test_the_whole_album_is_told_shut() -> None:
    plan = plan_of(SHUT)
    (shut,) = plan.bulk.shut
    # By hand: two wings of 0.012, and four times seam and hinge, 5 x 0.012 and 4 films of 0.004. A spine of four inches
    # leaves two boards of 0.080 less.
    blank = 2 * Fraction("0.012") + 4 * (5 * Fraction("0.012") + 4 * Fraction("0.004"))
    assert shut.blank.inches == blank
    assert (shut.least.inches, shut.apart.inches - shut.least.inches, shut.count) == (Fraction("3.84"), Fraction("0.25"), 4)
    # On each page: sheets 0.024, tapes, papers and photographs on either face, a card with two photographs, an ornament.
    page = Fraction("0.024") + 2 * (3 * Fraction("0.004") + Fraction("0.030")) + Fraction("0.040") + Fraction("0.125")
    assert shut.loaded.inches == 4 * page
    assert (shut.unplaced, shut.without_caliper) == (("slip",), ("glue",))
    text = " ".join(make(plan)["bulk.txt"].decode().split())
    assert "nothing says in what: slip. All in one place, that would be 0.012 in more." in text
    assert "is not counted: some of hinge itself, page[1], page[2], page[3], page[4]." in text


def test_a_case_judges_what_lies_in_it_unless_the_design_does() -> None:
    own = plan_of(SHUT)
    assert not [each for each in own.verdicts if each.path == "case.shuts"]
    left_out = SHUT[: SHUT.index("part shut =")]
    (room,) = plan_of(left_out).bulk.rooms
    assert (room.path, room.count, room.taken) == ("case.shuts", 4, own.bulk.shut[0].loaded)
    tight = compile_design(
        "probe.album", f"edition = 1\n{USES}\nalbum probe {{\n{left_out.replace('spine: 4 in', 'spine: 1 in')}\n}}\n",
        lambda _: None,
    ).diagnostics  # fmt: skip
    (fault,) = [each for each in tight if each.id == "requirement-fails" and "covers" in each.reason]
    assert "the fore edge gapes" in fault.reason
    # Where it is the air alone that is missing, nothing gapes: 1.092 in of things, two boards, and less than a sixteenth.
    barely = left_out.replace("spine: 4 in", "spine: 1 5/16 in")
    (fault,) = [
        each for each in
        compile_design("probe.album", f"edition = 1\n{USES}\nalbum probe {{\n{barely}\n}}\n", lambda _: None).diagnostics
        if each.id == "requirement-fails"
    ]  # fmt: skip
    assert "the covers press on it, with about 0.06 in of air left" in fault.reason and "gapes" not in fault.reason


def test_album_json_has_the_ledger() -> None:
    made = json.loads(to_json.make(plan_of(PROUD))["album.json"])
    room, parallel = sorted(made["bulk"]["rooms"], key=lambda each: each["path"] != "shut.shuts")
    assert (room["path"], room["holds"], room["meant"]["text"]) == ("shut.shuts", False, "It is to look overfull.")
    assert (parallel["path"], parallel["holds"], parallel["count"]) == ("shut.lie_parallel", False, 1)
    (verdict,) = [each for each in made["verdicts"] if each["path"] == "shut.shuts"]
    assert verdict["meant"]["text"] == "It is to look overfull."
