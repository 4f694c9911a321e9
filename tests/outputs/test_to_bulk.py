"""The ledger of thickness, read back from the text and from album.json."""

import json
from fractions import Fraction

from pastedown.compile import compile_design
from pastedown.outputs import to_json
from pastedown.outputs.to_bulk import make
from pastedown.plan.plan import Plan
from reference.thick_pages import ON_BOTH_FACES, STAGGERED, USES, album


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
    cures = ["1. Let 3 of the 8 things that lie only where it is thickest lie elsewhere, such as ornament[1], ornament[2]", "2. Stagger", "3. Keep each page to about 0.319 in", "4. Make the spine 1 7/8 in"]
    assert sorted(cures, key=text.index) == cures


def test_what_is_left_is_told_for_each() -> None:
    (room,) = [each for each in plan_of(album(STAGGERED)).bulk.rooms if each.path == "shut.shuts"]
    assert (room.left_over.inches, room.count, room.ways) == (Fraction("1.2775") - Fraction("1.092"), 4, ())
    assert room.each.inches * 4 == room.left_over.inches


def test_album_json_has_the_ledger() -> None:
    made = json.loads(to_json.make(plan_of(PROUD))["album.json"])
    room, parallel = sorted(made["bulk"]["rooms"], key=lambda each: -len(each["ways"]))
    assert (room["path"], room["holds"], room["meant"]["text"]) == ("shut.shuts", False, "It is to look overfull.")
    assert (parallel["path"], parallel["holds"], parallel["count"]) == ("shut.lie_parallel", False, 1)
    (verdict,) = [each for each in made["verdicts"] if each["path"] == "shut.shuts"]
    assert verdict["meant"]["text"] == "It is to look overfull."
