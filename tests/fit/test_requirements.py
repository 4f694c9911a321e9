"""Requirements: judged on the exact values, told with both numbers and by how much, once for like parts."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown import check
from pastedown.compile import compile_design
from pastedown.diagnostic import Diagnostic
from pastedown.diagnostic.draw import draw
from reference.through_the_compiler import made, told

lengths = st.fractions(min_value=0, max_value=20, max_denominator=64)
HOLDS = {
    "<": lambda a, b: a < b, "<=": lambda a, b: a <= b, ">": lambda a, b: a > b, ">=": lambda a, b: a >= b,
    "is": lambda a, b: a == b,
}  # fmt: skip


def diagnostics(text: str) -> tuple[Diagnostic, ...]:
    return compile_design("probe.album", f"edition = 1\n{text}", lambda _: None).diagnostics


@settings(max_examples=60, deadline=None)
@given(lengths, lengths, st.sampled_from(sorted(HOLDS)), st.booleans())
def test_the_verdict_is_that_of_the_exact_values(left: Fraction, right: Fraction, sign: str, same: bool) -> None:
    # The right side in another unit, and often just as long.
    right = left if same else right
    fact = f'require fits: {left} in {sign} {right * Fraction(127, 5)} mm because "so"'
    failed = [] if HOLDS[sign](left, right) else ["requirement-fails"]
    assert [each for each in told(fact) if each != "metric-fraction"] == failed


thirds = st.fractions(min_value=0, max_value=20, max_denominator=100)


@settings(max_examples=60, deadline=None)
@given(thirds, thirds, st.sampled_from(["<=", ">=", "<", ">"]), st.booleans(), st.sampled_from(["inches", "metric"]))
def test_who_follows_the_advice_passes(left: Fraction, right: Fraction, sign: str, same: bool, show: str) -> None:
    right = left if same else right
    ruler = f"ruler = inches to 1/16\nshow = {show}"
    body = f'{ruler}\nleft = {left} in\nright = {right} in\nrequire fits: left {sign} right because "so"'
    found = diagnostics(f"album probe {{\n{body}\n}}")
    if HOLDS[sign](left, right):
        assert found == ()
        return
    (only,) = found
    more, change = ("more", "+") if sign in (">", ">=") else ("less", "-")
    amount = only.way_out.removeprefix("It takes ").partition(f" {more} in left")[0]
    assert only.way_out == f"It takes {amount} {more} in left, or a change of right."
    assert told(body.replace(f"left = {left} in", f"left = {left} in {change} {amount}")) == []


def test_a_shortfall_is_rounded_up_to_the_makers_ruler() -> None:
    (only,) = diagnostics(
        'album probe {\nruler = inches to 1/32\ntop = 4 1/3 in\nrequire low: top <= 4 in because "so"\n}'
    )
    assert only.way_out == "It takes 11/32 in less in top."


@pytest.mark.parametrize(
    ("condition", "way_out"),
    [
        ("left > 3 in", "It takes 1/16 in more in left."),
        ("5 in < left", "It takes 2 1/16 in more in left."),
        ("left is 5 in", "Let left be 5 in."),
        ("count > 3", "It takes 1 more in count."),
    ],
)
def test_every_sign_has_its_own_advice(condition: str, way_out: str) -> None:
    found = diagnostics(f'album probe {{\nleft = 3 in\ncount = 3\nrequire fits: {condition} because "so"\n}}')
    (only,) = (each for each in found if each.id == "requirement-fails")
    assert only.way_out == way_out


def test_a_failed_requirement_names_both_numbers_and_the_reason() -> None:
    (only,) = diagnostics(
        "album probe {\nruler = inches to 1/16\nspine = 2 1/2 in\nblock = 2.64 in\n"
        'require fits: spine >= block because "the block of {block} is {block - spine} too wide",'
        ' way_out: ["make the spine {block rounded up to 1/8 in}", "use fewer peaks"]\n}'
    )
    assert only.id == "requirement-fails"
    assert only.sentence == (
        "fits is not met: spine is 2 1/2 in and has to be at least 2.64 in (2 11/16 in by the ruler)."
    )
    assert only.reason == "the block of 2.64 in is 0.14 in too wide"
    assert only.way_out == "make the spine 2 3/4 in\nuse fewer peaks"


@pytest.mark.parametrize(("show", "number"), [("metric", "63.5 mm"), ("both", "2 1/2 in (63.5 mm)")])
def test_numbers_are_told_in_the_makers_units(show: str, number: str) -> None:
    (only,) = diagnostics(
        f'album probe {{\nruler = inches to 1/16\nshow = {show}\nx = 2 1/2 in\nrequire long: x > 3 in because "so"\n}}'
    )
    assert f"x is {number} and" in only.sentence


LEAF = """\
component leaf {{
  takes height: length
  card = stock(kind: card, sheet: 300 mm x 300 mm, grain: none)
  piece sheet from card, height: height, width: 10 mm, loose: yes
  {word} low: height <= {most} because "too high"
}}
album probe {{ ruler = millimetres to 1  show = inches  part leaf_of[k from 1 to 6] = leaf(height: {height}) }}
"""


def test_like_parts_are_told_about_once_and_named() -> None:
    (only,) = diagnostics(LEAF.format(word="require", most="20 mm", height="30 mm"))
    assert only.sentence.startswith("leaf_of[1].low is not met")
    assert only.sentence.endswith(
        "The same goes for leaf_of[2].low, leaf_of[3].low, leaf_of[4].low, leaf_of[5].low and 1 more."
    )


def test_parts_that_fail_by_other_numbers_are_told_about_each() -> None:
    found = diagnostics(LEAF.format(word="require", most="25 mm", height="k * 10 mm"))
    assert [each.id for each in found] == ["requirement-fails"] * 4


@pytest.mark.parametrize(("word", "sound"), [("require", False), ("prefer", True)])
def test_only_a_requirement_refuses(word: str, sound: bool) -> None:
    compiled = compile_design(
        "probe.album", f"edition = 1\n{LEAF.format(word=word, most='20 mm', height='30 mm')}", lambda _: None
    )
    assert [each.id for each in compiled.diagnostics] == ["preference-fails" if sound else "requirement-fails"]
    assert compiled.refused is not sound
    assert [design.sound for design in compiled.designs] == [sound]


def test_more_room_never_turns_a_pass_into_a_fault() -> None:
    body = 'gap = {gap} mm\nrequire wide: gap >= 3 mm because "tight"\nrequire held: gap + 1 mm > 2 mm because "so"'
    verdicts = [told(body.format(gap=gap)) == [] for gap in range(1, 9)]
    assert verdicts == sorted(verdicts)
    assert made(body.format(gap=8)).sound


def test_a_length_below_nought_runs_over_and_a_way_out_has_a_line_of_its_own() -> None:
    (only,) = diagnostics(
        "album probe {\nruler = inches to 1/16\npage = 7 in\ncover = 6 3/4 in\nborder = (cover - page) / 2\n"
        'require fits: border >= 1/8 in because "corners get knocked", way_out: ["lower", "higher"]\n}'
    )
    assert only.sentence == "fits is not met: border runs over by 1/8 in and has to be at least 1/8 in."
    assert draw([only]).split("\n")[-4:-2] == ["  Try: lower", "   or: higher"]


def test_the_line_of_the_own_file_stands_before_that_of_a_library() -> None:
    house = 'edition = 1\ncomponent rule "A rule." {\n  takes one: length\n  require small: one <= 1 in because "so"\n}\n'
    recipe = 'edition = 1\nuse rule from "house.album"\nalbum a {\n  limit = 2 in\n  part kept = rule(one: limit)\n}\n'
    (only,) = check(recipe, {"house.album": house}.get)
    shown = draw([only])
    assert shown.index("in recipe.album, line 5") < shown.index("in house.album, line 4")
    assert "kept is made here: one 2 in (limit, line 4)" in shown
    assert shown.endswith("1 error in recipe.album")
