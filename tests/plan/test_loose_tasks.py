"""What nothing holds is put in last, unless the maker has it in hand."""

from pastedown.compile import compile_design
from pastedown.plan.plan import BuildStep

POCKET = """edition = 1
album probe {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  moving_adhesive = sticky
  static_adhesive = sticky
  piece under from card, height: 5 in, width: 5 in
  piece over from card, height: 5 in, width: 4 in
  piece note[k from 1 to 2] from card, height: 4 in, width: 3 in, loose: yes
  piece picture from card, height: 2 in, width: 2 in
  join pocket: over.back to under.face {{
    align over.mid_width to under.mid_width
    align over.head to under.head
  }}
  join stuck: picture.back to note[1].face {{
    align picture.mid_width to note[1].mid_width
    align picture.head to note[1].head
  }}
  {more}
}}
"""


def steps(more: str = "") -> tuple[BuildStep, ...]:
    plan = compile_design("probe.album", POCKET.format(more=more), lambda _: None).designs[0].plan
    assert plan is not None
    return plan.steps


def test_it_comes_last_of_all() -> None:
    *others, last = steps()
    assert last.title == ("Put in note",)
    assert last.refers == ("note[1]", "note[2]")
    assert last.times == 2
    assert "lay" not in {each.kind for each in others}


def test_a_step_that_comes_after_it_has_it_in_hand() -> None:
    own = steps('step slip_in: "Slip the notes in.", after: [note, pocket]')
    assert [each.kind for each in own].count("lay") == 0
    one = steps('step slip_in: "Slip the first note in.", after: note[1]')
    assert [each.refers for each in one if each.kind == "lay"] == [("note[2]",)]


def test_a_sheet_alone_is_put_in_nothing() -> None:
    alone = """edition = 1
album probe {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  piece sheet from card, height: 5 in, width: 5 in, loose: yes
}
"""
    plan = compile_design("probe.album", alone, lambda _: None).designs[0].plan
    assert plan is not None
    assert [each.kind for each in plan.steps] == ["cut"]
