import pytest

from pastedown.geometry.natural_order import natural_key
from pastedown.plan.distinct_names import distinct
from pastedown.plan.names import members
from pastedown.plan.words import read_inside_out, spoken, within


@pytest.mark.parametrize(
    ("paths", "words"),
    [
        (["page[1].flap_on", "page[2].flap_on", "page[3].flap_on", "page[5].flap_on"], "pages 1 to 3 and 5"),
        (["page[3].flap_on"], "page 3"),
        (["page[1].mat[1]", "page[1].mat[2]"], "page 1 mats 1 and 2"),
        (["front_tag.body", "rear_tag.body"], "front tag and rear tag"),
        (["front_tag.body", "strip"], "front tag body and strip"),
        (["mount[3]", "mount[1]"], "mounts 3 and 1"),
        (["case"], "case"),
        (["leaf[1]", "leaf[2]"], "leaves 1 and 2"),
        (["lens[1]", "lens[2]"], "lens 1 and 2"),
        (["tray[1]", "tray[2]"], "trays 1 and 2"),
    ],
)
def test_members_are_told_down_to_what_tells_them_apart(paths: list[str], words: str) -> None:
    assert members(paths) == words


def test_numbers_in_names_are_sorted_as_numbers_however_long() -> None:
    paths = ["page[10]", "page[2]", "page[1].z", "page[1]", "hinge", f"page[{'9' * 6000}]"]
    in_order = ["hinge", "page[1]", "page[1].z", "page[2]", "page[10]", f"page[{'9' * 6000}]"]
    assert sorted(paths, key=natural_key) == in_order


def test_paths_are_read_from_the_inside_out_and_names_from_the_outside_in() -> None:
    assert read_inside_out("page[2].rear_sheet.tail") == "the tail of the rear sheet of page 2"
    assert read_inside_out("strip.mid_height") == "the mid-height line of the strip"
    assert spoken("page[2].rear_sheet") == "page 2 rear sheet"


def test_a_path_within_a_part_is_shortened_and_another_is_not() -> None:
    assert within("page[1].sheet", "page[1]") == "sheet"
    assert within("page[10].sheet", "page[1]") == "page[10].sheet"
    assert within("page[1].sheet", "") == "page[1].sheet"


def test_names_that_come_up_again_are_numbered_around_those_already_taken() -> None:
    assert distinct(["a", "a-2", "a", "a", "b"], "{}-{}") == ["a", "a-2", "a-3", "a-4", "b"]
