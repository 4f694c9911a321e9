"""What much fails for is named: a fold, a whole strip or a side that is the wrong way round."""

import pytest

from pastedown import check
from pastedown.compile import mend
from pastedown.diagnostic import Diagnostic, Severity
from pastedown.mend import other_way_round
from pastedown.mend.to_text import mend_text

STAND = """edition = 1
album stand "Two peaks on a card" {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 11 pt, grain: long)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  piece base from card, height: 5 in, width: 6 in
  piece strip from card, height: 5 in, left: west, right: east {
    run west to east {
      panel front_wing: 1 in
      each k from 1 to 2 {
        fold front_foot[k]: valley
        panel rise[k]: 1/2 in   fold crest[k]: mountain   panel fall[k]: 1/2 in
        fold back_foot[k]: valley
        panel floor[k]: 1/2 in
      }
      fold flap: valley
      panel end: 1/2 in
    }
  }
  join wing_on: strip.front_wing.back to base.face, by: sticky {
    align strip.west to base.mid_width
    align strip.tail to base.tail
  }
  each k from 1 to 2 {
    close peak_shut[k]: strip.rise[k].back to strip.fall[k].back, by: sticky
  }
  close middle_down: strip.floor[1].back to base.face, by: sticky
  close near_down: strip.floor[2].back to base.face, by: sticky
  close end_down: strip.end.back to base.face, by: sticky
  pose made_up { strip.front_foot = square   strip.crest = shut   strip.back_foot = square }
}
"""


def errors(text: str) -> list[Diagnostic]:
    return [each for each in check(text) if each.severity is Severity.ERROR]


def test_the_stand_goes_together() -> None:
    assert errors(STAND) == []


def test_one_fold_of_a_family_is_named_by_its_number() -> None:
    (told,) = errors(STAND.replace("pose made_up", "strip.back_foot[2] = mountain\n  pose made_up"))
    assert told.id == "wrong-way-round"
    assert told.sentence == (
        "strip.back_foot[2] is folded as a mountain: as a valley, both faults that were found would be gone."
    )
    assert told.span is not None
    assert (told.span.text, told.span.line) == ("mountain", 30)
    assert told.way_out.split("\n")[0] == (
        "write valley for the mountain of strip.back_foot[2], line 30 (tried, and everything passes)"
    )


def test_a_join_on_the_wrong_face_is_named() -> None:
    (told,) = errors(STAND.replace("strip.front_wing.back to", "strip.front_wing.face to"))
    assert told.id == "wrong-way-round"
    assert told.sentence.startswith("wing_on: with strip.front_wing.back for strip.front_wing.face, all 3 faults")


def test_one_fault_alone_keeps_its_message_and_gets_the_way_out_that_was_tried() -> None:
    (told,) = errors(STAND.replace("fold crest[k]: mountain", "fold crest[k]: valley"))
    assert told.id == "close-looks-away"
    assert told.sentence.endswith("cannot meet. The same goes for peak_shut[2].")
    assert told.way_out.startswith("write mountain for the valley of strip.crest, line 12 (tried, and everything")


def test_of_two_mistakes_neither_is_made_up_for_by_a_turn() -> None:
    text = STAND.replace("fold crest[k]: mountain", "fold crest[k]: valley").replace(
        "strip.back_foot = square }", "strip.back_foot = shut }"
    )
    assert "wrong-way-round" not in [each.id for each in errors(text)]


def test_a_mend_changes_no_number_for_it() -> None:
    text = STAND.replace("pose made_up", "strip.back_foot[2] = mountain\n  pose made_up")
    report, _ = mend("stand.album", text, lambda _: None)
    assert report is not None
    assert report.edits == ()
    assert "No number is to blame. Try: write valley for the mountain of strip.back_foot[2], line 30" in mend_text(report)


@pytest.mark.parametrize("most", [0, 1])
def test_no_more_is_tried_than_is_allowed(monkeypatch: pytest.MonkeyPatch, most: int) -> None:
    monkeypatch.setattr(other_way_round, "MOST_TRIED", most)
    found = errors(STAND.replace("strip.front_wing.back to", "strip.front_wing.face to"))
    assert [each.id for each in found] == ["close-looks-away"] * 3


def test_a_design_that_passes_is_worked_out_no_more_often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(other_way_round, "with_its_root", lambda judged: pytest.fail("looked for in vain"))
    assert errors(STAND) == []
