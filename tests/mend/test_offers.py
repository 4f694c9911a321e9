"""What stands beside an offered value: where it is typed, what else needs it, and how safe it is at the table."""

import pytest

from pastedown.compile import compile_design, mend
from pastedown.diagnostic import Severity, error
from pastedown.mend.to_text import mend_text
from pastedown.mend.ways_out import _told_untried
from test_examples import FILES

RULES = """edition = 1
component seam_of "A seam that tape holds." {
  takes tape: stock(kind: tape)
  takes seam: length(mark: nearest)
  require covered: tape.roll_width + 1/8 in <= seam because "tape shows beside it",
    way_out: ["make the seam {tape.roll_width + 1/8 in rounded up to ruler.marks}",
    "use tape no wider than {seam - 1/8 in rounded down to ruler.marks}"]
}
component slot "Something slides into it." {
  takes leaf: length
  takes made_leaf: length
  takes room: length
  takes made_room: length
  require slides_in: leaf <= room because "it jams", way_out: "make the leaf {room rounded down to ruler.marks} high"
  require goes_in: made_leaf + min(0 in, room - leaf) <= made_room because "it may jam"
}
"""
ALBUM = """edition = 1
use seam_of, slot from "rules.album"
album book "A book" {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
"""
TAPE = ALBUM + """  sticky = stock(kind: tape, roll_width: 3/4 in, caliper: 4 pt)
  part head = seam_of(tape: sticky, seam: 5/8 in + 0 in * 2)
  part tail = seam_of(tape: sticky, seam: 1/2 in + 0 in * 2)
}
"""
LEAF = """  cut_error = 3/64 in
  leaf = {leaf}
  piece pocket from card, height: 6 in, width: 5 in, loose: yes
  piece card_in from card, height: leaf, width: 4 in, loose: yes
  part kept = slot(leaf: leaf, made_leaf: card_in.height, room: 5 31/32 in, made_room: pocket.height)
}}
"""


def leaf_of(leaf: str) -> str:
    return ALBUM + LEAF.format(leaf=leaf)


def ways(text: str) -> dict[str, str]:
    """The ways out of each requirement that fails, by its path."""
    found = compile_design("book.album", text, {"rules.album": RULES}.get, planned=False, ways_tried=True)
    return {each.sentence.split()[0]: each.way_out for each in found.diagnostics if each.id == "requirement-fails"}


def test_where_two_faults_want_one_number_both_tell_what_does_for_both() -> None:
    told = ways(TAPE)
    both = "sticky.roll_width = 3/8 in, line 6"
    assert f"use tape no wider than 3/8 in ({both}; tried, and everything passes" in told["tail.covered"]
    assert f"use tape no wider than 1/2 in ({both}, as far as tail.covered needs it too" in told["head.covered"]


def test_what_is_bought_is_told_by_mending_and_not_written() -> None:
    text = TAPE.replace("5/8 in + 0 in * 2", "min(5/8 in, 5/8 in)").replace("1/2 in + 0 in * 2", "min(1/2 in, 1/2 in)")
    rules = RULES.replace("(mark: nearest)", " from 1/4 in to 5/8 in")
    report, _ = mend("book.album", text, {"rules.album": rules}.get)
    assert report is not None and not report.edits and report.text == text
    assert [(each.called, each.after) for each in report.bought] == [("sticky.roll_width", "3/8 in")]
    assert "With something else to buy everything passes:" in mend_text(report)


def test_an_offered_value_tells_how_safe_it_is_and_the_safer_mark() -> None:
    """Two cuts of 3/64 in come to 0.066 in: 1/16 in is too little for them in one album of 20, 1/8 in never."""
    (told,) = ways(leaf_of("6 1/8 in")).values()
    assert "leaf = 5 15/16 in, line 7; tried, and everything passes" in told
    assert "least sure of what that changes: kept.goes_in, with 1/16 in to spare; about one in 20 fails there" in told
    assert "safer is 5 7/8 in, where hardly any fails" in told


@pytest.mark.parametrize("leaf", ["5 15/16 in", "5 7/8 in"])
def test_what_is_offered_passes_when_it_is_typed(leaf: str) -> None:
    assert not compile_design("book.album", leaf_of(leaf), {"rules.album": RULES}.get).refused


def test_mending_tells_the_safer_mark_too() -> None:
    report, _ = mend("book.album", leaf_of("6 1/8 in"), {"rules.album": RULES}.get)
    assert report is not None and [each.after for each in report.edits] == ["5 15/16 in"]
    assert report.safer is not None and report.safer[0].after == "5 7/8 in"
    assert "One mark further is safer:" in mend_text(report)


SUM = """  leaf = pocket.height - {less}
  piece pocket from card, height: 6 in, width: 5 in, loose: yes
  piece card_in from card, height: leaf, width: 4 in, loose: yes
  part kept = slot(leaf: leaf, made_leaf: leaf, room: 5 7/8 in, made_room: 6 in)
}}
"""


def test_a_number_within_a_sum_is_told_with_the_whole_sum() -> None:
    """Typed as it is told, "leaf = 1/8 in" would be another thing altogether."""
    report, _ = mend("book.album", ALBUM + SUM.format(less="1/16 in"), {"rules.album": RULES}.get)
    assert report is not None
    assert [(each.before, each.after) for each in report.edits] == [("1/16 in", "1/8 in")]
    assert "leaf from pocket.height - 1/16 in to pocket.height - 1/8 in" in " ".join(mend_text(report).split())
    assert "leaf = pocket.height - 1/8 in, line 6;" in ways(ALBUM + SUM.format(less="1/16 in"))["kept.slides_in"]


LAP = """edition = 1
component lapped "A wrap that laps." {
  takes paper: stock
  takes lap: length(mark: nearest) from 1/4 in to 3 in
  piece wrap from paper, height: 6 in, width: lap, loose: yes
  require laps_hold: lap >= 10 mm because "it tears away", way_out: "let it lap {10 mm rounded up to ruler.marks} or more"
}
"""


def test_beyond_a_bound_a_value_is_offered_that_passes_the_requirements_too() -> None:
    text = ALBUM.replace('slot from "rules.album"', 'slot from "rules.album"\nuse lapped from "lap.album"')
    text += "  part case = lapped(paper: card, lap: 1/8 in)\n}\n"
    files = {"rules.album": RULES, "lap.album": LAP}
    found = compile_design("book.album", text, files.get, planned=False, ways_tried=True)
    (told,) = (each.way_out for each in found.diagnostics if each.id == "out-of-range")
    assert told == "set case.lap = 7/16 in, line 7 (the nearest that does; tried, and everything passes)"
    assert not compile_design("book.album", text.replace("lap: 1/8 in", "lap: 7/16 in"), files.get).refused


def test_what_is_too_thick_is_told_as_one_account() -> None:
    """Room, what is taken, and by how much it is too thick: each once, and never moved to a mark of the ruler."""
    text = """edition = 1
use pages_shut from rules
album full "A full book" {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 90 pt, grain: marked)
  grey = stock(kind: board, sheet: 12 in x 12 in, caliper: 80 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  spine = 3/8 in
  piece under from card, height: 5 in, width: 5 in
  piece over from card, height: 3 in, width: 3 in
  piece back from grey, height: 5 in, width: spine, loose: yes
  join over_on: over.back to under.face, by: sticky {
    align over.mid_width to under.mid_width   align over.mid_height to under.mid_height
  }
  part shut = pages_shut(pages: 2, stack: thickness(under), spine: spine, board: grey)
}
"""
    found = compile_design("full.album", text, lambda _: None, planned=False, ways_tried=True)
    (told,) = (each for each in found.diagnostics if each.id == "requirement-fails")
    assert told.sentence == "shut.shuts is not met: stack is 0.184 in and has to be at most about 0.152 in."
    assert told.reason == (
        "2 pages take 0.184 in where they are thickest, and there is room for about 0.152 in, a spine of 3/8 in less two "
        "boards of 0.08 in and 1/16 in of air: they are about 0.032 in too thick, and the covers press on them, with 0.031 in "
        "of air left"
    )
    spine = "make the spine 7/16 in or wider (spine = 7/16 in, line 8; tried, and everything passes"
    assert told.way_out.split("\n")[-1].startswith(spine)


def test_a_guess_that_nobody_tried_says_so() -> None:
    guess = error("runs-through", None, "Two things are in one place.", way_out="Make gap wider by 1/8 in or more.")
    assert _told_untried(guess).way_out == "Make gap wider by 1/8 in or more (not tried with the rest of the design)."
    tried = error("runs-through", None, "Two things are in one place.", way_out="set gap = 1/4 in, line 3 (tried)")
    assert _told_untried(tried) is tried


def test_what_is_not_joined_for_a_fault_of_its_own_is_not_told_as_unjoined() -> None:
    text = FILES["seed_diary.album"].replace("seam: 1/2 in,\n", "seam: 1/8 in,\n", 1)
    found = compile_design("seed_diary.album", text, FILES.get, planned=False)
    assert [each.id for each in found.diagnostics if each.severity is Severity.ERROR] == ["out-of-range"]


LIDS = RULES + """component cover "Something cut." {
  takes card: stock
  takes leaf: length(mark: down)
  piece sheet from card, height: leaf, width: 2 in, loose: yes
  fixed room = 6 in
  require slides_in: leaf <= room because "it jams", way_out: "make the leaf {room rounded down to ruler.marks} high"
}
"""
IN_A_WITH = ALBUM.replace("use seam_of, slot", "use cover") + """  part page[k from 1 to 2] = cover(card: card, leaf: 5 in)
  page[2] with { part lid = cover(card: card, leaf: 7 in) }
}
"""


def test_a_number_is_called_as_it_is_written_and_listed_once() -> None:
    report, _ = mend("book.album", IN_A_WITH, {"rules.album": LIDS}.get)
    assert report is not None
    words = mend_text(report)
    assert "page[2].lid.leaf from 7 in to 6 in" in words
    assert "passes as well" not in words
