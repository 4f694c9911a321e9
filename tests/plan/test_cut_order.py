"""The order of cuts: each after what it cuts has come off, the fence moved seldom, and every strip under its own letter."""

import json
from fractions import Fraction
from typing import Any

from outputs.test_to_cutting_plan import judge
from pastedown.outputs.to_cutting_plan import make
from pastedown.plan.plan import Plan
from pastedown.plan.stock_cutting import stock_cuttings
from plan.test_kits import plan_of

CORNERS = """
ruler = millimetres to 1
card = stock(kind: card, sheet: {sheet}, grain: none{card})
piece corner[k from 1 to {count}] from card, height: 25 mm, width: 25 mm, loose: yes
{more}
"""


def of(sheet: str, count: int, card: str = "", more: str = "") -> tuple[Plan, dict[str, Any], dict[str, str]]:
    plan = plan_of(CORNERS.format(sheet=sheet, count=count, card=card, more=more))
    files = {name: " ".join(data.decode().split()) for name, data in make(plan).items()}
    made = json.loads(files["cutting-plan.json"])
    judge(plan, made)
    return plan, made["stocks"][0]["patterns"][0], files


def test_squares_are_cut_with_one_setting() -> None:
    # Six corners of 25 mm in two strips of three: both ways at 25 mm.
    _, pattern, files = of("50 mm x 75 mm", 6)
    assert [cut["fence"]["text"] for cut in pattern["cuts"]] == ["25 mm", "25 mm"]
    assert pattern["settings"] == 1
    for name in ("cutting-plan.txt", "cutting-plan/1-1.svg"):
        assert f"1 setting of the fence, {pattern['strokes']} strokes of the blade in all." in files[name]


def test_stacked_strips_are_told_and_counted_alike_in_text_and_drawing() -> None:
    # Three strips of 25 mm beside an offcut, with four corners in each: three strokes free the strips, and three more
    # take all of them apart, in one stack.
    _, pattern, files = of("100 mm x 80 mm", 12, ", cut_at_once: 4")
    assert [cut["strokes"] for cut in pattern["cuts"]] == [3, 3]
    assert pattern["strokes"] == 6
    assert "stack of 3 x strip A" in files["cutting-plan.txt"]
    drawn = files["cutting-plan/1-1.svg"]
    assert "stack of 3 x strip A: fence at 25 mm" in drawn and ", 3 strokes" in drawn and "9 strokes" not in drawn


def test_many_designs_keep_the_order_of_work_and_use_no_letter_twice() -> None:
    for seed in range(3):
        sizes = [(20 + 5 * ((seed * 7 + n * 3) % 9), 25 + 10 * ((seed + n * 5) % 7), 1 + (seed + n) % 4) for n in range(5)]
        more = "\n".join(
            f"piece p{n}[k from 1 to {count}] from card, height: {high} mm, width: {wide} mm, loose: yes"
            for n, (high, wide, count) in enumerate(sizes)
        )
        plan, _, _ = of("210 mm x 297 mm", 5, more=more)
        for stock in stock_cuttings(plan):
            for pattern in stock.patterns:
                assert [cut.number for cut in pattern.cuts] == [*range(1, len(pattern.cuts) + 1)]
                # What is cut is the sheet, or has come off in a row above.
                there = {"sheet"}
                fences: list[Fraction] = []
                for cut in pattern.cuts:
                    name = cut.what.removeprefix("rest of ")
                    assert name in there
                    named = (*cut.taken.split(", "), cut.rest)
                    there |= {each.split(" x ")[-1] for each in named}
                    fences += [cut.fence.value] if not fences or fences[-1] != cut.fence.value else []
                assert pattern.settings == len(fences)
                strips = [cut.what for cut in pattern.cuts if cut.what.startswith("strip ")]
                assert len(strips) == len(set(strips))
