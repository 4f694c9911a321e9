"""Spans of posed pieces, through the compiler, against plates turned by rotations in floating point."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.test_fold import hinges_by_rotation
from reference.through_the_compiler import fact, refused

ANGLES = ("flat", "square", "shut")


def strip(sizes: list[int], kinds: list[str], angles: list[str], caliper: int, film: int) -> str:
    """A strip with a pose; the panels beside a shut fold are taped to one another."""
    lying = [f"panel p{number}: {size} mm" for number, size in enumerate(sizes)]
    folds = [f"fold f{number}: {kind}" for number, kind in enumerate(kinds)]
    run = " ".join(word for pair in zip(lying, [*folds, ""], strict=True) for word in pair)
    turned = " ".join(f"strip.f{number} = {angle}" for number, angle in enumerate(angles))
    taped = [
        f"close c{number}: strip.p{number}.{side} to strip.p{number + 1}.{side}, by: tape"
        for number, (kind, angle) in enumerate(zip(kinds, angles, strict=True))
        if angle == "shut"
        for side in ["face" if kind == "valley" else "back"]
    ]
    return "\n".join([
        f"card = stock(kind: card, sheet: 5 m x 5 m, caliper: {caliper} mm, grain: none)",
        f"tape = stock(kind: tape, roll_width: 5 mm, caliper: {film} mm)",
        f"piece strip from card, height: 50 mm, loose: yes {{ run left to right {{ {run} }} }}",
        *taped,
        f"pose made_up {{ {turned} }}",
        "wide = span(strip.left, to: strip.right, along: width, pose: made_up)",
        *(f"s{number} = span(strip.left, to: strip.f{number}, along: width, pose: made_up)" for number in range(len(kinds))),
    ])  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_a_span_is_the_distance_along_the_first_panel(data: st.DataObject) -> None:
    count = data.draw(st.integers(1, 6))
    sizes = data.draw(st.lists(st.integers(1, 90), min_size=count + 1, max_size=count + 1))
    kinds = data.draw(st.lists(st.sampled_from(["mountain", "valley"]), min_size=count, max_size=count))
    angles = data.draw(st.lists(st.sampled_from(ANGLES), min_size=count, max_size=count))
    caliper, film = data.draw(st.integers(1, 4)), data.draw(st.integers(1, 3))
    body = strip(sizes, kinds, angles, caliper, film)
    expected = hinges_by_rotation(sizes, kinds, angles, caliper, [film] * count)
    for number, (x, _) in enumerate(expected[:-1]):
        assert abs(float(fact(body, f"s{number}")) - abs(x)) < 1e-6
    assert abs(float(fact(body, "wide")) - abs(expected[-1][0])) < 1e-6


STRIP = """
  card = stock(kind: card, sheet: 5 m x 5 m, caliper: 1 mm, grain: none)
  piece strip from card, height: 50 mm, loose: yes {
    run left to right {
      panel a: 30 mm
      each k from 1 to 3 { fold up[k]: valley  panel rise[k]: 10 mm  fold top[k]: mountain  panel fall[k]: 10 mm
        fold down[k]: valley  panel floor[k]: 20 mm }
    }
  }
  pose made_up { strip.up = square  strip.top = shut  strip.down = square }
"""


@pytest.mark.parametrize(
    ("pose", "width"),
    [
        # Three peaks of two cards each, and what lies flat: 30 + 3 * 20.
        ("pose p from made_up { }", 90 + 3 * 2),
        # A pose speaks after the one it is built from: one peak, or all, laid flat again.
        ("pose p from made_up { strip.up[2] = flat  strip.top[2] = flat  strip.down[2] = flat }", 90 + 2 * 2 + 20),
        ("pose p from made_up { strip.up = flat  strip.top = flat  strip.down = flat }", 90 + 60),
        # One that says nothing leaves all flat.
        ("pose p { }", 90 + 60),
        ("pose q[k from 1 to 3] { each j from 1 to k { strip.up[j] = square  strip.top[j] = shut "
         "strip.down[j] = square } }  pose p from q[2] { }", 90 + 2 * 2 + 20),
        ("pose p { strip.up = 90 deg  strip.top = 180 deg  strip.down = 90 deg }", 90 + 3 * 2),
    ],
)  # fmt: skip
def test_poses_are_built_from_one_another(pose: str, width: int) -> None:
    body = f"{STRIP}{pose}\nwide = span(strip.left, to: strip.right, along: width, pose: p)"
    assert fact(body, "wide") == width


@pytest.mark.parametrize(
    ("pose", "ids"),
    [
        ("pose p from q { }  pose q from p { }", ["circular"]),
        ("pose p { strip.up = 45 deg }", ["pose-angle"]),
        ("pose p { strip.a = shut }", ["pose-angle"]),
        ("pose p { strip.up = open }", ["pose-angle"]),
    ],
)
def test_poses_that_cannot_be_measured_in(pose: str, ids: list[str]) -> None:
    assert refused(f"{STRIP}{pose}\nwide = span(strip.left, to: strip.right, along: width, pose: p)") == ids


def test_a_part_is_measured_in_its_own_pose() -> None:
    text = f"component folder {{ {STRIP} wide = span(strip.left, to: strip.right, along: width, pose: made_up) }}"
    assert fact("part one = folder()", "one.wide", text) == 96
    # A thicker card in one of two parts changes that one alone.
    two = "part one = folder()\npart two = folder()\ntwo.card.caliper = 2 mm"
    assert (fact(two, "one.wide", text), fact(two, "two.wide", text)) == (96, 102)


def test_structure_may_not_hang_on_a_span() -> None:
    wide = "wide = span(strip.left, to: strip.right, along: width, pose: made_up)\n"
    for hangs in ("each k from 1 to whole(wide / 10 mm) { x[k] = k }", "if wide > 1 mm { x = 1 }",
                  "n = whole(wide / 10 mm)\npart p[k from 1 to n] = leaf()"):  # fmt: skip
        found = refused(f"{STRIP}{wide}{hangs}", "component leaf { x = 1 }")
        assert "structure-from-measure" in found, hangs


PEAK = """
card = stock(kind: card, sheet: 5 m x 5 m, caliper: 1 mm, grain: none)
part one = hinge(paper: card)
pose standing { one = up }
"""
HINGE = """
component hinge {
  takes paper: stock
  piece strip from paper, height: 50 mm, loose: yes {
    run left to right { panel a: 20 mm  fold low: valley  panel b: 10 mm  fold high: mountain  panel c: 20 mm }
  }
  pose up { strip.low = square  strip.high = square }
}
"""


@pytest.mark.parametrize(
    ("pose", "wide"),
    [
        ("pose q from flat { }", 50),
        ("pose q from flat { one.strip.low = square }", 20),
        ("pose q from standing { one = flat }", 50),
        ("pose q { one = flat }", 50),
        ("pose q from standing { }", 41),
    ],
)
def test_flat_is_a_pose_of_everything_in_which_nothing_is_turned(pose: str, wide: int) -> None:
    said = "wide = span(one.strip.left, to: one.strip.right, along: width, pose: q)"
    assert round(float(fact(f"{PEAK}{pose}\n{said}", "wide", HINGE))) == wide
