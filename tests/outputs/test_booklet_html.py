"""The booklet as one HTML file: nothing is fetched, nothing of a stranger's is run, everybody can read it."""

import hashlib
import re
from base64 import b64encode
from functools import cache
from itertools import pairwise

import pytest
from attrs import evolve

from outputs.booklet_reader import Page, read_page
from outputs.sample_plan import sample_plan, steps, with_words
from outputs.test_strangers_text import NASTY
from pastedown.outputs.booklet.blocks import Listing, Paragraph, Pictures, Section, plain_said
from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.in_words import measure, measure_on_ruler, prose
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.safe_text import plain
from pastedown.outputs.to_booklet_html import make
from pastedown.plan.plan import Plan
from pastedown.plan.stock_cutting import stock_cuttings
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import inches
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example

EXAMPLES = [name.removesuffix(".album") for name in DESIGNS]
# What WCAG 2.2 asks of text (1.4.3) and of what is needed to understand controls (1.4.11).
LEAST_CONTRAST = 4.5


def text_of(plan: Plan) -> bytes:
    (made,) = make(plan).values()
    return made


@cache
def example(name: str) -> Page:
    return read_page(text_of(plan_of_example(name)))


def squeezed(text: str) -> str:
    return " ".join(text.replace("\u00a0", " ").split())


@pytest.mark.parametrize("name", EXAMPLES)
def test_it_is_well_formed_and_whole(name: str) -> None:
    page, plan = example(name), plan_of_example(name)
    assert page.faults == []
    assert page.one("h1").text == plan.title
    assert [element.attributes["id"] for element in page.all("section") if "id" in element.attributes][:7] == [
        "make", "materials", "pieces", "sheets", "scores", "thickness", "steps",
    ]  # fmt: skip
    body = squeezed(page.one("main").text)
    for step in plan.steps:
        section = squeezed(page.named(f"step-{step.number}").text)
        for text in (step.title, step.text, *step.tips, *step.cautions):
            assert squeezed(prose(text, plan.ruler)) in section
        if step.reading is not None:
            assert squeezed(measure_on_ruler(step.reading.nominal, plan.ruler)) in section
            assert "If it differs:" in section
    for piece in plan.pieces:
        assert piece.name in body
        for chart in (*piece.score_charts, *piece.bend_charts):
            assert all(squeezed(measure(mark.from_last, plan.ruler)) in body for mark in chart.marks)
    for material in plan.materials:
        assert material.stock in page.named("materials").text
    sheets = squeezed(page.named("sheets").text)
    for number, stock in enumerate(stock_cuttings(plan), 1):
        for pattern in stock.patterns:
            assert f"Pattern {number}-{pattern.number}, {pattern.sheet}: " in sheets
            for cut in pattern.cuts:
                assert squeezed(measure(cut.fence, plan.ruler)) in sheets
                assert squeezed(cut.taken) in sheets
    drawn = {each.attributes["href"] for each in page.all("use")}
    drawn = {each for each in drawn if each.startswith("#drawing-sheet-")}
    assert len(drawn) == sum(len(stock.patterns) for stock in stock_cuttings(plan))


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_asked_of_any_other_place(name: str) -> None:
    page = example(name)
    assert not page.all("link", "img", "iframe", "object", "embed", "base", "form", "audio", "video", "image")
    for element in page.elements:
        for attribute, value in element.attributes.items():
            assert attribute not in ("src", "srcset", "action", "style", "xlink:href"), element.tag
            assert not attribute.startswith("on"), element.tag
            if attribute == "href":
                assert value.startswith("#"), value
    style, script = page.one("style").text, page.one("script").text
    assert not re.search(r"url\(|@import|https?:|//", style)
    assert not re.search(r"fetch|XMLHttp|import|https?:|eval|innerHTML|document\.write", script)


def test_a_policy_forbids_every_request_and_lets_in_this_style_and_this_script_alone() -> None:
    page = example("harbour_walk")
    (policy,) = [each for each in page.all("meta") if each.attributes.get("http-equiv") == "Content-Security-Policy"]
    rules = dict(rule.strip().split(" ", 1) for rule in policy.attributes["content"].split(";"))
    assert rules["default-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert rules.keys() == {"default-src", "style-src", "script-src", "base-uri", "form-action"}
    for name in ("style", "script"):
        digest = b64encode(hashlib.sha256(page.one(name).text.encode()).digest()).decode()
        assert rules[f"{name}-src"] == f"'sha256-{digest}'"
    before = page.elements[: page.elements.index(policy)]
    assert {element.tag for element in before} == {"html", "head", "meta"}


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_link_and_every_use_leads_to_one_thing_of_the_file(name: str) -> None:
    page = example(name)
    names = [element.attributes["id"] for element in page.elements if "id" in element.attributes]
    assert len(names) == len(set(names))
    wanted = [element.attributes["href"][1:] for element in page.elements if "href" in element.attributes]
    wanted += [element.attributes["aria-labelledby"] for element in page.elements if "aria-labelledby" in element.attributes]
    assert set(wanted) <= set(names)
    drawings = {element.attributes["id"] for element in page.all("symbol")}
    assert drawings
    assert drawings <= set(wanted)


@pytest.mark.parametrize("name", EXAMPLES)
def test_headings_descend_one_by_one_and_everything_has_a_name(name: str) -> None:
    """WCAG 2.2: 1.1.1, 1.3.1, 2.4.1, 2.4.2, 3.1.1, 4.1.2."""
    page = example(name)
    levels = [int(element.tag[1]) for element in page.all("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert page.one("html").attributes["lang"] == "en-GB"
    assert page.one("title").text
    assert {element.tag for element in page.elements} >= {"header", "nav", "main", "footer"}
    pictures = [element for element in page.all("svg") if element.attributes.get("role") == "img"]
    assert pictures
    told = [element.attributes["aria-label"] for element in pictures]
    assert all(words.startswith(("Picture of ", "Flat drawing of the ", "Pattern ", "A map of ")) for words in told)
    # In three dimensions wherever there is such a picture.
    steps = step_pictures(plan_of_example(name)).scenes.values()
    assert [words for words in told if words.startswith("Picture of step")] == [scene.words for scene in steps]
    assert all(element.attributes.get("aria-hidden") == "true" for element in page.all("svg") if element not in pictures)
    assert all(element.within("label") for element in page.all("input"))
    for table in page.all("table"):
        heads = [each for each in page.all("th") if table in each.parents]
        assert {each.attributes["scope"] for each in heads} == {"col", "row"}
    for frame in (each for each in page.elements if "tabindex" in each.attributes):
        assert frame.attributes["tabindex"] == "0"
        assert frame.attributes["aria-label"]
    links = [element for element in page.all("a")]
    assert links[0].attributes["href"] == "#steps"
    assert all(link.text for link in links)


def luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.2 of a colour of three or six hexadecimal digits."""
    digits = "".join(digit * 2 for digit in colour) if len(colour) == 3 else colour
    channels = [int(digits[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_every_colour_stands_out_on_white() -> None:
    """WCAG 2.2, 1.4.3; borders need less (1.4.11), but are held to the same where they carry meaning."""
    style = example("harbour_walk").one("style").text
    colours = set(re.findall(r"(?<!-)color: #([0-9a-f]{3,6})\b", style))
    backgrounds = set(re.findall(r"background: #([0-9a-f]{3,6})\b", style))
    assert colours == {"111", "0b3d91"}
    assert backgrounds <= {"fff", "000a"}
    assert all(1.05 / (luminance(colour) + 0.05) >= LEAST_CONTRAST for colour in colours)


def test_controls_are_hidden_until_the_script_shows_them() -> None:
    """Without the script they would do nothing; ticks work by themselves."""
    page = example("harbour_walk")
    assert "hidden" in page.named("controls").attributes
    ticks = [each for each in page.all("input") if each.attributes["type"] == "checkbox"]
    assert [each.attributes["data-step"] for each in ticks] == [str(n) for n in range(1, len(ticks) + 1)]


def test_every_measure_can_be_read_in_both_systems() -> None:
    page = example("harbour_walk")
    measures = [each for each in page.elements if "data-in" in each.attributes]
    assert len(measures) > 200
    assert {each.tag for each in measures} == {"span", "text"}
    assert all(each.text == each.attributes["data-in"] for each in measures)
    assert all(re.search("[0-9]\u00a0?.*m|^\u00a0$", each.attributes["data-mm"]) for each in measures)
    metric = [each for each in example("almanac").elements if "data-in" in each.attributes]
    assert all(each.text == each.attributes["data-mm"] for each in metric)


@pytest.mark.parametrize(
    ("name", "system", "others"),
    [("harbour_walk", "data-mm", "in|ft|sq"), ("seed_diary", "data-mm", "in|ft|sq"), ("almanac", "data-in", "mm|cm²|m")],
)
def test_with_the_switch_no_length_stays_in_the_other_system(name: str, system: str, others: str) -> None:
    text = text_of(plan_of_example(name)).decode().partition("<body")[2]
    switched = re.sub(f'<(span|text)[^>]* {system}="([^"]*)"[^>]*>[^<]*</', r"<i>\2</", text)
    told = [squeezed(each) for each in re.findall(">([^<>]+)<", switched)]
    assert not [each for each in told if re.search(f"[0-9] ({others})\\b", each)]
    # A reading is told by the marks of a ruler of that system.
    assert any(re.match(f"a little (over|under) [0-9 /]+ {system.removeprefix('data-')} ", each) for each in told)
    assert len([each for each in told if " x " in each and re.search("[0-9]", each)]) > 8


@pytest.mark.parametrize("words", [words for words in NASTY if words])
def test_no_text_of_a_stranger_becomes_markup(words: str) -> None:
    quiet = read_page(text_of(with_words("quiet")))
    loud = read_page(text_of(with_words(words)))
    assert loud.faults == []
    in_drawings = {"path", "text", "g", "polygon"}
    shape = [(each.tag, sorted(each.attributes)) for each in quiet.elements if each.tag not in in_drawings]
    assert [(each.tag, sorted(each.attributes)) for each in loud.elements if each.tag not in in_drawings] == shape
    assert loud.one("h1").text == (plain(words) or "Untitled")
    assert loud.one("script").text == quiet.one("script").text


def test_the_stamp_is_the_design_s_own() -> None:
    plan = sample_plan()
    stamp = booklet_of(plan).stamp
    assert re.fullmatch(r"[a-z]+ · [0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}", stamp)
    assert booklet_of(sample_plan()).stamp == stamp
    first, *rest = plan.pieces
    wider = evolve(plan, pieces=(evolve(first, width=first.width + inches("1/64")), *rest))
    renamed = evolve(plan, title="Another")
    assert len({stamp, booklet_of(wider).stamp, booklet_of(renamed).stamp}) == 3
    page = read_page(text_of(plan))
    assert f'content: "{stamp}"' in page.one("style").text
    assert stamp in page.one("header").text
    assert stamp in page.one("footer").text


def test_a_caution_stands_before_what_it_is_about() -> None:
    plan = sample_plan()
    section = squeezed(read_page(text_of(plan)).named("step-2").text)
    assert section.index("Caution:") < section.index(squeezed(prose(steps()[1].text, plan.ruler)))


def test_the_glossary_has_words_that_are_used_and_parts_that_have_pieces() -> None:
    words = [each.text for each in example("harbour_walk").all("dt")]
    assert {"concertina hinge", "mountain", "valley", "grain", "taped case"} <= set(words)
    assert not {"mitre", "spine takes hinge", "hinge in page"} & set(words)
    assert {"fence", "offcut", "upright", "level", "setting", "stop", "backing", "dummy", "bonded zone"} <= set(words)
    meanings = " ".join(each.text for each in example("harbour_walk").all("dd"))
    for word in ("spine", "peak", "gusset", "crest", "foot", "wing", "body", "flap", "turned in"):
        assert word in meanings, "a word of the steps that is explained with the part it belongs to"
    assert words == sorted(words, key=str.casefold)
    assert "mitre" not in squeezed(example("harbour_walk").named("steps").text)


def test_valley_and_mountain_are_explained_as_the_steps_tell_them() -> None:
    page = example("harbour_walk")
    meaning = {word.text: squeezed(told.text) for word, told in zip(page.all("dt"), page.all("dd"), strict=True)}
    steps_say = squeezed(page.named("steps").text)
    for word, way, end in (("valley", "towards you", "inside"), ("mountain", "away from you", "outside")):
        assert f"Fold {way} ({word}, face {end})" in steps_say
        assert way in meaning[word]
        assert f"face comes {end}" in meaning[word]


def test_the_first_chapter_shows_it_made_up_and_shut() -> None:
    page = example("harbour_walk")
    first = page.named("make")
    assert [squeezed(each.text) for each in page.all("figcaption") if first in each.parents] == ["Made up.", "Closed."]


@pytest.mark.parametrize("name", ["first_snow", "orchard_year"])
def test_nothing_is_said_to_who_stands_at_the_trimmer_that_is_for_who_sits_at_the_computer(name: str) -> None:
    told = squeezed(example(name).one("main").text)
    assert "--" not in told and "pastedown" not in told and "numpy" not in told and "say decorated" not in told


def test_a_design_without_anything_has_a_booklet_all_the_same() -> None:
    plan = evolve(sample_plan(), pieces=(), steps=(), materials=(), parts=(), doc=())
    page = read_page(text_of(plan))
    assert page.faults == []
    assert "No piece is scored." in page.named("scores").text
    assert "Nothing is needed." in page.named("materials").text


def test_below_a_picture_stands_what_its_lines_mean() -> None:
    page, scenes = example("harbour_walk"), step_pictures(plan_of_example("harbour_walk")).scenes
    for number, scene in scenes.items():
        section = page.named(f"step-{number}")
        told = squeezed(" ".join(each.text for each in page.all("figcaption") if section in each.parents))
        assert all(squeezed(note) in told for note in scene.notes)
        assert ("The arrow shows" in told) == bool(scene.moves), number
        assert ("heavy and hatched" in told) == bool(scene.new), number
        assert ("Dots lead" in told) == bool(scene.guides or scene.seats or scene.inside), number


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_map_of_thickness_is_there_once_with_what_is_said_of_it(name: str) -> None:
    """One of parts that are alike; each thickness of it can be read, on the map or below it."""
    plan = plan_of_example(name)
    (chapter,) = [chapter for chapter in booklet_of(plan).chapters if chapter.name == "thickness"]
    sections = {plain_said(block.title): block for block in chapter.blocks if isinstance(block, Section)}
    mapped = [part for part in plan.bulk.parts if len({zone.thickness for zone in part.zones}) > 1]
    maps = [title for title in sections if title.endswith(": how thick it is where")]
    assert [title.partition(":")[0].lower() for title in maps] == [spoken(part.paths[0]).lower() for part in mapped]
    for title, part in zip(maps, mapped, strict=True):
        blocks = sections[title].blocks
        (drawn,) = [one for block in blocks if isinstance(block, Pictures) for one in block.pictures]
        rows = [plain_said(row) for block in blocks if isinstance(block, Listing) for row in block.entries]
        told = " ".join([*(words.text for words in drawn.sheet.words), *rows])
        assert all(measure(zone.thickness, plan.ruler) in told for zone in part.zones)
        assert example(name).named(f"drawing-{drawn.name}")
    said = " ".join(plain_said(one.text) for one in sections["When it is shut"].blocks if isinstance(one, Paragraph))
    for shut in plan.bulk.shut:
        assert f"between {spoken(shut.one)} and {spoken(shut.other)}: " in said
        assert f"loaded {measure(shut.loaded, plan.ruler)}" in said
