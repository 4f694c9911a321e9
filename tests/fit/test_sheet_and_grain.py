"""Pieces against sheets, rolls and grain: every way of lying, and the numbers in the message."""

import re

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.plan.material import PlanningEffort
from pastedown.plan.stock_cutting import stock_cuttings
from reference.through_the_compiler import refused, told

sides = st.integers(min_value=10, max_value=60)


# The first example reads the grammar, so no time is asked of any.
@settings(deadline=None)
@given(
    sides,
    sides,
    sides,
    sides,
    st.sampled_from(["long", "short", "none", "marked"]),
    st.sampled_from(["height", "width", "any"]),
)
def test_the_verdict_is_that_of_trying_both_ways(
    high: int, wide: int, one: int, other: int, grain: str, wants: str
) -> None:
    found = told(
        f"card = stock(kind: card, sheet: {one} mm x {other} mm, grain: {grain})\n"
        f"piece leaf from card, height: {high} mm, width: {wide} mm, grain: {wants}"
    )
    long, short = max(one, other), min(one, other)
    lies = {"upright": high <= long and wide <= short, "across": high <= short and wide <= long}
    if not any(lies.values()):
        assert found == ["sheet-too-small"]
        return
    # Upright, the height lies along the longer side; grain long runs along that side.
    with_grain = {
        "upright": (wants == "height") == (grain == "long"),
        "across": (wants == "height") != (grain == "long"),
    }
    free = wants == "any" or grain in ("none", "marked") or long == short
    fits = free or any(lies[way] and with_grain[way] for way in lies)
    assert found == ([] if fits else ["against-grain"])


def test_like_pieces_are_told_about_once() -> None:
    body = """
      card = stock(kind: card, sheet: 10 mm x 10 mm, grain: marked)
      each k from 1 to 5 { piece leaf[k] from card, height: 20 mm, width: 20 mm, loose: yes }
    """
    assert told(body) == ["sheet-too-small"]


# The first example reads the grammar, so no time is asked of any.
@settings(deadline=None)
@given(sides, sides, sides, st.none() | sides)
def test_a_roll_takes_what_is_narrow_one_way_and_short_the_other(
    high: int, wide: int, roll: int, length: int | None
) -> None:
    long = "" if length is None else f", roll_length: {length} mm"
    found = told(
        f"cloth = stock(kind: tape, roll_width: {roll} mm{long})\npiece strip from cloth, height: {high} mm, width: {wide} mm"
    )
    fits = min(high, wide) <= roll and (length is None or max(high, wide) <= length)
    assert found == ([] if fits else ["sheet-too-small"])


@pytest.mark.parametrize(
    ("stock", "piece", "expected"),
    [
        ("sheet: 20 mm x 40 mm, grain: long", "height: 15 mm, width: 30 mm, grain: height", ["against-grain"]),
        ("sheet: 20 mm x 40 mm, grain: long", "height: 15 mm, width: 30 mm, grain: height, against_grain: warn",
         ["against-grain"]),
        ("sheet: 20 mm x 40 mm, grain: long", "height: 15 mm, width: 30 mm, grain: width", []),
        ("sheet: 20 mm x 40 mm, grain: short", "height: 15 mm, width: 30 mm, grain: height", []),
        ("sheet: 20 mm x 40 mm, grain: unknown", "height: 15 mm, width: 30 mm, grain: height", ["grain-unknown"]),
        ("sheet: 20 mm x 40 mm", "height: 15 mm, width: 30 mm, grain: height", ["grain-unknown"]),
        ("sheet: 20 mm x 40 mm", "height: 15 mm, width: 30 mm", []),
        # Square sheets have no longer side; whoever marks the grain may turn them.
        ("sheet: 40 mm x 40 mm, grain: long", "height: 15 mm, width: 30 mm, grain: height", []),
        ("sheet: 40 mm x 40 mm, grain: unknown", "height: 15 mm, width: 30 mm, grain: height", ["grain-unknown"]),
        ("caliper: 1 mm", "height: 15 mm, width: 30 mm", ["stock-incomplete"]),
        ("height: 15 mm, width: 30 mm", "height: 15 mm, width: 30 mm", []),
    ],
)  # fmt: skip
def test_what_is_told_of_the_grain(stock: str, piece: str, expected: list[str]) -> None:
    body = f"card = stock(kind: card, {stock})\npiece leaf from card, {piece}"
    assert told(body) == expected
    refusing = expected == ["against-grain"] and "warn" not in piece
    assert refused(body) == (expected if refusing else [])


# The first example reads the grammar, so no time is asked of any.
@settings(deadline=None)
@given(sides, sides, sides, sides)
def test_the_way_out_of_a_small_sheet_is_a_way_out(high: int, wide: int, one: int, other: int) -> None:
    card = f"ruler = millimetres to 1\ncard = stock(kind: card, sheet: {one} mm x {other} mm, grain: none)\n"
    text = f"edition = 1\nalbum probe {{ {card} piece leaf from card, height: {high} mm, width: {wide} mm }}"
    found = compile_design("probe.album", text, lambda _: None).diagnostics
    if not found:
        return
    wanted = {"height": high, "width": wide}
    for side, most in re.findall(r"its (height|width) to (\d+) mm", found[0].way_out):
        wanted[side] = min(wanted[side], int(most))
    assert wanted != {"height": high, "width": wide}
    assert told(f"{card}piece leaf from card, height: {wanted['height']} mm, width: {wanted['width']} mm") == []


def test_marked_sheets_run_one_way_for_all_their_pieces() -> None:
    # Of 85 by 110 mm: only with the grain along 110 mm does `tall` keep it, only along 85 mm does `broad`.
    body = """
      card = stock(kind: card, sheet: 85 mm x 110 mm, grain: {grain})
      piece tall[k from 1 to 3] from card, height: 105 mm, width: 80 mm, grain: height, loose: yes
      piece broad from card, height: 80 mm, width: 105 mm, grain: height, loose: yes{also}
    """
    assert told(body.format(grain="marked", also="")) == ["against-grain"]
    assert told(body.format(grain="marked", also=", against_grain: warn")) == ["against-grain"]
    # The way out that is offered, and the one of the reference.
    for grain in ("marked, also: [stock(kind: card, sheet: 85 mm x 110 mm, grain: short)]",
                  "long, also: [stock(kind: card, sheet: 85 mm x 110 mm, grain: short)]"):  # fmt: skip
        assert told(body.format(grain=grain, also="")) == []


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(sides, sides, st.sampled_from(["height", "width", "any"])), min_size=1, max_size=4), sides)
def test_a_plan_lays_no_piece_across_its_grain_in_silence(some: list[tuple[int, int, str]], one: int) -> None:
    lines = [f"card = stock(kind: card, sheet: {one} mm x 40 mm, grain: marked)"]
    lines += [
        f"piece p{number} from card, height: {high} mm, width: {wide} mm, grain: {grain}, against_grain: warn, loose: yes"
        for number, (high, wide, grain) in enumerate(some)
    ]
    text = "edition = 1\nalbum a {\n" + "\n".join(lines) + "\n}"
    compiled = compile_design("a.album", text, lambda _: None)
    plan = compiled.designs[0].plan if compiled.designs else None
    if plan is None:
        return
    (material,) = (evolve(each, effort=PlanningEffort(work=0)) for each in plan.materials)
    across = [id for stock in stock_cuttings(evolve(plan, materials=(material,))) for id in stock.across]
    warned = [each for each in compiled.diagnostics if each.id == "against-grain"]
    assert bool(across) == bool(warned)
    assert len(across) <= len(warned)
