"""Drawings of flat pieces: scales, numbers, and that no word lies over a line or over another word."""

import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise
from re import search

import pytest
from attrs import evolve
from PIL import ImageFont

from outputs.template_pieces import METRIC_RULER, SVG, Drawn, ends, ladder_strip, piece, plan_of, windowed_sheet
from outputs.test_strangers_text import NASTY
from outputs.test_template_words import BOTH, CROWDED
from pastedown.outputs.drawings.flat_drawing import View, flat_drawing
from pastedown.outputs.drawings.scale import scales
from pastedown.outputs.drawings.spread import spread
from pastedown.outputs.template.svg_text import svg_of
from pastedown.outputs.to_drawings import make
from pastedown.plan.plan import CutPiece, FoldLine, PlanPoint
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example

FONT = ImageFont.truetype("DejaVuSans.ttf", 1000)
# ISO 5455, from memory: FMT-04.
SERIES = {"1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100"}

Box = tuple[float, float, float, float]
Line = tuple[float, float, float, float]


def drawing_of(shape: CutPiece, ruler: Ruler = INCH_RULER) -> Drawn:
    ((name, made),) = make(plan_of(shape, ruler=ruler)).items()
    return Drawn(name, made.decode())


def boxes(drawing: Drawn) -> Iterator[tuple[str, Box]]:
    """The room of each line of writing, by the font itself: every one of the texts it can switch to."""
    for number, element in enumerate(drawing.group("words")):
        size, x, y = (float(element.get(name, "")) for name in ("font-size", "x", "y"))
        for text in {element.text or "", element.get("data-in", ""), element.get("data-mm", "")} - {""}:
            left, top, right, bottom = FONT.getbbox(text, anchor="ls")
            before = {"middle": FONT.getlength(text) / 2, "end": FONT.getlength(text)}.get(element.get("text-anchor", ""), 0)
            a, b, c, d = ((edge) * size / 1000 for edge in (left - before, top, right - before, bottom))
            turned = "rotate(-90" in element.get("transform", "")
            yield f"{number} {text}", (x + b, y - c, x + d, y - a) if turned else (x + a, y + b, x + c, y + d)


def lines(drawing: Drawn) -> Iterator[tuple[str, Line]]:
    """All straight stretches of all groups; arcs by their ends, none of which is longer than a quarter turn."""
    for group in drawing.root.iter(f"{SVG}g"):
        part = group.get("id", "")
        for element in group:
            if element.tag == f"{SVG}path":
                data = element.get("d", "")
                spots = ends(data)
                yield from ((part, (*a, *b)) for a, b in pairwise([*spots, *(spots[:1] if data.endswith("Z") else [])]))
            elif element.tag == f"{SVG}polygon":
                corners = [tuple(map(float, corner.split(","))) for corner in element.get("points", "").split()]
                yield from ((part, (*a, *b)) for a, b in pairwise([*corners, corners[0]]))  # type: ignore[misc]


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def crosses(line: Line, box: Box) -> bool:
    """Whether any of the line lies in the box: it is cut back to the box side by side (Liang and Barsky, 1984)."""
    x1, y1, x2, y2 = line
    enter, leave = 0.0, 1.0
    for way, room in ((x1 - x2, x1 - box[0]), (x2 - x1, box[2] - x1), (y1 - y2, y1 - box[1]), (y2 - y1, box[3] - y1)):
        if way == 0 and room < 0:
            return False
        if way < 0:
            enter = max(enter, room / way)
        elif way > 0:
            leave = min(leave, room / way)
    return enter < leave


# A4 and US Letter with margins of 20 mm.
HIGHEST_WITH_CUTS = 239


def check(drawing: Drawn, widest: float = 170, highest: float = 215) -> None:
    """The drawing is no larger, everything lies on it, and no word lies over a line or over another word."""
    width, height = (float(side) for side in drawing.root.get("viewBox", "").split()[2:])
    assert width <= widest
    assert height <= highest
    written = list(boxes(drawing))
    for (one, first), (other, second) in combinations(written, 2):
        if one.split()[0] != other.split()[0]:
            assert not overlap(first, second), (drawing.name, one, other)
    for words, (left, top, right, bottom) in written:
        assert left >= 0 and top >= 0 and right <= width and bottom <= height, (drawing.name, words)
    for part, line in lines(drawing):
        assert all(0 <= x <= width for x in line[::2]) and all(0 <= y <= height for y in line[1::2]), (drawing.name, part)
        for words, box in written:
            assert not crosses(line, box), (drawing.name, part, words)


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_no_word_lies_over_anything_in_any_example(name: str) -> None:
    plan = plan_of_example(name)
    files = make(plan)
    assert list(files) == [f"drawings/{each.id}.svg" for each in plan.pieces]
    for file, made in files.items():
        check(Drawn(file, made.decode()), highest=HIGHEST_WITH_CUTS)


@pytest.mark.parametrize("ruler", [INCH_RULER, METRIC_RULER, BOTH], ids=["inches", "metric", "both"])
@pytest.mark.parametrize("shape", CROWDED, ids=lambda shape: shape.name[:20])
def test_no_word_lies_over_anything_on_awkward_pieces(shape: CutPiece, ruler: Ruler) -> None:
    check(drawing_of(shape, ruler))


@pytest.mark.parametrize("words", NASTY)
def test_a_stranger_cannot_push_words_over_one_another(words: str) -> None:
    named = evolve(windowed_sheet(), name=words, stock=words, left=words, right=words, face_up=words)
    drawing = drawing_of(named)
    check(drawing)
    assert {element.tag.removeprefix(SVG) for element in drawing.root.iter()} <= {"svg", "title", "g", "path", "polygon", "text"}


@pytest.mark.parametrize("view", [View.SIZE, View.PLAIN], ids=lambda view: view.name)
@pytest.mark.parametrize("shape", CROWDED, ids=lambda shape: shape.name[:20])
def test_smaller_views_keep_to_their_room(shape: CutPiece, view: View) -> None:
    for ruler in (INCH_RULER, METRIC_RULER, BOTH):
        drawing = Drawn(shape.name, svg_of(flat_drawing(shape, ruler, view)))
        check(drawing, *view.value)
        said = drawing.words()
        assert any("mm" in words or " in" in words.replace("\u00a0", " ") for words in said) is (view is View.SIZE)


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_both_sides_are_named_on_every_drawing_of_an_example(name: str) -> None:
    plan = plan_of_example(name)
    files = make(plan)
    for shape in plan.pieces:
        said = Drawn(shape.id, files[f"drawings/{shape.id}.svg"].decode()).words()
        for side, own in (("left", shape.left), ("right", shape.right)):
            assert any(words in (f"{side} edge", f"{side} edge: {own}", own) for words in said), (shape.id, side)


def test_the_check_finds_what_it_is_for() -> None:
    text = drawing_of(windowed_sheet()).text
    moved = text.replace('<g id="words"', '<g id="dimension"><path d="M0 4L60 4" stroke-width="0.13"/></g><g id="words"')
    for spoilt in (moved, text.replace("</g>\n</svg>", '<text x="8" y="5.4" font-size="3">over it</text></g></svg>')):
        with pytest.raises(AssertionError):
            check(Drawn("spoilt", spoilt))


def test_the_ladder_tells_every_line_from_both_edges() -> None:
    """11 in wide; the first fold lies 1 1/4 in from the front end and 9 3/4 in from the back end."""
    said = drawing_of(ladder_strip()).words()
    assert {"V 1 1/4 in", "V 9 3/4 in", "0 in", "11 in"} <= {words.replace("\u00a0", " ") for words in said}
    assert len([words for words in said if words.startswith(("V ", "M ")) and words.endswith("in")]) == 24
    assert {"from the left edge, the front end", "from the right edge, the back end"} <= set(said)


def test_each_leader_starts_at_its_line() -> None:
    drawing = drawing_of(ladder_strip())
    folds = [line[0] for part, line in lines(drawing) if part in ("valley", "mountain")]
    edges = [x for part, line in lines(drawing) if part == "cut" for x in line[::2]]
    starts = sorted({ends(path)[0][0] for path in drawing.paths("leader")})
    assert starts == pytest.approx(sorted({*folds, min(edges), max(edges)}), abs=0.002)


def test_numbers_stand_in_the_order_of_their_lines() -> None:
    folds = tuple(
        FoldLine(f"fold {n}", "valley", PlanPoint(mm(n), mm(0)), PlanPoint(mm(n), mm(80))) for n in range(1, 30)
    )
    drawing = drawing_of(evolve(piece("dense", mm(90), mm(80)), folds=folds), METRIC_RULER)
    check(drawing)
    below = {element.text or "": float(element.get("x", "")) for element in drawing.group("words") if element.get("text-anchor") == "end"}
    places = [below[f"V {n}\u00a0mm"] for n in range(1, 30)]
    assert all(after - before >= 3 for before, after in pairwise(places))


def test_too_many_lines_for_numbers_say_so() -> None:
    folds = tuple(
        FoldLine(f"fold {n}", "valley", PlanPoint(mm(n), mm(0)), PlanPoint(mm(n), mm(80))) for n in range(1, 150)
    )
    drawing = drawing_of(evolve(piece("bellows", mm(160), mm(80)), folds=folds))
    check(drawing)
    assert any("149 lines without numbers: see the score chart" in words for words in drawing.words())
    assert len(drawing.paths("valley")) == 149


@pytest.mark.parametrize(("side", "scale"), [(60, 1), (200, 2), (700, 5), (1200, 10)])
def test_scales_are_of_the_series(side: int, scale: int) -> None:
    drawing = drawing_of(piece("plate", mm(side), mm(side)))
    (said,) = [found[1] for words in drawing.words() if (found := search(r"scale (1:\d+)", words))]
    assert said in SERIES
    assert said == f"1:{scale}"
    across = [x for part, line in lines(drawing) if part == "cut" for x in line[::2]]
    assert max(across) - min(across) == pytest.approx(side / scale, abs=0.002)


def test_lines_are_named_in_the_legend_and_only_those_that_are_there() -> None:
    """FMT-01, with the letters that the ladder uses."""
    legend = {words for words in drawing_of(ladder_strip()).words() if "fold:" in words or "scored" in words}
    assert legend == {
        "V  valley fold: comes up; score it from behind",
        "M  mountain fold: goes down; score on this side",
    }
    bend = FoldLine("gap begins", "mark", PlanPoint(mm(20), mm(0)), PlanPoint(mm(20), mm(50)))
    said = drawing_of(evolve(piece("tape", mm(60), mm(50)), bend_lines=(bend,))).words()
    assert "D  edge of a panel that bends: drawn, not scored" in said
    assert not [words for words in said if "fold:" in words]


def test_what_fits_in_no_scale_has_words_alone() -> None:
    for size in (mm(10**400), mm(Fraction(1, 10**30))):
        drawing = drawing_of(piece("monster", size, mm(10) if size < mm(1) else size))
        assert "monster" in drawing.words()


def test_places_are_moved_apart_and_no_further() -> None:
    assert spread([0, 10, 20], 3, -5, 25) == [0, 10, 20]
    assert spread([10, 10, 10], 3, 0, 20) == [7, 10, 13]
    assert spread([0, 0, 0], 3, 0, 20) == [0, 3, 6]
    assert spread([20, 20], 3, 0, 20) == [17, 20]
    assert spread([5, 6, 30], 4, 0, 40) == [3.5, 7.5, 30]


def test_the_scales_are_the_series() -> None:
    assert [f"1:{by}" for by in scales()][:7] == ["1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100"]


def test_measures_can_be_read_in_either_system() -> None:
    element = next(each for each in drawing_of(piece("plate", inches(3), inches(2))).group("words") if each.get("data-in"))
    assert element.get("data-in") in ("3\u00a0in", "2\u00a0in")
    assert element.get("data-mm") in ("76.2\u00a0mm", "50.8\u00a0mm")
    assert isinstance(element, ElementTree.Element)


def test_what_is_cut_out_is_told_with_its_size_and_place() -> None:
    """Below the lines of every drawing of an example; of very many cuts the cut list is named instead."""
    plan = plan_of_example("seed_diary")
    files = make(plan)
    (notched,) = [each for each in plan.pieces if each.id == "page-rear-sheet-2"]
    said = " ".join(Drawn("", files[f"drawings/{notched.id}.svg"].decode()).words()).replace("\u00a0", " ")
    assert "Thumb notch in the fore edge, 3/4 in wide and 3/8 in deep" in said
    assert "its middle 3 1/2 in from the tail." in said
    card = " ".join(Drawn("", files["drawings/label-card.svg"].decode()).words()).replace("\u00a0", " ")
    assert card.count("rounded to a radius of 1/4 in.") == 4
    many = evolve(notched, cuts=notched.cuts * 40)
    crowded = Drawn("", svg_of(flat_drawing(many, plan.ruler, cuts_told=True)))
    check(crowded, highest=HIGHEST_WITH_CUTS)
    assert "40 cuts: their sizes and places stand in the cut list." in " ".join(crowded.words()).replace("\u00a0", " ")
