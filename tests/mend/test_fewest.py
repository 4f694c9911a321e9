"""The smallest change, against all changes there are: on small designs every one can be tried."""

import re
from collections.abc import Callable
from itertools import combinations, product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design, mend
from pastedown.mend.joined import Offer, fewest_for, joined
from pastedown.mend.numbers import Number
from pastedown.mend.report import MendReport
from pastedown.mend.state import Key
from pastedown.quantity.quantity import inches
from pastedown.source import SourceText, Span
from pastedown.tree.expression import Literal
from test_examples import FILES

DRAWER = """edition = 1
album drawer "A drawer with cards in it" {{
  ruler = inches to 1/2
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  high = {0}/2 in
  wide = {1}/2 in
  deep = {2}/2 in
  cards = {3}
  piece wall[k from 1 to cards] from card, height: high, width: wide, loose: yes
  piece floor from card, height: deep, width: wide, loose: yes
  require tall: high >= wide + 1 in because "a hand goes in"
  require low: high <= 8 in because "the shelf is low"
  require square: deep >= wide because "the cards lie flat"
  require shallow: deep + high <= 12 in because "it tips over"
  require few: cards <= 6 because "there is room for six"
}}
"""
Values = tuple[int, int, int, int]
# In halves of an inch: more than any of the limits asks for.
MOST = 20


def passes(values: Values) -> bool:
    """What the drawer requires, by hand."""
    high, wide, deep, cards = values
    return high >= wide + 2 and high <= 16 and deep >= wide and deep + high <= 24 and cards <= 6


def fewest(values: Values, goes: Callable[[Values], bool]) -> int:
    """How few of the numbers have to be others, by trying all values of some of them."""
    for count in range(len(values) + 1):
        for places in combinations(range(len(values)), count):
            for instead in product(range(1, MOST), repeat=count):
                tried = dict(zip(places, instead, strict=True))
                high, wide, deep, cards = (tried.get(at, value) for at, value in enumerate(values))
                if goes((high, wide, deep, cards)):
                    return count
    raise AssertionError


def mended(text: str, name: str = "drawer.album") -> MendReport:
    report, told = mend(name, text, FILES.get)
    assert report is not None, told
    return report


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.integers(1, 18), st.integers(1, 18), st.integers(1, 18), st.integers(1, 9))
def test_as_few_numbers_as_can_do_it_and_then_it_passes(high: int, wide: int, deep: int, cards: int) -> None:
    values = high, wide, deep, cards
    text = DRAWER.format(*values)
    report = mended(text)
    assert bool(report.faults) is not passes(values)
    assert len(report.edits) == fewest(values, passes)
    assert not compile_design("drawer.album", report.text, FILES.get).refused


BREAKS = {
    "case.width": ("height: 7 in, width: 9 3/4 in", "height: 7 in, width: 9 in"),
    "case.joint": ("joint: 1/8 in", "joint: 1/16 in"),
    "note.height": ("height: 6 1/2 in, width", "height: 6 7/8 in, width"),
    "case.spine": ("hinge.block + 2 * margin rounded", "hinge.block + 1 * margin rounded"),
}


@pytest.mark.parametrize(
    "broken",
    [("case.spine", "case.joint"), ("case.width", "case.joint", "note.height")],
)
def test_a_whole_album_with_several_numbers_broken(broken: tuple[str, ...]) -> None:
    """Each of these faults hangs on other numbers than the others do: as many as were broken, found with few designs."""
    text = FILES["harbour_walk.album"]
    for name in broken:
        assert text.count(BREAKS[name][0]) == 1
        text = text.replace(*BREAKS[name])
    report = mended(text, "harbour_walk.album")
    assert len(report.edits) == len(broken) and not report.edits[0].lowers_limit
    assert report.tried < 60


def _number(name: str) -> Number:
    words = Span(SourceText("x.album", name), 0, len(name))
    return Number(Literal(inches(1), span=words), name, inches(1))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.sets(st.integers(0, 3), min_size=1), min_size=1, max_size=5))
def test_what_is_joined_is_the_fewest_that_cover_all(mends: list[set[int]]) -> None:
    keys: list[Key] = [("requirement-fails", "x.album", at, "") for at in range(4)]
    offers = [
        Offer({_number(f"n{at}"): inches(2)}, frozenset(keys[each] for each in some), (at,))
        for at, some in enumerate(mends)
    ]
    covering = [
        count
        for count in range(1, len(mends) + 1)
        for some in combinations(mends, count)
        if set().union(*some) == {0, 1, 2, 3}
    ]
    found = list(joined(keys, offers, most=6, so_many=12))
    assert bool(found) is bool(covering)
    if covering:
        assert len(found[0]) == covering[0] == fewest_for(keys, [offer.mends for offer in offers])


def test_how_few_of_many_numbers_can_do_it_is_found_without_trying_all_that_there_are() -> None:
    """Of 969 numbers there are a hundred and fifty million choices of three."""
    keys: list[Key] = [("requirement-fails", "x.album", at, "") for at in range(19)]
    by_three = [set(some) for some in combinations(keys, 3)]
    assert fewest_for(keys, by_three) == 4, "no three of them do, and no more is looked for"
    assert fewest_for(keys[:9], by_three) == 3
    assert fewest_for(keys, [*by_three, set(keys[3:])]) == 2
    assert fewest_for(keys, []) == fewest_for([], by_three) == 0


def test_what_nobody_can_mend_by_its_words_is_tried_by_the_value_it_names() -> None:
    """Covers that are to be alike: which of the two is cut anew the words do not say."""
    part = "  part front_liner = "
    text = FILES["harbour_walk.album"].replace(part, f"  case.front_cover.width = 9 1/2 in\n{part}")
    found = compile_design("harbour_walk.album", text, FILES.get, planned=False, ways_tried=True)
    (told,) = (each.way_out for each in found.diagnostics if "covers_match is not met" in each.sentence)
    assert "case.front_cover.width = 9 3/4 in, line 39; tried, and everything passes" in told


def test_the_number_that_makes_it_safer_is_told_where_lengths_went_to_marks_too() -> None:
    """That other systems of marks were tried is no reason to spare the work."""
    text = FILES["seed_diary.album"].replace("wing: 2 1/8 in", "wing: 54.1 mm")
    (made,) = compile_design("seed_diary.album", text, FILES.get, planned=True).designs
    model = made.worked_out.model
    assert model is not None and [move.path for move in model.moves] == ["hinge.wing"]
    assert [each.change.path for each in model.requirements if each.change is not None] == ["case.height"]


def test_a_join_that_is_too_tight_is_mended_by_the_sum_that_its_piece_hangs_on() -> None:
    text = FILES["seed_diary.album"].replace("height: 6 3/4 in)", "height: page.height)")
    report = mended(re.sub(r"  part fits = .*?\)\n", "", text, flags=re.DOTALL), "seed_diary.album")
    assert "inside when empty" in report.faults[0].sentence
    assert [each.called for each in report.edits] == ["hinge.height"]
