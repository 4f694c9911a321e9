"""`why`: a derivation ends in the lines where something was chosen, bought or left as it was."""

import re
from fractions import Fraction

import pytest

from pastedown.compile import compile_design, why
from test_examples import FILES

DESIGN = compile_design("harbour_walk.album", FILES["harbour_walk.album"], FILES.get).designs[0]


def derivation(measurement: str) -> str:
    text, diagnostics = why(DESIGN, measurement)
    assert diagnostics == ()
    assert text is not None
    return text


def test_every_measurement_of_a_design_has_a_derivation() -> None:
    assert DESIGN.model is not None
    for measurement in DESIGN.model.measurements:
        text, diagnostics = why(DESIGN, measurement.path.removesuffix(".caliper"))
        if measurement.path.endswith(".caliper"):
            continue
        assert diagnostics == (), measurement.path
        assert text is not None and text.startswith(f"{measurement.path} = "), measurement.path


def test_a_measure_behind_a_shut_fold_stems_from_its_panel() -> None:
    """The panel runs the other way there."""
    text = derivation("page[1].made_height")
    assert "page[1].front_sheet.body = 6 3/4 in" in text
    assert "paper in its folds" not in text


@pytest.mark.parametrize(
    "measurement", ["hinge.strip.crest[2]", "hinge.made_up_width", "case.spine", "page[2].insert_width"]
)
def test_a_derivation_ends_in_source_lines(measurement: str) -> None:
    lines = derivation(measurement).rstrip().split("\n")
    places = [line for line in lines if re.search(r"\[[a-z_]+\.album, line \d+\]", line)]
    assert len(places) == len(lines) // 2
    leaves = [
        at for at in range(0, len(lines), 2) if at + 2 >= len(lines) or indent(lines[at + 2]) <= indent(lines[at])
    ]
    for at in leaves:
        above = lines[at + 1].endswith("(derived above)")
        assert above or re.search(r"\((chosen|fixed by the component|left as the component has it|as bought|worked out)\)$", lines[at]), lines[
            at
        ]


def indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def test_a_derivation_names_what_was_chosen() -> None:
    text = derivation("hinge.strip.crest[2]")
    assert "hinge.peak = 5/8 in  (chosen)" in text
    assert re.search(r"5/8 in  \[harbour_walk.album, line \d+\]", text)
    assert "moved to a mark" in derivation("case.spine")


@pytest.mark.parametrize(
    "measurement",
    ["nowhere", "case.nowhere", "case", "hinge.strip", "page[9].height", "", "a b", "x" * 300, "a[99999999]"],
)
def test_what_cannot_be_derived_is_said_kindly(measurement: str) -> None:
    text, diagnostics = why(DESIGN, measurement)
    assert text is None
    assert [each.id for each in diagnostics] == ["unknown-measurement"]


def test_a_measure_of_a_folded_strip_adds_up() -> None:
    text = derivation("hinge.block")
    total = Fraction(0)
    for line in text.split("\n")[2:]:
        depth = len(line) - len(line.lstrip())
        found = re.match(r"(?:(\d+) x )?[^=]+ = ([0-9./ ]+) in  \(", line.lstrip())
        if found and ((depth == 4 and "paper in its folds" not in line) or (depth == 8 and "hinge." not in line)):
            total += int(found[1] or 1) * sum(map(Fraction, found[2].split()))
    whole = re.match(r"hinge.block = (?:about )?([0-9./ ]+) in", text)
    assert whole is not None
    assert total == sum(map(Fraction, whole[1].split()))


def test_a_name_of_a_part_is_looked_for_in_the_parts() -> None:
    _, (told,) = why(DESIGN, "spine")
    assert told.way_out == "Did you mean `case.spine` or `room.spine`?"


def test_what_a_component_fixes_is_not_said_to_be_chosen() -> None:
    assert "slide = 1/16 in  (fixed by the component)" in derivation("page[2].insert_width")


def test_a_thickness_comes_from_what_lies_at_the_thickest_place() -> None:
    body = """
card = stock(kind: card, sheet: 900 mm x 900 mm, caliper: 1 mm, grain: none)
film = stock(kind: tape, roll_width: 1 in, caliper: 0.1 mm)
piece ground from card, height: 9 mm, width: 9 mm
piece over from card, height: 3 mm, width: 3 mm
join on: over.back to ground.face, by: film { align over.tail to ground.tail  align over.left to ground.left }
deep = thickness(ground) + 1 mm
"""
    design = compile_design("probe.album", f"edition = 1\nalbum probe {{\n{body}\n}}\n", lambda _: None).designs[0]
    text, faults = why(design, "deep")
    assert faults == () and text is not None
    lying = re.findall(r"(\w+) = (about [\d.]+|[\d.]+) in  \(as bought\)", text)
    assert [path for path, _ in lying] == ["ground", "on", "over"]
