"""Pieces larger than the paper: the sheets put together again by their crosses, as a maker would."""

from itertools import pairwise
from math import ceil, hypot

import pytest
from attrs import evolve, frozen

from outputs.template_pieces import (
    METRIC_RULER,
    Drawn,
    disc,
    drawn,
    ends,
    ladder_strip,
    mitred_wrap,
    piece,
)
from outputs.test_drawings import check
from pastedown.outputs.template.seen_from_back import plan_from_back
from pastedown.outputs.to_template_svg import make
from pastedown.plan.plan import CutPiece, FoldLine, PlanPoint
from pastedown.quantity.quantity import Length, inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example

Place = tuple[float, float]


@frozen
class Joined:
    """Sheets laid out by their crosses: where each one's corner lies, seen from the first."""

    sheets: list[Drawn]
    corners: list[Place]
    worst: float


def crosses(sheet: Drawn) -> dict[str, Place]:
    """The middles of the crosses by the number written at each. A ring starts at the right of its middle."""
    middles = []
    for path in sheet.paths("register"):
        if "A" in path:
            spots = ends(path)
            middles.append((sum(x for x, _ in spots[:4]) / 4, sum(y for _, y in spots[:4]) / 4))
    numbers = [(text, sheet.place_of(text)) for text in sheet.words() if text.isdigit()]
    return {text: min(middles, key=lambda middle: hypot(middle[0] - x, middle[1] - y)) for text, (x, y) in numbers}


def joined(sheets: list[Drawn]) -> Joined:
    """Each sheet is laid on those already lying, by the crosses it shares with them."""
    where: dict[str, Place] = {}
    corners, worst = [], 0.0
    for number, sheet in enumerate(sheets):
        found = crosses(sheet)
        shared = [(where[name], at) for name, at in found.items() if name in where]
        assert len(shared) >= 2 or number == 0, sheet.name
        corner = (shared[0][0][0] - shared[0][1][0], shared[0][0][1] - shared[0][1][1]) if shared else (0.0, 0.0)
        for (x1, y1), (x2, y2) in shared:
            worst = max(worst, hypot(x1 - x2 - corner[0], y1 - y2 - corner[1]))
        where |= {name: (x + corner[0], y + corner[1]) for name, (x, y) in found.items()}
        corners.append(corner)
    return Joined(sheets, corners, worst)


def stretches(together: Joined, part: str) -> list[tuple[Place, Place]]:
    """All straight stretches of a part, on all sheets, where they come to lie."""
    found = []
    for sheet, (dx, dy) in zip(together.sheets, together.corners, strict=True):
        for path in sheet.paths(part):
            spots = [(x + dx, y + dy) for x, y in ends(path)]
            found += list(zip(spots, [*spots[1:], *(spots[:1] if path.endswith("Z") else [])], strict=False))
    return found


def off(place: Place, stretch: tuple[Place, Place]) -> float:
    """How far the place lies from the stretch."""
    (x1, y1), (x2, y2) = stretch
    length = hypot(x2 - x1, y2 - y1) or 1.0
    share = ((place[0] - x1) * (x2 - x1) + (place[1] - y1) * (y2 - y1)) / length**2
    share = min(1.0, max(0.0, share))
    return hypot(place[0] - x1 - share * (x2 - x1), place[1] - y1 - share * (y2 - y1))


def corners_of(shape: CutPiece) -> list[Place]:
    points = [shape.outline.start, *(move.end for move in shape.outline.moves)]
    return [(float(point.x.millimetres), float(point.y.millimetres)) for point in points]


def folded_in_the_middle() -> CutPiece:
    """Its fold is where its sheets would join."""
    fold = FoldLine("crest", "mountain", PlanPoint(inches("11/2"), mm(0)), PlanPoint(inches("11/2"), inches(5)))
    return evolve(piece("cover", inches(11), inches(5)), folds=(fold,))


BIG = [
    (ladder_strip(), INCH_RULER),
    (folded_in_the_middle(), INCH_RULER),
    (mitred_wrap(), INCH_RULER),
    (piece("board", inches(8), inches(11)), INCH_RULER),
    (piece("board", inches(8), inches(11)), METRIC_RULER),
    (piece("poster", inches("49/2"), inches("37/2")), INCH_RULER),
    (piece("runner", mm(1900), mm(100)), METRIC_RULER),
    (piece("banner", mm(700), mm(1100)), INCH_RULER),
]


@pytest.mark.parametrize(("shape", "ruler"), BIG, ids=lambda value: getattr(value, "name", ""))
def test_the_sheets_laid_cross_on_cross_show_the_whole_outline(shape: CutPiece, ruler: Ruler) -> None:
    sheets = drawn(shape, ruler=ruler)
    assert len(sheets) > 1
    together = joined(sheets)
    assert together.worst < 0.003
    lines = stretches(together, "cut")
    left = min(min(a[0], b[0]) for a, b in lines)
    tail = max(max(a[1], b[1]) for a, b in lines)
    expected = [(left + x, tail - y) for x, y in corners_of(shape)]
    for (x1, y1), (x2, y2) in zip(expected, expected[1:] + expected[:1], strict=True):
        steps = max(1, ceil(hypot(x2 - x1, y2 - y1)))
        for n in range(steps + 1):
            place = x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps
            assert min(off(place, stretch) for stretch in lines) < 0.01
    for start, end in lines:
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        assert min(off(middle, side) for side in zip(expected, expected[1:] + expected[:1], strict=True)) < 0.01


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_sheets_join_beside_folds_and_not_on_them(name: str) -> None:
    """A fold along a join is neither seen below its dots nor left whole by the knife that trims there."""
    for sheet in drawn(folded_in_the_middle(), *plan_of_example(name).pieces):
        joins = [ends(path) for path in sheet.paths("join")]
        folds = [ends(path) for kind in ("valley", "mountain") for path in sheet.paths(kind)]
        for axis in (0, 1):
            along = [line[0][axis] for line in joins if abs(line[0][axis] - line[-1][axis]) < 0.01]
            beside = [line[0][axis] for line in folds if abs(line[0][axis] - line[-1][axis]) < 0.01]
            assert all(abs(one - other) > 2.9 for one in along for other in beside), sheet.name


def test_a_round_outline_is_whole_too() -> None:
    together = joined(drawn(disc()))
    ends_of_arcs = [place for stretch in stretches(together, "cut") for place in stretch]
    outer = [x for x, _ in ends_of_arcs]
    assert max(outer) - min(outer) == pytest.approx(254, abs=0.01)
    centre = (max(outer) + min(outer)) / 2, max(y for _, y in ends_of_arcs) - 127
    radii = {round(hypot(x - centre[0], y - centre[1]), 1) for x, y in ends_of_arcs}
    assert radii == {127.0, 25.4}


def test_all_folds_are_there_at_their_places() -> None:
    strip = ladder_strip()
    together = joined(drawn(strip))
    left = min(a[0] for a, _ in stretches(together, "cut"))
    for kind in ("valley", "mountain"):
        found = [start[0] - left for start, _ in stretches(together, kind)]
        places = [float(fold.start.x.millimetres) for fold in strip.folds if fold.kind == kind]
        assert max(min(abs(x - place) for place in places) for x in found) < 0.003
        assert max(min(abs(x - place) for x in found) for place in places) < 0.003


def test_dashes_meet_where_sheets_are_joined() -> None:
    fold = FoldLine("crease", "valley", PlanPoint(mm(0), mm(50)), PlanPoint(mm(600), mm(50)))
    sheets = drawn(evolve(piece("runner", mm(600), mm(100)), folds=(fold,)))
    together = joined(sheets)
    starts = []
    for sheet, (dx, _) in zip(sheets, together.corners, strict=True):
        (line,) = sheet.group("valley")
        starts.append(ends(line.get("d", ""))[0][0] + dx - float(line.get("stroke-dashoffset", "0")))
    assert len(starts) > 2
    assert starts == pytest.approx([starts[0]] * len(starts), abs=0.003)


def test_neighbours_share_ten_millimetres() -> None:
    sheets = drawn(piece("runner", mm(500), mm(100)))
    together = joined(sheets)
    tops = [(min(a[0], b[0]), max(a[0], b[0])) for a, b in stretches(together, "cut") if a[1] == b[1]]
    spans = sorted(set(tops))
    assert {round(before[1] - after[0], 2) for before, after in pairwise(spans)} == {10.0}
    assert len(spans) == len(sheets)


@pytest.mark.parametrize(
    ("size", "count"),
    [
        ((inches(7), inches(8)), 1),
        ((inches("17/2"), inches(6)), 1),
        ((inches(11), inches("27/4")), 2),
        ((inches(8), inches(11)), 2),
        ((inches("17/2"), inches(11)), 2),
        ((mm("195.9") - mm(1), mm(100)), 1),
        ((mm("195.9") - mm(1), mm("219.9") - mm(1)), 1),
        ((mm("195.9") - mm("0.9"), mm("219.9") - mm(1)), 2),
    ],
)
def test_the_fewest_sheets_are_used(size: tuple[Length, Length], count: int) -> None:
    """US Letter within margins of 10 mm leaves 195.9 mm; notes above and below leave 219.9 of the 259.4 mm."""
    assert len(drawn(piece("plate", *size))) == count


def test_each_sheet_knows_its_place() -> None:
    sheets = drawn(piece("poster", inches(14), inches(15)))
    assert [words for sheet in sheets for words in sheet.words() if words.startswith(("sheet", "row"))] == [
        "sheet 1 of 4", "row 1 of 2, column 1 of 2", "sheet 2 of 4", "row 1 of 2, column 2 of 2",
        "sheet 3 of 4", "row 2 of 2, column 1 of 2", "sheet 4 of 4", "row 2 of 2, column 2 of 2",
    ]  # fmt: skip
    advice = [next(w for w in sheet.words() if "crosses on crosses" in w) for sheet in sheets]
    for words, part in zip(advice, ("Lay this sheet down first", "left", "upper", "left and upper"), strict=True):
        assert part in words


def test_the_map_shows_the_sheet_among_its_fellows() -> None:
    for number, sheet in enumerate(drawn(piece("poster", inches(14), inches(15)))):
        (patch,) = [element for element in sheet.group("sheet-map") if element.tag.endswith("polygon")]
        corners = [tuple(map(float, corner.split(","))) for corner in patch.get("points", "").split()]
        grid = [place for path in sheet.paths("sheet-map") for place in ends(path)]
        left, top = min(x for x, _ in grid), min(y for _, y in grid)
        cell = max(x for x, _ in corners) - min(x for x, _ in corners)
        assert max(x for x, _ in grid) - left == pytest.approx(2 * cell)
        column, row = round((corners[0][0] - left) / cell), round((corners[0][1] - top) / cell)
        assert (row, column) == divmod(number, 2)


def test_crosses_lie_in_the_drawing_and_off_the_lines_of_the_piece() -> None:
    for sheet in drawn(mitred_wrap()):
        for x, y in crosses(sheet).values():
            lines = [line for part in ("cut", "valley") for line in stretches(Joined([sheet], [(0, 0)], 0), part)]
            assert min(off((x, y), line) for line in lines) >= 4


def test_crosses_lie_on_the_dotted_lines() -> None:
    """The later sheet is trimmed there: what is left of its crosses meets the earlier sheet's."""
    for sheet in drawn(piece("poster", inches(14), inches(15))):
        joins = stretches(Joined([sheet], [(0, 0)], 0), "join")
        for place in crosses(sheet).values():
            assert min(off(place, join) for join in joins) < 0.002


def test_sixty_sheets_are_drawn_and_more_are_refused() -> None:
    """A row of n sheets of US Letter shows 195.9 n - 10 (n - 1) mm upright, and 259.4 n - 10 (n - 1) mm lying."""
    lying = mm("259.4") * 60 - mm(10) * 59 - mm(1)
    assert len(drawn(piece("runner", lying, mm(100)))) == 60
    (refused,) = drawn(piece("runner", lying + mm("0.1"), mm(100)))
    assert "True to size this piece takes 61 sheets of US Letter; a template has 60 at most." in refused.words()
    assert refused.name == "templates/runner.svg"
    assert refused.paths("cut") == []


@pytest.mark.parametrize("size", [mm(10**9), mm(10**400)], ids=["a thousand kilometres", "beyond any float"])
def test_a_monster_is_refused_at_once(size: Length) -> None:
    fold = FoldLine("crease", "valley", PlanPoint(mm(0), mm(0)), PlanPoint(size, size))
    (refused,) = drawn(evolve(piece("monster", size, size), folds=(fold,)))
    assert any("takes more than 10000 sheets" in words for words in refused.words())


def test_thousands_of_folds_are_drawn_but_not_all_named() -> None:
    folds = tuple(
        FoldLine(f"fold {n}", "valley", PlanPoint(mm(n) / 20, mm(0)), PlanPoint(mm(n) / 20, mm(100)))
        for n in range(1, 2000)
    )
    (sheet,) = drawn(evolve(piece("bellows", mm(100), mm(100)), folds=folds))
    assert len(sheet.paths("valley")) == 1999
    assert any("without a name here: see the score chart" in words for words in sheet.words())


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
@pytest.mark.parametrize("mirrored", [False, True], ids=["from the face", "from the back"])
def test_the_sheets_of_every_example_give_its_pieces_again(name: str, mirrored: bool) -> None:
    """Reassembled by their crosses, the sheets show each piece as large as the cut list says, within 0.05 mm."""
    plan = plan_of_example(name)
    shown = plan_from_back(plan) if mirrored else plan
    several = 0
    for shape in (each for each in shown.pieces if not each.bought):
        files = make(evolve(shown, pieces=(shape,)))
        together = joined([Drawn(file, made.decode()) for file, made in files.items()])
        several += len(files) > 1
        spots = [place for stretch in stretches(together, "cut") for place in stretch]
        across, down = [x for x, _ in spots], [y for _, y in spots]
        found = max(across) - min(across), max(down) - min(down)
        assert found == pytest.approx((shape.width.millimetres, shape.height.millimetres), abs=0.05), shape.id
        left = min(across)
        for kind in ("valley", "mountain"):
            upright = {float(f.start.x.millimetres) for f in shape.folds if f.kind == kind and f.start.x == f.end.x}
            drawn_at = [a[0] - left for a, b in stretches(together, kind) if a[0] == pytest.approx(b[0], abs=0.001)]
            assert all(min(abs(x - place) for x in drawn_at) < 0.05 for place in upright), shape.id
    assert several


@pytest.mark.parametrize("mirrored", [False, True], ids=["from the face", "from the back"])
@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_no_word_lies_over_anything_on_any_sheet_of_any_example(name: str, mirrored: bool) -> None:
    """By geometry: boxes of the font's own letters against one another and against every line."""
    plan = plan_of_example(name)
    sheets = make(plan_from_back(plan) if mirrored else plan)
    assert len(sheets) > 10
    for file, made in sheets.items():
        # None is larger than A4 or US Letter, standing or lying.
        check(Drawn(file, made.decode()), 297, 297)
