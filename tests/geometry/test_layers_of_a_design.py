"""What sets what: the outermost layer, the most exact path within one, fixed values, `nothing`, `its`."""

import pytest

from pastedown.compile import compile_design
from pastedown.quantity.quantity import Quantity, mm

LEAF = """\
edition = 1
component leaf "A leaf." {
  takes height: length = 10 mm "head to tail"
  takes width: length = height * 2 "spine to fore edge"
  fixed margin = 1 mm
  card = stock(kind: card, sheet: 300 mm x 300 mm, grain: marked)
  piece sheet from card, height: height, width: width, loose: yes
}
component pair "Two leaves." {
  part one = leaf(height: 20 mm)
  part two[k from 1 to 2] = leaf()
  two[2].width = 50 mm
}
album base { ruler = millimetres to 1  part inside = pair()  x = 3 mm }
"""


def value(text: str, path: str, design: str = "other") -> Quantity:
    compiled = compile_design("layers.album", LEAF + text, lambda _: None, design=design)
    model = compiled.designs[0].model
    assert model is not None
    (found,) = [each.value for each in model.measurements if each.path == path]
    assert isinstance(found, Quantity)
    return found


@pytest.mark.parametrize(
    ("changes", "path", "expected"),
    [
        ("", "inside.one.height", 20),  # a call before a default
        ("", "inside.one.width", 40),  # a default works with what the call set
        ("inside.one.height = 30 mm", "inside.one.width", 60),  # an outer layer before a call, and late binding
        ("inside.one with { height = 30 mm }", "inside.one.sheet.width", 60),
        ("inside.two.height = 15 mm", "inside.two[1].width", 30),
        ("", "inside.two[2].width", 50),
        ("inside.two.width = 70 mm", "inside.two[2].width", 70),  # the outer one, though the inner is more exact
        ("inside.two.width = 70 mm  inside.two[1].width = 80 mm", "inside.two[1].width", 80),  # more exact in one layer
        ("inside.two.width = 70 mm  inside.two[1].width = 80 mm", "inside.two[2].width", 70),
        ("inside.one.sheet.height = 25 mm", "inside.one.sheet.height", 25),  # a piece's own setting
        ("inside.one = leaf(height: 33 mm)", "inside.one.height", 33),  # another description for a part
        ("x = 4 mm  inside.one.height = x", "inside.one.height", 4),  # names of a variant are those of the design
        ("inside.one with { width = its.height + 1 mm }", "inside.one.width", 21),
        ("each k from 1 to 2 { inside.two[k].height = k * 11 mm }", "inside.two[2].height", 22),
    ],
)
def test_the_value_that_holds(changes: str, path: str, expected: int) -> None:
    assert value(f"variant other of base {{ {changes} }}", path) == mm(expected)


def test_a_variant_of_a_variant_speaks_last() -> None:
    text = "variant mid of base { inside.one.height = 30 mm }\nvariant other of mid { inside.one.height = 35 mm }"
    assert value(text, "inside.one.height") == mm(35)
    assert value(text, "inside.one.height", "mid") == mm(30)
    assert value(text, "inside.one.height", "base") == mm(20)


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ("inside.one.margin = 2 mm", "fixed-value"),
        ("inside.one.heigth = 2 mm", "unknown-argument"),
        ("inside.three.height = 2 mm", "no-such-member"),
        ("inside.one.height = 2 mm  inside.one with { height = 3 mm }", "set-twice"),
        ("inside.one.height = 2", "wrong-dimension"),
    ],
)
def test_what_may_not_be_set(changes: str, id: str) -> None:
    text = f"{LEAF}variant other of base {{ {changes} }}"
    errors = [each.id for each in compile_design("layers.album", text, lambda _: None).diagnostics]
    assert errors == [id]


def test_nothing_takes_a_part_away() -> None:
    compiled = compile_design(
        "layers.album", LEAF + "variant other of base { inside.one = nothing }", lambda _: None, design="other"
    )
    model = compiled.designs[0].model
    assert model is not None
    assert [part.path for part in model.parts] == ["", "inside", "inside.two[1]", "inside.two[2]"]


def test_in_the_braces_of_a_with_its_is_the_thing_amended_in_calls_too() -> None:
    text = "variant other of base { inside.one with { part more = leaf(height: its.width, width: its.height) } }"
    assert value(text, "inside.one.more.height") == mm(40)
    assert value(text, "inside.one.more.width") == mm(20)


def test_elsewhere_the_brackets_of_a_call_speak_of_what_it_makes() -> None:
    assert value("variant other of base { part more = leaf(width: its.height * 3) }", "more.width") == mm(30)


RULES = """\
edition = 1
component leaf {
  takes height: length = 10 mm
  require low: height <= 20 mm because "too high"
  prefer even: height <= 5 mm because "too uneven"
}
album base { ruler = millimetres to 1  part inside = leaf() }
"""


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ("", ["preference-fails"]),
        ("inside.even = nothing", []),
        ("inside.low = nothing", ["fixed-value", "preference-fails"]),
        ("inside.height = 30 mm", ["requirement-fails", "preference-fails"]),
        ("inside.height = 30 mm  inside.even = nothing", ["requirement-fails"]),
        ("inside.height = 5 mm", []),
        ('inside with { prefer odd: its.height > 99 mm because "so" }', ["preference-fails", "preference-fails"]),
        ('inside with { require odd: its.height > 99 mm because "so" }', ["requirement-fails", "preference-fails"]),
    ],
)
def test_a_preference_can_be_taken_away_and_a_requirement_never(changes: str, expected: list[str]) -> None:
    compiled = compile_design(
        "rules.album", f"{RULES}variant other of base {{ {changes} }}", lambda _: None, design="other"
    )
    ids = [each.id for each in compiled.diagnostics]
    assert sorted(set(ids)) == sorted(set(expected))
    assert compiled.refused is any(each != "preference-fails" for each in expected)


def test_the_outer_layer_wins_and_says_so() -> None:
    text = f"{LEAF}variant other of base {{ inside.two.width = 70 mm }}"
    told = compile_design("layers.album", text, lambda _: None, design="other").diagnostics
    assert [(each.id, each.severity.value) for each in told] == [("override-noted", "note")]
    text = f"{LEAF}variant other of base {{ inside.two[1].width = 70 mm }}"
    assert compile_design("layers.album", text, lambda _: None, design="other").diagnostics == ()


@pytest.mark.parametrize("name", ["one", "two[1]", "two"])
def test_what_reads_a_thing_that_was_taken_away_is_refused(name: str) -> None:
    text = f"{LEAF}variant other of base {{ inside.{name} = nothing  y = inside.{name.partition('[')[0]}.height }}"
    told = compile_design("layers.album", text, lambda _: None, design="other").diagnostics
    assert told and all(each.severity.value == "error" for each in told)


KINDS = {
    "part": "part thing[{index}] = leaf()",
    "piece": "piece thing[{index}] from paper, height: 10 mm, width: 10 mm, loose: yes",
    "step": 'step thing[{index}]: "Look."',
    "pose": "pose thing[{index}] {{ }}",
}


@pytest.mark.parametrize("first", sorted(KINDS))
@pytest.mark.parametrize("second", sorted(KINDS))
def test_a_family_is_all_of_one_kind(first: str, second: str) -> None:
    def told(one: str, other: str) -> list[str]:
        paper = "paper = stock(kind: paper, sheet: 300 mm x 300 mm, grain: none)"
        text = f"{LEAF}album probe {{ ruler = millimetres to 1 {paper} {one} {other} }}"
        return [each.id for each in compile_design("kinds.album", text, lambda _: None, design="probe").diagnostics]

    family = KINDS[first].format(index=1), KINDS[second].format(index=2)
    assert told(*family) == ([] if first == second else ["twice-declared"])
    assert told(KINDS[first].format(index=1), KINDS[second].format(index=1)) == ["twice-declared"]
    require = 'require thing: 1 < 2 because "so"'
    assert told(KINDS[first].format(index=1), require) == ["twice-declared"]
