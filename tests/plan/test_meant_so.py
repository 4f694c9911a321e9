"""What is meant so is told at the step after which it shows, and at the end of the booklet."""

from pastedown.outputs import to_booklet_html, to_steps
from pastedown.plan.plan import Plan
from pastedown.quantity.write import write_text
from reference.thick_pages import ON_BOTH_FACES, STAGGERED, USES, album
from reference.through_the_compiler import plan

PROUD = plan(album(ON_BOTH_FACES, more='shut.shuts.meant = "It is to look overfull"'), USES)
LEAVES = """
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: none)
  glue = stock(kind: glue)
  static_adhesive = glue
  piece base from card, height: 4 in, width: 4 in
  piece leaf from card, height: {leaf}, width: 2 in
  piece label from card, height: 1 in, width: 1 in
  join leaf_on: leaf.back to base.face {{
    align leaf.mid_height to base.mid_height   align leaf.mid_width to base.mid_width
  }}
  join label_on: label.back to leaf.face, after: leaf_on {{
    align label.mid_height to leaf.mid_height   align label.mid_width to leaf.mid_width
  }}
  require short: leaf.height <= 3 in because "a leaf of {{leaf.height}} is hard to turn", may_be_meant: yes,
    way_out: "make it {{3 in}} high"
  short.meant = "It is to be tall."
"""


def told(plan: Plan) -> list[tuple[int, str]]:
    """The steps that tell it, each with its tip."""
    return [
        (step.number, write_text(tip, plan.ruler))
        for step in plan.steps
        for tip in step.tips
        if isinstance(tip[0], str) and tip[0].startswith("It is meant so")
    ]


def test_a_book_that_stands_proud_says_so_where_its_last_thick_thing_is_joined() -> None:
    ((number, tip),) = told(PROUD)
    assert tip.startswith("It is meant so: 4 pages take 1.592 in where they are thickest")
    assert tip.endswith(" at the fore edge. It is to look overfull.")
    joins_strip = [step.number for step in PROUD.steps if {"front_wing", "back_wing"} & set(step.refers)]
    assert number == max(joins_strip)
    assert "Tip: It is meant so: 4 pages take 1.592 in" in to_steps.make(PROUD)["steps.txt"].decode()


def test_what_has_no_thickness_is_told_at_the_last_step_of_its_part() -> None:
    made = plan(LEAVES.format(leaf="3 1/2 in"))
    assert told(made) == [(len(made.steps), "It is meant so: A leaf of 3 1/2 in is hard to turn. It is to be tall.")]


def test_what_holds_needs_no_reason() -> None:
    assert told(plan(album(STAGGERED), USES)) == []
    assert "What is meant so" not in _booklet(plan(album(STAGGERED), USES))


def test_the_booklet_ends_with_it() -> None:
    booklet = _booklet(PROUD)
    at = booklet.index('<h2 id="meant-title">What is meant so</h2>')
    assert booklet.index('id="steps-title"') < at < booklet.index('id="words-title"')
    assert "It is to look overfull." in booklet[at:]


def _booklet(plan: Plan) -> str:
    (page,) = to_booklet_html.make(plan).values()
    return page.decode()
