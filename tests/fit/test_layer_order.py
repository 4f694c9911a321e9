"""What turns its back on what it is closed to, and what lies between: by shut folds, not by how thick the paper is."""

import pytest

from pastedown.compile import MadeDesign
from pastedown.fit import in_poses, layer_order
from pastedown.fit.layer_order import Effort
from reference.through_the_compiler import made, refused

LEAFLET = """
card = stock(kind: card, sheet: 12 in x 12 in{caliper}, grain: none)
piece sheet from card, height: 5 in, left: a, right: b {{
  run a to b {{ panel p: 2 in  fold bend: {kind}  panel q: 2 in }}
}}
close seam: sheet.p.{side} to sheet.q.{side} {{ align sheet.a to sheet.b }}
pose made_up {{ sheet.bend = shut }}
"""

# Two sheets with a flap each: the rear lies on the front's flap, and its own flap comes round onto the front.
SLEEVE = """
card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: none)
piece front from card, width: 4 in {{
  run tail to head {{ panel flap: 1/2 in  fold bend: {front}  panel body: 5 in }}
}}
piece rear from card, width: 4 in {{
  run tail to head {{ panel body: 5 in  fold bend: {rear}  panel flap: 1/2 in }}
}}
join tail_seam: rear.body.face to front.flap.back {{
  align rear.body.tail to front.bend   align rear.left to front.right
}}
close head_seam: rear.flap.back to front.body.face {{ align rear.bend to front.body.head }}
pose made_up {{ front.bend = shut  rear.bend = shut  {strip} }}
"""

# The sleeve pushed over a strip: both its backs lie on both faces of the strip.
OVER_A_STRIP = """
piece strip from card, height: 4 in {
  run left to right { panel rise: 1 in  fold crest: mountain  panel fall: 1 in }
}
place mouth: front.body.back, rear.body.back
place stand: strip.rise.face, strip.fall.face
join mount: mouth to stand, moving: yes {
  align front.body.left to strip.rise.left   align front.body.mid_height to strip.mid_height
}
"""

# What is stuck on before the flap is closed over it opens the fold: the places show the two past one another.
COVERED = """
card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: none)
thick = stock(kind: board, sheet: 12 in x 12 in, caliper: 80 pt, grain: none)
piece sheet from card, height: 5 in {
  run left to right { panel front: 4 in  fold turn: mountain  panel rear: 4 in  fold bend: mountain  panel flap: 3 in }
}
piece plate from thick, height: 4 in, width: 3 in
join lay: plate.back to sheet.front.face {
  align plate.mid_width to sheet.front.mid_width   align plate.mid_height to sheet.front.mid_height
}
close seam: sheet.flap.back to plate.face
pose made_up { sheet.turn = shut  sheet.bend = shut }
"""


@pytest.mark.parametrize("caliper", [", caliper: 12 pt", ", caliper: 1 pt"])
@pytest.mark.parametrize(
    ("kind", "side", "found"),
    [
        ("valley", "face", []),
        ("mountain", "back", []),
        ("valley", "back", ["close-looks-away"]),
        ("mountain", "face", ["close-looks-away"]),
    ],
)
def test_a_shut_fold_lays_its_inner_sides_on_one_another(caliper: str, kind: str, side: str, found: list[str]) -> None:
    assert refused(LEAFLET.format(caliper=caliper, kind=kind, side=side)) == found


@pytest.mark.parametrize(
    ("front", "rear", "found"),
    [("mountain", "mountain", []), ("valley", "valley", []), ("valley", "mountain", ["close-misses"])],
)
def test_nothing_may_lie_between(front: str, rear: str, found: list[str]) -> None:
    assert refused(SLEEVE.format(front=front, rear=rear, strip="")) == found


@pytest.mark.parametrize(("kind", "found"), [("mountain", []), ("valley", ["close-looks-away"])])
def test_a_sleeve_inside_out_does_not_go_over_a_strip(kind: str, found: list[str]) -> None:
    sleeve = SLEEVE.format(front=kind, rear=kind, strip="strip.crest = shut")
    assert refused(sleeve + OVER_A_STRIP) == found


def test_what_is_trapped_in_a_shut_fold_opens_it() -> None:
    assert refused(COVERED) == []


# A strip folded to and fro, so that every panel lies over every other, in many poses.
ACCORDION = """
card = stock(kind: card, sheet: 900 in x 900 in, caliper: 1 pt, grain: none)
piece strip from card, height: 5 in, left: near, right: far {{
  run near to far {{
    each k from 1 to 12 {{
      panel p[k]: 1 in  fold up[k]: valley  panel q[k]: 1 in  fold down[k]: mountain
    }}
    panel last: 1 in
  }}
}}
{seam}
pose made_up {{ strip.up = shut  strip.down = shut }}
pose other[j from 1 to 9] from made_up {{ strip.down[12 - j] = flat }}
"""
SEAM = "close seam: strip.p[1].face to strip.q[1].face"


def accordion(seam: str) -> MadeDesign:
    return made(ACCORDION.format(seam=seam))


def effort_for(design: MadeDesign) -> Effort:
    effort, model = Effort(), design.model
    assert model is not None
    list(in_poses.look(model, effort))
    return effort


def test_the_order_of_layers_counts_as_work_where_it_is_looked_for() -> None:
    design, without = accordion(SEAM), accordion("")
    effort = effort_for(design)
    assert effort.work > 3_000
    assert effort_for(without).work == 0
    # The words of the seam itself are a few steps, and the pair of panels that it joins.
    assert effort.work <= design.worked_out.spent - without.worked_out.spent <= effort.work + 1_000


def test_no_more_is_followed_in_all_poses_together_than_in_a_few(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = effort_for(accordion(SEAM))
    monkeypatch.setattr(layer_order, "MOST_FOLLOWED", 500)
    cut_short = effort_for(accordion(SEAM))
    assert cut_short.is_used_up
    # The one that goes past the limit is counted whole; it is no longer than there are panels.
    assert 4 * 500 <= cut_short.followed <= 4 * 500 + 10 * 50 < whole.followed
