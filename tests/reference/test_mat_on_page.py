"""A mat on a pocket page lies clear of its seams: a page of 6 in with seams of 1/2 in, a mat of 4 in."""

import pytest

from pastedown.compile import compile_design

ALBUM = """edition = 1
use cardstock, double_tape, glue, photo_print from stocks
use pocket_page from pages
use photo_mat from decorations
album probe {{
  ruler = inches to 1/16
  card = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
  moving_adhesive = sticky
  static_adhesive = glue
  snapshot = photo_print(height: 3 3/4 in, width: 5 in)
  part page = pocket_page(paper: card, tape: sticky, height: 6 in, width: 8 in, seam: 1/2 in)
  part photo = photo_mat(paper: card, photo: snapshot, reveal: 1/8 in)
  join photo_on: photo.mat.back to page.{side} {{
    align photo.mat.mid_width to page.{side}.mid_width
    align photo.mat.{line}
  }}
  {pose}
}}
"""


@pytest.mark.parametrize(
    ("side", "line", "pose", "fails"),
    [
        ("front_face", "mid_height to page.front_face.mid_height", "pose closed { page = made_up }", []),
        # On the front the seam lies at the head, on the rear at the tail.
        ("front_face", "head to page.front_face.head", "pose closed { page = made_up }", ["photo.lies_flat"]),
        ("front_face", "head to page.front_face.head, inside: 15/32 in", "pose closed { page = made_up }", ["photo.lies_flat"]),
        ("front_face", "head to page.front_face.head, inside: 1/2 in", "pose closed { page = made_up }", []),
        ("front_face", "tail to page.front_face.tail", "pose closed { page = made_up }", []),
        ("rear_face", "tail to page.rear_face.tail", "pose closed { page = made_up }", ["photo.lies_flat"]),
        ("front_face", "head to page.front_face.head", "", []),
    ],
)  # fmt: skip
def test_a_mat_lies_on_no_seam(side: str, line: str, pose: str, fails: list[str]) -> None:
    done = compile_design("probe.album", ALBUM.format(side=side, line=line, pose=pose), lambda _: None)
    model = done.designs[0].model
    assert model is not None
    assert [each.path for each in model.requirements if each.strict and not each.holds] == fails
