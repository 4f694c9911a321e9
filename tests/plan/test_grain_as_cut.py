"""What comes out of its sheets only across the grain is told so wherever its grain is told."""

import json

from pastedown.outputs.to_cut_list import make as make_cut_list
from pastedown.outputs.to_cutting_plan import make as make_cutting_plan
from pastedown.outputs.to_json import make as make_json
from pastedown.outputs.to_template_svg import make as make_templates
from pastedown.plan.plan import Plan
from pastedown.quantity.ruler import INCH_RULER
from pastedown.quantity.write import write
from reference.through_the_compiler import made


def plan_of(width: str) -> Plan:
    """A strip 8 in high, its grain wanted along the height, from sheets of 8 1/2 by 11 in with the grain along 11."""
    plan = made(
        "card = stock(kind: card, sheet: 8 1/2 in x 11 in, grain: long, caliper: 0.012 in)\n"
        f"piece strip from card, height: 8 in, width: {width}, grain: height, against_grain: warn, loose: yes"
    ).plan
    assert plan is not None
    return plan


def told(plan: Plan) -> tuple[str, str, str, str, list[str]]:
    """Grain by the row of the cut list, by its JSON, by that of the design, by the cut step, and what the cutting plan
    lays across."""
    lists = make_cut_list(plan)
    row = next(line for line in lists["cut-list.txt"].decode().splitlines() if line.startswith("strip  "))
    listed = json.loads(lists["cut-list.json"])["stocks"][0]["pieces"][0]["grain"]
    whole = json.loads(next(iter(make_json(plan).values())))["pieces"][0]["grain"]
    cut = next(step for step in plan.steps if step.kind == "cut")
    text = "".join(part if isinstance(part, str) else write(part, INCH_RULER) for part in cut.text)
    across = json.loads(make_cutting_plan(plan)["cutting-plan.json"])["stocks"][0]["across_grain"]
    return row, listed, whole, text, across


def test_a_strip_that_lies_along_its_grain() -> None:
    row, listed, whole, text, across = told(plan_of("8 1/2 in"))
    assert "along the height" in row and (listed, whole, across) == ("height", "height", [])
    assert "The grain runs from head to tail." in text


def test_a_strip_that_comes_out_only_across_its_grain() -> None:
    plan = plan_of("10 in")
    row, listed, whole, text, across = told(plan)
    assert "along the width" in row and (listed, whole, across) == ("width", "width", ["strip"])
    assert "The grain runs from side to side, though it had better run the other way" in text
    assert b"had better run the other way" in make_cut_list(plan)["cut-list.txt"]
    drawn = b"".join(make_templates(plan).values())
    assert b"grain along the width" in drawn and b"grain along the height" not in drawn
