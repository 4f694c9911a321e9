"""Two things in one place, in every pose."""

from fractions import Fraction
from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.diagnostic import Diagnostic

JOINTED = """edition = 1
album probe {{
  ruler = inches to 1/64
  grey = stock(kind: board, sheet: 30 in x 40 in, caliper: {board}, grain: marked)
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 10 pt, grain: marked)
  cloth = stock(kind: tape, roll_width: {tape}, caliper: 10 pt)
  moving_adhesive = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  static_adhesive = stock(kind: glue)
  gap = {gap}
  piece spine from grey, height: 5 in, width: 2 in, grain: height
  piece cover from grey, height: 5 in, width: 4 in, grain: height
  piece tape from cloth, height: 5 in, left: inner, right: outer {{
    run inner to outer {{
      panel on_spine: 1/2 in
      panel joint: gap, bends: {bends}
      panel on_cover: 1/2 in
    }}
  }}
  join tape_on: tape.on_spine.back to spine.face {{
    align tape.joint.inner to spine.right
    align tape.tail to spine.tail
  }}
  join cover_on: cover.face to tape.on_cover.back {{
    align cover.left to tape.joint.outer
    align cover.tail to tape.tail
  }}
  pose closed {{ tape.joint = {angle} }}
  {more}
}}
"""


def told(
    gap: str, board: str = "80 pt", angle: str = "square", bends: str = "mountain", more: str = ""
) -> list[Diagnostic]:
    tape = f"{1 + Fraction(gap.split()[0])} in"
    text = JOINTED.format(gap=gap, board=board, angle=angle, bends=bends, tape=tape, more=more)
    return [each for each in compile_design("probe.album", text, lambda _: None).diagnostics if each.id != "off-marks"]


def test_boards_that_touch_cannot_be_closed_to_a_right_angle() -> None:
    """Common practice, no source: boards laid touching, with stiff tape outside, cannot close to 90 degrees."""
    (only,) = told("1/64 in")
    assert only.id == "runs-through"
    assert only.sentence == (
        "In the pose closed, cover and spine are in one place: about 0.064 in of them run through one another."
    )
    assert only.way_out == "Make tape.joint wider by 5/64 in or more."


@pytest.mark.parametrize(
    ("gap", "angle", "closes"),
    [
        ("5/64 in", "square", False),
        ("3/32 in", "square", True),
        ("2/25 in", "square", True),
        ("3/20 in", "shut", False),
        ("4/25 in", "shut", True),
        ("1/64 in", "flat", True),
    ],
)
def test_a_right_angle_needs_one_board_thickness_and_wrapping_round_two(gap: str, angle: str, closes: bool) -> None:
    assert (told(gap, angle=angle) == []) is closes


def clear(gap: float, board: float, degrees: float) -> bool:
    """Whether a cover can be swung so far on tape that does not stretch, by trying: the tape is a chain of two links
    from the edge of one board to the edge of the other, and its joint is tried at many places."""
    turn = degrees * pi / 180
    for part in range(401):
        near = gap * part / 400
        # The tape runs straight for `near`, turns, and runs on to the edge of the cover.
        start = (near + (gap - near) * cos(turn), (gap - near) * sin(turn))
        inside = (start[0] - board * sin(turn), start[1] + board * cos(turn))
        # The spine board ends at x = 0 and lies from y = 0 up to its thickness: neither edge of the cover may be in it.
        corners = [(start[0] + along * (inside[0] - start[0]), start[1] + along * (inside[1] - start[1]))
                   for along in (0, 0.25, 0.5, 0.75, 1)]
        if not any(x < -1e-9 and -1e-9 < y < board - 1e-9 for x, y in corners):
            return True
    return False


@pytest.mark.parametrize("degrees", [30, 60, 90])
def test_the_rule_against_trying_it_out(degrees: int) -> None:
    """Up to a right angle a gap of T sin(angle) is enough, and no less."""
    board = 0.08
    needed = board * sin(degrees * pi / 180)
    assert clear(needed + 0.0002, board, degrees)
    if degrees == 90:
        assert not clear(needed - 0.02, board, degrees)
        assert told("2/25 in") == [] and told("3/50 in") != []


@given(st.integers(1, 40), st.integers(1, 40))
def test_more_room_never_makes_it_worse(first: int, second: int) -> None:
    low, high = sorted((first, second))
    if not told(f"{low}/100 in"):
        assert not told(f"{high}/100 in")


def test_where_the_side_is_not_said_nothing_is_told() -> None:
    assert told("1/64 in", bends="yes") == []


def test_the_other_side_is_free_when_the_tape_lies_inside() -> None:
    """Boards on the outside of what bends swing away from one another."""
    assert told("1/64 in", bends="valley") == []


def test_paper_on_paper_is_no_clash_and_paper_through_board_is() -> None:
    flag = """piece flag from card, height: 2 in, width: 1 in
  join flag_on: flag.back to spine.back {
    align flag.left to spine.left
    align flag.mid_height to spine.mid_height
  }
  piece second from card, height: 2 in, width: 1 in
  join second_on: second.back to spine.back {
    align second.left to spine.left
    align second.mid_height to spine.mid_height
  }
"""
    assert told("1/4 in", more=flag) == []
    standing = """piece post from card, height: 2 in, left: inner, right: outer {
    run inner to outer {
      panel foot: 1/2 in
      fold rise: valley
      panel wall: 1 in
    }
  }
  join post_on: post.foot.back to spine.back {
    align post.rise to spine.left, inside: 1 in
    align post.mid_height to spine.mid_height
  }
  piece roof from grey, height: 2 in, width: 1 in, grain: height
  join roof_on: roof.back to spine.back {
    align roof.mid_width to spine.mid_width
    align roof.mid_height to spine.mid_height
  }
  pose made_up { post.rise = square }
"""
    (only,) = told("1/4 in", more=standing)
    assert only.sentence.startswith("When all is made up, post and roof are in one place: 0.07 in of them")


STANDING = """edition = 1
album probe {{
  board = stock(kind: board, sheet: 30 in x 40 in, caliper: 80 pt, grain: none)
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: none)
  moving_adhesive = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  static_adhesive = stock(kind: glue)
  peaks = 3
  piece base from board, height: 6 in, width: 10 in
  piece strip from card, height: 5 in, left: near, right: far {{
    run near to far {{
      panel first: 3 in
      each k from 1 to peaks {{
        fold foot[k]: valley  panel rise[k]: 1/2 in  fold crest[k]: mountain  panel fall[k]: 1/2 in
        fold end[k]: valley  panel floor[k]: 1/2 in
      }}
    }}
  }}
  join lay: strip.back to base.face {{
    align strip.mid_width to base.mid_width   align strip.mid_height to base.mid_height
  }}
  piece leaf[k from 1 to peaks] from card, height: 4 in, width: 3 in
  each k from 1 to peaks {{
    join hang[k]: leaf[k].back to strip.rise[k].face, moving: yes {{
      align leaf[k].left to strip.foot[k]   align leaf[k].mid_height to strip.mid_height
    }}
  }}
  pose made_up {{
    each k from 1 to peaks {{ strip.foot[k] = square  strip.crest[k] = shut  strip.end[k] = square }}
  }}
  {reversed}
}}
"""


@pytest.mark.parametrize("hanging", [(), (1,), (2,), (3,), (1, 2, 3)])
def test_what_hangs_through_a_board_is_told_of_every_one(hanging: tuple[int, ...]) -> None:
    # Shut folds on the way open along the strip and not towards the board, so they make no room there.
    folds = "  ".join(
        f"strip.foot[{k}] = mountain  strip.crest[{k}] = valley  strip.end[{k}] = mountain" for k in hanging
    )
    found = compile_design("probe.album", STANDING.format(reversed=folds), lambda _: None).diagnostics
    through = [each.sentence for each in found if each.id == "runs-through" and "leaf" in each.sentence]
    assert len(through) == bool(hanging)
    assert all(f"leaf[{k}]" in " ".join(through) for k in hanging)
    assert all(f"leaf[{k}]" not in " ".join(through) for k in range(1, 4) if k not in hanging)
