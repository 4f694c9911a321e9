"""Names, kinds and dimensions are checked in what is never made, too, and each mistake is told once."""

import pytest

from design.linking import ids, linked
from pastedown import check

STUFF = """
card = stock(kind: card, sheet: 9 in x 9 in, caliper: 1 mm, grain: none)
component leaf {
  takes height: length from 1 mm to 1 m = 10 mm
  takes lined: yes_no = no
  takes paper: stock = card
  piece sheet from paper, height: height, width: 20 mm, left: spine, loose: yes
  pose lying { }
}
"""
# Where a statement may stand without ever being worked out.
NEVER_MADE = (
    "component unused {{ {} }}\nalbum a {{ }}",
    "album a {{ if 1 > 2 {{ {} }} }}",
    "album a {{ each k from 1 to 0 {{ {} }} }}",
    "album a {{ }}\nalbum b {{ {} }}",
)
FAULTS = [
    ("x = nobody", "unknown-name"),
    ("x = 1 in + 2", "wrong-dimension"),
    ("x = 1 in  y = x > 2", "wrong-dimension"),
    ("part p = leaf(hieght: 2 in)", "unknown-argument"),
    ("part p = leaf(height: 2)", "wrong-dimension"),
    ("part p = leaf(lined: 2 in)", "wrong-kind"),
    ("part p = laef()", "unknown-function"),
    ("part p = leaf()  x = p.hieght", "no-such-member"),
    ("part p = leaf()  x = p.sheet.spin", "no-such-member"),
    ("part p = leaf()  p.height = 3", "wrong-dimension"),
    ("part p = leaf()  p.hieght = 3 in", "unknown-argument"),
    ("part p[k from 1 to 2 in] = leaf()", "wrong-dimension"),
    ("if 2 in { x = 1 }", "not-a-condition"),
    ('require r: 1 in because "so"', "not-a-condition"),
    ('require r: 1 in > 2 because "so"', "wrong-dimension"),
    ("s = stock(kind: card, colour: 3)", "unknown-setting"),
    ("piece q from card, height: 1 in, width: 1 in, depth: 1 in, loose: yes", "unknown-setting"),
    ('step look: "Look.", aftr: card', "unknown-setting"),
    ('x = "so {nobody}"', "unknown-name"),
    ("x = [1 in, nobody]", "unknown-name"),
    ("x = [1 in, 2]", "wrong-dimension"),
    ('x = [1 in, "two"]', "wrong-kind"),
    ("x = [1 in, [2 in]]", "wrong-kind"),
    ("x = min(1 in, yes)", "wrong-kind"),
    ("x = max(1 in, 2)", "wrong-dimension"),
    ("y = [1 in, 2 in]  x = sum(y, 3)", "wrong-dimension"),
    ("x = min()", "missing-argument"),
    ("x = min(value: 1 in)", "unknown-argument"),
    ("x = count(1, 2)", "missing-argument"),
    ("x = whole(1 in)", "wrong-dimension"),
    ("x = choose(1 < 2, yes: 1 in, no: 2)", "wrong-dimension"),
    ('x = choose(1 < 2, yes: "one", no: 2 in)', "wrong-kind"),
    ("x = choose(1 in, yes: 1 in, no: 2 in)", "not-a-condition"),
    ("x = choose(1 < 2, yes: 1 in)", "missing-argument"),
    ("x = choose(1 < 2, yes: 1 in, no: 2 in, perhaps: 3 in)", "unknown-argument"),
    ("x = 1 in rounded donw to 1/8 in", "unknown-choice"),
    ("s = stock(kind: crad)", "unknown-choice"),
    ("s = card(grain: lnog)", "unknown-choice"),
    ("s = card with { decorated = fcae }", "unknown-choice"),
    ("x = choose(card.grain is lnog, yes: 1 in, no: 2 in)", "unknown-choice"),
    ('s = card with { step look: "Look." }', "wrong-kind"),
    ("part p = leaf()  x = span(p.sheet.face, to: p.sheet.spine, along: width, pose: flat)", "wrong-kind"),
    ("part p = leaf()  x = span(p.sheet.head, to: p.sheet.tail, along: heigth, pose: flat)", "unknown-choice"),
    ("part p = leaf()  x = span(p.sheet.head, to: p.sheet.tail, along: height)", "missing-argument"),
    ("part p = leaf()  x = span(p.sheet.head, to: p.sheet.tail, along: height, pose: 3 in)", "wrong-kind"),
    ("piece q from card, height: 1 in, width: 1 in, loose: yes { w = window(heigth: 1 mm, width: 1 mm) }",
     "unknown-argument"),
    ("piece q from card, height: 1 in, width: 1 in, loose: yes { s = slit(1 mm, along: wdith) }", "unknown-choice"),
    ("piece q from card, height: 1 in, width: 1 in, left: head, loose: yes", "edge-names"),
    ("piece q from card, height: 1 in, left: front, loose: yes { run front to right { panel height: 1 in } }",
     "reserved-word"),
    ('part p = leaf()  step look: "Look.", after: 3 in', "wrong-kind"),
    ('part p = leaf()  step look: "Look.", after: p.lying', "wrong-kind"),
    ('step look: "Look."  look.reads = 3', "wrong-dimension"),
    ('require r: 1 < 2 because "so", way_out: 3 in', "wrong-kind"),
    ("part p = leaf()  fold crease: in_place, on: p.sheet.face, over: 3 in", "wrong-kind"),
    ('x = "{[1 in]}"', "wrong-kind"),
]


@pytest.mark.parametrize("place", NEVER_MADE)
@pytest.mark.parametrize(("statement", "id"), FAULTS)
def test_a_fault_is_told_though_nothing_is_made_of_it(place: str, statement: str, id: str) -> None:
    assert ids(STUFF + place.format(statement)) == [id]


@pytest.mark.parametrize(("statement", "id"), FAULTS)
def test_the_working_out_adds_nothing_to_a_fault_that_was_told(statement: str, id: str) -> None:
    """In what is made, too, one mistake is one message."""
    told = [each.id for each in check(f"edition = 1\n{STUFF}album a {{ {statement} }}") if each.severity.value == "error"]
    assert told == [id]


@pytest.mark.parametrize("place", NEVER_MADE)
def test_what_is_right_is_not_told_off(place: str) -> None:
    right = (
        "part p[k from 1 to 2] = leaf(height: k * 2 in)  x = min(p.height)  y = p[1].sheet.width  p[2].height = 3 in "
        'require r: x + y > 1 mm because "x is {x}"  z = choose(x > y, yes: x, no: y) rounded up to 1/8 in '
        "part q = leaf(paper: card with { caliper = 2 mm }) with { height = its.sheet.width }"
    )
    assert ids(STUFF + place.format(right)) == []


def test_independent_faults_are_all_told_in_one_run() -> None:
    statements = "\n".join(
        statement.replace("x ", f"x{number} ").replace("part p", f"part p{number}")
        for number, (statement, _) in enumerate(FAULTS[:3] + FAULTS[6:7])
    )
    found = ids(f"{STUFF}album a {{ {statements} }}")
    assert sorted(set(found)) == ["unknown-function", "unknown-name", "wrong-dimension"]
    assert len(found) == 4


@pytest.mark.parametrize("place", [NEVER_MADE[0], NEVER_MADE[3]])
def test_a_name_stated_twice_is_told_of_once(place: str) -> None:
    # Inside an if, only where it is made: two of them may exclude one another.
    assert ids(STUFF + place.format("x = 1 in  x = 2 in  y = x")) == ["twice-declared"]
    assert ids(STUFF + place.format("if 1 > 2 { x = 1 in }  if 1 < 2 { x = 2 in }")) == []


def test_what_hangs_on_a_fault_is_not_told_off() -> None:
    assert ids("album a { x = nobody  y = x + 1  z = y > 2 in  if z { w = y.height } }") == ["unknown-name"]
    assert ids("album a { x = 1 in + 2  y = x * 3  z = y + 4 g }") == ["wrong-dimension"]


def test_a_misspelt_name_is_told_once_with_the_nearest() -> None:
    _, told = linked("album a { gusset = 1 in  x = guset  y = 2 * guset  z = guset / 3 }")
    assert [each.id for each in told] == ["unknown-name"]
    assert "gusset" in told[0].way_out


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("component c { takes x: length = y  y = 1 g }\nalbum a { }", ["wrong-dimension"]),
        ("component c { takes x: length from 1 to 2 }\nalbum a { }", ["wrong-dimension", "wrong-dimension"]),
        ("component c { takes x: lenght }\nalbum a { }", ["unknown-type"]),
        ("component c { takes x: choice(a, b) = d }\nalbum a { }", ["unknown-choice"]),
        ("component c { takes x: stock(kind: crad) }\nalbum a { }", ["unknown-choice"]),
        ("component c { takes in_to: length }\nalbum a { }", []),
        ("component c { takes x: length  x = 3 in }\nalbum a { }", ["twice-declared"]),
    ],
)
def test_what_a_component_takes(text: str, expected: list[str]) -> None:
    assert ids(text) == expected


def test_how_often_a_slip_was_made_besides_is_said() -> None:
    _, told = linked("album a { gusset = 1 in  x = guset  y = 2 * guset  z = guset / 3  w = nobody }")
    assert [each.reason for each in told] == ["It is written so in 2 more places.", ""]
