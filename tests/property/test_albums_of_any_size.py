"""Albums of any size: every number as arithmetic has it, every verdict, and what no verdict hangs on."""

from __future__ import annotations

import random
import re
from fractions import Fraction

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Severity
from pastedown.geometry.model import Model
from pastedown.quantity.quantity import Quantity
from property.albums import INCH, Album, albums, gape, lines, not_met, numbers, recipe
from property.recipe_text import with_lengths_written, with_the_library
from property.test_units_of_writing import written

SOME = settings(max_examples=2, deadline=None)


def compiled(files: dict[str, str]) -> Compiled:
    return compile_design("any_size.album", files["any_size.album"], files.get, planned=False)


def model_of(album: Album) -> tuple[Model, Compiled]:
    found = compiled({"any_size.album": recipe(album)})
    model = found.designs[0].model
    assert model is not None
    return model, found


def values(model: Model) -> dict[str, Fraction]:
    return {each.path: each.value.value for each in model.measurements if isinstance(each.value, Quantity)}


def failing(model: Model) -> set[str]:
    """The requirements that are not met, those of like pages once."""
    paths = {each.path for each in model.requirements if not each.holds}
    return {path for path in paths if not path.startswith("page[") or path.startswith("page[1]")}


def errors(found: Compiled) -> set[str]:
    return {each.id for each in found.diagnostics if each.severity is Severity.ERROR}


@given(albums())
@SOME
def test_every_number_and_every_verdict_is_that_of_arithmetic(album: Album) -> None:
    model, found = model_of(album)
    got, wanted = values(model), numbers(album)
    assert {path: got.get(path) for path in wanted} == wanted
    (strip,) = [piece for piece in model.pieces if piece.path == "hinge.strip"]
    assert [score.at.value for score in strip.runs[0].scores] == lines(album)
    assert failing(model) == not_met(album)
    # Besides, pages that stand beyond their spine board are in the way of the covers, and so are boards over a narrow joint;
    # a wing that is too short may miss its cover.
    in_the_way = wanted["room.margin"] <= 0 or not_met(album) & {"case.turns", "creased.slack"}
    besides = {"runs-through": in_the_way, "close-misses": "room.lands" in not_met(album)}
    assert errors(found) <= {"requirement-fails", *(each for each, may_be in besides.items() if may_be)}
    if "shut.shuts" in not_met(album) and wanted["shut.slope"]:
        (told,) = [each.reason for each in found.diagnostics if "shut.shuts" in each.sentence]
        assert f"gape by {gape(album)} degrees" in told


@given(albums(), st.integers(0, 10_000))
@SOME
def test_no_verdict_hangs_on_the_unit_of_writing_nor_on_which_side_is_left(album: Album, seed: int) -> None:
    files = with_the_library({"any_size.album": recipe(album)})
    chance = random.Random(seed)
    rewritten = {name: with_lengths_written(text, lambda length: written(length, chance)) for name, text in files.items()}
    mirrored = {name: left_for_right(text) for name, text in files.items()}
    assert mirrored != files
    here, there = compiled(files), compiled(mirrored)
    wanted = verdicts(here)
    assert verdicts(compiled(rewritten)) == wanted
    told, required = verdicts(there)
    assert required == wanted[1] and there.refused == here.refused
    # Of things that are in one another's way not all are told, and of like ones the first.
    if errors(here) <= {"requirement-fails"}:
        assert told == wanted[0]


def test_a_spine_narrower_than_its_peaks_is_one_fault_on_either_side() -> None:
    """Peaks stand beyond the spine board then, and what follows the joints does so on both sides alike."""
    eighth = INCH / 8
    album = Album(
        unit="in", ruler="inches to 1/8", mark=eighth, case="one_wrap", pages=3, height=6 * INCH, width=5 * INCH,
        seam=4 * eighth, peak=5 * eighth, gusset=6 * eighth, margin=4 * eighth, joint=2 * eighth, landing=12 * eighth,
        border=eighth, card=INCH * 12 / 1000, film=INCH * 4 / 1000, board=INCH * 80 / 1000, cover=INCH * 8 / 1000,
        tape=2 * eighth, cloth=INCH, knob=INCH / 100, knob_at=2 * INCH, spine=11 * eighth,
    )  # fmt: skip
    assert not_met(album) == {"room.margins"}
    files = with_the_library({"any_size.album": recipe(album)})
    here = compiled(files)
    assert [each.sentence.split()[0] for each in here.diagnostics if each.id == "requirement-fails"] == ["room.margins"]
    assert errors(here) <= {"requirement-fails", "runs-through"}
    assert verdicts(compiled({name: left_for_right(text) for name, text in files.items()})) == verdicts(here)


def left_for_right(text: str) -> str:
    """The recipe as a looking glass shows it; texts in quotes stay."""
    sides = re.compile(r"(?<![a-z_])(head_|tail_)?(left|right)(?![a-z_])")
    parts = re.split(r'("[^"]*")', text)
    for at in range(0, len(parts), 2):
        parts[at] = sides.sub(lambda found: (found[1] or "") + ("right" if found[2] == "left" else "left"), parts[at])
    return "".join(parts)


def verdicts(found: Compiled) -> list[object]:
    """What is told, and every requirement with its margin."""
    told = [(each.id, each.sentence, each.missing) for each in found.diagnostics if each.id != "metric-fraction"]
    model = found.designs[0].model
    assert model is not None
    required = [
        (each.path, each.holds, each.left, each.right, each.margin and (each.margin.nominal, each.margin.rss_squared))
        for each in model.requirements
    ]
    return [sorted(told, key=str), required]


# What gives more room, and what it may cost on the other side: a landing, or corners that flap.
def looser(album: Album) -> list[tuple[Album, set[str]]]:
    found, mark = numbers(album), album.mark
    spine = found["case.spine"]
    return [
        (evolve(album, hinge=found["hinge.height"] - mark), {"fits.holds_corners"}),
        (evolve(album, spine=spine + mark), {"room.lands", "creased.lands"}),
        (evolve(album, border=album.border + mark), set()),
        (evolve(album, joint=album.joint + mark, spine=spine), {"case.tape_holds"}),
        (evolve(album, board=album.board / 2, spine=spine), set()),
        (evolve(album, knob=album.knob / 2, spine=spine), set()),
    ]


@given(albums(), st.integers(0, 5))
@settings(max_examples=3, deadline=None)
def test_more_room_never_turns_a_pass_into_a_fault(album: Album, which: int) -> None:
    roomier, may_cost = looser(album)[which]
    (before, told), (after, told_after) = model_of(album), model_of(roomier)
    assert failing(after) - failing(before) <= may_cost
    assert errors(told_after) <= errors(told) | ({"requirement-fails"} if may_cost else set())


@given(albums())
@SOME
def test_no_margin_is_more_than_it_is_on_paper(album: Album) -> None:
    model, _ = model_of(album)
    judged = [each for each in model.requirements if each.margin is not None]
    # The strip in its pages, and the joints as they are set.
    assert {"fits.goes_in", "case.turns_as_set"} <= {each.path for each in judged}
    for each in judged:
        margin = each.margin
        assert margin is not None and isinstance(each.left, Quantity) and isinstance(each.right, Quantity)
        assert margin.nominal.value == abs(each.left.value - each.right.value) * (1 if each.holds else -1)
        assert margin.nominal.value - margin.worst.value <= margin.nominal.value - margin.rss.value < margin.nominal.value


@given(albums())
@SOME
def test_without_thickness_there_is_nothing_but_flat_arithmetic(album: Album) -> None:
    """A stock without thickness is refused; so it is made thinner twice, and what is left is what a straight line has at
    nought."""
    spine, strip = 6 * INCH if album.unit == "in" else Fraction(150), numbers(album)["hinge.height"]
    thin, half = (
        values(model_of(evolve(album, card=by, film=by, board=by, cover=by, knob=by, spine=spine, hinge=strip))[0])
        for by in (INCH / 1000, INCH / 2000)
    )
    wing = album.margin + album.joint + album.landing
    gussets = (album.pages - 1) * album.gusset
    flat = {
        "hinge.block": gussets,
        "hinge.pitch": album.gusset,
        "hinge.made_up_width": 2 * wing + gussets,
        "fits.tallest": album.height - INCH / 16,
        "room.margin": (spine - gussets) / 2,
        "room.landing": wing - (spine - gussets) / 2 - album.joint,
        "case.room": spine,
        "case.joint_needed": Fraction(0),
        "stack": Fraction(0),
    }
    assert {path: 2 * half[path] - thin[path] for path in flat} == flat
