"""A book whose strip is longer than any sheet: two lengths that lap over one another by a whole gusset."""

from fractions import Fraction

from scenarios.recipes import amount, compiled, errors, inches, plan_of, size, steps_about

NAME = "spliced"


def test_it_goes_together_in_every_pose() -> None:
    assert [(each.id, each.sentence) for each in compiled(NAME).diagnostics] == []
    model = compiled(NAME).designs[0].model
    assert model is not None
    assert {"open_at[0]", "open_at[8]", "closed"} <= {pose.path for pose in model.poses}


def test_its_lengths_and_what_the_ruler_reads() -> None:
    # By hand: u + 2kp + kg and the rest + g, four peaks on each; together the strip of 18 5/8 in and one gusset more.
    for half in ("front_half", "back_half"):
        assert size(compiled(NAME), f"hinge.{half}.strip") == (Fraction("6.75"), Fraction("9.625"))
    assert inches(compiled(NAME), "hinge.made_up_width") == 2 * Fraction("2.125") + 7 * Fraction("0.625") + 8 * Fraction(
        "0.028"
    )
    assert inches(compiled(NAME), "hinge.block") == 7 * Fraction("0.625") + 8 * Fraction("0.028")


def test_one_length_carries_five_peaks_at_most() -> None:
    # F4: floor((12 - 4 1/4 + 5/8) / 1 7/8) = 4 on a strip with both wings; a length with a lap for one of them takes more.
    most = "most = whole((card.sheet_long - 2 * hinge.wing + hinge.gusset) / (2 * hinge.peak + hinge.gusset))"
    assert amount(compiled(NAME, add=most), "most").value == 4
    assert errors(compiled(NAME, add="hinge.first_peaks = 5")) == []
    (fault,) = errors(compiled(NAME, add="hinge.first_peaks = 6"))
    assert fault.id == "sheet-too-small"


def test_nothing_is_stuck_on_the_splice_before_it_is_made() -> None:
    plan = plan_of(compiled(NAME))
    spliced, read, cased = (
        steps_about(plan, path)[0].number for path in ("hinge.splice", "hinge.read_width", "case_in")
    )
    assert spliced < read < cased < steps_about(plan, "mount[8]")[0].number


def test_a_lap_that_does_not_match_is_told() -> None:
    (fault, *_) = errors(compiled(NAME, add="hinge.back_half.strip.front_wing = 1/2 in"))
    assert fault.id == "requirement-fails" and "make both laps 5/8 in" in fault.way_out
