"""Views of whole designs: on the sheet, no word over anything, and the numbers those worked out by hand."""

from fractions import Fraction
from itertools import pairwise

import pytest
from attrs import evolve

from outputs.sample_plan import sample_plan
from outputs.template_pieces import Drawn
from outputs.test_drawings import check
from pastedown.outputs.pictures.end_view import end_views
from pastedown.outputs.pictures.lettering import MOST_WIDTH, TITLE_SIZE
from pastedown.outputs.pictures.thickness_map import thickness_maps
from pastedown.outputs.pictures.whole_scenes import whole_poses, whole_scenes, without_optional
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.template.drawing import Sheet, Stroke
from pastedown.outputs.template.svg_text import decimal
from pastedown.outputs.template.wrap import title_lines
from pastedown.outputs.to_views import make
from test_examples import DESIGNS, plan_of

NAMES = [name.removesuffix(".album") for name in DESIGNS]
# A map that tells many thicknesses by letters is the highest.
WIDEST, HIGHEST = MOST_WIDTH, 255.0


@pytest.mark.parametrize("name", NAMES)
def test_everything_lies_on_the_sheet_and_no_word_over_anything(name: str) -> None:
    files = make(plan_of(name))
    for file, made in files.items():
        check(Drawn(file, made.decode()), WIDEST, HIGHEST)
    assert {"views/made-up.svg", "views/closed.svg", "views/flat-1.svg", "views/end-hinge-strip.svg"} <= set(files)
    assert "views/thickness-1.svg" in files


def written(name: str, view: str) -> list[str]:
    return [element.text or "" for element in Drawn(view, make(plan_of(name))[f"views/{view}.svg"].decode()).group("words")]


def test_the_case_laid_flat_tells_its_gaps() -> None:
    """By hand: two covers of 210 + 2 x 3 mm, joints of 8 mm, and a spine of the hinge's two gussets of 12 mm, three
    peaks of 0.7 mm and 25 mm more, rounded up to a whole millimetre; and all of it together."""
    words = " ".join(written("almanac", "flat-1")).replace("\N{NO-BREAK SPACE}", " ")
    for told in ("case front cover, 216 mm", "B gap, 8 mm", "C case spine board, 52 mm", "D gap, 8 mm", "500 mm"):
        assert told in words
    assert 216 + 8 + 52 + 8 + 216 == 500


def test_the_strip_from_its_end_says_what_is_exaggerated_and_how_wide_it_is() -> None:
    """By hand: six wings and gussets, 210 - 6 x 12 mm flat, and for each of three peaks two papers of 0.3 mm and 0.1 mm
    of tape."""
    words = [text.replace("\N{NO-BREAK SPACE}", " ") for text in written("almanac", "end-hinge-strip")]
    assert "140.1 mm" in words and Fraction(210 - 72) + 3 * (2 * Fraction("0.3") + Fraction("0.1")) == Fraction("140.1")
    assert "True thickness." in words
    (exaggerated,) = [text for text in words if "times as thick" in text]
    ((_, sheet),) = end_views(workshop_of(plan_of("almanac")))
    thick, true = (reach(stroke) for stroke in sheet.strokes if stroke.part == "section")
    times = int(exaggerated.split("times")[0].split()[-1])
    # Every peak adds a thickness of 2 x 0.3 + 0.1 mm as often as it is drawn thick.
    scale = true / 140.1
    assert thick / min(scale, 100 / (138 + times * 2.1)) == pytest.approx(138 + times * 2.1, abs=0.05)


def reach(stroke: Stroke) -> float:
    across = [float(move.start[0]) for move in stroke.moves]
    return max(across) - min(across)


def maps(name: str) -> dict[str, Sheet]:
    return {sheet.title: sheet for _, sheet in thickness_maps(workshop_of(plan_of(name)))}


def test_a_map_tells_every_zone_and_keeps_clear_what_is_joined() -> None:
    """By hand: a page of the almanac is two sheets of 0.3 mm with a card of 0.3 mm between them; where the photograph
    of 0.25 mm lies on its mat of 0.3 mm it is 1.45 mm, and beside that mat 0.9 mm; the peak goes 12 mm in from the
    spine."""
    plan = plan_of("almanac")
    sheet = maps("almanac")["page 1: how thick it is where"]
    (part,) = [part for part in plan.bulk.parts if part.paths[0] == "page[1]"]
    told = [words.text.replace("\N{NO-BREAK SPACE}", " ") for words in sheet.words]
    assert told.count("1.45 mm") == 1 and told.count("0.9 mm") == 4 and told.count("0.6 mm") == 1
    assert sum(text.endswith(" mm") and text[0].isdigit() for text in told) == len(part.zones) > len(part.places)
    assert " ".join(told).count("keep clear: hinge strip") == 1
    (rim,) = [stroke for stroke in sheet.strokes if stroke.part == "new"]
    (whole,) = [stroke for stroke in sheet.strokes if stroke.part == "edge"]
    assert reach(rim) / reach(whole) == pytest.approx(12 / 210, rel=1e-3)
    left = min(float(move.start[0]) for move in whole.moves)
    assert min(float(move.start[0]) for move in rim.moves) == pytest.approx(left, abs=0.01), "it lies at the spine"


def test_a_map_of_many_zones_has_a_letter_for_each_thickness_and_lines_where_it_changes() -> None:
    """The case of the almanac, by hand: boards of 2 mm, a tape of 0.3 mm turned in, a liner of 0.15 mm and a hinge strip
    of 0.3 mm over them; the gap has the tape alone, and the strip."""
    plan = plan_of("almanac")
    sheet = maps("almanac")["case: how thick it is where"]
    (part,) = [part for part in plan.bulk.parts if part.paths == ("case",)]
    assert len(part.zones) > 24
    texts = [words.text.replace("\N{NO-BREAK SPACE}", " ") for words in sheet.words]
    told = {text[0]: text[3:].partition(" mm")[0] for text in texts if text[1:3] == ": " and text[0].isupper()}
    assert list(told.values()) == ["3.05", "2.9", "2.75", "2.6", "2.45", "2.3", "2.15", "2", "0.9", "0.6"]
    assert list(told) == list("ABCDEFGHIJ")
    (whole,) = [stroke for stroke in sheet.strokes if stroke.part == "edge"]
    corners = [tuple(map(float, move.start)) for move in whole.moves]
    left, bottom = min(x for x, _ in corners), max(y for _, y in corners)
    scale = reach(whole) / 500.0

    def thickness(x: float, y: float) -> str:
        """What the ledger has at a spot of the sheet."""
        across, up = (x - left) / scale, (bottom - y) / scale
        found = [
            zone.thickness
            for zone in part.zones
            if zone.left.millimetres <= across < zone.right.millimetres
            and zone.tail.millimetres <= up < zone.head.millimetres
        ]
        return f"{float(found[0].millimetres):g}" if found else ""

    letters = [words for words in sheet.words if words.text in told]
    assert {words.text for words in letters} > set("ABDG")
    for words in letters:
        middle, half = float(words.y) - 0.36 * words.size, 0.25 * words.size
        assert all(
            thickness(float(words.x) + a, middle + b) == told[words.text] for a in (-half, half) for b in (-half, half)
        )
    lines = [move for stroke in sheet.strokes if stroke.part == "zone" for move in stroke.moves]
    for line in lines:
        (x1, y1), (x2, y2) = (tuple(map(float, spot)) for spot in (line.start, line.end))
        off = 0.05 if x1 == x2 else 0.0
        sides = [thickness((x1 + x2) / 2 + sign * off, (y1 + y2) / 2 + sign * (0.05 - off)) for sign in (1, -1)]
        assert sides[0] != sides[1], (x1, y1, x2, y2)
    # Along a way from side to side a line is crossed wherever the thickness changes.
    level = bottom - 100.0 * scale
    along = [thickness(left + n / 10 + 0.01, level) for n in range(-2, 1422)]
    changes = sum(one != other for one, other in pairwise(along))
    crossed = {float(line.start[0]) for line in lines if line.start[0] == line.end[0]
               and min(line.start[1], line.end[1]) < level < max(line.start[1], line.end[1])}
    assert len(crossed) == changes


def test_what_is_as_thick_everywhere_has_no_map() -> None:
    assert not [title for title in maps("almanac") if title.startswith(("hinge", "diary", "front liner"))]


def test_blank_is_without_what_the_design_can_do_without_and_what_that_carries() -> None:
    workshop = workshop_of(plan_of("almanac"))
    blank = without_optional(workshop, workshop.pieces)
    gone = set(workshop.pieces) - set(blank)
    assert gone == {f"{thing}" for k in (1, 2, 3) for thing in (f"photo[{k}].mat", f"photo[{k}].picture", f"diary[{k}].card")}
    files = make(plan_of("almanac"))
    assert files["views/made-up.svg"] != files["views/made-up-blank.svg"]
    named = "Drawn without 3 x diary card, 3 x photo mat, 3 x photo picture."
    assert named in " ".join(written("almanac", "made-up-blank")).replace("\N{NO-BREAK SPACE}", " ")
    assert "views/closed-blank.svg" not in make(plan_of("orchard_year")), "nothing to leave off there"


def test_the_pose_that_is_asked_for_is_shown_alone_and_that_of_a_part_without_the_rest() -> None:
    plan = evolve(plan_of("harbour_walk"), poses=("case.closed", "open_at[2]"))
    case, book = whole_poses(workshop_of(plan))
    assert (case.name, case.words, book.name) == ("case-closed", "case closed", "open-at-2")
    assert not case.left_out
    assert {workshop_of(plan).pieces[path].part for path in case.pieces} == {"case"}
    upright = {path for path in case.pieces for frame in case.posed.frames[path].values() if abs(frame.z[0]) > 0.99}
    assert {"case.front_cover", "case.back_cover"} <= upright
    spine = case.posed.frames["case.spine_board"]
    assert all(abs(frame.z[2]) > 0.99 for frame in spine.values())
    assert sorted(make(plan)) == ["views/case-closed.svg", "views/open-at-2-blank.svg", "views/open-at-2.svg"]


@pytest.mark.parametrize("title", ["A year of walks by the harbour, in every weather, " * 4, "W" * 300])
def test_a_long_title_is_shortened_and_the_pose_never(title: str) -> None:
    files = make(evolve(plan_of("harbour_walk"), title=title))
    headings = {}
    for name in ("made-up", "made-up-blank", "closed", "closed-blank", "flat-1"):
        drawn = Drawn(name, files[f"views/{name}.svg"].decode())
        rows = [element for element in drawn.group("words") if element.get("font-size") == decimal(TITLE_SIZE)]
        headings[name] = " ".join(element.text or "" for element in rows)
        assert len(rows) == 2
    assert headings["closed-blank"].endswith("…: closed, blank") and headings["closed"].endswith("…: closed, loaded")
    assert len(set(headings.values())) == 5


def test_an_ending_that_is_long_by_itself_is_kept_whole() -> None:
    ending = ": " + " ".join(["open_at"] * 60)
    lines = title_lines("A title", ending, 3.4, 96.0)
    assert len(lines) > 2 and " ".join(lines) == f"…{ending}"
    assert title_lines("A title", ": closed", 3.4, 96.0) == ["A title: closed"]


def test_the_first_view_names_the_poses_that_are_shown_only_when_asked_for() -> None:
    plan = plan_of("harbour_walk")
    own = {posture.path for posture in plan.space.postures if not posture.part}
    shown = {name for name, _ in whole_scenes(workshop_of(plan))}
    missing = sorted(each for each in own if each.replace("_", "-").replace("[", "-").rstrip("]") not in shown)
    assert "open_at[1]" in missing and len(missing) < len(own)
    first, *others = [scene for _, scene in whole_scenes(workshop_of(plan))]
    (note,) = [note for note in first.notes if "--pose" in note]
    assert all(each.replace("_", " ").replace("[", " ").rstrip("]") in note for each in missing[:6])
    assert not [note for scene in others for note in scene.notes if "--pose" in note]
    asked = [scene for _, scene in whole_scenes(workshop_of(evolve(plan, poses=("open_at[1]",))))]
    assert not [note for scene in asked for note in scene.notes if "--pose" in note]


def test_what_is_left_out_is_named() -> None:
    made_up = " ".join(written("seed_diary", "made-up")).replace("\N{NO-BREAK SPACE}", " ")
    assert "Left out, for nothing holds it: 1 x label card." in made_up


def test_what_lies_loose_makes_nothing_stand_square() -> None:
    """The label card is in a heap of its own, which no frame of its page says anything about."""
    square = {path: part.square for part in plan_of("seed_diary").bulk.parts for path in part.paths}
    pages = {"page[1]", "page[2]", "page[3]"}
    assert any("card" in path for part in plan_of("seed_diary").bulk.parts for path in part.loose)
    assert {path for path, beside in square.items() if path in beside} == {"hinge"}
    assert set(square["case"]) == pages and not any(square[page] for page in pages)
    told = " ".join(words.text for sheet in maps("seed_diary").values() for words in sheet.words)
    assert "stands square to it: page 1, page 2, page 3." in told


def test_a_plan_with_nothing_in_space_has_no_views() -> None:
    assert make(sample_plan()) == {}


def test_a_flap_that_a_variant_adds_is_shut_in_the_closed_book() -> None:
    """Nothing of it stands out beyond the page on which it hangs."""
    (closed,) = [scene for name, scene in whole_scenes(workshop_of(plan_of("orchard_year_harvest"))) if name == "closed"]
    heights = {
        path: max(corner[2] for plate in closed.plates if plate.path == path for corner in plate.corners())
        for path in ("flap.flap", "page[5].long_sheet")
    }
    assert heights["flap.flap"] < heights["page[5].long_sheet"] + 1


def test_places_in_the_key_of_a_map_are_told_to_their_end() -> None:
    """In both units a place takes five lines: none of them is left out."""
    said = " ".join(words.text for words in maps("first_snow")["binding: how thick it is where"].words).replace("\u00a0", " ")
    assert said.count("from the left") == said.count("from the tail") > 4
