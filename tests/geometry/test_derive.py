"""`why`: a derivation ends in the lines where something was chosen, bought or left as it was."""

import re

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
        assert above or re.search(r"\((chosen|left as the component has it|as bought|worked out)\)$", lines[at]), lines[
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
