"""The shipped designs: all of them are sound, and their numbers are those worked out by hand.

Each expected number is followed by how it comes about; none was read off the compiler.
"""

import re
from functools import cache
from pathlib import Path

import pytest

from pastedown.compile import Compiled, MadeDesign, compile_design
from pastedown.plan.plan import BuildStep, Plan
from pastedown.quantity.quantity import Length, Quantity, inches, mm

FOLDER = Path(__file__).parent.parent / "examples"
FILES = {path.name: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.album"))}
COMPONENTS_ONLY = {"house_style.album"}
DESIGNS = [name for name in FILES if name not in COMPONENTS_ONLY]


@cache
def compiled(name: str) -> Compiled:
    return compile_design(name, FILES[name], FILES.get)


def made(name: str) -> MadeDesign:
    (design,) = compiled(f"{name}.album").designs
    return design


def plan_of(name: str) -> Plan:
    plan = made(name).plan
    assert plan is not None
    return plan


def fact(name: str, path: str) -> Quantity:
    model = made(name).model
    assert model is not None
    (value,) = [each.value for each in model.measurements if each.path == path]
    assert isinstance(value, Quantity)
    return value


def size(name: str, piece: str) -> tuple[Length, Length]:
    model = made(name).model
    assert model is not None
    (found,) = [each for each in model.pieces if each.path == piece]
    return found.height, found.width


def marks(name: str, piece: str) -> list[Length]:
    model = made(name).model
    assert model is not None
    (found,) = [each for each in model.pieces if each.path == piece]
    return [score.at for score in found.runs[-1].scores]


@pytest.mark.parametrize("name", DESIGNS)
def test_an_example_goes_together_without_a_word(name: str) -> None:
    result = compiled(name)
    assert [(each.id, each.sentence) for each in result.diagnostics] == []
    assert all(design.sound and design.plan is not None for design in result.designs)


def test_there_are_portrait_and_landscape_inch_and_metric_designs() -> None:
    shapes = set()
    for name in DESIGNS:
        model = made(name.removesuffix(".album")).model
        assert model is not None
        page = next(piece for piece in model.pieces if piece.path.startswith("page[1]"))
        cover = next(piece for piece in model.pieces if piece.path.endswith("case.front_cover"))
        assert page.width < cover.width
        shapes.add(("landscape" if cover.width > cover.height else "portrait", model.ruler.show.value))
    assert {("landscape", "inches"), ("portrait", "inches"), ("portrait", "metric"), ("landscape", "metric")} <= shapes


def test_one_house_style_serves_two_designs_and_one_base_three_variants() -> None:
    assert sum('from "house_style.album"' in text for text in FILES.values()) == 2
    assert sum(len(re.findall(r" of orchard_year\s", text)) for text in FILES.values()) == 3


@pytest.mark.parametrize("name", DESIGNS)
def test_pages_are_decorated_before_they_are_mounted_and_the_hinge_is_cased_in_before_that(name: str) -> None:
    steps = plan_of(name.removesuffix(".album")).steps

    def number(part: str) -> int:
        (found,) = [step for step in steps if any(part in path.partition("[")[0] for path in step.refers)]
        return found.number

    assert number("decorate") < number("mount")
    assert number("case_in") < number("mount")


@pytest.mark.parametrize("name", DESIGNS)
@pytest.mark.parametrize("side", ["front", "back"])
def test_a_wing_is_stuck_down_creased_and_only_then_lined_over(name: str, side: str) -> None:
    # The liner hides the wing, so it comes last; a wing is glued flat and creased where it lies.
    numbers = {
        path.rpartition(".")[2]: step.number
        for step in plan_of(name.removesuffix(".album")).steps
        for path in step.refers
    }
    assert numbers["case_in"] < numbers[f"{side}_wing"] < numbers[f"{side}_crease"]
    # The spine, on which the strip is stuck already, gives the first crease.
    assert numbers[f"{side}_crease"] <= numbers.get(f"{side}_cover_crease", 1000)
    if f"{side}_lined" in numbers:
        assert numbers[f"{side}_crease"] < numbers[f"{side}_lined"]


def test_some_examples_are_lined() -> None:
    refers = {path for name in DESIGNS for step in plan_of(name.removesuffix(".album")).steps for path in step.refers}
    assert any(path.endswith("front_lined") for path in refers)


@pytest.mark.parametrize("name", DESIGNS)
def test_every_piece_is_introduced_before_it_is_used_and_all_are_used(name: str) -> None:
    plan = plan_of(name.removesuffix(".album"))
    bought = {piece.id for piece in plan.pieces if piece.stock_kind == "print"}
    seen: set[str] = set(bought)
    used: set[str] = set()
    for step in plan.steps:
        if step.kind == "cut":
            seen |= set(step.pieces)
        else:
            assert set(step.pieces) <= seen, step.number
            used |= set(step.pieces)
    loose = {piece.id for piece in plan.pieces if "card" in piece.id or "label" in piece.id}
    assert {piece.id for piece in plan.pieces} - used <= loose


def test_numbers_of_the_harbour_walk() -> None:
    assert size("harbour_walk", "page[1].front_sheet") == (inches("29/4"), inches("19/2"))
    # 2 1/4 + 5/8 = 2 7/8, and on by peaks and gussets of 5/8: twelve lines, the last at 2 1/4 + 11 * 5/8 = 9 1/8.
    assert marks("harbour_walk", "hinge.strip") == [inches("9/4") + inches("5/8") * number for number in range(12)]
    # Two wings of 2 1/4, eight plies and three gussets of 5/8: 4 1/2 + 6 7/8.
    # The page is 6 3/4 high: less two cards of 0.011, three tapes of 0.002 and 1/16 that is 6.6595, down to 6 5/8.
    assert size("harbour_walk", "hinge.strip") == (inches("53/8"), inches("91/8"))
    # Three gussets of 5/8, and four peaks of two cards and a tape: 1.875 + 4 * 0.024.
    assert fact("harbour_walk", "hinge.block") == inches("1.971")
    # 1.971 and half an inch on each side, up to the next eighth.
    assert fact("harbour_walk", "case.spine") == inches(3)
    # 9 3/4 less 9 1/2, a board of 0.080, a card of 0.011 and a tape of 0.002.
    assert fact("harbour_walk", "borders.fore_edge_border") == inches("0.157")


def test_numbers_of_the_almanac() -> None:
    # A4 sheets with a seam of 12 mm: 297 - 12 = 285 high; three peaks and gussets of 12 mm between wings of 57.
    assert size("almanac", "page[1].front_sheet") == (mm(297), mm(210))
    assert fact("almanac", "page[1].height") == mm(285)
    assert marks("almanac", "hinge.strip") == [mm(57 + 12 * number) for number in range(9)]
    assert size("almanac", "hinge.strip")[1] == mm(2 * 57 + 8 * 12)
    # Three millimetres of board in sight at head and tail.
    assert size("almanac", "case.front_cover") == (mm(285 + 6), mm(216))


def test_a_variant_works_out_again_whatever_hangs_on_what_it_changed() -> None:
    base, gift = "orchard_year", "orchard_year_gift"
    # Five pages need five peaks; three pages two gussets fewer, four plies fewer and a narrower spine.
    assert len(marks(base, "hinge.strip")) == 15
    assert len(marks(gift, "hinge.strip")) == 9
    assert fact(base, "case.spine") > fact(gift, "case.spine")
    assert size(base, "page[1].long_sheet") == size(gift, "page[1].long_sheet")
    # 2 * 5 1/2 and a seam of 1/2, less no relief on a ruler too coarse for it.
    assert size(base, "page[1].long_sheet")[0] == inches("23/2")


def test_like_work_is_told_once_with_how_often() -> None:
    step: BuildStep = next(
        step for step in plan_of("harbour_walk").steps if step.kind == "score" and "front-sheet" in step.pieces[0]
    )
    assert step.times == 4


@pytest.mark.parametrize("name", ["harbour_walk", "almanac", "first_snow", "seed_diary", "market_day"])
def test_thumb_notches_sit_in_the_middle_of_the_page_and_not_of_the_sheet(name: str) -> None:
    model = made(name).model
    assert model is not None
    notched = [(piece, cut) for piece in model.pieces for cut in piece.cuts if cut.kind == "thumb_notch"]
    assert notched
    for piece, cut in notched:
        (panel,) = [panel for run in piece.runs for panel in run.panels if panel.name == "body"]
        assert cut.length("at") == (panel.start + panel.end) / 2
