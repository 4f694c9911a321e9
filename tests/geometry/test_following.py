"""What is creased in place goes along with the joint that it follows."""

from fractions import Fraction

from pastedown.compile import compile_design
from pastedown.geometry.in_pose import InPose
from pastedown.geometry.model import Model

BOOK = """edition = 1
album probe {
  ruler = inches to 1/64
  grey = stock(kind: board, sheet: 30 in x 40 in, caliper: 80 pt, grain: marked)
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 10 pt, grain: marked)
  cloth = stock(kind: tape, roll_width: 1 1/4 in, caliper: 20 pt)
  static_adhesive = stock(kind: glue)
  piece spine from grey, height: 5 in, width: 2 in, grain: height
  piece cover from grey, height: 5 in, width: 4 in, grain: height
  piece tape from cloth, height: 5 in, left: inner, right: outer {
    run inner to outer {
      panel on_spine: 1/2 in
      panel joint: 1/4 in, bends: mountain
      panel on_cover: 1/2 in
    }
  }
  piece strip from card, height: 4 in, grain: any, left: outer, right: inner {
    run inner to outer {
      panel foot: 1 in
      fold edge: valley
      panel wing: 3 in
    }
  }
  join tape_on: tape.on_spine.back to spine.face {
    align tape.joint.inner to spine.right
    align tape.tail to spine.tail
  }
  join cover_on: cover.face to tape.on_cover.back {
    align cover.left to tape.joint.outer
    align cover.tail to tape.tail
  }
  join strip_on: strip.foot.back to spine.back {
    align strip.edge to spine.right, inside: 1 in
    align strip.mid_height to spine.mid_height
  }
  close pasted: strip.wing.back to cover.back
  fold crease: in_place, on: strip.wing, over: spine.right, follows: tape.joint
  pose closed { tape.joint = square }
  pose wrapped { tape.joint = shut }
}
"""


def model() -> Model:
    (design,) = compile_design("probe.album", BOOK, lambda _: None).designs
    assert design.model is not None and design.sound
    return design.model


def inches(number: Fraction) -> Fraction:
    return number / Fraction("25.4")


Box = tuple[tuple[Fraction, ...], tuple[Fraction, ...]]


def boxes(design: Model, pose: str, piece: str) -> list[tuple[str, Box]]:
    """The panels of a piece in a pose, each with the least and the most along every direction, in inches."""
    found = next(each for each in design.poses if each.path == pose)
    placed = InPose(design, found, InPose(design)).place(piece)
    assert placed is not None
    told = []
    for one in placed.folded.fields:
        ends = list(zip(*(tuple(map(inches, corner)) for corner in one.corners()), strict=True))
        told.append((one.panels[0], (tuple(map(min, ends)), tuple(map(max, ends)))))
    return sorted(told)


GAP, INSIDE = Fraction(1, 4), -Fraction("0.09")


def test_a_cover_stands_beside_the_spine() -> None:
    """The gap keeps to the spine board and turns at its far edge, about the inside of the tape."""
    assert boxes(model(), "closed", "cover") == [("", ((2 + GAP, 0, -4), (2 + GAP, 5, 0)))]


def test_a_cover_that_wraps_round_lies_over_the_spine() -> None:
    assert boxes(model(), "wrapped", "cover") == [("", ((-2, 0, -GAP), (2, 5, -GAP)))]


def test_what_lies_beyond_the_joint_lies_on_the_cover_and_what_lies_over_it_has_no_place() -> None:
    low, high, cover = Fraction(1, 2), Fraction(9, 2), 2 + GAP + INSIDE
    assert boxes(model(), "closed", "strip") == [
        ("foot", ((0, low, INSIDE), (1, high, INSIDE))),
        ("wing", ((1, low, INSIDE), (2, high, INSIDE))),
        # The wing is 3 in long from 1 in before the joint: 1 3/4 in of it lie on the cover.
        ("wing", ((cover, low, -Fraction(7, 4)), (cover, high, 0))),
    ]


def test_made_up_nothing_moves() -> None:
    design = model()
    pose = next(each for each in design.poses if each.path == "closed")
    made_up = InPose(design)
    closed = InPose(design, pose, made_up)
    assert closed.stays("spine") and not closed.stays("cover") and not closed.stays("strip")
