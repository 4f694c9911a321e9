"""From where to where a reading may come out before something fails."""

from fractions import Fraction

from leaves import LEAVES
from pastedown.compile import compile_design
from pastedown.fit.bearing import bearings
from pastedown.geometry.model import Model

# Leaves that are cut and scored by hand, each read at a step; what they go into is no concern of a hand.
ALBUM = LEAVES.replace("BODY", "  other = 7 in\nBODY")


def model(body: str) -> Model:
    compiled = compile_design("book.album", ALBUM.replace("BODY", body), lambda _: None, planned=False)
    found = compiled.designs[0].model
    assert found is not None, [each.sentence for each in compiled.diagnostics]
    return found


def bands(body: str) -> set[tuple[object, str, object, str]]:
    """The bands of all three leaves, in inches."""
    found = model(body)
    all_of_them = list(bearings(found, found.steps))
    assert len(all_of_them) == 3
    return {
        (each.least and each.least.inches, each.below, each.most and each.most.inches, each.above) for each in all_of_them
    }


def test_nothing_that_hangs_on_it_means_no_limits() -> None:
    assert bands('  require apart: other >= 7 in because "so"') == {(None, "", None, "")}


def test_what_is_left_of_a_margin_is_what_the_reading_may_be_off() -> None:
    # One leaf speaks for all: each may be 3/32 in too tall.
    body = '  require goes_in: leaf_of[1].sheet.body.size <= other + 3/32 in because "it jams"'
    assert bands(body) == {(None, "", Fraction(7) + Fraction(3, 32), "goes_in")}


def test_a_requirement_that_takes_half_of_it_bears_twice_as_much() -> None:
    body = (
        '  require in_sight: (other + 1/8 in - leaf_of.sheet.body.size) / 2 >= 0 in because "it stands out"\n'
        '  require holds: leaf_of.sheet.body.size >= other - 1/16 in because "it slips out"\n'
        '  require tall: leaf_of.sheet.body.size >= other - 1/2 in because "it is lost"'
    )
    # A border of 1/16 in loses half of what the leaf gains.
    assert bands(body) == {(Fraction(7) - Fraction(1, 16), "holds", Fraction(7) + Fraction(1, 8), "in_sight")}


def test_the_end_is_the_last_mark_that_a_hand_can_read() -> None:
    body = '  require goes_in: leaf_of.sheet.body.size <= other + 0.07 in because "it jams"'
    assert bands(body) == {(None, "", Fraction(7) + Fraction(1, 16), "goes_in")}
    body = '  require goes_in: leaf_of.sheet.body.size <= other + 0.01 in because "it jams"'
    assert bands(body) == {(None, "", Fraction(7), "goes_in")}


def test_what_is_read_within_its_band_keeps_every_requirement() -> None:
    """Each error by itself, taken so far that the reading comes to the end of the band."""
    found = model('  require goes_in: leaf_of[1].sheet.body.size <= other + 3/32 in because "it jams"')
    step = next(each for each in found.steps if each.path == "leaf_of[1].read")
    (requirement,) = [each for each in found.requirements if each.path == "goes_in"]
    assert step.reads is not None and step.reads.errors is not None and requirement.margin is not None
    read, most = step.reads.errors.terms(), bearings(found, [step])[0].most
    assert most is not None
    for name, term in requirement.margin.terms:
        times = (most - step.reads).value / read[name]
        assert requirement.margin.nominal.value + times * term.value == 0
