"""What a refused design is told to try has been tried: each way out as a whole design, and one change that passes."""

import pytest

from pastedown.compile import Compiled, compile_design, mend
from pastedown.diagnostic.in_order import in_order
from pastedown.mend import ways_out
from pastedown.mend.state import Asking
from test_examples import FILES

HOUSE = """edition = 1
component rules "What is compared." {
  takes hinge: length
  takes page: length
  takes cover: length
  takes border: length from 1/16 in to 1 in = 1/8 in
  require slides_on: hinge <= page - 1/16 in because "it jams",
    way_out: ["make the hinge {page - 1/16 in} high", "make the page {hinge + 1/16 in} high", "use thinner card"]
  require inside: (cover - page) / 2 >= border because "corners get knocked",
    way_out: ["make the covers {page + 2 * border} high", "make the page {cover - 2 * border} high"]
}
"""
BOOK = """edition = 1
use rules from "house.album"
album book "A book" {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  page_height = {page}
  border = 1/8 in
  piece page from card, height: page_height, width: 5 in, loose: yes
  piece hinge from card, height: hinge_height, width: 4 in, loose: yes
  piece cover from card, height: cover_height, width: 5 in, loose: yes
  hinge_height = {hinge}
  cover_height = {cover}
  part kept = rules(hinge: hinge_height, page: page_height, cover: cover_height, border: border)
}}
"""


def tried(text: str) -> Compiled:
    return compile_design("book.album", text, {"house.album": HOUSE}.get, planned=False, ways_tried=True)


def book(page: str = "6 3/4 in", hinge: str = "6 5/8 in", cover: str = "7 in") -> str:
    return BOOK.format(page=page, hinge=hinge, cover=cover)


def ways(compiled: Compiled) -> list[list[str]]:
    return [each.way_out.split("\n") for each in in_order(compiled.diagnostics)]


def edits(compiled: Compiled) -> list[tuple[str, str, str]]:
    return [(each.called, each.before, each.after) for each in compiled.designs[0].edits]


def test_a_way_out_that_breaks_something_else_says_so() -> None:
    found = tried(book(hinge="6 3/4 in"))
    assert ways(found) == [
        [
            "make the hinge 6 11/16 in high (hinge_height = 6 11/16 in, line 11; tried, and everything passes; "
            "it just holds)",
            "make the page 6 13/16 in high (page_height = 6 13/16 in, line 6; tried, and then kept.inside is not met "
            "either: (cover - page) / 2 is 3/32 in (nearest mark 1/8 in) and has to be at least 1/8 in)",
            "use thinner card",
        ]
    ]
    assert edits(found) == [("hinge_height", "6 3/4 in", "6 11/16 in")]


def test_a_way_out_that_cannot_help_is_not_offered() -> None:
    """The hinge follows the page, so a higher page is no help; less is taken for the hinge."""
    found = tried(book(hinge="page_height"))
    assert ways(found) == [
        [
            "make the hinge 6 11/16 in high (hinge_height = page_height - 1/16 in, line 11; tried, and everything "
            "passes; it just holds)",
            "use thinner card",
        ]
    ]


def test_two_faults_are_mended_together() -> None:
    found = tried(book(hinge="6 3/4 in", cover="6 7/8 in"))
    assert edits(found) in (
        [("hinge_height", "6 3/4 in", "6 11/16 in"), ("cover_height", "6 7/8 in", "7 in")],
        [("page_height", "6 3/4 in", "6 5/8 in"), ("hinge_height", "6 3/4 in", "6 9/16 in")],
    )
    text = book(hinge="6 3/4 in", cover="6 7/8 in")
    for _, before, after in edits(found):
        text = text.replace(f"= {before}", f"= {after}") if text.count(f"= {before}") == 1 else text
    assert all("tried" in way for told in ways(found) for way in told if any(each.isdigit() for each in way))


STRIP = """edition = 1
component tag_of "A tag." {{
  takes room: length
  require goes_down: 3 in <= room because "it runs into the hinge", way_out: "a narrower tag"
}}
component strip_of "A strip." {{
  takes paper: stock
  takes peaks: count
  takes rise: length from 1/4 in to 3 in
  piece strip from paper, height: 6 in, loose: yes {{
    run left to right {{
      panel wing: 2 in
      each k from 1 to peaks {{ fold foot[k]: valley   panel up[k]: rise   fold crest[k]: mountain   panel down[k]: rise }}
    }}
  }}
}}
album strip {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  peaks = {peaks}
  part note = tag_of(room: 5 in - hinge.rise)
  part hinge = strip_of(paper: card, peaks: peaks, rise: {rise})
}}
"""


def test_what_is_too_long_names_the_greatest_count_and_the_size_that_fit() -> None:
    """A wing of 2 in and twice the rise a peak on a sheet of 12 in: five peaks of an inch, or six of 13/16 in."""
    (told,) = ways(tried(STRIP.format(peaks="6", rise="1 in")))
    assert "set hinge.rise = 13/16 in, line 22 (the nearest that does; tried, and everything passes)" in told
    assert "set peaks = 5, line 20 (the nearest that does; tried, and everything passes)" in told


def test_what_the_rest_follows_from_is_told_first() -> None:
    """Peaks so high make the strip too long, and the tag runs into them; a tag costs more than a sheet."""
    found = tried(STRIP.format(peaks="3", rise="2 1/4 in"))
    assert [each.id for each in in_order(found.diagnostics)] == ["sheet-too-small", "requirement-fails"]
    assert edits(found) == [("hinge.rise", "2 1/4 in", "1 5/8 in")]


def test_trying_is_within_its_budget_and_a_good_design_pays_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    refused = book(hinge="6 3/4 in", cover="6 3/4 in")
    monkeypatch.setattr(ways_out, "MOST_WORK", 100)
    untried = tried(refused)
    assert untried.designs[0].edits == ()
    assert all("tried" not in way for told in ways(untried) for way in told)
    monkeypatch.undo()
    asked: list[object] = []
    monkeypatch.setattr(ways_out, "with_ways_tried", asked.append)
    assert not tried(book()).refused and asked == []


def test_never_more_designs_than_stated(monkeypatch: pytest.MonkeyPatch) -> None:
    counted: list[int] = []
    ask = Asking.ask

    def counting(self: Asking, *arguments: object, **named: object) -> object:
        counted.append(1)
        return ask(self, *arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(Asking, "ask", counting)
    many = "".join(f"  require r{n}: cover_height >= {n} in because \"so\"\n" for n in range(8, 40))
    tried(book(hinge="9 in").replace("  part kept", f"{many}  part kept"))
    assert 0 < len(counted) <= ways_out.MOST_TRIED + 4


def test_ways_out_that_pull_on_each_other_are_followed_until_all_holds() -> None:
    """A wider spine takes landing from the wing, so the wing that was long enough by itself has to go further; and what
    is found by following the ways out is what mending falls back on, and offers beside its own."""
    text = FILES["seed_diary.album"]
    for before, after in (
        ("wing: 2 1/8 in", "wing: 3/4 in"), ("height: 6 3/4 in)", "height: 7 in)"),
        ("hinge.block + 1 in", "hinge.block + 1/4 in"), ("packet = 1/16 in", "packet = 1/8 in"),
    ):  # fmt: skip
        assert before in text
        text = text.replace(before, after)
    found = compile_design("seed_diary.album", text, FILES.get, planned=False, ways_tried=True)
    assert [(each.called, each.before) for each in found.designs[0].edits] == [
        ("hinge.wing", "3/4 in"), ("hinge.height", "7 in"), ("case.spine", "hinge.block + 1/4 in rounded up to 1/8 in")
    ]  # fmt: skip
    assert found.designs[0].edits[0].after == "1 11/16 in"


def test_mending_falls_back_on_the_ways_out() -> None:
    """Five things that are each an eighth too wide take five numbers, more than are looked for."""
    rule = """edition = 1
component slot "Something slides into it." {
  takes leaf: length
  takes opening: length
  require slides_in: leaf <= opening because "it jams", way_out: "make the leaf {opening} wide"
}
"""
    text = 'edition = 1\nuse slot from "slots.album"\nalbum five {\n  ruler = inches to 1/16\n'
    text += "  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)\n"
    for n in range(1, 6):
        text += f"  wide_{n} = 4 1/8 in\n  piece leaf_{n} from card, height: 5 in, width: wide_{n}, loose: yes\n"
        text += f"  piece frame_{n} from card, height: 6 in, width: open_{n} + 1 in, loose: yes\n"
        text += f"  open_{n} = 4 in\n  part slot_{n} = slot(leaf: wide_{n}, opening: open_{n})\n"
    report, _ = mend("five.album", f"{text}}}\n", {"slots.album": rule}.get)
    assert report is not None
    assert [(each.called, each.after) for each in report.edits] == [(f"wide_{n}", "4 in") for n in range(1, 6)]
    assert not compile_design("five.album", report.text, {"slots.album": rule}.get).refused


def test_a_requirement_that_is_given_the_number_that_mends_all_is_told_first() -> None:
    """A label far beyond a leaf that is too low has no paper under it: what says so of the leaf comes before."""
    house = """edition = 1
component rules "What is compared." {
  takes leaf: length
  require carries: leaf >= 9 in because "the label hangs in the air", way_out: "make the leaf {9 in} high"
}
"""
    book = """edition = 1
use rules from "house.album"
album book "A book" {
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  leaf_height = 6 in
  piece leaf from card, height: leaf_height, width: 5 in
  piece label from card, height: 1 in, width: 2 in
  join label_on: label.back to leaf.face {
    align label.tail to leaf.tail, inside: 7 in
    align label.mid_width to leaf.mid_width
  }
  part kept = rules(leaf: leaf_height)
}
"""
    found = compile_design("book.album", book, {"house.album": house}.get, planned=False, ways_tried=True)
    assert [each.id for each in in_order(found.diagnostics)] == ["requirement-fails", "join-misses"]
    untried = compile_design("book.album", book, {"house.album": house}.get, planned=False)
    assert [each.id for each in in_order(untried.diagnostics)] == ["join-misses", "requirement-fails"]
