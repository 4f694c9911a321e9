"""What was really done, laid over a design: the sensitivity of folds, scales of print, and the cheapest repair.

The album has three pages of 7 by 5 1/2 in, and a strip with wings of 2 1/8, peaks of 5/8 and gussets of 3/8: its lines
lie at 2 1/8, 2 3/4, 3 3/8, 3 3/4, 4 3/8, 5, 5 3/8, 6 and 6 5/8. Card is 0.012 in and tape 0.004 in thick.
"""

import json
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import MadeDesign, compile_design, slips
from pastedown.diagnostic import Diagnostic
from pastedown.quantity.quantity import Length, Quantity, inches, mm
from pastedown.slip.report import SlipReport
from pastedown.slip.to_json import slip_json
from pastedown.slip.to_text import slip_text

ALBUM = """\
edition = 1
use cardstock, board_80_point, double_tape, cloth_tape, glue from stocks
use pocket_page from pages
use concertina_hinge from hinges
use taped_case from covers
use hinge_in_page, spine_takes_hinge from rules
album three "Three pages" {
  ruler = inches to 1/16
  kraft = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  grey = board_80_point(sheet: 12 in x 24 in, grain: long)
  sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
  cloth = cloth_tape(roll_width: 1 1/2 in, caliper: 10 pt)
  moving_adhesive = sticky
  static_adhesive = glue
  part page[k from 1 to 3] = pocket_page(paper: kraft, tape: sticky, height: 7 in, width: 5 1/2 in)
  part hinge = concertina_hinge(paper: kraft, tape: sticky, peaks: 3, peak: 5/8 in, gusset: 3/8 in, wing: 2 1/8 in,
    height: 6 7/8 in)
  hinge.bands_side_by_side = nothing
  part case = taped_case(board: grey, tape: cloth, joint: 1/8 in, height: 7 1/4 in, width: 5 3/4 in, spine: 2 in)
  part room = spine_takes_hinge(spine: case.spine, block: hinge.block, wing: hinge.wing, joint: case.joint)
  part fits = hinge_in_page(hinge_height: hinge.height, page_height: page.height,
    stand_thickness: hinge.stand_thickness)
  require goes_on: hinge.height + hinge.stand_thickness <= page.height because "else it does not go on at all"
  each k from 1 to 3 {
    join mount[k]: page[k].mouth to hinge.stand[k], moving: yes {
      align page[k].mouth.spine to hinge.stand[k].spine
      align page[k].mouth.mid_height to hinge.stand[k].mid_height
    }
  }
  join case_in: hinge.strip.back to case.inside_spine, before: mount {
    align hinge.strip.mid_width to case.inside_spine.mid_width
    align hinge.strip.mid_height to case.inside_spine.mid_height
  }
}
"""


@cache
def album(text: str = ALBUM) -> MadeDesign:
    compiled = compile_design("three.album", text, lambda _: None, planned=False)
    assert not compiled.refused, [each.sentence for each in compiled.diagnostics]
    return compiled.designs[0]


def report(*words: str) -> SlipReport:
    found, faults = slips(album(), words)
    assert found is not None, [each.sentence for each in faults]
    return found


def refused(*words: str) -> Diagnostic:
    found, faults = slips(album(), words)
    assert found is None
    return faults[0]


def changed(found: SlipReport, what: str, part: str = "hinge.strip.") -> dict[str, Length]:
    return {
        each.path.removeprefix(part): each.now
        for each in found.changes
        if each.what == what and each.path.startswith(part)
    }


def advice(found: SlipReport) -> str:
    return " ".join(slip_text(found).partition("cheapest first:")[2].split())


def broken(found: SlipReport) -> list[str]:
    return [fit.path for fit in found.broken]


# Folds that lie off


@pytest.mark.parametrize("said", ["hinge.strip.crest[2] at 4 1/2 in", "score 5 of hinge.strip at 4 1/2 in",
                                  "hinge.strip.crest[2] by 1/8 in", "hinge.strip.crest[2] at 114.3 mm"])  # fmt: skip
def test_a_crest_off_by_an_eighth_makes_a_step_of_a_quarter(said: str) -> None:
    found = report(said)
    assert changed(found, "panel") == {"rise[2]": inches("3/4"), "fall[2]": inches("1/2")}
    (pair,) = found.pairs
    assert (pair.join, pair.step) == ("hinge.peak_shut[2]", inches("1/4"))
    assert changed(found, "fold") == {"crest[2]": inches("9/2")}
    assert broken(found) == [] and not found.holds


def test_a_crest_is_mended_by_pinching_the_two_base_lines_together() -> None:
    found = report("hinge.strip.crest[2] at 4 1/2 in")
    (repair,) = found.repairs
    assert repair.mends
    assert advice(found).startswith(
        "Pinch front_foot[2] and back_foot[2] of hinge.strip together and crease again between them: crest[2] then lies "
        "4 3/8 in from front_end, rise[2] and fall[2] are 5/8 in each, and the old crease, 1/8 in away, hides inside."
    )


@settings(max_examples=20, deadline=None)
@given(st.integers(-9, 9).filter(bool), st.sampled_from([1, 2, 3]))
def test_the_sensitivity_of_a_base_line_and_of_a_crest(sixteenths: int, peak: int) -> None:
    e, ply, gusset = Fraction(sixteenths, 32), Fraction(5, 8), Fraction(3, 8)
    crest = report(f"hinge.strip.crest[{peak}] by {'-' if e < 0 else ''}{abs(sixteenths)}/32 in")
    assert changed(crest, "panel") == {f"rise[{peak}]": inches(ply + e), f"fall[{peak}]": inches(ply - e)}
    assert crest.pairs[0].step == inches(2 * abs(e))
    base = report(f"hinge.strip.back_foot[{peak}] by {'-' if e < 0 else ''}{abs(sixteenths)}/32 in")
    beside = f"floor[{peak}]" if peak < 3 else "back_wing"
    other = gusset - e if peak < 3 else Fraction(17, 8) - e
    assert changed(base, "panel") == {f"fall[{peak}]": inches(ply + e), beside: inches(other)}
    assert base.pairs[0].step == inches(abs(e))


def test_a_base_line_moves_the_peaks_apart_and_the_reading_says_so() -> None:
    found = report("hinge.strip.front_foot[2] by 1/16 in")
    assert changed(found, "reading", "hinge.") == {"read_width": inches("5.084") + inches("1/16")}


def test_all_lines_shifted_change_only_the_two_ends() -> None:
    found = report("hinge.strip by 1/16 in")
    assert changed(found, "panel") == {"front_wing": inches("35/16"), "back_wing": inches("33/16")}
    assert len(changed(found, "fold")) == 9
    assert found.pairs == () and found.holds
    assert changed(found, "fact", "") == {}
    assert "only its two end panels changed" in advice(found)


def test_several_slips_add_up() -> None:
    found = report("hinge.strip.crest[1] by 1/16 in", "hinge.strip.crest[3] by -1/16 in")
    assert [pair.step for pair in found.pairs] == [inches("1/8")] * 2
    assert [repair.mends for repair in found.repairs] == [True]


def test_a_family_of_folds_moves_together() -> None:
    assert len(report("hinge.strip.crest by 1/16 in").pairs) == 3


# Sides that were cut otherwise


def test_a_strip_cut_shorter_still_fits() -> None:
    found = report("hinge.height at 6 5/8 in")
    assert found.holds
    assert changed(found, "side") == {"height": inches("53/8")}
    assert "Use it as it is" in advice(found)
    assert report("hinge.strip.height at 6 5/8 in").changes == found.changes


def test_a_strip_cut_too_high_is_trimmed() -> None:
    found = report("hinge.strip.height at 6 15/16 in")
    assert broken(found) == ["fits.slides_on"]
    assert advice(found).startswith("Trim hinge.strip to 6 7/8 in high; 1/16 in comes off.")


def test_one_low_page_asks_the_rule_of_that_page_and_the_strip_is_trimmed() -> None:
    found = report("page[2].height at 6 15/16 in")
    # 6 15/16 less two cards, three tapes and 1/16 is 6.839: the strip of 6 7/8 is too high, 6 13/16 is not.
    (fit,) = found.broken
    assert (fit.path, fit.now) == ("fits.slides_on", (inches("55/8"), inches("6.839")))
    assert advice(found).startswith("Trim hinge.strip to 6 13/16 in high")
    assert "page[1].front_sheet.height" not in {each.path for each in found.changes}


def test_what_is_cut_already_does_not_follow() -> None:
    text = ALBUM.replace("height: 7 1/4 in, width: 5 3/4 in", "height: page[1].height + 1/4 in, width: 5 3/4 in")
    found, _ = slips(album(text), ["page[1].height at 6 15/16 in"])
    assert found is not None
    assert not [each for each in found.changes if each.path.startswith("case.")]


def test_a_cut_as_designed_changes_nothing() -> None:
    found = report("hinge.strip.height at 6 7/8 in", "hinge.strip.crest[1] at 2 3/4 in")
    assert found.changes == () and found.holds
    assert "as designed" in slip_text(found)


# Prints at another scale


def test_pages_printed_at_97_percent_do_not_go_on_a_strip_cut_by_the_ruler() -> None:
    found = report("page printed at 97 %")
    assert changed(found, "panel", "page[1].front_sheet.") == {"flap": inches("0.485"), "body": inches("6.79")}
    assert "goes_on" in broken(found)
    (fit,) = [each for each in found.fits if each.path == "goes_on"]
    assert fit.holds_from == Fraction(6911, 7000)
    text = slip_text(found)
    assert "goes_on: at about 98.73 % and more" in text
    assert "Print again at about 103.09 %" in text


def test_a_scale_just_right_is_enough_and_a_hair_less_is_not() -> None:
    least = Fraction(6911, 7000)
    assert "goes_on" not in broken(report(f"page printed at {least}"))
    assert "goes_on" in broken(report(f"page printed at {least - Fraction(1, 10**6)}"))


def test_an_album_printed_whole_at_97_percent_still_fits_itself() -> None:
    found = report("printed at 97 %")
    assert found.holds
    assert "what is cut by the ruler would not match them" in advice(found)
    # The rolls were not printed.
    assert "case.front_tape.width" not in {each.path for each in found.changes}


def test_one_piece_printed_at_another_scale() -> None:
    found = report("page[1].front_sheet printed at 97 %")
    paths = {each.path for each in found.changes if each.what == "side"}
    assert paths == {"page[1].front_sheet.height", "page[1].front_sheet.width"}


# Words that cannot be


@pytest.mark.parametrize(
    ("said", "id"),
    [
        ("hinge.strip.crest[2] 4 1/2 in", "slip-unreadable"), ("", "slip-unreadable"), ("at 3 in", "slip-unreadable"),
        ("hinge.strip.crest[2] at 4 1/2", "slip-unreadable"), ("hinge.strip.crest[2] at 12 gsm", "slip-unreadable"),
        ("hinge.strip.crest[2] at 4 1/2 furlongs", "slip-unreadable"), ("printed at 97 mm", "slip-unreadable"),
        ("printed at 0 %", "slip-unreadable"), ("hinge.strip.height at 0 in", "slip-unreadable"),
        ("x" * 400, "slip-unreadable"), ("a\u202eb at 3 in", "slip-unreadable"),
        ("hinge.strip.crest at 4 1/2 in", "slip-of-nothing"), ("hinge.strip.crest[9] at 4 1/2 in", "slip-of-nothing"),
        ("hinge.strip.crets[2] at 4 1/2 in", "slip-of-nothing"), ("nowhere at 4 in", "slip-of-nothing"),
        ("page.height at 7 in", "slip-of-nothing"), ("hinge at 7 in", "slip-of-nothing"),
        ("hinge.strip.rise[1] at 1 in", "slip-of-nothing"), ("hinge.peaks at 4 in", "slip-of-nothing"),
        ("score 10 of hinge.strip at 4 in", "slip-of-nothing"), ("score 0 of hinge.strip at 4 in", "slip-of-nothing"),
        ("score 1 of hinge at 4 in", "slip-of-nothing"), ("score 1 of case.front_cover at 4 in", "slip-of-nothing"),
        ("kraft.caliper at 13 pt", "slip-of-nothing"), ("kraft printed at 97 %", "slip-of-nothing"),
        ("hinge.height by 1/8 in", "slip-of-nothing"), ("hinge.strip.head at 4 in", "slip-of-nothing"),
        ("hinge.strip.crest[2] at 3 3/4 in", "slip-out-of-place"), ("hinge.strip by 3 in", "slip-out-of-place"),
        ("hinge.strip.width at 6 in", "slip-out-of-place"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told(said: str, id: str) -> None:
    fault = refused(said)
    assert fault.id == id and fault.way_out
    assert "\u202e" not in fault.sentence


def test_more_slips_than_anybody_makes_are_refused() -> None:
    assert refused(*["hinge.strip by 1/16 in"] * 51).id == "slip-unreadable"


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=40))
def test_any_words_end_in_a_report_or_a_message(said: str) -> None:
    found, faults = slips(album(), [said])
    assert (found is None) == bool(faults)


# Written down


def test_the_text_and_the_json_tell_the_same() -> None:
    found = report("page printed at 97 %", "hinge.strip.crest[2] at 4 1/2 in")
    data = json.loads(slip_json(found))
    assert data["format"] == "pastedown-slip" and data["holds"] is False
    assert [each["words"] for each in data["done"]] == [each.words for each in found.done]
    assert [each["path"] for each in data["changes"]] == [each.path for each in found.changes]
    assert [Fraction(each["step"]["exact_mm"]) for each in data["pairs"]] == [mm("6.35").value]
    assert {each["path"] for each in data["fits"] if each["held"] and not each["holds"] and each["strict"]} == set(
        broken(found)
    )
    assert [each["mends"] for each in data["repairs"]] == [each.mends for each in found.repairs]
    assert slip_json(found) == slip_json(report("page printed at 97 %", "hinge.strip.crest[2] at 4 1/2 in"))


def test_an_album_without_components_can_slip_too() -> None:
    text = """\
edition = 1
album plain {
  ruler = millimetres to 1
  kraft = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.3 mm, grain: marked)
  turn = 12 mm
  piece sheet from kraft, width: 100 mm, loose: yes {
    run tail to head { panel flap: turn  fold line: mountain  panel body: 150 mm }
  }
  piece card from kraft, height: 140 mm, width: 90 mm, loose: yes
  require fits: card.width + 5 mm <= sheet.width because "it is tucked in"
}
"""
    found, _ = slips(album(text), ["sheet.line at 15 mm", "sheet.width at 93 mm"])
    assert found is not None
    assert broken(found) == ["fits"]
    values = {each.path: each.now for each in found.changes}
    assert values["sheet.flap"] == mm(15) and values["sheet.body"] == mm(147)
    assert values["turn"] == mm(15)
    assert isinstance(values["sheet.width"], Quantity)
