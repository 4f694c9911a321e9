"""Every component of the standard library, with its defaults and at the ends of its ranges.

The components are found by reading the library, so a new one is tested from its first day: it only has to be given, in
GIVEN, what it takes without a default.
"""

import re
from collections.abc import Iterator

import pytest
from attrs import frozen

from pastedown import shipped_files
from pastedown.compile import Compiled, compile_design
from pastedown.design.files import Shelf
from pastedown.design.from_syntax import link
from pastedown.diagnostic import Severity
from pastedown.source import SourceText
from pastedown.syntax.parse import parse
from pastedown.tree.statement import Component, Require, Statement, Takes, When

# Stocks large enough for the ends of every range, and what each component takes without a default.
HEAD = """\
edition = 1
use {name} from {file}
album probe "Only for trying a component" {{
  card = stock(kind: card, sheet: 100 in x 100 in, caliper: 12 pt, grain: marked)
  board = stock(kind: board, sheet: 100 in x 100 in, caliper: 80 pt, grain: marked)
  tape = stock(kind: tape, roll_width: 1/8 in, caliper: 4 pt)
  cloth = stock(kind: tape, roll_width: 2 in, caliper: 10 pt)
  print = stock(kind: print, height: 4 in, width: 6 in, caliper: 10 pt)
  disc = stock(kind: magnet, height: 3/8 in, width: 3/8 in, caliper: 1/16 in)
  part it = {name}({arguments})
}}
"""
GIVEN: dict[str, dict[str, str]] = {
    "concertina_hinge": {"paper": "card", "tape": "tape", "peaks": "3", "height": "6 3/4 in", "wing": "2 1/8 in"},
    "spliced_hinge": {"paper": "card", "tape": "tape", "peaks": "6", "height": "6 3/4 in", "wing": "2 1/8 in"},
    "pocket_page": {"paper": "card", "tape": "tape", "height": "7 in", "width": "5 1/2 in"},
    "folded_pocket_page": {"paper": "card", "tape": "tape", "height": "7 in", "width": "5 1/2 in"},
    "taped_case": {
        "board": "board", "tape": "cloth", "height": "7 1/4 in", "width": "5 3/4 in", "spine": "1 7/8 in",
        "joint": "1/8 in",
    },
    "split_wrap_case": {
        "board": "board", "paper": "card", "height": "7 1/4 in", "width": "5 3/4 in", "spine": "1 7/8 in",
        "joint": "1/8 in",
    },
    "one_wrap_case": {
        "board": "board", "paper": "card", "height": "7 1/4 in", "width": "5 3/4 in", "spine": "1 7/8 in",
        "joint": "1/8 in",
    },
    "edged_case": {
        "board": "board", "tape": "cloth", "height": "7 1/4 in", "width": "5 3/4 in", "spine": "1 7/8 in",
        "joint": "1/8 in", "strip_paper": "card",
    },
    "cover_edging": {"board": "board", "tape": "cloth", "height": "7 1/4 in", "width": "5 3/4 in"},
    "wrapped_board": {"board": "board", "paper": "card", "height": "7 1/4 in", "width": "5 3/4 in"},
    "cover_liner": {"paper": "card", "board": "board", "cover_height": "7 1/4 in", "cover_width": "5 3/4 in"},
    "photo_mat": {"paper": "card", "photo": "print"},
    "tag": {"paper": "card", "pocket_height": "6 1/2 in", "pocket_width": "5 in"},
    "pull_out": {
        "paper": "card", "height": "3 5/8 in", "width": "5 in", "pocket_height": "6 1/2 in", "pocket_width": "5 in",
    },
    "side_flap": {"paper": "card", "height": "6 in", "leaf": "4 in"},
    "magnet_pair": {"magnet": "disc", "leaf": "4 in", "up": "3 in"},
    "roll_fold": {"paper": "card", "height": "4 in", "width": "3 in"},
    "round_bend": {"paper": "card", "radius": "1/8 in"},
    "groove_for_score": {"paper": "card"},
    "section_in_covers": {"sheets": "6", "paper": "card", "spine": "1/4 in"},
    "page_inside_covers": {
        "page_height": "7 in", "page_width": "5 1/2 in", "cover_height": "7 1/4 in", "cover_width": "5 3/4 in",
        "board": "board",
    },
    "hinge_in_page": {"hinge_height": "6 3/4 in", "page_height": "7 in", "stand_thickness": "0.036 in"},
    "spine_takes_hinge": {"spine": "1 7/8 in", "block": "0.834 in", "wing": "2 1/8 in", "joint": "1/8 in"},
    "wing_over_joint": {
        "wing": "2 1/8 in", "spine_margin": "0.5205 in", "joint": "1/8 in", "board": "board", "paper": "card",
        "liner_width": "5 1/2 in", "liner_border": "1/8 in",
    },
    "pages_shut": {"pages": "3", "stack": "0.3 in", "spine": "1 7/8 in", "board": "board"},
}  # fmt: skip
# What may be said of a value at the end of its range: that it goes with no other, never that the library is at fault.
KIND_REFUSALS = {
    "requirement-fails", "preference-fails", "out-of-range", "panel-not-positive", "cut-outside", "joined-to-nothing",
    "reading-range", "close-misses", "join-misses",
}  # fmt: skip


@frozen
class Shipped:
    """One component of the library and the file it stands in."""

    file: str
    component: Component

    @property
    def takes(self) -> list[Takes]:
        return [statement for statement in self.component.body if isinstance(statement, Takes)]


def shipped_components() -> Iterator[Shipped]:
    grammar = str(shipped_files.grammar_path() / "album.lark")
    for file in shipped_files.stdlib_names():
        text = shipped_files.stdlib_source(file)
        assert text is not None
        for statement in parse(SourceText(f"{file}.album", text), grammar).statements:
            if isinstance(statement, Component):
                yield Shipped(file, statement)


SHIPPED = {shipped.component.name: shipped for shipped in shipped_components()}


def compiled(name: str, **changed: str) -> Compiled:
    arguments = ", ".join(f"{label}: {value}" for label, value in {**GIVEN[name], **changed}.items())
    text = HEAD.format(name=name, file=SHIPPED[name].file, arguments=arguments)
    return compile_design("probe.album", text, lambda _: None)


def ends_of_ranges() -> Iterator[tuple[str, str, str]]:
    for name, shipped in SHIPPED.items():
        for takes in shipped.takes:
            for end in (takes.least, takes.most):
                if end is not None:
                    yield name, takes.name, end.span.text


def test_the_library_has_what_it_is_to_have() -> None:
    assert {
        "concertina_hinge", "pocket_page", "folded_pocket_page", "taped_case", "wrapped_board", "cover_liner",
        "photo_mat", "tag", "side_flap", "pull_out", "split_wrap_case", "one_wrap_case", "edged_case",
    } <= set(SHIPPED)  # fmt: skip


def test_what_every_component_is_given_here_is_what_it_takes_without_a_default() -> None:
    assert set(GIVEN) == set(SHIPPED)
    for name, shipped in SHIPPED.items():
        needed = {takes.name for takes in shipped.takes if takes.default is None}
        assert needed <= set(GIVEN[name]) <= {takes.name for takes in shipped.takes}, name


def test_the_whole_library_is_sound_by_its_words() -> None:
    uses = "\n".join(f"use {name} from {shipped.file}" for name, shipped in SHIPPED.items())
    shelf = Shelf(
        str(shipped_files.grammar_path() / "album.lark"), lambda _: None,
        shipped_files.stdlib_source, shipped_files.stdlib_names(),
    )  # fmt: skip
    text = f"edition = 1\n{uses}\nuse a4 from sheets\nuse cardstock from stocks\nalbum probe {{ }}\n"
    _, diagnostics = link(shelf, "probe.album", text, check_shipped=True)
    assert [(each.id, each.sentence) for each in diagnostics] == []


@pytest.mark.parametrize("name", SHIPPED)
def test_a_component_stands_with_its_defaults(name: str) -> None:
    result = compiled(name)
    faults = [each.sentence for each in result.diagnostics if each.severity is Severity.ERROR]
    assert faults == []
    assert result.designs[0].sound


@pytest.mark.parametrize(("name", "setting", "end"), list(ends_of_ranges()))
def test_the_ends_of_a_range_are_worked_out_or_kindly_refused(name: str, setting: str, end: str) -> None:
    result = compiled(name, **{setting: end})
    assert {each.id for each in result.diagnostics} <= KIND_REFUSALS
    model = result.designs[0].model
    assert model is not None
    taken = [each for each in model.measurements if each.path == f"it.{setting}"]
    assert taken, f"{setting} was not worked out"


@pytest.mark.parametrize(("name", "setting", "end"), list(ends_of_ranges()))
def test_past_the_end_of_a_range_is_refused_with_the_nearest_value(name: str, setting: str, end: str) -> None:
    takes = next(each for each in SHIPPED[name].takes if each.name == setting)
    unit = re.search(r"[a-z]+$", end)
    step = f"1/64 {unit[0]}" if unit else "1"
    sign = "-" if takes.least is not None and end == takes.least.span.text else "+"
    refused = [
        each for each in compiled(name, **{setting: f"{end} {sign} {step}"}).diagnostics if each.span is not None
    ]
    assert any(each.id in ("out-of-range", "not-whole") and setting in each.sentence for each in refused)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_component_explains_itself(name: str) -> None:
    shipped = SHIPPED[name]
    assert shipped.component.doc is not None
    assert [takes.name for takes in shipped.takes if takes.doc is None] == []


@pytest.mark.parametrize("name", SHIPPED)
def test_a_component_says_what_it_takes_to_fit(name: str) -> None:
    def requirements(body: tuple[Statement, ...]) -> Iterator[Require]:
        for statement in body:
            if isinstance(statement, Require):
                yield statement
            elif isinstance(statement, When):
                yield from requirements(statement.body)

    found = list(requirements(SHIPPED[name].component.body))
    assert found
    assert [each.name for each in found if not each.settings] == [], "a requirement without a way out"


# What is thin is measured with calipers, a groove is bought, and sums of lengths on marks lie on marks.
NOT_FOR_A_RULER = {
    "height / 10", "budget", "room", "inside - for_pages", "narrowest", "widest", "peaks - 1", "peak", "gusset", "ladder + 2 * wing",
    "height + seam", "sheet_height - seam", "height", "width",
}  # fmt: skip


def test_what_is_offered_lies_on_the_marks_of_the_album() -> None:
    """A length that a way out tells can be typed as it stands, whatever the ruler."""
    found = 0
    for file in shipped_files.stdlib_names():
        text = shipped_files.stdlib_source(file)
        assert text is not None
        for way in re.findall(r'way_out:\s*(\[(?:"[^"]*"|[^\]"])*\]|"[^"]*")', text):
            for slot in (" ".join(each.split()) for each in re.findall(r"\{([^}]*)\}", way)):
                found += 1
                assert "to ruler.marks" in slot or "caliper" in slot or slot in NOT_FOR_A_RULER, (file, slot)
    assert found > 60
