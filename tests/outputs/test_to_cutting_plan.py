"""The cutting plan: played through on paper from its own rows, judged apart from the planner, and drawn legibly."""

import csv
import json
import re
from collections import Counter
from fractions import Fraction
from io import StringIO
from math import hypot
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from outputs.sample_plan import materials, rectangle, sample_plan
from outputs.template_pieces import METRIC_RULER, Drawn
from outputs.test_drawings import check
from outputs.test_strangers_text import NASTY
from outputs.test_template_words import BOTH
from pastedown.outputs.cutting.pattern_drawing import pattern_drawing
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.letter_width import ASCENT, DESCENT, width_of
from pastedown.outputs.template.shape import Round
from pastedown.outputs.to_cutting_plan import make
from pastedown.outputs.to_json import schema
from pastedown.outputs.to_steps import make as make_steps
from pastedown.plan.material import Material, OtherSize
from pastedown.plan.plan import CutPiece, Plan
from pastedown.plan.stock_cutting import stock_cuttings
from pastedown.quantity.quantity import Length, inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example

VALIDATOR = Draft202012Validator(json.loads(schema()))
CARD = evolve(materials()[0], sheet=(inches(12), inches(12)), grain="marked", price=None, pack=1)
LETTER = (215.9, 279.4)
A4 = (210.0, 297.0)

Size = tuple[Fraction, Fraction]


def piece(id: str, count: int, height: Length, width: Length, grain: str = "height") -> CutPiece:
    return evolve(
        sample_plan().pieces[0], id=id, name=id, count=count, height=height, width=width, grain=grain,
        stock="kraft card", stock_kind="card", outline=rectangle(height, width),
    )  # fmt: skip


def plan_of(*pieces: CutPiece, card: Material = CARD, ruler: Ruler = INCH_RULER) -> Plan:
    return evolve(sample_plan(ruler), materials=(card,), pieces=pieces)


def read(plan: Plan) -> Any:
    return json.loads(make(plan)["cutting-plan.json"])


def text(plan: Plan) -> str:
    return " ".join(make(plan)["cutting-plan.txt"].decode().split())


def exact(length: Any) -> Fraction:
    return Fraction(length["exact_mm"])


def named(words: str) -> list[tuple[int, str]]:
    """ "2 x tag, strip A" as counts and names."""
    found = []
    for each in words.split(", "):
        head, _, rest = each.partition(" x ")
        found.append((int(head), rest) if head.isdecimal() and rest else (1, each))
    return found


def play(pattern: Any) -> Counter[tuple[str, Size]]:
    """Does what the rows say with sheets of paper, by the names and sizes of what lies on the table; gives what lies
    there in the end."""
    table: Counter[tuple[str, Size]] = Counter()
    table["sheet", (exact(pattern["width"]), exact(pattern["height"]))] = 1
    for number, cut in enumerate(pattern["cuts"], 1):
        assert cut["number"] == number
        # What is taken is the only size of that name, or of what was left of it.
        (taken,) = {key for key, count in table.items() if key[0] == cut["what"] and count}
        assert table[taken] == cut["alike"], (cut, table)
        table[taken] = 0
        (_, (width, height)), fence = taken, exact(cut["fence"])
        upright = cut["runs"] == "upright"
        strip = (fence, height) if upright else (width, fence)
        left = (width if upright else height) - fence * cut["strips"]
        off = named(cut["comes_off"])
        assert sum(count for count, _ in off) == cut["strips"]
        for count, end in off:
            table[end, strip] += count * cut["alike"]
        assert (left > 0) == bool(cut["is_left"])
        if left:
            rest = (left, height) if upright else (width, left)
            source = cut["what"].removeprefix("rest of ")
            end = f"rest of {source}" if cut["is_left"] == "rest" else cut["is_left"]
            table[end, rest] += cut["alike"]
        table = +table
    return table


def judge(plan: Plan, made: Any) -> None:
    """Demand, places, overlap, grain and cuts, from the file alone and what was asked for."""
    VALIDATOR.validate(made)
    for stock in made["stocks"]:
        own = {each.id: each for each in plan.pieces if (each.stock, each.stock_kind) == (stock["stock"], stock["kind"])}
        cut: Counter[str] = Counter()
        for pattern in stock["patterns"]:
            for part in pattern["parts"]:
                assert exact(part["x"]) >= 0 and exact(part["x"]) + exact(part["width"]) <= exact(pattern["width"])
                assert exact(part["y"]) >= 0 and exact(part["y"]) + exact(part["height"]) <= exact(pattern["height"])
            area = sum(exact(part["width"]) * exact(part["height"]) for part in pattern["parts"])
            assert area == exact(pattern["width"]) * exact(pattern["height"])
            ends = Counter((part["name"], (exact(part["width"]), exact(part["height"]))) for part in pattern["parts"])
            if pattern["cuts"]:
                assert play(pattern) == ends
            assert pattern["times"] == sum(run["times"] for run in pattern["runs"])
            for run in pattern["runs"]:
                on_sheet = Counter({each["id"]: each["count"] for each in run["pieces"]})
                for (names, size), count in ends.items():
                    some = [own[name] for name in names.split(" / ") if name in own]
                    for each in some:
                        assert tuple(sorted(size)) == tuple(sorted((each.width.value, each.height.value)))
                    assert not some or sum(on_sheet[each.id] for each in some) >= min(count, 1)
                assert on_sheet.total() == sum(count for (names, _), count in ends.items() if names.split(" / ")[0] in own)
                for id, count in on_sheet.items():
                    cut[id] += count * run["times"]
        for missing in stock["not_cut"]:
            cut[missing["id"]] += missing["count"]
        assert cut == Counter({each.id: each.count for each in own.values()})
        new = sum(pattern["times"] for pattern in stock["patterns"] if not pattern["on_hand"])
        assert new == stock["sheets"]
        if stock["least_sheets"] is not None:
            assert stock["proven"] == (stock["least_sheets"] == new)


def numbers_stand_apart(plan: Plan) -> None:
    """No circle of a cut's number comes so near to a name or a size that they are read as one."""
    for number, stock in enumerate(stock_cuttings(plan), 1):
        for pattern in stock.patterns:
            sheet = pattern_drawing(f"{number}-{pattern.number}", stock, pattern, plan.ruler)
            boxes = [box_of(each) for each in sheet.words if not each.text.isdecimal()]
            for stroke in sheet.strokes:
                if stroke.part != "numbers" or not isinstance(stroke.moves[0], Round):
                    continue
                (x, y), radius = stroke.moves[0].centre, float(stroke.moves[0].radius)
                for left, top, right, bottom in boxes:
                    aside, down = max(left - x, x - right, 0), max(top - y, y - bottom, 0)
                    assert hypot(aside, down) > radius + 1


def leaders_are_read_as_no_cut(plan: Plan) -> int:
    """A line that leads to a number beside the sheet runs along no cut, crosses no words and no other such line, and
    begins at a stroke; tried every tenth of a millimetre. How many there are."""
    found = 0
    for number, stock in enumerate(stock_cuttings(plan), 1):
        for pattern in stock.patterns:
            sheet = pattern_drawing(f"{number}-{pattern.number}", stock, pattern, plan.ruler)
            cuts = [ends_of(each) for each in sheet.strokes if each.part == "cuts"]
            boxes = [box_of(each) for each in sheet.words]
            for each in sheet.strokes:
                if each.part != "numbers" or isinstance(each.moves[0], Round):
                    continue
                found += 1
                start, end = ends_of(each)
                steps = max(int(hypot(end[0] - start[0], end[1] - start[1]) * 10), 1)
                spots = [tuple(a + (b - a) * n / steps for a, b in zip(start, end, strict=True)) for n in range(steps + 1)]
                assert min(away(start, cut) for cut in cuts) < 0.01
                for cut in cuts:
                    assert sum(away(spot, cut) < 0.5 for spot in spots) < 32
                assert not any(left < x < right and top < y < foot for x, y in spots for left, top, right, foot in boxes)
    return found


def ends_of(stroke: Any) -> tuple[tuple[float, float], tuple[float, float]]:
    (start, end) = stroke.moves[0].start, stroke.moves[-1].end
    return (float(start[0]), float(start[1])), (float(end[0]), float(end[1]))


def away(spot: Any, cut: Any) -> float:
    """From a spot to an upright or level line."""
    (x1, y1), (x2, y2) = cut
    aside = max(min(x1, x2) - spot[0], spot[0] - max(x1, x2), 0)
    return hypot(aside, max(min(y1, y2) - spot[1], spot[1] - max(y1, y2), 0))


def test_thin_strips_have_their_numbers_beside_the_sheet() -> None:
    # Strips of an eighth of an inch hold no number.
    pieces = [piece(f"p{n}", n + 2, inches(Fraction(n + 9, 4)), inches(Fraction(2 * n + 3, 16)), "any") for n in range(7)]
    plan = plan_of(*pieces)
    assert leaders_are_read_as_no_cut(plan) > 3
    said = " ".join(word for name, drawn in make(plan).items() if name.endswith(".svg") for word in drawn.decode().split())
    assert "Strokes without a number have no room for one" in said
    assert re.search(r"(level|upright), \d strokes: ", said)


def box_of(words: Words) -> tuple[float, float, float, float]:
    """left, top, right, bottom of words that are level or read upwards"""
    wide, up, down = width_of(words.text, words.size), ASCENT * words.size, DESCENT * words.size
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[words.anchor]
    if words.angle:
        return words.x - up, words.y - (wide - before), words.x + down, words.y + before
    return words.x - before, words.y - up, words.x + wide - before, words.y + down


def test_names_of_like_pieces_stand_in_lines_of_their_own_on_a_sheet_that_fills_its_paper() -> None:
    drawing = make(plan_of_example("market_day"))["cutting-plan/2-2.svg"].decode()
    said = re.findall(r">([^<>]+)</text>", drawing)
    assert {"page-front-sheet /", "page-front-sheet-2 /", "page-rear-sheet"} <= set(said)
    (edge,) = re.findall(r'<g id="sheet"[^>]*>\s*<path d="([^"]+)"', drawing)
    down = [float(y) for _, y in re.findall(r"[ML]([\d.]+) ([\d.]+)", edge)]
    assert 160 < max(down) - min(down) <= 200


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_every_example_is_cut_as_its_rows_say_and_drawn_legibly(name: str) -> None:
    plan = plan_of_example(name)
    files = make(plan)
    made = json.loads(files["cutting-plan.json"])
    assert made["stocks"]
    judge(plan, made)
    numbers_stand_apart(plan)
    leaders_are_read_as_no_cut(plan)
    drawn = [file for file in files if file.endswith(".svg")]
    assert len(drawn) == sum(len(stock["patterns"]) for stock in made["stocks"])
    for file in drawn:
        check(Drawn(file, files[file].decode()), *LETTER if plan.ruler.in_inches else A4)


half_inches = st.integers(1, 24).map(lambda halves: inches(Fraction(halves, 2)))


@settings(max_examples=20, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 9), half_inches, half_inches, st.sampled_from(["height", "width", "any"])), max_size=5),
    st.sampled_from(["marked", "long", "none"]),
    st.sampled_from([INCH_RULER, METRIC_RULER, BOTH]),
)
def test_any_pieces_are_cut_as_the_rows_say(sizes: Any, grain: str, ruler: Ruler) -> None:
    pieces = [piece(f"p{number}", count, high, wide, wants) for number, (count, high, wide, wants) in enumerate(sizes)]
    card = evolve(CARD, grain=grain, sheet=(inches(12), inches(9)))
    plan = plan_of(*pieces, card=card, ruler=ruler)
    files = make(plan)
    judge(plan, json.loads(files["cutting-plan.json"]))
    for file, drawn in files.items():
        if file.endswith(".svg"):
            check(Drawn(file, drawn.decode()), 216, 297)


def test_rows_worked_out_by_hand() -> None:
    # Two pieces 7 1/2 by 5 1/2 lie side by side in one strip; nothing else fits above it.
    plan = plan_of(piece("sheet", 6, inches("15/2"), inches("11/2")))
    (stock,) = read(plan)["stocks"]
    (pattern,) = stock["patterns"]
    assert (stock["sheets"], stock["least_sheets"], stock["proven"], pattern["times"]) == (3, 3, True, 3)
    rows = [(cut["what"], cut["runs"], cut["fence"]["text"], cut["comes_off"], cut["is_left"]) for cut in pattern["cuts"]]
    assert rows == [
        ("sheet", "level", "7 1/2 in", "strip A", "offcut 1"),
        ("strip A", "upright", "5 1/2 in", "2 x sheet", "offcut 2"),
    ]
    left = [(each["width"]["text"], each["height"]["text"], each["count"]) for each in pattern["offcuts"]]
    assert left == [("12 in", "4 1/2 in", 1), ("1 in", "7 1/2 in", 1)]
    said = text(plan)
    assert "cut this sheet 3 times" in said
    assert "3 sheets, 12 in wide, 12 in high. Proven fewest." in said
    # One stroke frees strip A of each of 3 sheets, two free its pieces.
    assert "2 settings of the fence, 9 strokes of the blade in all." in said


def test_a_stack_is_cut_at_once() -> None:
    plan = plan_of(piece("sheet", 6, inches("15/2"), inches("11/2")), card=evolve(CARD, cut_at_once=2))
    said = text(plan)
    assert "cut this sheet 3 times, up to 2 at once: 2 stacks" in said
    assert "2 settings of the fence, 6 strokes of the blade in all." in said


def test_what_fits_no_sheet_is_named_with_what_it_lacks() -> None:
    plan = plan_of(piece("long", 2, inches("25/2"), inches(4)), piece("short", 1, inches(3), inches(3)))
    made = read(plan)
    judge(plan, made)
    (missing,) = made["stocks"][0]["not_cut"]
    assert (missing["id"], missing["count"], missing["short_height"]["text"]) == ("long", 2, "1/2 in")
    assert "Not cut: 2 x long. No sheet can hold it: kraft card, the nearest, lacks 1/2 in in height" in text(plan)


def test_a_sheet_that_is_the_piece_is_not_cut() -> None:
    plan = plan_of(piece("all of it", 2, inches(12), inches(12)))
    assert "The sheet is the piece: it is not cut." in text(plan)
    judge(plan, read(plan))


def test_cautions_for_blades_come_first() -> None:
    said = make(plan_of(piece("sheet", 1, inches(3), inches(3))))["cutting-plan.txt"].decode()
    assert said.index("Cut away from your hand") < said.index("Only one person works a guillotine") < said.index("fence")


def test_the_table_has_a_row_a_cut_and_a_row_an_offcut() -> None:
    plan = plan_of(piece("sheet", 6, inches("15/2"), inches("11/2")), piece("tag", 3, inches(4), inches(2)))
    rows = list(csv.DictReader(StringIO(make(plan)["cutting-plan.csv"].decode(), newline="")))
    patterns = read(plan)["stocks"][0]["patterns"]
    kinds = Counter(row["row"] for row in rows)
    assert kinds["cut"] == sum(len(each["cuts"]) for each in patterns)
    assert kinds["offcut"] == sum(len(each["offcuts"]) for each in patterns)
    first = next(row for row in rows if row["row"] == "cut")
    assert Fraction(first["fence mm"]) == exact(patterns[0]["cuts"][0]["fence"])


@pytest.mark.parametrize("words", NASTY)
def test_a_stranger_cannot_push_words_over_one_another(words: str) -> None:
    named_so = evolve(piece("tag", 3, inches(5), inches(2)), name=words, stock=words)
    files = make(evolve(plan_of(named_so, card=evolve(CARD, stock=words)), title=words))
    for file, made in files.items():
        if file.endswith(".svg"):
            check(Drawn(file, made.decode()), *LETTER)
    VALIDATOR.validate(json.loads(files["cutting-plan.json"]))


def test_pieces_too_small_for_a_name_are_told_of() -> None:
    plan = plan_of(piece("crumb", 40, mm(3), mm(2)), card=evolve(CARD, sheet=(mm(1000), mm(700))))
    (file,) = [file for file in make(plan) if file.endswith(".svg")]
    drawing = make(plan)[file].decode()
    assert "Without a name, for want of room: 40 x crumb" in drawing
    check(Drawn(file, drawing), *LETTER)


def test_decorated_stock_says_why_its_pieces_are_not_turned() -> None:
    tags = piece("tag", 4, inches(4), inches(9), "any")
    kept = text(plan_of(tags, card=evolve(CARD, decorated="face", sheet=(inches(9), inches(8)), grain="none")))
    assert "Proven fewest while its pieces are kept upright." in kept
    assert "say decorated: none of the stock" in kept
    free = text(plan_of(tags, card=evolve(CARD, grain="none")))
    assert "Proven fewest." in free and "decorated" not in free


def test_each_size_has_its_own_name_and_stack_and_what_is_not_used_is_told() -> None:
    large = OtherSize("large kraft", (inches(18), inches(24)), "long", None, 1, mm(0), cut_at_once=2)
    card = evolve(CARD, also=(large,), offcuts=((inches(1), inches(1)),), cut_at_once=1)
    plan = plan_of(piece("wide", 4, inches(15), inches(17)), card=card)
    said = text(plan)
    assert "Pattern 1-1, large kraft: cut this sheet 4 times, up to 2 at once: 2 stacks" in said
    assert "Offcut 1 of kraft card: not used: 1 sheet on hand, 1 in wide, 1 in high." in said
    assert "large kraft, pattern 1-1" in make(plan)["cutting-plan/1-1.svg"].decode()


def test_a_pattern_of_several_mixtures_is_told_by_sheets_in_table_and_drawing() -> None:
    plan = plan_of(piece("one", 3, inches(12), inches(6)), piece("two", 3, inches(12), inches(6)))
    files = make(plan)
    rows = [row for row in csv.DictReader(StringIO(files["cutting-plan.csv"].decode(), newline="")) if row["row"] == "piece"]
    counts: Counter[str] = Counter()
    for row in rows:
        counts[row["name"]] += int(row["sheets cut so"]) * int(row["count a sheet"])
    assert counts == {"one": 3, "two": 3}
    assert "1 sheet of them gives 1 x one, 1 x two" in files["cutting-plan/1-1.svg"].decode().replace("\u00a0", " ")


def test_plan_and_steps_say_that_they_tell_the_same_cutting() -> None:
    plan = plan_of_example("seed_diary")
    in_plan = " ".join(make(plan)["cutting-plan.txt"].decode().split())
    in_steps = " ".join(make_steps(plan)["steps.txt"].decode().split())
    # Tape comes off its roll: the plan of the sheets knows nothing of it.
    from_sheets = [step.number for step in plan.steps if step.kind == "cut" and "tape" not in str(step.title)]
    assert from_sheets == list(range(3, 13))
    assert "the cutting that steps 3 to 12 tell again" in in_plan
    assert "The cutting plan does the cutting of steps 3 to 12" in in_steps
    # What the steps warn of where sheets are cut is told at the plan as well.
    for step in plan.steps[:12]:
        for caution in step.cautions:
            assert "".join(str(part) for part in caution) in in_plan
