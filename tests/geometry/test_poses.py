"""What a pose says in the end, with all that is added to it from outside, against what one reads in the recipe."""

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity

FOLDER = """edition = 1
component folder "A folder." {
  card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.3 mm, grain: none)
  piece strip from card, height: 50 mm, left: near, right: far, loose: yes {
    run near to far { panel a: 40 mm fold crease[1]: valley panel b: 30 mm fold crease[2]: valley panel c: 20 mm }
  }
  pose over { strip.crease = shut }
  pose up { strip.crease = square }
}
album base {
  ruler = millimetres to 1
  part leaf[k from 1 to 3] = folder()
  pose closed { leaf = over }
  pose open_at[k from 0 to 2] from closed { leaf[1] = flat }
}
"""


def angles(variant: str, name: str = "other") -> dict[str, dict[str, str]]:
    """The folds of each pose of the design called `name` that are not flat, as ["open_at[2]"]["leaf[1].crease[1]"]."""
    compiled = compile_design("probe.album", FOLDER + variant, lambda _: None)
    faults = [each.sentence for each in compiled.diagnostics if each.severity is not Severity.NOTE]
    assert not faults, faults
    (model,) = [design.model for design in compiled.designs if design.name == name]
    assert model is not None
    return {
        pose.path: {
            f"{piece.removesuffix('.strip')}.{fold}": angle
            for (piece, fold), angle in pose.angles.items()
            if angle != "flat"
        }
        for pose in model.poses
        if not pose.part
    }


def creases(**of_leaf: str) -> dict[str, str]:
    """Both creases of leaves, as in leaf_1="shut"."""
    return {f"leaf[{leaf[-1]}].crease[{at}]": angle for leaf, angle in of_leaf.items() for at in (1, 2)}


ALL_SHUT = creases(leaf_1="shut", leaf_2="shut", leaf_3="shut")


def test_a_variant_adds_to_a_pose_and_to_what_is_built_from_it() -> None:
    """Written in a path or in braces, as often as it likes; the poses of the base stay as they are."""
    by_path = angles("variant other of base { closed.leaf[2] = up  closed.leaf[3].strip.crease[1] = flat }")
    in_braces = angles(
        """variant other of base {
             closed with { each k from 2 to 3 { if k is 2 { leaf[k] = up } }  leaf[3].strip.crease[1] = flat }
           }"""
    )
    assert by_path == in_braces
    shut = creases(leaf_1="shut", leaf_2="square") | {"leaf[3].crease[2]": "shut"}
    assert by_path["closed"] == shut
    opened = {fold: angle for fold, angle in shut.items() if not fold.startswith("leaf[1]")}
    assert [by_path[f"open_at[{at}]"] for at in range(3)] == [opened] * 3
    assert angles("variant other of base { closed.leaf[2] = up }", "base")["closed"] == ALL_SHUT


def test_to_all_poses_of_a_family_or_to_one_and_the_outer_variant_is_heard() -> None:
    found = angles(
        """variant inner of base { open_at.leaf[1] = up  open_at[2].leaf[1] = over  closed.leaf[1] = up }
           variant other of inner { open_at[1].leaf[1] = flat  closed.leaf = flat }"""
    )
    assert found["closed"] == {}
    assert found["open_at[0]"] == creases(leaf_1="square")
    assert found["open_at[1]"] == {}
    assert found["open_at[2]"] == creases(leaf_1="shut")


def test_a_part_of_a_part_has_poses_that_are_added_to_as_well() -> None:
    """Before the album puts it into that pose, so there it is as it was amended."""
    found = angles("variant other of base { leaf[1].over.strip.crease[2] = square }")
    assert found["closed"] == ALL_SHUT | {"leaf[1].crease[2]": "square"}


def test_a_pose_says_nothing_of_what_was_taken_away() -> None:
    found = angles("variant inner of base { closed.leaf[3] = up }  variant other of inner { leaf[3] = nothing }")
    assert found["closed"] == creases(leaf_1="shut", leaf_2="shut")
    assert angles("variant other of base { leaf[1] = nothing }")["open_at[1]"] == creases(leaf_2="shut", leaf_3="shut")


def test_the_order_of_lines_in_a_pose_does_not_matter() -> None:
    """The more exact path holds, as everywhere."""
    lines = ["leaf = flat", "leaf[1] = over", "leaf[1].strip.crease[2] = square"]
    for said in (lines, lines[::-1], [lines[1], lines[2], lines[0]]):
        found = angles(f"variant other of base {{ pose own {{ {' '.join(said)} }} }}")
        assert found["own"] == {"leaf[1].crease[1]": "shut", "leaf[1].crease[2]": "square"}
