"""Magnets that hold a flap shut: which way round they lie is marked, and their danger told, before any glue."""

import pytest

from pastedown.compile import compile_design

FLAP = """edition = 1
use magnet_pair from decorations
album probe {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  disc = stock(kind: magnet, height: 3/8 in, width: 3/8 in, caliper: 20 pt{caution})
  paste = stock(kind: glue)
  static_adhesive = paste
  piece page from card, height: 6 in, width: 5 in, loose: yes
  piece leaf from card, height: 4 in, width: 4 in
  join over: leaf.back to page.face {{
    align leaf.mid_width to page.mid_width
    align leaf.mid_height to page.mid_height
  }}
  part pair = magnet_pair(magnet: disc, leaf: 4 in, up: 3 in)
  join in_leaf: pair.leaf_magnet.back to leaf.face {{
    align pair.leaf_magnet.mid_width to leaf.right, inside: 3/8 in
    align pair.leaf_magnet.mid_height to leaf.tail, inside: 3 in
  }}
  join in_page: pair.page_magnet.back to page.back {{
    align pair.page_magnet.mid_width to page.mid_width
    align pair.page_magnet.mid_height to page.mid_height
  }}
}}
"""


@pytest.mark.parametrize("own", ["", "Keep these out of every mouth."])
def test_the_faces_that_meet_are_marked_before_any_magnet_is_stuck(own: str) -> None:
    text = FLAP.format(caution=f', caution: "{own}"' if own else "")
    plan = compile_design("probe.album", text, lambda _: None).designs[0].plan
    assert plan is not None
    order = [each.refers[0] for each in plan.steps]
    mark = order.index("pair.mark_faces")
    assert mark < min(order.index("in_leaf"), order.index("in_page"))
    step = plan.steps[mark]
    said = "".join(str(part) for part in step.text)
    assert "find each other" in said
    assert "dot of pencil" in said
    # Told where magnets are first in hand, and nowhere again.
    cautions = [(each.number, "".join(map(str, words))) for each in plan.steps for words in each.cautions]
    ((number, told),) = [(number, words) for number, words in cautions if "swallowed" in words or words == own]
    assert number == step.number
    assert told == own or ("children" in told and "injure" in told)
