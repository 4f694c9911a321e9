"""Build steps as numbered text."""

from attrs import evolve

from outputs.sample_plan import sample_plan, steps
from pastedown.geometry.model import AllHolds
from pastedown.outputs.to_steps import make
from pastedown.plan.plan import BuildStep, Reading
from pastedown.quantity.quantity import Length, inches


def shown(*some: BuildStep) -> str:
    return make(evolve(sample_plan(), steps=some))["steps.txt"].decode()


def test_the_errors_of_the_hand_make_a_band() -> None:
    step = evolve(steps()[1], reading=Reading(inches(5), None, None, inches("1/16")), tips=(), cautions=())
    text = " ".join(make(evolve(sample_plan(), steps=(step,)))["steps.txt"].decode().split())
    assert "The ruler should read 5 in. By the errors of the hand it may read from 4 15/16 in to 5 1/16 in." in text
    stated = evolve(step, reading=Reading(inches(5), inches("159/32"), None, inches("1/16")))
    text = " ".join(make(evolve(sample_plan(), steps=(stated,)))["steps.txt"].decode().split())
    assert (
        "The least it may read is 4 31/32 in. The errors of careful hands come to 1/16 in either way, which may go past that: then measure "
        "each thing in it by itself, put right what is off, and go on where each is right." in text
    )
    borne = Reading(inches(5), None, None, inches("1/16"), bears_least=inches("39/8"), bears_most=inches("81/16"))
    text = " ".join(shown(evolve(step, reading=borne)).split())
    assert (
        "The errors of careful hands come to 1/16 in either way, and everything goes together from 4 7/8 in to 5 1/16 in: "
        "so far, go on; past it, measure each thing in it by itself and put right what is off." in text
    )
    # What its step allows goes no further than what the design bears.
    nearer = evolve(borne, least=inches(4), most=inches(5))
    assert "It may read from 4 7/8 in to 5 in." in " ".join(shown(evolve(step, reading=nearer)).split())
    # Less than hands come to: it says so.
    text = " ".join(shown(evolve(step, reading=evolve(borne, bears_least=None, bears_most=inches(5)))).split())
    assert "and everything goes together only up to 5 in: so far, go on;" in text
    # Where something is lost before it no longer goes together, both bands are told, with what is lost between.
    more = "the border is less than ", inches("1/8")
    above = evolve(borne, all_holds=AllHolds(most=inches(5), above="rules.border", more=more))
    text = " ".join(shown(evolve(step, reading=above)).split())
    assert (
        "All holds from 4 7/8 in to 5 in; up to 5 1/16 in it still goes together, but above 5 in the border is less than "
        "1/8 in: go on where that will do. Past it, measure each thing in it by itself and put right what is off." in text
    )
    both = evolve(above, all_holds=evolve(above.all_holds, least=inches(5), below="rules.slide"))
    assert (
        "All holds only at 5 in; from 4 7/8 in to 5 1/16 in it still goes together, but below 5 in rules.slide is lost, "
        "and above 5 in the border is less than 1/8 in: go on" in " ".join(shown(evolve(step, reading=both)).split())
    )
    within = evolve(step, reading=Reading(inches("5.01"), inches("4.9"), inches("5.1"), inches("1/16")))
    text = " ".join(shown(within).split())
    assert (
        "It may read from a little over 4 7/8 in (4.9 in) to a little under 5 1/8 in (5.1 in). "
        "The errors of the hand come to 1/16 in either way, which stays within that." in text
    )


def test_steps_are_numbered_titled_and_batched() -> None:
    assert shown(steps()[0]).endswith(
        "\n1 step.\n"
        "\n  1. Cut the page sheets\n"
        "     Cut 6 page sheets 7 1/2 in high and 5 1/2 in wide.\n"
        "     Pieces: page-sheet\n"
    )


def test_tips_and_cautions_are_marked_in_words() -> None:
    text = shown(*steps())
    assert "\n     Tip: Press each peak with a bone folder.\n" in text
    assert "\n     Caution: A strip that reads more than 5 1/8 in does not fit.\n" in text


def read(least: Length | None, most: Length | None, nominal: str = "5.084") -> str:
    """The line about the reading, unwrapped."""
    step = evolve(steps()[1], reading=Reading(inches(nominal), least, most), tips=(), cautions=())
    return " ".join(shown(step).split("foot.\n", 1)[1].split())


def test_a_reading_names_the_mark_it_lies_next_to_and_its_band() -> None:
    nominal = "The ruler should read a little over 5 1/16 in (5.084 in)."
    assert read(inches(5), inches("41/8")).startswith(f"{nominal} It may read from 5 in to 5 1/8 in. ")
    assert read(inches(5), None).startswith(f"{nominal} The least it may read is 5 in. ")
    assert read(None, inches(6)).startswith(f"{nominal} The most it may read is 6 in. ")


def test_a_reading_that_nothing_bounds_says_what_is_no_fault() -> None:
    assert read(None, None).endswith(
        " The design does not say by how much it may differ: a mark of the ruler either way is no fault. "
        "Pieces: strip"
    )
    banded = evolve(steps()[1], reading=Reading(inches(5), None, None, inches("1/16")))
    assert "does not say" not in " ".join(shown(banded).split())


def test_a_reading_on_a_mark_needs_no_neighbours() -> None:
    assert read(None, None, "5.125").startswith("The ruler should read 5 1/8 in. The design ")


def test_long_steps_are_wrapped_under_their_title() -> None:
    step = evolve(steps()[0], text=("Cut ", inches("15/2"), " and wait. " * 30))
    lines = shown(step).split("  1. Cut", 1)[1].splitlines()[1:]
    assert len(lines) > 3
    assert all(line.startswith("     ") and len(line) <= 92 for line in lines)


def test_the_words_about_the_design_come_first() -> None:
    assert "\nThree pages, each 7 in high.\n\n0 steps.\n" in shown()
