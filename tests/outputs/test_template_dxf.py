"""Templates as DXF, read and audited by a library that had no part in writing them."""

from collections.abc import Iterator
from io import StringIO
from math import hypot, pi, tau

import pytest
from attrs import evolve
from ezdxf.document import Drawing
from ezdxf.entities.line import Line
from ezdxf.entities.polyline import Polyline
from ezdxf.filemanagement import read as read_dxf
from ezdxf.math import BoundingBox, bulge_to_arc

from outputs.template_pieces import (
    EVERY_PIECE,
    chain,
    disc,
    ladder_strip,
    mitred_wrap,
    notched_tag,
    piece,
    plan_of,
    windowed_sheet,
)  # fmt: skip
from outputs.test_strangers_text import NASTY
from pastedown.outputs.template.seen_from_back import plan_from_back
from pastedown.outputs.to_template_dxf import make
from pastedown.plan.plan import CutPiece, FoldLine, Plan, PlanPoint
from pastedown.quantity.quantity import mm
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example


def text_of(shape: CutPiece) -> str:
    (made,) = make(plan_of(shape)).values()
    return made.decode("ascii")


def read(text: str) -> Drawing:
    """The document, which has no fault that an audit finds or mends."""
    document = read_dxf(StringIO(text, newline=None))
    audit = document.audit()
    assert not audit.has_errors, audit.errors
    assert not audit.has_fixes, audit.fixes
    return document


def polylines(document: Drawing, layer: str = "cut") -> list[Polyline]:
    return [each for each in document.modelspace().query("POLYLINE") if isinstance(each, Polyline) and each.dxf.layer == layer]


def lines(document: Drawing, layer: str) -> list[Line]:
    return [each for each in document.modelspace().query("LINE") if isinstance(each, Line) and each.dxf.layer == layer]


def files_of_examples() -> Iterator[tuple[CutPiece, str]]:
    for name in DESIGNS:
        plan = plan_of_example(name.removesuffix(".album"))
        files = make(plan)
        cut = [each for each in plan.pieces if not each.bought]
        assert list(files) == [f"templates/{each.id}.dxf" for each in cut]
        yield from ((each, files[f"templates/{each.id}.dxf"].decode("ascii")) for each in cut)


def test_the_release_and_the_units_are_stated() -> None:
    """FMT-07: AC1009 is R12. FMT-06 and FMT-09: $INSUNITS 4 is millimetres, and readers of R12 heed it."""
    text = text_of(notched_tag())
    document = read(text)
    assert document.dxfversion == "AC1009"
    assert document.header["$INSUNITS"] == 4
    assert "lengths in millimetres" in text


@pytest.mark.parametrize("shape", EVERY_PIECE, ids=lambda shape: shape.name)
def test_only_entities_that_release_12_knows(shape: CutPiece) -> None:
    """FMT-08: LWPOLYLINE came with 2000."""
    assert {each.dxftype() for each in read(text_of(shape)).modelspace()} <= {"POLYLINE", "LINE"}


def test_layers_have_plain_names_and_are_told_apart() -> None:
    bend = FoldLine("gap begins", "mark", PlanPoint(mm(20), mm(0)), PlanPoint(mm(20), mm(190)))
    document = read(text_of(evolve(windowed_sheet(), bend_lines=(bend,))))
    assert {layer.dxf.name for layer in document.layers} >= {"cut", "valley", "mountain", "mark"}
    assert {each.dxf.layer for each in document.modelspace()} == {"cut", "mountain", "mark"}
    assert len({document.layers.get(name).dxf.linetype for name in ("cut", "valley", "mountain", "mark")}) == 4


def test_cut_outlines_and_windows_are_closed_and_slits_are_not() -> None:
    document = read(text_of(windowed_sheet()))
    assert [each.is_closed for each in polylines(document)] == [True, True, False]
    assert all(each.is_closed for shape in EVERY_PIECE for each in polylines(read(text_of(shape)))[:1])


def test_outlines_of_all_examples_measure_what_the_cut_list_says() -> None:
    """Kerf-free: the line runs where the edge of the finished paper is."""
    count = 0
    for shape, text in files_of_examples():
        document = read(text)
        outline = polylines(document)[0]
        box = BoundingBox(outline.points())
        assert outline.is_closed
        assert (box.size.x, box.size.y) == pytest.approx((shape.width.millimetres, shape.height.millimetres), abs=1e-6)
        drawn = {"valley": "valley", "mountain": "mountain", "mark": "mark"}
        for kind, layer in drawn.items():
            expected = {fold.name for fold in (*shape.folds, *shape.bend_lines) if fold.kind == kind}
            assert len(lines(document, layer)) >= len(expected)
            assert bool(lines(document, layer)) == bool(expected)
        count += 1
    assert count > 80


def test_folds_lie_at_their_marks() -> None:
    strip = ladder_strip()
    document = read(text_of(strip))
    for kind in ("valley", "mountain"):
        expected = [float(fold.start.x.millimetres) for fold in strip.folds if fold.kind == kind]
        assert [each.dxf.start.x for each in lines(document, kind)] == pytest.approx(expected, abs=1e-6)
        assert {each.dxf.start.y for each in lines(document, kind)} == {0}


def test_arcs_keep_their_centres_and_radii() -> None:
    outline, hole = polylines(read(text_of(disc())))
    for shape, radius, clockwise in ((outline, 127.0, True), (hole, 25.4, False)):
        corners = [(vertex.dxf.location, vertex.dxf.bulge) for vertex in shape.vertices]
        turned = 0.0
        for (start, bulge), (end, _) in zip(corners, corners[1:] + corners[:1], strict=True):
            centre, first, last, found = bulge_to_arc(start, end, bulge)
            assert (centre.x, centre.y, found) == pytest.approx((127, 127, radius), abs=1e-6)
            assert (bulge < 0) == clockwise
            turned += (last - first) % tau
        assert turned == pytest.approx(2 * pi, abs=1e-6)


def test_straight_moves_have_no_bulge() -> None:
    (outline,) = polylines(read(text_of(mitred_wrap())))
    assert {vertex.dxf.bulge for vertex in outline.vertices} == {0}
    assert len(outline.vertices) == 8


def test_a_mirrored_piece_is_the_piece_turned_over() -> None:
    """Left and right change over, valley and mountain too; turned over twice it is as it was."""
    strip = ladder_strip()
    plan = plan_of(strip, notched_tag())
    mirrored = make(plan_from_back(plan))
    assert list(mirrored) == ["templates/hinge-strip-mirrored.dxf", "templates/tag-mirrored.dxf"]
    document = read(mirrored["templates/hinge-strip-mirrored.dxf"].decode("ascii"))
    width = float(strip.width.millimetres)
    for here, there in (("valley", "mountain"), ("mountain", "valley")):
        expected = [width - float(fold.start.x.millimetres) for fold in strip.folds if fold.kind == there]
        assert [each.dxf.start.x for each in lines(document, here)] == pytest.approx(expected, abs=1e-6)
    tag, back = (polylines(read(text))[0] for text in (text_of(notched_tag()), mirrored["templates/tag-mirrored.dxf"].decode()))
    assert [vertex.dxf.bulge for vertex in back.vertices] == pytest.approx([-vertex.dxf.bulge for vertex in tag.vertices])
    twice = plan_from_back(plan_from_back(plan))
    for once, again in zip(plan.pieces, twice.pieces, strict=True):
        assert (again.outline, again.folds, again.inner_cuts) == (once.outline, once.folds, once.inner_cuts)
        assert again.left in (once.left, "left edge of the face")


@pytest.mark.parametrize("words", NASTY)
def test_no_text_of_a_stranger_becomes_a_group_of_the_file(words: str) -> None:
    shape = piece("plate", mm(100), mm(50))
    quiet = make(evolve(plan_of(shape), title="quiet"))["templates/plate.dxf"].decode("ascii").split("\r\n")
    loud = make(evolve(plan_of(evolve(shape, name=words)), title=f"0\r\nEOF\r\n{words}"))["templates/plate.dxf"]
    told = loud.decode("ascii").split("\r\n")
    assert len(told) == len(quiet)
    assert told[6:] == quiet[6:]
    assert max(map(len, told)) <= 255
    read("\r\n".join(told))


def test_a_monster_has_a_comment_and_no_lines() -> None:
    size = mm(10**400)
    fold = FoldLine("crease", "valley", PlanPoint(mm(0), mm(0)), PlanPoint(size, size))
    text = text_of(evolve(piece("monster", size, size), folds=(fold,)))
    assert len(read(text).modelspace()) == 0
    assert "longer than a kilometre" in text


def test_a_slit_of_several_stretches_keeps_its_corners() -> None:
    slit = chain("strap", (mm(10), mm(10)), (mm(40), mm(10)), (mm(40), mm(30)), closed=False)
    _, found = polylines(read(text_of(evolve(piece("plate", mm(100), mm(50)), inner_cuts=(slit,)))))
    places = [(point.x, point.y) for point in found.points()]
    assert places == [(10, 10), (40, 10), (40, 30)]
    assert hypot(places[1][0] - places[0][0], places[1][1] - places[0][1]) == 30


def test_like_plans_give_like_bytes() -> None:
    def plan() -> Plan:
        return plan_of(*EVERY_PIECE)

    assert make(plan()) == make(plan())
