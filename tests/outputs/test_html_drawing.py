"""Drawings in the booklet's HTML are the drawings that were made, written shorter: read back with another library."""

import xml.etree.ElementTree as ElementTree

import pytest
from svgelements import Move
from svgelements import Path as SvgPath

from outputs.template_pieces import notched_tag
from pastedown.outputs.booklet.html_drawing import symbol_of
from pastedown.outputs.drawings.flat_drawing import View, flat_drawing
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.template.shape import Round
from pastedown.outputs.template.svg_text import svg_of
from pastedown.quantity.ruler import INCH_RULER
from test_examples import plan_of

# Places are rounded to a hundredth of a millimetre, so they are half of that off at most.
OFF = 0.0051

Place = tuple[float, float]
Lines = list[tuple[str, str, list[Place]]]


def sheets() -> list[Sheet]:
    pictures = step_pictures(plan_of("harbour_walk"))
    drawn = [pictures.of(number) for number in (14, 19, 23, 30)]
    return [*(sheet for sheet in drawn if sheet), flat_drawing(notched_tag(), INCH_RULER, View.LINES)]


def read(text: str) -> Lines:
    """Every line with its width and pattern, arcs by points on them."""
    found = []
    for element in ElementTree.fromstring(text).iter():
        if element.tag.rpartition("}")[2] == "path" and element.get("stroke") != "none":
            path = SvgPath(element.get("d"))
            for line in map(SvgPath, path.as_subpaths()):
                places = [part.point(at) for part in line for at in (0, 0.3, 1) if not isinstance(part, Move)]
                spots = [(float(place.x), float(place.y)) for place in places]
                found.append((element.get("stroke-width", ""), element.get("stroke-dasharray", ""), spots))
    return found


def numbers(text: str) -> list[float]:
    return [float(number) for number in text.split()]


@pytest.mark.parametrize("sheet", sheets(), ids=lambda sheet: sheet.title[:20])
def test_it_is_the_same_drawing(sheet: Sheet) -> None:
    short, long = read(symbol_of(sheet, "one")), read(svg_of(sheet))
    # Like lines share a path, so they come in another order.
    assert len(short) == len(long) == len(sheet.strokes)
    for width, pattern, places in long:
        alike = [one for one in short if near(one[2], places) and one[0].lstrip("0") == width.lstrip("0")]
        assert alike, places
        assert any(numbers(one[1]) == pytest.approx(numbers(pattern), abs=OFF) for one in alike)
    assert len(symbol_of(sheet, "one")) < len(svg_of(sheet)) * 0.8
    said = [element.text for element in ElementTree.fromstring(symbol_of(sheet, "one")).iter("text")]
    assert sorted(text or "" for text in said) == sorted(words.text for words in sheet.words)


def near(one: list[Place], other: list[Place]) -> bool:
    # A point on an arc moves a little more than its ends do.
    return len(one) == len(other) and all(
        abs(a - b) < 4 * OFF for first, second in zip(one, other, strict=True) for a, b in zip(first, second, strict=True)
    )


def test_round_and_closed_lines_are_among_what_is_compared() -> None:
    strokes = [stroke for sheet in sheets() for stroke in sheet.strokes]
    assert any(stroke.closed for stroke in strokes)
    assert any(stroke.dashes for stroke in strokes)
    assert any(isinstance(move, Round) for stroke in strokes for move in stroke.moves)
