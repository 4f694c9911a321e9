"""Words on templates: what they say, and that none lies over a line or over another word."""

from io import BytesIO
from math import cos, radians, sin
from re import search
from xml.etree import ElementTree

import cairosvg
import pytest
from attrs import evolve
from cairosvg.surface import cairo
from PIL import Image, ImageChops

from outputs.sample_plan import hinge_strip, page_sheet
from outputs.template_pieces import (
    EVERY_PIECE,
    METRIC_RULER,
    SVG,
    Drawn,
    drawn,
    ends,
    ladder_strip,
    notched_tag,
    piece,
    plan_of,
    small_tab,
    windowed_sheet,
)
from pastedown.outputs.template.letter_width import shortened, width_of
from pastedown.outputs.template.sheets import sheets_of
from pastedown.plan.plan import CutPiece, FoldLine, PlanPoint
from pastedown.quantity.quantity import inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

BOTH = Ruler(inches("1/16"), Show.BOTH)
LONG = "a name that a maker with a great deal to say gave to a part of no great size" * 3


def dense_strip() -> CutPiece:
    """Folds 3 mm apart, so that hardly a word fits between them."""
    folds = tuple(
        FoldLine(f"fold {n}", ("valley", "mountain")[n % 2], PlanPoint(mm(3 * n), mm(0)), PlanPoint(mm(3 * n), mm(80)))
        for n in range(1, 60)
    )
    return evolve(piece("dense", mm(180), mm(80)), folds=folds)


def crossed() -> CutPiece:
    """Folds that run aslant."""
    folds = (
        FoldLine("falling", "valley", PlanPoint(mm(0), mm(90)), PlanPoint(mm(150), mm(0))),
        FoldLine("rising", "mountain", PlanPoint(mm(0), mm(0)), PlanPoint(mm(150), mm(90))),
        FoldLine("back", "mountain", PlanPoint(mm(150), mm(45)), PlanPoint(mm(20), mm(90))),
    )
    return evolve(piece("crossed", mm(150), mm(90)), folds=folds)


def wordy() -> CutPiece:
    return evolve(windowed_sheet(), name=LONG, stock=LONG, left=LONG, right=LONG, face_up=LONG)


CROWDED = [*EVERY_PIECE, hinge_strip(), page_sheet(), dense_strip(), crossed(), wordy(),
           piece("full", mm(194), mm(218)), piece("thin", mm(150), mm(2)),
           piece("great", inches(30), inches(20))]  # fmt: skip


def picture(root: ElementTree.Element, keep_words: bool) -> Image.Image:
    """The drawing with its words only, or with its lines only."""
    for group in [group for group in root if group.tag == f"{SVG}g" and (group.get("id") == "words") != keep_words]:
        root.remove(group)
    shown = cairosvg.svg2png(ElementTree.tostring(root), dpi=96, scale=2, background_color="white")
    return Image.open(BytesIO(shown)).convert("L")


def darkest(image: Image.Image) -> int:
    """From 0, black, to 255, white."""
    return next(shade for shade, count in enumerate(image.histogram()) if count)


def ink_boxes(sheet: Drawn) -> list[tuple[str, float, float, float, float]]:
    """The box about each text's ink, by the metrics of the font. Texts aslant are left to the other test."""
    context = cairo.Context(cairo.PDFSurface(None, 1, 1))
    context.select_font_face("DejaVu Sans")
    boxes = []
    for element in sheet.group("words"):
        text, size = element.text or "", float(element.get("font-size", ""))
        turn = search(r"rotate\((-?[\d.]+)", element.get("transform", ""))
        angle = float(turn[1]) if turn else 0.0
        if angle in (0.0, -90.0):
            context.set_font_size(size)
            left, top, width, height, advance, _ = context.text_extents(text)
            left -= {"middle": advance / 2, "end": advance}.get(element.get("text-anchor", ""), 0.0)
            spots = [turned(left + w, top + h, angle) for w in (0, width) for h in (0, height)]
            x, y = float(element.get("x", "")), float(element.get("y", ""))
            across, down = [x + a for a, _ in spots], [y + b for _, b in spots]
            boxes.append((text, min(across), min(down), max(across), max(down)))
    return boxes


def turned(x: float, y: float, angle: float) -> tuple[float, float]:
    c, s = cos(radians(angle)), sin(radians(angle))
    return x * c - y * s, x * s + y * c


@pytest.mark.parametrize("shape", CROWDED, ids=lambda shape: shape.name[:12])
@pytest.mark.parametrize("ruler", [INCH_RULER, METRIC_RULER, BOTH], ids=["inches", "metric", "both"])
def test_no_word_lies_over_another_or_leaves_the_margins(shape: CutPiece, ruler: Ruler) -> None:
    for sheet in drawn(shape, ruler=ruler)[:4]:
        width, height = (float(side) for side in sheet.root.get("viewBox", "").split()[2:])
        boxes = ink_boxes(sheet)
        assert len(boxes) > 5
        for number, (text, left, top, right, bottom) in enumerate(boxes):
            assert 9.98 <= left <= right <= width - 9.98, text
            assert 9.98 <= top <= bottom <= height - 9.98, text
            for other, left2, top2, right2, bottom2 in boxes[:number]:
                assert right < left2 or right2 < left or bottom < top2 or bottom2 < top, (text, other)


@pytest.mark.parametrize("shape", CROWDED, ids=lambda shape: shape.name[:12])
def test_no_word_lies_over_a_line(shape: CutPiece) -> None:
    """Lines and words are drawn apart; no spot is dark in both."""
    for sheet in drawn(shape)[:2]:
        lines, words = picture(sheet.root, keep_words=False), picture(sheet.root, keep_words=True)
        assert darkest(lines) < 100
        assert darkest(words) < 100
        assert darkest(ImageChops.lighter(lines, words)) > 200


def test_head_strip_says_what_to_cut_from_what() -> None:
    (sheet,) = drawn(evolve(windowed_sheet(), grain="height"))
    assert sheet.words()[0] == "front sheet: cut 6 pieces alike"
    facts = " · ".join(sheet.words()[1:5])
    for part in (
        "height 7 1/2 in from tail to head", "width 6 in from spine (left) to fore edge (right)", "stock: kraft card",
        "this side up: decorated side", "grain along the height", "House album",
    ):  # fmt: skip
        assert part in facts
    (metric,) = drawn(windowed_sheet(), ruler=METRIC_RULER)
    assert "height 190.5 mm from tail to head" in " · ".join(metric.words()[1:5])
    (both,) = drawn(windowed_sheet(), ruler=BOTH)
    assert "height 7 1/2 in (190.5 mm) from tail to head" in " · ".join(both.words()[1:5])


def test_the_piece_itself_says_what_it_is() -> None:
    (sheet,) = drawn(windowed_sheet())
    for words in ("front sheet", "cut 6 pieces alike", "this side up: decorated side"):
        assert words in sheet.words()


def test_edges_are_named_at_the_edges() -> None:
    (sheet,) = drawn(windowed_sheet())
    spots = ends(sheet.paths("cut")[0])
    left, right = min(x for x, _ in spots), max(x for x, _ in spots)
    top, bottom = min(y for _, y in spots), max(y for _, y in spots)
    assert 0 < top - sheet.place_of("head")[1] < 3
    assert 0 < sheet.place_of("tail")[1] - bottom < 5
    assert 0 < left - sheet.place_of("left edge: spine")[0] < 3
    assert 0 < sheet.place_of("right edge: fore edge")[0] - right < 5


def test_only_the_edges_a_sheet_shows_are_named_on_it() -> None:
    first, second = drawn(ladder_strip())
    assert "left edge: front end" in first.words()
    assert "right edge: back end" not in first.words()
    assert "right edge: back end" in second.words()
    assert "left edge: front end" not in second.words()
    assert all({"head", "tail"} <= set(sheet.words()) for sheet in (first, second))


def test_folds_are_named_beside_themselves() -> None:
    (sheet,) = drawn(narrow(hinge_strip()))
    for fold in narrow(hinge_strip()).folds:
        kind = fold.kind
        words = f"{fold.name.replace('[', ' ').replace(']', '')} ({kind})"
        x, y = sheet.place_of(words)
        gaps = [abs(ends(path)[0][0] - x) for path in sheet.paths(kind)]
        tops = [min(b for _, b in ends(path)) for path in sheet.paths(kind)]
        assert min(gaps) < 3.5
        assert y > min(tops)


def narrow(strip: CutPiece) -> CutPiece:
    """The strip with its last wing cut off, so that it fits one sheet."""
    width = inches(7)
    corners = tuple(
        evolve(move, end=PlanPoint(min(move.end.x, width), move.end.y)) for move in strip.outline.moves
    )
    return evolve(strip, width=width, outline=evolve(strip.outline, moves=corners))


@pytest.mark.parametrize(("grain", "level"), [("height", False), ("width", True)])
def test_the_arrow_lies_along_the_grain(grain: str, level: bool) -> None:
    (sheet,) = drawn(evolve(windowed_sheet(), grain=grain))
    ((x1, y1), (x2, y2)) = ends(sheet.paths("grain")[0])
    assert (y1 == y2, x1 == x2) == (level, not level)
    assert len([element for element in sheet.group("grain") if element.tag == f"{SVG}polygon"]) == 2
    x, y = sheet.place_of("grain")
    assert min(x1, x2) - 3 < x < max(x1, x2) + 3
    assert min(y1, y2) - 3 < y < max(y1, y2) + 3
    spots = ends(sheet.paths("cut")[0])
    assert min(a for a, _ in spots) < x1 < max(a for a, _ in spots)
    assert min(b for _, b in spots) < y1 < max(b for _, b in spots)


def test_no_arrow_where_the_grain_does_not_matter() -> None:
    (sheet,) = drawn(evolve(windowed_sheet(), grain="any"))
    assert sheet.group("grain") == []
    assert "grain" not in sheet.words()
    assert any("grain: any" in words for words in sheet.words())


def test_an_arrow_without_room_on_the_piece_stands_above_the_drawing() -> None:
    (sheet,) = drawn(small_tab())
    ((_, y1), (_, y2)) = ends(sheet.paths("grain")[0])
    assert y1 == y2 < 10 + 18.5
    assert sheet.place_of("grain")[1] < 10 + 18.5


def test_folds_too_close_for_their_names_are_counted() -> None:
    (sheet,) = drawn(dense_strip())
    (note,) = [found for words in sheet.words() if (found := search(r"(\d+) folds? without a name here", words))]
    named = [words for words in sheet.words() if words.startswith("fold ")]
    assert int(note[1]) + len(named) == 59


def test_names_too_long_are_cut_short_with_a_mark() -> None:
    (sheet,) = drawn(wordy())
    assert sheet.words()[0].startswith("a name that a maker")
    assert sheet.words()[0].endswith("…")
    assert max(map(len, sheet.words())) < 160


def test_room_is_never_underrated() -> None:
    """The widths written out are those of the font, measured here by the library that draws, and a little more."""
    context = cairo.Context(cairo.PDFSurface(None, 1, 1))
    context.select_font_face("DejaVu Sans")
    context.set_font_size(100)
    plain_letters = "".join(map(chr, range(0x20, 0x7F)))
    for letter in plain_letters:
        width = context.text_extents(letter)[4]
        assert width <= width_of(letter, 100) <= width * 1.03
    for letter in "éÆŒß½×…—ΩЖ漢🖼":
        assert width_of(letter, 100) >= context.text_extents(letter)[4] - 0.05


def test_shortened_text_fits() -> None:
    for room in range(2, 60):
        short = shortened("concertina hinge strip", 2.5, room)
        assert width_of(short, 2.5) <= max(room, width_of("…", 2.5))
        assert short in ("concertina hinge strip", "…") or short.endswith("…")
    assert shortened("tag", 2.5, 100) == "tag"


def test_no_side_named_means_left_and_right() -> None:
    (sheet,) = drawn(notched_tag())
    assert any("width 1 1/2 in from left to right" in words for words in sheet.words())
    (turned_up,) = drawn(evolve(notched_tag(), face_up=""))
    assert "this side up" in turned_up.words()


def test_no_fold_runs_between_the_lines_of_the_name_block() -> None:
    """Folds 9 mm apart in the middle, a wing of 45 mm at either side: the block stands whole on a wing."""
    folds = tuple(
        FoldLine(f"crease {n}", "valley", PlanPoint(mm(45 + 9 * n), mm(0)), PlanPoint(mm(45 + 9 * n), mm(150)))
        for n in range(11)
    )
    strip = evolve(piece("hinge strip", mm(180), mm(150)), folds=folds)
    (sheet,) = sheets_of(strip, plan_of(strip))
    block = [words for words in sheet.words if words.text in ("hinge strip", "cut 1") or "this side" in words.text]
    on_piece = [words for words in block if words.anchor == "middle"]
    assert len(on_piece) == 3
    lines = [float(stroke.moves[0].start[0]) for stroke in sheet.strokes if stroke.part == "valley"]
    assert len(lines) == 11
    across = [words.x for words in on_piece]
    assert not [x for x in lines if min(across) <= x <= max(across)]
