"""What nothing holds is put in last, unless the maker has it in hand."""

from pastedown.compile import compile_design
from pastedown.plan.plan import BuildStep

STUFF = """ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  moving_adhesive = sticky
  static_adhesive = sticky"""
POCKET = """edition = 1
album probe {{
  {stuff}
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
    plan = compile_design("probe.album", POCKET.format(stuff=STUFF, more=more), lambda _: None).designs[0].plan
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


IN_A_PART = """edition = 1
component envelope "Two sheets, open on one side." {{
  takes card: stock
  piece under from card, height: 5 in, width: 5 in
  piece over from card, height: 5 in, width: 4 in
  join pocket: over.back to under.face {{
    align over.mid_width to under.mid_width
    align over.head to under.head
  }}
}}
component folder "A card that folds up." {{
  takes card: stock
  piece leaf from card, height: 4 in, width: 3 in, loose: yes
  step fold_up: "Fold it up.", after: leaf
}}
album probe {{
  {stuff}
  piece board from card, height: 6 in, width: 6 in
  part page = envelope(card: card)
  page with {{
    part note = folder(card: card)
  }}
  join mount: page.under.back to board.face {{
    align page.under.mid_width to board.mid_width
    align page.under.mid_height to board.mid_height
  }}
  {more}
}}
"""


def paths_of_all(more: str) -> list[str]:
    plan = compile_design("probe.album", IN_A_PART.format(stuff=STUFF, more=more), lambda _: None).designs[0].plan
    assert plan is not None
    return [path for each in plan.steps for path in each.refers if each.kind in ("join", "do", "check", "lay")]


def test_it_comes_last_though_it_belongs_to_a_part_that_is_finished_sooner() -> None:
    assert paths_of_all("") == ["page.pocket", "page.note.fold_up", "mount", "page.note.leaf"]


def test_work_on_what_it_lies_in_and_measuring_do_not_put_it_in() -> None:
    for own in (
        'step own: "Decorate.", after: page',
        'step own: "Measure.", after: page, reads: page.under.height',
        'step own: "Measure.", after: page.note.leaf, reads: page.note.leaf.height',
    ):
        told = paths_of_all(own)
        assert "own" in told
        assert told[-1] == "page.note.leaf", own
    for own in ('step own: "Slip it in.", after: page.note', 'step own: "Slip it in.", after: [mount, page.note.leaf]'):
        assert "page.note.leaf" not in paths_of_all(own), own


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
