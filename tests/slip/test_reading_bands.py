"""Between which readings all holds: the bands that steps tell, and the verdicts of slips on both sides of their ends."""

from pathlib import Path

from leaves import LEAVES
from pastedown.compile import MadeDesign, compile_design, slips
from pastedown.geometry.model import Step
from pastedown.quantity.quantity import Length, inches
from pastedown.quantity.write import write

EXAMPLES = Path(__file__).parents[2] / "examples"

# A leaf goes on a strip of 6 7/8 in with 1/16 in to slide, and between covers that leave it 1/8 in at head and tail.
ALBUM = LEAVES.replace(
    "BODY",
    """\
  strip = 6 7/8 in
  covers = 7 3/8 in
  border = (covers - leaf_of.height) / 2 "at head and at tail"
BODY""",
)
SLIDES = '  require slides: strip + 1/16 in <= leaf_of.height because "it jams"\n'
IN_SIGHT = '  require in_sight: border >= 1/8 in because "its corners get knocked"\n'
GOES_IN = '  require goes_in: leaf_of.sheet.body.size >= strip because "it does not go on"\n'


def album(text: str) -> MadeDesign:
    compiled = compile_design("book.album", text, lambda _: None)
    assert not compiled.refused, [each.sentence for each in compiled.diagnostics]
    return compiled.designs[0]


def reading(design: MadeDesign, path: str) -> Step:
    assert design.model is not None
    return next(each for each in design.model.steps if each.path == path)


def loses(design: MadeDesign, path: str, length: Length) -> list[str]:
    """What is lost where a step reads a length."""
    assert design.model is not None
    found, faults = slips(design, [f"{path} reads {write(length, design.model.ruler)}"])
    assert found is not None, [each.sentence for each in faults]
    return [each.path for each in found.broken]


def test_what_is_required_of_a_length_bounds_what_is_read_of_it() -> None:
    design = album(ALBUM.replace("BODY", SLIDES + IN_SIGHT + GOES_IN))
    band = reading(design, "leaf_of[2].read").all_holds
    assert (band.least, band.below) == (inches("111/16"), "slides")
    assert (band.most, band.above) == (inches("57/8"), "in_sight")
    assert band.more == ("the border at head and at tail is less than ", inches("1/8"))
    # Both sides of the other requirement are no plain name.
    assert band.less == ()
    half = inches("1/32")
    for length, lost in ((inches("111/16"), []), (inches("111/16") - half, ["slides"]), (inches("57/8"), []),
                         (inches("57/8") + half, ["in_sight"])):  # fmt: skip
        assert loses(design, "leaf_of[2].read", length) == lost


def test_where_the_errors_of_the_hand_bound_it_first_nothing_is_lost_before() -> None:
    design = album(ALBUM.replace("BODY", GOES_IN))
    band = reading(design, "leaf_of[1].read").all_holds
    assert (band.least, band.below, band.most, band.above) == (None, "", None, "")


def test_a_rule_that_leaps_is_looked_at_where_it_leaps() -> None:
    # Nothing is lost evenly here: past 7 1/16 in the border counts as none.
    leaps = """  seen = choose(leaf_of.height > 7 1/16 in, yes: 0 in, no: border)
  require in_sight: seen >= 1/8 in because "its corners get knocked"
"""
    design = album(ALBUM.replace("BODY", leaps))
    most = reading(design, "leaf_of[1].read").all_holds.most
    assert most is not None and most <= inches("113/16")
    assert loses(design, "leaf_of[1].read", most) == []


def test_an_album_says_the_same_at_the_step_and_as_a_slip() -> None:
    design = album((EXAMPLES / "harbour_walk.album").read_text())
    band = reading(design, "page[2].read_height").all_holds
    assert band.least is not None and band.most is not None and design.model is not None
    half = design.model.ruler.marks / 2
    assert loses(design, "page[2].read_height", band.least - half) == [band.below]
    assert loses(design, "page[2].read_height", band.most + half) == [band.above]
