"""Requirements that hold on paper and not always at the table."""

import re
from fractions import Fraction

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.diagnostic import Diagnostic
from pastedown.fit.margins import least_safe
from pastedown.geometry.model import Requirement
from reference.through_the_compiler import made
from test_examples import FILES

CARD = """edition = 1
album probe {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  {body}
}}
"""
PAIR = """tag_height = {tag}
  piece pocket from card, height: 6 in, width: 4 in, loose: yes
  piece tag from card, height: tag_height, width: 3 in, loose: yes
  require goes_in: tag.height <= pocket.height because "it jams"
"""


def told(body: str) -> list[Diagnostic]:
    # Sizes that lie between two marks make a test clearer, and are told as such.
    found = compile_design("probe.album", CARD.format(body=body), lambda _: None).diagnostics
    return [each for each in found if each.id != "off-marks"]


def test_what_is_told_of_a_thin_margin() -> None:
    (only,) = told(PAIR.format(tag="5 31/32 in"))
    assert only.id == "margin-thin"
    # Margin 1/32, root-sum-square 1/32 times the square root of two: z = 1.2247, 11 in a hundred.
    assert only.sentence == (
        "goes_in holds on paper, and about one in 9 will not: its margin is 1/32 in, and the errors of the hand "
        "come to about 0.044 in."
    )
    assert only.reason == "It jams. What it hangs on most: pocket, cut to its height (1/32 in) and tag, cut to its height (1/32 in)."
    found = re.fullmatch(r"Let (\S+) be (.+) in instead of .+ from 0\.71 to (\S+)\.", only.way_out)
    assert found is not None


def only_requirement(body: str) -> Requirement:
    model = made(f"  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)\n  {body}").model
    assert model is not None
    (requirement,) = model.requirements
    return requirement


def test_what_fails_first_is_told_of_a_design_that_holds() -> None:
    model = made("  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)\n  "
                 + PAIR.format(tag="5 7/8 in")).model
    assert model is not None
    # Margin 1/8, root-sum-square 1/32 times the square root of two: a worst case of 1/16 leaves half.
    assert least_safe(model) == "Least sure: goes_in, with 1/8 in to spare; hardly any fails there."
    assert least_safe(evolve(model, requirements=())) == ""


def test_the_change_does_what_it_says() -> None:
    before = only_requirement(PAIR.format(tag="5 31/32 in"))
    change = before.change
    assert change is not None and before.margin is not None and before.margin.score is not None
    assert change.score > before.margin.score
    assert (change.value.inches * 16).denominator == 1
    # What the message says is typed in where it says: the tag's height is a fact, the pocket's is the piece's own.
    set_anew = PAIR.format(tag="5 31/32 in") + f"  {change.path} = {change.value.inches} in"
    if change.path == "tag_height":
        set_anew = PAIR.format(tag=f"{change.value.inches} in")
    elif change.path == "pocket.height":
        set_anew = PAIR.format(tag="5 31/32 in").replace("height: 6 in", f"height: {change.value.inches} in")
    after = only_requirement(set_anew)
    assert after.margin is not None and after.margin.score == change.score


def test_a_number_that_others_follow_is_no_help() -> None:
    """The tag is as high as the pocket less a hair, so a higher pocket buys nothing; a lower tag does."""
    (only,) = told(PAIR.format(tag="pocket_height - 1/32 in").replace("height: 6 in", "height: pocket_height")
                   .replace("piece pocket", "pocket_height = 6 in\n  piece pocket"))  # fmt: skip
    assert only.way_out.startswith("Let tag_height be ")


def test_a_change_never_breaks_something_else() -> None:
    """The tag may be no lower, and the pocket no higher: nothing is offered, and the hand is named."""
    body = PAIR.format(tag="5 31/32 in") + (
        '  require reaches: on_paper(tag.height) >= 5 31/32 in because "so"\n'
        '  require inside: on_paper(pocket.height) <= 6 in because "so"'
    )
    (only,) = told(body)
    assert only.way_out.startswith("Leave more room, or work more exactly and say so")


def test_a_fault_elsewhere_is_no_reason_to_offer_nothing() -> None:
    """Nor does the change have to mend it."""
    other = '  part away = narrow()\n'
    component = 'component narrow { width = 1 in\n  require wide: width >= 2 in because "so" }\n'
    text = CARD.format(body=PAIR.format(tag="5 31/32 in") + other) + component
    found = [each for each in compile_design("probe.album", text, lambda _: None).diagnostics if each.id != "off-marks"]
    assert sorted(each.id for each in found) == ["margin-thin", "requirement-fails"]
    assert any(each.way_out.startswith("Let ") for each in found if each.id == "margin-thin")


def test_like_requirements_are_told_once() -> None:
    body = """piece pocket from card, height: 6 in, width: 4 in, loose: yes
  piece tag[k from 1 to 7] from card, height: 5 31/32 in, width: 3 in, loose: yes
  each k from 1 to 7 { require goes_in: tag[k].height <= pocket.height because "it jams" }"""
    (only,) = told(body)
    assert only.sentence.endswith(" The same goes for goes_in[2], goes_in[3], goes_in[4], goes_in[5] and 2 more.")


def test_a_preference_is_not_told() -> None:
    assert told(PAIR.format(tag="5 31/32 in").replace("require", "prefer")) == []


def test_what_is_asked_for_is_not_told() -> None:
    assert told(PAIR.format(tag="6 in").replace("tag.height", "tag_height").replace("pocket.height", "6 in")) == []
    assert told(PAIR.format(tag="6 in").replace("pocket.height", "6 in").replace("tag.height", "on_paper(tag.height)")) == []


def test_a_refused_part_is_told_of_its_fault_alone() -> None:
    body = PAIR.format(tag="5 31/32 in") + '  require higher: tag.height >= 6 in because "so"'
    assert [each.id for each in told(body)] == ["requirement-fails"]


def test_an_exact_hand_has_nothing_to_fear() -> None:
    assert told(PAIR.format(tag="5 31/32 in") + "  cut_error = 1/64 in") == []


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 24))
def test_more_room_never_makes_it_worse(sixty_fourths: int) -> None:
    found = [each.id for each in told(PAIR.format(tag=f"6 in - {sixty_fourths}/64 in"))]
    root_sum_square_squared = 2 * Fraction(1, 32) ** 2
    assert found == (["margin-thin"] if Fraction(sixty_fourths, 64) ** 2 < root_sum_square_squared else [])


def test_helping_one_makes_nothing_worse_that_was_less_safe() -> None:
    """A lower tag would help the one and hurt the other, which is tight as well; so does a higher one the other way."""
    body = """tag_height = 5 31/32 in
  piece pocket from card, height: 6 in, width: 4 in, loose: yes
  piece sill from card, height: 5 61/64 in, width: 4 in, loose: yes
  piece tag from card, height: tag_height, width: 3 in, loose: yes
  require goes_in: tag.height <= pocket.height because "it jams"
  require reaches: tag.height >= sill.height because "it drops out"
"""
    found = told(body)
    assert [each.id for each in found] == ["margin-thin", "margin-thin"]
    assert all("tag_height" not in each.way_out for each in found)


def test_a_file_that_costs_much_is_not_worked_out_again() -> None:
    costly = "  each k from 1 to 4900 { piece leaf[k] from card, height: 1 in, width: 1 in, loose: yes }\n"
    (only,) = told(PAIR.format(tag="5 31/32 in") + costly)
    assert only.way_out.startswith("Leave more room")


@pytest.mark.parametrize("name", sorted(FILES))
def test_the_examples_count_the_errors_of_the_hand_and_stand_them(name: str) -> None:
    """Each compares hinge with page and page with cover as they are made, and none is tight."""
    for design in compile_design(name, FILES[name], FILES.get).designs:
        assert design.model is not None
        margins = {each.path.rpartition(".")[2]: each.margin for each in design.model.requirements if each.margin is not None}
        assert margins.keys() >= {"goes_in", "stays_inside", "stays_inside_fore_edge"}
        assert all(margin.order > 1 for margin in margins.values())
