"""Templates as SVG, read back by another reader: sizes, outlines, check bars, and text of strangers."""

import os
import subprocess
import sys
from fractions import Fraction
from io import StringIO
from math import hypot, pi

import pytest
import svgelements
from attrs import evolve

from outputs.template_pieces import (
    EVERY_PIECE,
    METRIC_RULER,
    SVG,
    disc,
    drawn,
    ends,
    notched_tag,
    piece,
    plan_of,
    rectangle,
    span_of,
    windowed_sheet,
)
from outputs.test_strangers_text import NASTY
from pastedown.outputs.template.drawing import Sheet, line
from pastedown.outputs.template.line_kind import CUT
from pastedown.outputs.template.paper import US_LETTER
from pastedown.outputs.template.svg_text import decimal, svg_of
from pastedown.outputs.to_template_svg import make
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

# svgelements counts 3.77953 pixels to the millimetre, where 96/25.4 is 3.7795276: FMT-17, seen in svgelements 1.9.6.
PIXELS_IN_A_MILLIMETRE = 96 / 25.4
READER = pytest.approx


def read(text: str) -> svgelements.SVG:
    return svgelements.SVG.parse(StringIO(text), ppi=96)


def millimetres(pixels: float) -> float:
    return pixels / PIXELS_IN_A_MILLIMETRE


def shapes(text: str, part: str) -> list[svgelements.Path]:
    group = read(text).get_element_by_id(part)
    return [element for element in group.select() if isinstance(element, svgelements.Path)]


@pytest.mark.parametrize(
    ("ruler", "size"),
    [
        (INCH_RULER, ("215.9mm", "279.4mm", "0 0 215.9 279.4")),
        (METRIC_RULER, ("210mm", "297mm", "0 0 210 297")),
        (Ruler(inches("1/16"), Show.BOTH), ("215.9mm", "279.4mm", "0 0 215.9 279.4")),
        (Ruler(inches("1/10"), Show.BOTH), ("215.9mm", "279.4mm", "0 0 215.9 279.4")),
        (Ruler(mm(1), Show.BOTH), ("210mm", "297mm", "0 0 210 297")),
        (Ruler(mm("1/10"), Show.BOTH), ("210mm", "297mm", "0 0 210 297")),
    ],
)
def test_the_paper_goes_with_the_ruler_and_one_unit_is_one_millimetre(ruler: Ruler, size: tuple[str, str, str]) -> None:
    """FMT-10: width="215.9mm" height="279.4mm" viewBox="0 0 215.9 279.4" makes one unit a millimetre. SVG 1.1, 7.2."""
    (sheet,) = drawn(notched_tag(), ruler=ruler)
    assert (sheet.root.get("width"), sheet.root.get("height"), sheet.root.get("viewBox")) == size


def test_another_reader_finds_the_size_of_a4() -> None:
    """FMT-14: A4 is 793.7008 x 1122.5197 px at 96 px to the inch. FMT-17: this reader is off by 6 in ten million."""
    (sheet,) = drawn(notched_tag(), ruler=METRIC_RULER)
    svg = read(sheet.text)
    assert (svg.width, svg.height) == READER((793.7008, 1122.5197), rel=1e-5)


def test_an_inch_is_read_as_96_pixels() -> None:
    """FMT-17: 25.4 mm is read as 96.00005 px by svgelements 1.9.6, so lengths are compared within 1 in 100 000."""
    (sheet,) = drawn(piece("inch", inches(1), inches(1)))
    (outline,) = shapes(sheet.text, "cut")
    left, top, right, bottom = outline.bbox()
    assert (right - left, bottom - top) == READER((96.00005, 96.00005), rel=1e-5)


def test_the_outline_measures_what_the_plan_says() -> None:
    for each in EVERY_PIECE:
        sheets = drawn(each)
        if len(sheets) == 1:
            outline = shapes(sheets[0].text, "cut")[0]
            left, top, right, bottom = map(millimetres, outline.bbox())
            assert right - left == READER(float(each.width.millimetres), abs=0.05)
            assert bottom - top == READER(float(each.height.millimetres), abs=0.05)


def test_lengths_of_cuts_add_up() -> None:
    """FMT-18: a rectangle of 100 x 50 has a perimeter of 300 (svgpathtools 1.8.0)."""
    (sheet,) = drawn(piece("plate", mm(100), mm(50)))
    assert millimetres(shapes(sheet.text, "cut")[0].length()) == READER(300, rel=1e-5)


def test_the_diagonal_of_letter_paper() -> None:
    """FMT-18: the diagonal of US Letter is 353.0965 mm."""
    diagonal = line("cut", CUT, (0, 0), (US_LETTER.width.millimetres, US_LETTER.height.millimetres))
    text = svg_of(Sheet("", US_LETTER, (diagonal,), (), ()))
    assert millimetres(shapes(text, "cut")[0].length()) == READER(353.0965, rel=1e-5)


def test_round_cuts_are_round() -> None:
    """Perimeter of the tag: four quarters of 1/4 in, half a turn of 3/8 in, and the straight stretches between."""
    (sheet,) = drawn(notched_tag())
    straight = 2 * 2.5 + 1.0 + (1.0 - 0.75)
    expected = 25.4 * (straight + 2 * pi * 0.25 + pi * 0.375)
    assert millimetres(shapes(sheet.text, "cut")[0].length()) == READER(expected, rel=1e-4)


def test_the_head_is_up_and_the_left_edge_left() -> None:
    """The notch bites into the head: its deepest spot lies 3/8 in below the upper edge, in the middle."""
    (sheet,) = drawn(notched_tag())
    spots = ends(sheet.paths("cut")[0])
    left, top = min(x for x, _ in spots), min(y for _, y in spots)
    assert any(hypot(x - left - 19.05, y - top - 9.525) < 0.002 for x, y in spots)
    assert sheet.place_of("head")[1] < sheet.place_of("tail")[1]
    assert sheet.place_of("left edge")[0] < sheet.place_of("right edge")[0]


def test_an_arc_that_goes_all_round_is_a_circle() -> None:
    small = evolve(disc(), outline=disc().inner_cuts[0], inner_cuts=())
    (sheet,) = drawn(small)
    assert millimetres(shapes(sheet.text, "cut")[0].length()) == READER(2 * pi * 25.4, rel=1e-4)


@pytest.mark.parametrize("ruler", [INCH_RULER, METRIC_RULER], ids=["letter", "A4"])
@pytest.mark.parametrize("size", [(inches(1), inches(1)), (inches("19/2"), inches(6))], ids=["upright", "lying"])
def test_both_check_bars_are_on_every_sheet_and_within_its_margins(ruler: Ruler, size: tuple) -> None:  # type: ignore[type-arg]
    for sheet in drawn(piece("plate", *size), ruler=ruler):
        width, height = (float(side) for side in sheet.root.get("viewBox", "").split()[2:])
        for part, length in (("check-bar-inches", 152.4), ("check-bar-millimetres", 150.0)):
            bar = sheet.paths(part)
            assert span_of(bar)[0] == length
            assert span_of(bar[:1]) == (length, 0)
            spots = [place for path in bar for place in ends(path)]
            assert all(10 <= x <= width - 10 and 10 <= y <= height - 10 for x, y in spots)
        assert "measure me: 6 in" in sheet.words()
        assert "measure me: 150 mm" in sheet.words()
        assert any("actual size (100 %)" in words and "1/64 in" in words for words in sheet.words())


def test_ticks_divide_the_bars_evenly() -> None:
    (sheet,) = drawn(notched_tag())
    for part, step, count in (("check-bar-inches", 12.7, 13), ("check-bar-millimetres", 5.0, 31)):
        ticks = [ends(path)[0][0] - 10 for path in sheet.paths(part)[1:]]
        assert ticks == READER([step * n for n in range(count)], abs=0.001)


def test_windows_are_cuts_and_slits_are_not() -> None:
    (sheet,) = drawn(windowed_sheet())
    assert [span_of([path]) for path in sheet.paths("cut")] == [READER((152.4, 190.5)), READER((101.6, 76.2))]
    assert [span_of([path]) for path in sheet.paths("slit")] == [READER((50.8, 0))]
    assert "photo window: cut out" in sheet.words()
    assert "strap slit: slit" in sheet.words()


@pytest.mark.parametrize("words", NASTY)
def test_a_strangers_text_stays_text(words: str) -> None:
    named = evolve(windowed_sheet(), name=words, stock=words, left=words, right=words, face_up=words)
    cut = evolve(named, inner_cuts=tuple(evolve(each, name=words) for each in named.inner_cuts))
    stranger = evolve(plan_of(evolve(cut, folds=tuple(evolve(f, name=words) for f in cut.folds))), title=words)
    for made in make(stranger).values():
        text = made.decode()
        assert not [letter for letter in text if letter != "\n" and (ord(letter) < 32 or letter in "\x7f\u202e\u2028")]
        tags = {element.tag for element in drawn_root(text).iter()}
        assert tags <= {f"{SVG}{tag}" for tag in ("svg", "title", "g", "path", "polygon", "text")}


def drawn_root(text: str):  # type: ignore[no-untyped-def]
    from outputs.template_pieces import Drawn

    return Drawn("", text).root


def test_markup_in_a_name_is_shown_as_it_was_written() -> None:
    (sheet,) = drawn(evolve(notched_tag(), name="<b>&\"tag'"))
    assert "<b>&\"tag': cut 6 pieces alike" in sheet.words()


def test_nothing_is_fetched_or_run() -> None:
    for sheet in drawn(*EVERY_PIECE):
        lowered = sheet.text.lower()
        assert not [word for word in ("<script", "href", "url(", "<style", "<!", "onload", "<image") if word in lowered]
        assert lowered.count("http") == lowered.count('xmlns="http://www.w3.org/2000/svg"') == 1


def test_all_is_black() -> None:
    for sheet in drawn(*EVERY_PIECE):
        for element in sheet.root.iter():
            assert {element.get("stroke"), element.get("fill")} <= {None, "none", "#000"}


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(2159, 10), "215.9"), (Fraction(1, 3), "0.333"), (Fraction(2, 3), "0.667"), (Fraction(5), "5"),
        (Fraction(-127, 5), "-25.4"), (Fraction(1, 2000), "0"), (Fraction(-1, 2000), "0"), (Fraction(3, 2000), "0.002"),
        (Fraction(1000), "1000"), (Fraction(0), "0"),
    ],
)  # fmt: skip
def test_lengths_are_rounded_once_to_a_thousandth(value: Fraction, text: str) -> None:
    assert decimal(value) == text


def test_file_names() -> None:
    names = [sheet.name for sheet in drawn(notched_tag(), piece("board", inches(8), inches(11)))]
    assert names == ["templates/tag.svg", "templates/board-1-of-2.svg", "templates/board-2-of-2.svg"]


def test_no_sheet_overwrites_another_piece() -> None:
    """A piece may have the very name that a sheet of another piece would get."""
    large, small = piece("board", inches(8), inches(11)), evolve(notched_tag(), id="board-1-of-2", name="other")
    for order in ((large, small), (small, large)):
        sheets = drawn(*order)
        assert len({sheet.name for sheet in sheets}) == 3
        (other,) = [sheet for sheet in sheets if sheet.name == "templates/board-1-of-2.svg"]
        assert "other: cut 6 pieces alike" in other.words()


def test_a_piece_without_an_area_is_still_a_sheet() -> None:
    (sheet,) = drawn(evolve(piece("nought", mm(0), mm(0)), outline=rectangle(mm(0), mm(0))))
    assert "nought: cut 1" in sheet.words()
    assert sheet.paths("cut") == []


SCRIPT = """
import hashlib, sys
from outputs.template_pieces import EVERY_PIECE, plan_of
from pastedown.outputs.{module} import make
for name, made in make(plan_of(*EVERY_PIECE)).items():
    print(name, hashlib.sha256(made).hexdigest())
"""


@pytest.mark.parametrize("module", ["to_template_svg", "to_template_pdf"])
def test_like_plans_give_like_bytes_in_every_process(module: str) -> None:
    shown = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT.format(module=module)],
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Pacific/Auckland"))
    }
    assert len(shown) == 1
    assert len(shown.pop().splitlines()) >= len(EVERY_PIECE)


def test_what_is_bought_in_its_size_has_no_template() -> None:
    bought = evolve(piece("magnet", inches(1), inches(1)), bought=True)
    assert make(plan_of(bought)) == {}
    assert list(make(plan_of(evolve(bought, bought=False)))) == ["templates/magnet.svg"]
