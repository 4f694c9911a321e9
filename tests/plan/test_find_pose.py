"""Which pose a maker means, by its path or in words."""

import pytest

from pastedown.compile import compile_design
from pastedown.plan.find_pose import find_pose, no_such_pose
from pastedown.plan.plan import Plan

BOOK = """edition = 1
component folder "A folded sheet." {
  takes paper: stock(kind: card) "the sheet"
  piece leaf from paper, height: 5 in, left: west, right: east {
    run west to east { panel near: 2 in   fold line: valley   panel far: 2 in }
  }
  pose made_up { }
  pose shut_up { leaf.line = shut }
}
album book {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  part wallet[k from 1 to 2] = folder(paper: card)
  part lid = folder(paper: card)
  pose shut_up { lid = shut_up }
  pose open_at[k from 1 to 2] { wallet[k] = shut_up }
}
"""


@pytest.fixture(scope="module")
def plan() -> Plan:
    found = compile_design("book.album", BOOK, lambda _: None).designs[0].plan
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("asked", "path"),
    [
        ("open_at[2]", "open_at[2]"),
        ("open at 2", "open_at[2]"),
        ("Open at wallet 2", "open_at[2]"),
        ("shut_up", "shut_up"),
        ("shut up", "shut_up"),
        ("lid.shut_up", "lid.shut_up"),
        ("lid shut up", "lid.shut_up"),
        ("the pose shut up of the lid", "lid.shut_up"),
        ("wallet[1].shut_up", "wallet[1].shut_up"),
        ("shut up of wallet 1", "wallet[1].shut_up"),
        ("made up", "made_up"),
        ("flat", "flat"),
        ("open", None),
        ("open at 3", None),
        ("not shut up", None),
        ("", None),
        ("\x1b[31mshut_up", None),
    ],
)
def test_a_pose_is_found_by_its_words_and_not_by_others(plan: Plan, asked: str, path: str | None) -> None:
    assert find_pose(plan, asked) == path


def test_what_there_is_is_told_families_from_first_to_last(plan: Plan) -> None:
    assert no_such_pose(plan, "open_at[3]").endswith(
        "It has: made_up, flat, lid.shut_up, open_at[1] to open_at[2], shut_up, wallet[1].shut_up, wallet[2].shut_up."
    )
    assert "Did you mean `shut_up`?" in no_such_pose(plan, "shut_pu")
    assert "\x1b" not in no_such_pose(plan, "\x1b[31m")
    assert len(no_such_pose(plan, "x" * 10**6)) < 1000
