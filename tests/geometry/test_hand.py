"""Where the errors of the hand enter: what is read of what was made, and what is an instruction again."""

from fractions import Fraction

import pytest

from pastedown.geometry.model import Model
from reference.through_the_compiler import fact, made, refused

INCH = Fraction(127, 5)
HEAD = """  ruler = inches to 1/16
  card = stock(kind: card, sheet: 24 in x 24 in, caliper: 12 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  piece sheet from card, width: 5 in, left: spine, right: fore_edge, loose: yes {
    run tail to head { panel flap: 1/2 in   fold low: mountain   panel body: 7 in   fold high: valley   panel lid: 1 in }
  }
  piece turned from card, width: 5 in, loose: yes {
    run head to tail { panel flap: 1/2 in   fold line: mountain   panel body: 7 in }
  }
  piece plain from card, height: 3 in, width: 2 in, left: spine, right: fore_edge, loose: yes
  pose shut_up { sheet.low = shut }
  piece under from card, height: 6 in, width: 5 in
  piece over from card, height: 4 in, width: 1 in
  join stuck: over.back to under.face, by: sticky {
    align over.mid_width to under.mid_width  align over.mid_height to under.mid_height
  }
"""


def model(body: str) -> Model:
    found = made(HEAD + body).model
    assert found is not None
    return found


def errors(expression: str) -> dict[str, Fraction]:
    """The errors of an expression in inches, with their signs."""
    (probe,) = [each for each in model(f"  require probe: {expression} >= 0 in because 'so'".replace("'", '"')).requirements]
    return {} if probe.margin is None else {name: term.inches for name, term in probe.margin.terms}


THIRTY_SECOND, SIXTY_FOURTH = Fraction(1, 32), Fraction(1, 64)
CUT, LOW, HIGH = "sheet, cut to its height", "sheet, score low", "sheet, score high"


@pytest.mark.parametrize(
    ("expression", "wanted"),
    [
        ("sheet.height", {CUT: 1}),
        ("sheet.flap.height", {LOW: 1}),
        ("sheet.body.size", {HIGH: 1, LOW: -1}),
        ("sheet.lid.size", {CUT: 1, HIGH: -1}),
        ("sheet.flap.size + sheet.body.size + sheet.lid.size", {CUT: 1}),
        ("turned.body.size", {"turned, cut to its height": 1, "turned, score line": -1}),
        ("plain.width", {"plain, cut to its width": 1}),
        ("span(plain.spine, to: plain.mid_width, along: width, pose: flat)", {"plain, cut to its width": Fraction(1, 2)}),
        ("span(sheet.low, to: sheet.high, along: height, pose: flat)", {HIGH: 1, LOW: -1}),
        ("span(turned.tail, to: turned.line, along: height, pose: flat)",
         {"turned, cut to its height": 1, "turned, score line": -1}),
        ("sheet.body.size - sheet.body.size", {}),
        ("2 * plain.height - plain.width * 3", {"plain, cut to its height": 2, "plain, cut to its width": -3}),
        ("plain.height * (plain.width / 1 in)", {"plain, cut to its height": 2, "plain, cut to its width": 3}),
        ("min(plain.height, plain.width)", {"plain, cut to its width": 1}),
        ("max(plain.height, 4 in)", {}),
        ("sum(plain.height, plain.width)", {"plain, cut to its height": 1, "plain, cut to its width": 1}),
        ("choose(plain.height > 2 in, yes: plain.height, no: plain.width)", {"plain, cut to its height": 1}),
        # A root is off by what is under it, over twice the root: here over 6 in, three times the error of the cut.
        ("square_root(plain.height * plain.height)", {"plain, cut to its height": 1}),
        ("square_root(plain.height * 3 in)", {"plain, cut to its height": Fraction(1, 2)}),
        ("on_paper(sheet.height) + plain.width", {"plain, cut to its width": 1}),
        ("(sheet.height rounded down to 1/4 in) + plain.width", {"plain, cut to its width": 1}),
        ("1 in * count(sheet.low)", {}),
        ("placed(stuck, along: height)", {"stuck, placed along the height": 1}),
        ("placed(stuck, stuck, along: width)", {"stuck, placed along the width": 2}),
        # Held along the longer side of the narrow piece: both ends off by 1/32 in over 4 in.
        ("4 in * skew(stuck)", {"stuck, set askew": 2}),
        ("1/16 in + off_by(1/32 in, what: \"swelling\")", {"swelling": 1}),
    ],
)  # fmt: skip
def test_what_is_read_has_the_errors_of_what_was_done(expression: str, wanted: dict[str, int]) -> None:
    assert errors(expression) == {name: factor * THIRTY_SECOND for name, factor in wanted.items()}


def test_a_crest_that_is_off_makes_twice_the_step() -> None:
    # Derived: a crest line off by e makes one side of a peak longer and the other shorter by e, a step of 2 e at its
    # foot; a line at the foot off by e makes a step of e.
    found = errors("10 in + sheet.flap.size - sheet.body.size")
    assert found == {LOW: 2 * THIRTY_SECOND, HIGH: -THIRTY_SECOND}


def test_a_turned_fold_has_an_error_of_its_own() -> None:
    found = errors("span(sheet.low, to: sheet.high, along: height, pose: shut_up)")
    assert {name: abs(amount) for name, amount in found.items()} == {
        LOW: THIRTY_SECOND, HIGH: THIRTY_SECOND, "sheet, fold low": SIXTY_FOURTH,
    }  # fmt: skip


def test_a_piece_cut_to_what_another_came_to_has_its_own_error_alone() -> None:
    (probe,) = model(
        "  piece copy from card, height: sheet.height + 1 in, width: 2 in, loose: yes\n"
        '  require probe: copy.height - on_paper(copy.height) >= 0 in because "so"'
    ).requirements
    assert probe.margin is not None
    assert [name for name, _ in probe.margin.terms] == ["copy, cut to its height"]


def test_a_panel_sized_by_another_piece_has_its_own_error_alone() -> None:
    (probe,) = model(
        "  piece copy from card, width: 2 in, loose: yes {\n"
        "    run tail to head { panel one: sheet.height  fold line: valley  panel two: 1 in }\n  }\n"
        '  require probe: copy.one.size >= 0 in because "so"'
    ).requirements
    assert probe.margin is not None
    assert [name for name, _ in probe.margin.terms] == ["copy, score line"]


def test_the_hand_of_the_album_counts() -> None:
    (probe,) = model(
        "  cut_error = 1 mm\n  score_error = 0.5 mm\n  fold_error = 0.25 mm\n  place_error = 2 mm\n"
        "  require probe: span(sheet.low, to: sheet.head, along: height, pose: shut_up) + placed(stuck, along: width)"
        ' >= 0 in because "so"'
    ).requirements
    assert probe.margin is not None
    assert {name: abs(term.value) for name, term in probe.margin.terms} == {
        CUT: 1, LOW: Fraction(1, 2), "sheet, fold low": Fraction(1, 4), "stuck, placed along the width": 2,
    }  # fmt: skip


def test_an_error_of_the_hand_may_hang_on_a_length_that_was_chosen() -> None:
    body = "  finest = 1/64 in\n  cut_error = 2 * finest\n  require probe: plain.height >= 0 in because \"so\""
    (probe,) = model(body).requirements
    assert probe.margin is not None and probe.margin.worst.inches == THIRTY_SECOND


@pytest.mark.parametrize("wrong", ["-1/32 in", "2 in"])
def test_a_hand_that_is_none_is_refused(wrong: str) -> None:
    assert refused(f"{HEAD}  cut_error = {wrong}") == ["out-of-range"]


def test_exact_values_are_what_they_were() -> None:
    assert fact(HEAD + "  both = sheet.height + plain.width", "both") == Fraction(21, 2) * INCH


def test_a_reading_has_the_band_of_the_hand() -> None:
    steps = {
        each.path: each.give
        for each in model(
            '  step made: "Measure.", reads: sheet.body.size, least: 6 7/8 in\n'
            '  step asked: "Measure.", reads: 7 in\n'
        ).steps
    }
    # The square root of two thirty-seconds is 0.044 in; the next half mark is 1/16 in.
    assert steps["asked"] is None
    assert steps["made"] is not None and steps["made"].inches == Fraction(1, 16)
