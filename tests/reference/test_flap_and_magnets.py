"""A flap over a page and the two magnets that hold it: whether they meet as they are joined, with numbers by hand."""

from fractions import Fraction

import pytest

from pastedown.compile import compile_design
from pastedown.quantity.quantity import Quantity

# The tab lies 1/8 in inside the fore edge with its free edge, so the fold is 1/2 in and 1/8 in, less the tab's 1/2 in:
# 7 7/8 in from the spine of a page 8 in wide. The leaf's magnet, 1/4 in from its free edge, comes to lie 7 5/8 in less
# 1/4 in from the fold, 1/2 in from the spine.
ALBUM = """edition = 1
use cardstock, double_tape, glue, magnet from stocks
use side_flap, magnet_pair from decorations
album probe {{
  ruler = inches to 1/16
  card = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
  moving_adhesive = sticky
  static_adhesive = glue
  disc = magnet(height: 3/8 in, width: 3/8 in, caliper: {thick})
  piece page from card, height: 6 in, width: 8 in, grain: height, left: spine, right: fore_edge
  part flap = side_flap(paper: card, height: 5 in, leaf: {leaf}, trapped: {trapped}, page_width: page.width)
  part hold = magnet_pair(magnet: disc, leaf: {leaf}, from_edge: 1/4 in, up: 2 1/2 in)
  join flap_on: flap.flap.tab.back to page.face, moving: yes {{
    align flap.flap.tab.free_edge to page.fore_edge, inside: 1/8 in
    align flap.flap.mid_height to page.mid_height
  }}
  join in_leaf: hold.leaf_magnet.{leaf_side} to flap.flap.leaf.{leaf_face} {{
    align hold.leaf_magnet.mid_width to flap.flap.free_edge, inside: 1/4 in
    align hold.leaf_magnet.mid_height to flap.flap.leaf.mid_height
  }}
  join in_page: hold.page_magnet.{page_side} to page.face {{
    align hold.page_magnet.mid_width to page.fore_edge, inside: {inside}
    align hold.page_magnet.mid_height to page.mid_height{above}
  }}
  {pose}
}}
"""
AS_IT_SHOULD_BE = {
    "leaf": "7 5/8 in", "trapped": "5/64 in", "leaf_side": "back", "leaf_face": "face", "page_side": "back",
    "inside": "7 1/2 in", "above": "", "thick": "1/32 in",
    "pose": "pose closed { flap = shut_over }",
}  # fmt: skip


def judged(**otherwise: str) -> tuple[list[str], dict[str, Fraction]]:
    """The requirements that fail, by their names, and all lengths in inches."""
    done = compile_design("probe.album", ALBUM.format(**{**AS_IT_SHOULD_BE, **otherwise}), lambda _: None)
    assert {each.id for each in done.diagnostics if each.severity.name == "ERROR"} <= {"requirement-fails"}
    model = done.designs[0].model
    assert model is not None
    lengths = {each.path: each.value for each in model.measurements}
    inches = {path: value.inches for path, value in lengths.items() if isinstance(value, Quantity)}
    return [each.path.rpartition(".")[2] for each in model.requirements if not each.holds], inches


@pytest.mark.parametrize(
    ("otherwise", "fails"),
    [
        ({}, []),
        # Within a third of 3/8 in, and just beyond.
        ({"inside": "7 3/8 in"}, []),
        ({"inside": "7 23/64 in"}, ["meet_as_joined"]),
        ({"inside": "7 in"}, ["meet_as_joined"]),
        ({"above": ", inside: 3/16 in"}, ["meet_as_joined"]),
        # On the outside of the leaf the dot looks away from the page, unless the dotted side is the one that is glued.
        ({"leaf_face": "back"}, ["dots_meet"]),
        ({"leaf_face": "back", "leaf_side": "face"}, []),
        ({"leaf_side": "face"}, ["dots_meet"]),
        ({"page_side": "face"}, ["dots_meet"]),
        # Both the wrong way round: the backs look at one another, and the dots away.
        ({"leaf_side": "face", "page_side": "face"}, ["dots_meet"]),
        # Nothing is known of a design that is never shut.
        ({"pose": "", "inside": "7 in", "leaf_side": "face"}, []),
        ({"pose": "pose closed { flap = flat }"}, ["meet_as_joined", "dots_meet"]),
    ],
)
def test_two_magnets_meet_as_they_are_joined(otherwise: dict[str, str], fails: list[str]) -> None:
    assert sorted(judged(**otherwise)[0]) == sorted(fails)


@pytest.mark.parametrize(
    ("otherwise", "fails"),
    [
        # Over one score the leaf is drawn on the page, and what is trapped opens it: its magnet still looks at the other.
        ({}, []),
        ({"leaf_face": "back"}, ["dots_meet"]),
        ({"leaf_face": "back", "leaf_side": "face"}, []),
        ({"leaf_side": "face", "page_side": "face"}, ["dots_meet"]),
    ],
)
def test_over_one_score_too(otherwise: dict[str, str], fails: list[str]) -> None:
    assert judged(trapped="0 in", thick="12 pt", **otherwise)[0] == fails


@pytest.mark.parametrize(
    ("otherwise", "under", "fails"),
    [
        # Two magnets of 1/32 in, stuck down with glue, which is given no caliper.
        ({}, "1/16", []),
        ({"trapped": "1/16 in"}, "1/16", []),
        ({"trapped": "0.062 in"}, "1/16", ["shuts"]),
        ({"trapped": "0 in"}, "1/16", ["shuts"]),
        # One score shuts over two thicknesses of the card, and no more.
        ({"trapped": "0 in", "thick": "12 pt"}, "24/1000", []),
        ({"trapped": "0 in", "thick": "13 pt"}, "26/1000", ["shuts"]),
        # Beside one another they are as thick as one, and on the outside of the leaf nothing.
        ({"inside": "7 in"}, "1/32", ["meet_as_joined"]),
        ({"leaf_face": "back", "leaf_side": "face"}, "1/32", []),
        ({"pose": ""}, "0", []),
        ({"pose": "pose closed { flap = flat }"}, "0", ["meet_as_joined", "dots_meet"]),
    ],
)
def test_a_flap_has_to_shut_over_what_lies_under_it(otherwise: dict[str, str], under: str, fails: list[str]) -> None:
    failing, inches = judged(**otherwise)
    assert inches["flap.under_leaf"] == Fraction(under)
    assert sorted(failing) == sorted(fails)


@pytest.mark.parametrize(("leaf", "fails"), [("7 3/4 in", []), ("7 13/16 in", ["inside_page"])])
def test_a_leaf_ends_an_eighth_inside_the_page_though_its_fold_stands_in(leaf: str, fails: list[str]) -> None:
    assert judged(leaf=leaf, inside=f"{leaf} - 1/8 in")[0] == fails


def test_how_far_they_miss_one_another_is_told() -> None:
    _, inches = judged(inside="7 in", above=", inside: 1/4 in")
    assert inches["hold.joined_aside"] == Fraction(1, 2)
    assert inches["hold.joined_above"] == Fraction(1, 4)
    assert judged()[1]["hold.joined_off"] == 0
