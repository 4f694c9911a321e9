"""No verdict hangs on which side is left, nor on which side of the paper is the face."""

from __future__ import annotations

import re
from fractions import Fraction

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.drawn_pose import Plate, plates_in
from geometry.rigid_oracle import Numbers
from pastedown.compile import compile_design
from pastedown.geometry.model import Model

# A base with stands on it, one of which a flap is closed to, and a board that swings on a joint.
HEAD = """edition = 1
album probe {{
  ruler = millimetres to 1/8
  grey = stock(kind: board, sheet: 700 mm x 1000 mm, caliper: 2 mm, grain: none)
  card = stock(kind: card, sheet: 700 mm x 1000 mm, caliper: {caliper} mm, grain: none)
  cloth = stock(kind: tape, roll_width: {width} mm, caliper: 1/4 mm)
  moving_adhesive = stock(kind: glue)
  static_adhesive = stock(kind: glue)
  piece base from grey, height: 150 mm, width: 100 mm
  piece swung from grey, height: 150 mm, width: 80 mm
  piece tape from cloth, height: 150 mm, left: inner, right: outer {{
    run inner to outer {{ panel on_base: 12 mm   panel joint: {gap} mm, bends: mountain   panel on_swung: 12 mm }}
  }}
  join tape_on: tape.on_base.back to base.face {{
    align tape.joint.inner to base.right   align tape.tail to base.tail
  }}
  join swung_on: swung.face to tape.on_swung.back {{
    align swung.left to tape.joint.outer   align swung.tail to tape.tail
  }}
"""
STAND = """
  piece stand{n} from {stock}, height: 20 mm, left: heel, right: toe, loose: yes {{
    run heel to toe {{ panel foot: {foot} mm   fold rise: {kind}   panel wall: {wall} mm }}
  }}
  join stand{n}_on: stand{n}.foot.{side} to base.back {{
    align stand{n}.{edge} to base.left, inside: {x} mm   align stand{n}.tail to base.tail, inside: {y} mm
  }}
"""


@st.composite
def designs(draw: st.DrawFn) -> str:
    gap = draw(st.sampled_from(["1.5", "2", "2.5", "3.5", "4", "6"]))
    text = HEAD.format(caliper="1/2", gap=gap, width=24 + Fraction(gap))
    for n in range(draw(st.integers(1, 3))):
        # Only so its foot lies on the back of the base upright.
        kind = draw(st.sampled_from(["mountain", "valley"]))
        text += STAND.format(
            n=n, kind=kind, side="face" if kind == "mountain" else "back", stock=draw(st.sampled_from(["card", "grey"])),
            edge=draw(st.sampled_from(["heel", "rise"])), foot=draw(st.integers(5, 30)), wall=draw(st.integers(5, 60)),
            x=draw(st.integers(0, 90)), y=draw(st.integers(0, 100)),
        )  # fmt: skip
    angle = st.sampled_from(["flat", "square", "shut"])
    risen = " ".join(f"stand{number}.rise = {draw(angle)}" for number in range(text.count("piece stand")))
    return f"{text}  pose made_up {{ {risen} }}\n  pose closed {{ {risen} tape.joint = {draw(angle)} }}\n}}\n"


def exchanged(text: str, one: str, other: str) -> str:
    return re.sub(rf"\b({one}|{other})\b", lambda found: other if found[0] == one else one, text)


def left_for_right(text: str) -> str:
    """The design as a looking glass shows it: edges change sides, and so does the order in which a run counts."""
    named = re.sub(r"left: (\w+), right: (\w+)", r"right: \1, left: \2", text)
    return re.sub(r"\b(align [^{}\n]*)", lambda found: exchanged(found[0], "left", "right"), named)


def face_for_back(text: str) -> str:
    """The same paper with what was its face as its back, so that mountains are valleys."""
    return exchanged(exchanged(text, "mountain", "valley"), "face", "back")


def verdict(text: str) -> list[tuple[str, str, Fraction | None]]:
    found = compile_design("probe.album", text, lambda _: None).diagnostics
    return sorted((each.id, each.sentence, each.missing) for each in found)


@given(designs())
@settings(max_examples=60, deadline=None)
def test_a_design_and_its_mirror_images_are_judged_alike(text: str) -> None:
    wanted = verdict(text)
    assert verdict(left_for_right(text)) == wanted
    turned = face_for_back(text)
    # What is said of a side calls it by its other name.
    assert [(each[0], each[2]) for each in verdict(turned)] == [(each[0], each[2]) for each in wanted]


@given(designs())
@settings(max_examples=30, deadline=None)
def test_a_mirrored_design_lies_mirrored(text: str) -> None:
    for mirrored, axis in ((left_for_right(text), 0), (face_for_back(text), 2)):
        for number in (0, 1):
            plates, others = (centres(each, number) for each in (text, mirrored))
            assert plates.keys() == others.keys()
            for key, here in plates.items():
                there = others[key] - others["base", ("", "")]
                there[axis] *= -1
                assert np.allclose(here - plates["base", ("", "")], there, atol=1e-6), key


def centres(text: str, number: int) -> dict[tuple[str, tuple[str, str]], Numbers]:
    """The middle of every plate, made up or in the one pose besides."""
    model = model_of(text)
    found = plates_in(model, model.poses[0] if number else None)
    return {(plate.piece, plate.panels): middle(plate) for plate in found}


def middle(plate: Plate) -> Numbers:
    corners = np.array([*plate.outline, *plate.back])
    centre: Numbers = (corners.min(axis=0) + corners.max(axis=0)) / 2
    return centre


def model_of(text: str) -> Model:
    model = compile_design("probe.album", text, lambda _: None).designs[0].model
    assert model is not None
    return model
